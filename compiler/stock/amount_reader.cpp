#include "stock/amount_reader.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/characters.h"
#include "base/text.h"
#include "costing/packs.h"
#include "render/wording/measures.h"
#include "stock/pack_words.h"

namespace gill::stock {

using units::Kind;

namespace {

/// The quantity of a number of some unit.
units::Quantity quantity_of(const Exact& number, units::UnitId id, const units::UnitTable& units) {
  units::Quantity quantity;
  quantity.unit = id;
  quantity.kind = units[id].kind;
  quantity.value = number * units[id].factor + units[id].offset;
  return quantity;
}

/// `each`, `pcs`, or the thing's own name: so many of it as the sheet counts it, and no pack of many.
bool counts_whole_things(const std::string& unit, const analysis::Stock& stock) {
  static constexpr std::string_view words[] = {"each",  "ea",     "pc",    "pcs",   "pce",
                                               "piece", "pieces", "whole", "unit",  "units",
                                               "st",    "stk",    "stück", "pièce", "pièces"};
  std::string folded = base::fold_name(unit);
  auto is = [&](std::string_view word) { return base::fold_name(word) == folded; };
  if (std::any_of(std::begin(words), std::end(words), is)) return true;
  return is(stock.head.name) || is(stock.head.name + "s") ||
         std::any_of(stock.aka.begin(), stock.aka.end(), is);
}

}  // namespace

std::optional<NumberAndWords> split_number(const base::CsvTable& table, std::string_view text) {
  text = base::trim(text);
  std::size_t end = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    char c = text[i];
    if (base::is_digit(c))
      end = i + 1;
    else if (c != '.' && c != ',' && c != '-' && c != '+' && c != ' ')
      break;
  }
  auto number = table.number(text.substr(0, end));
  if (!number) return std::nullopt;
  return NumberAndWords{*number, std::string(base::trim(text.substr(end)))};
}

std::variant<CountedAmount, std::string> AmountReader::read(StockId stock, const Exact& number,
                                                            const std::string& unit, const std::string& size,
                                                            const base::CsvTable& table) const {
  double n = base::to_double(number);
  if (n < 0) return std::string("An amount is below nothing; count what is there.");
  if (unit.empty()) return size.empty() ? in_usual(stock, number) : in_packs(stock, n, false, size, table);
  if (counts_whole_things(unit, house_.specs[stock])) {
    auto usual = in_usual(stock, number);
    // What nobody weighs is counted by the piece.
    bool is_counted = std::holds_alternative<std::string>(usual) && !costing_.measuring().is_liquid(stock);
    return is_counted ? CountedAmount{0, n} : usual;
  }
  if (auto id = unit_of(unit, house_.units); id.valid()) return in_unit(stock, number, id);
  switch (vessel_of(unit)) {
    case Vessel::pack:
      return in_packs(stock, n, false, size, table);
    case Vessel::offer:
      return in_packs(stock, n, true, size, table);
    case Vessel::none:
      break;
  }
  return fmt::format("`{}` is no unit that the house knows; write ml, l, g, kg, pieces, bottles or cases.",
                     unit);
}

std::variant<CountedAmount, std::string> AmountReader::in_usual(StockId stock, const Exact& number) const {
  double n = base::to_double(number);
  if (!costing_.measuring().is_liquid(stock))
    if (auto each = model::number_of(costing_.measuring().grams_each(analysis::Use{stock, {}, {}})))
      return CountedAmount{n * *each};
  if (auto pack = pack_grams(stock, false)) return CountedAmount{n * *pack};
  if (auto bottle = bottle_grams(stock)) return CountedAmount{n * *bottle};
  return fmt::format("It is not said what `{}` of `{}` is counted in; write the unit after the number.",
                     base::to_decimal(number, 3), house_.specs[stock].head.name);
}

std::string AmountReader::usual_unit(StockId stock) const {
  if (!costing_.measuring().is_liquid(stock) &&
      model::number_of(costing_.measuring().grams_each(analysis::Use{stock, {}, {}})))
    return "each";
  if (auto offers = costing_.prices().offers(stock); !offers.empty()) {
    analysis::Buy single = *offers.front().buy;
    single.packs = 1;
    return pack_text(single, house_.units);
  }
  const auto& bottle = house_.specs[stock].bottle;
  return bottle ? render::wording::text_of(render::wording::measure_as_given(*bottle, house_.units))
                : std::string();
}

std::optional<units::Quantity> AmountReader::size(std::string_view text, const base::CsvTable& table) const {
  auto parts = split_number(table, text);
  if (!parts || parts->number <= 0) return std::nullopt;
  if (auto id = unit_of(parts->words, house_.units); id.valid())
    return quantity_of(parts->number, id, house_.units);
  if (!parts->words.empty() && vessel_of(parts->words) == Vessel::none) return std::nullopt;
  units::Quantity quantity;
  quantity.value = parts->number;
  return quantity;
}

std::variant<CountedAmount, std::string> AmountReader::in_unit(StockId stock, const Exact& number,
                                                               units::UnitId id) const {
  auto quantity = quantity_of(number, id, house_.units);
  analysis::Use use{stock, house_.units[id].is_item_word ? id : units::UnitId{}, {}};
  if (auto grams = model::number_of(costing_.measuring().grams_silently(use, quantity)))
    return CountedAmount{*grams};
  bool is_weighed =
      model::number_of(costing_.measuring().grams_each(analysis::Use{stock, {}, {}})).has_value() ||
      !costing_.prices().offers(stock).empty();
  if (quantity.kind == Kind::count && is_weighed)
    return fmt::format("What a {} of `{}` weighs is not known; write g, or count it by {}.",
                       house_.units[id].symbol, house_.specs[stock].head.name,
                       usual_unit(stock).empty() ? "its pack" : usual_unit(stock));
  if (quantity.kind == Kind::count) return CountedAmount{0, quantity.number()};
  return fmt::format("{} of `{}` cannot be turned into a weight: its `density` or `each` is not known.",
                     units::with_unit(base::to_decimal(number, 3), house_.units[id], number == 1),
                     house_.specs[stock].head.name);
}

std::optional<double> AmountReader::grams_of(StockId stock, const units::Quantity& quantity) const {
  return model::number_of(costing_.measuring().grams_silently(analysis::Use{stock, {}, {}}, quantity));
}

std::optional<double> AmountReader::bottle_grams(StockId stock) const {
  const auto& bottle = house_.specs[stock].bottle;
  return bottle ? grams_of(stock, *bottle) : std::nullopt;
}

std::optional<double> AmountReader::pack_grams(StockId stock, bool whole_offer) const {
  auto offers = costing_.prices().offers(stock);
  if (offers.empty()) return std::nullopt;
  // What stands on a shelf is the smallest that is sold; a case is the largest.
  auto packs = [](const model::Offer& offer) { return offer.buy->packs; };
  const auto& offer =
      whole_offer ? *std::max_element(offers.begin(), offers.end(),
                                      [&](const auto& a, const auto& b) { return packs(a) < packs(b); })
                  : offers.front();
  return whole_offer ? offer.grams : offer.grams / offer.buy->packs;
}

std::variant<CountedAmount, std::string> AmountReader::in_packs(StockId stock, double n, bool whole_offer,
                                                                const std::string& size_text,
                                                                const base::CsvTable& table) const {
  if (!size_text.empty() && !whole_offer) {
    auto quantity = size(size_text, table);
    if (!quantity) return fmt::format("`{}` is no size; write it as 700 ml or 1 kg.", size_text);
    if (auto grams = grams_of(stock, *quantity)) return CountedAmount{n * *grams};
  }
  if (auto pack = pack_grams(stock, whole_offer)) return CountedAmount{n * *pack};
  if (auto bottle = whole_offer ? std::nullopt : bottle_grams(stock)) return CountedAmount{n * *bottle};
  return fmt::format("How much a {} of `{}` holds is not known: it has no `buy` line and no price.",
                     whole_offer ? "case" : "bottle", house_.specs[stock].head.name);
}

}  // namespace gill::stock
