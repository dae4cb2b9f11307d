#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "base/csv_reader.h"
#include "stock/pack_words.h"
#include "stock/price_columns.h"

/// What a price is the price of.
namespace gill::stock {

/// The pack, one of what it holds, or so much of a measure: `case`, `bottle`, `100 g`, `10`.
struct PricedBy {
  PriceOf of = PriceOf::pack;
  /// Of `PriceOf::measure`, so much; of `PriceOf::pieces`, so many.
  Exact number = 1;
  units::UnitId unit = {};
};

/// What the words behind `per` in a price's cell mean; nothing where they are no such thing.
std::optional<PriceOf> price_of_words(const std::string& words);

/// `per bottle`, `case`, `kg`, `100 g`, `10`, `dozen` in a column of its own. Nothing where it is not
/// understood.
std::optional<PricedBy> read_priced_by(std::string_view words, const units::UnitTable& units,
                                       const base::CsvTable& table);
/// True where a cell of any column begins as if it told what a price is of: `per kg`, `/kg`, `le kg`.
bool says_priced_by(std::string_view words);

/// How many times its price a pack costs; nothing where it holds no such measure.
std::optional<Exact> prices_in(const WrittenPack& pack, const PricedBy& by, const units::UnitTable& units);

}  // namespace gill::stock
