#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "base/csv_reader.h"
#include "costing/costing.h"

namespace gill::stock {

using namespace costing;

/// A number at the start of a text, and the words after it: `1.5 l`, `3 bottles`.
struct NumberAndWords {
  Exact number = 0;
  std::string words;
};
/// Nothing where the text begins with no number.
std::optional<NumberAndWords> split_number(const base::CsvTable& table, std::string_view text);

/// How much there is of a stock: grams, or pieces of what nobody weighs.
struct CountedAmount {
  double grams = 0, pieces = 0;
};

/// Grams of one of what is counted one by one: what is bought by the piece, and what is no small thing by
/// weight.
std::optional<double> grams_of_counted_piece(StockId stock, const Costing& costing);

/// Turns amounts in people's words into grams of a stock.
class AmountReader {
 public:
  AmountReader(const House& house, const Costing& costing) : house_(house), costing_(costing) {}

  /// So many of a unit of the house, or of a vessel (`bottles`, `cases`); without a unit, so many of the size
  /// that is given, of the pieces it is counted in, or of its usual bottle. A full sentence on failure.
  std::variant<CountedAmount, std::string> read(StockId stock, const Exact& number, const std::string& unit,
                                                const std::string& size, const base::CsvTable& table) const;

  /// What a number alone counts: `each`, `700 ml`, `1 kg`; empty where nothing says.
  std::string usual_unit(StockId stock) const;

  /// A size as it is printed on a pack: `70cl`, `700 ml`, `1 kg`; nothing when it is none.
  std::optional<units::Quantity> size(std::string_view text, const base::CsvTable& table) const;

 private:
  std::variant<CountedAmount, std::string> in_unit(StockId stock, const Exact& number,
                                                   units::UnitId id) const;
  std::variant<CountedAmount, std::string> in_packs(StockId stock, double n, bool whole_offer,
                                                    const std::string& size_text,
                                                    const base::CsvTable& table) const;
  std::variant<CountedAmount, std::string> in_usual(StockId stock, const Exact& number) const;
  /// `70 %`: what is left in the bottle or the keg.
  std::variant<CountedAmount, std::string> in_share(StockId stock, const Exact& percent,
                                                    const std::string& size,
                                                    const base::CsvTable& table) const;
  /// So many of a unit, and what stands behind the plus.
  std::variant<CountedAmount, std::string> in_sum(StockId stock, const Exact& number, const std::string& unit,
                                                  const std::string& behind,
                                                  const base::CsvTable& table) const;
  /// `3 bottles 200 ml` of what is bought by 700 ml: the question, as a full sentence; else empty.
  std::string why_not_so_many(StockId stock, const Exact& number, const std::string& unit,
                              const base::CsvTable& table) const;
  /// Why it comes in no such vessel, or in two: a full sentence; else empty.
  std::string why_not_vessel(StockId stock, const std::string& vessel) const;
  bool may_be_millilitres(StockId stock, double n) const;
  std::optional<double> grams_of(StockId stock, const units::Quantity& quantity) const;
  std::optional<double> pack_grams(StockId stock, bool whole_offer) const;
  std::optional<double> bottle_grams(StockId stock) const;

  const House& house_;
  const Costing& costing_;
};

}  // namespace gill::stock
