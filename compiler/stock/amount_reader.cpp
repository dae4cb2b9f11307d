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

/// What weighs less, and is bought by weight, is counted by its pack: nobody counts tea leaves. So many
/// bottles in a count without a unit were meant as millilitres. Common practice, no source.
constexpr double small_piece_g = 25;
constexpr double many_bottles = 100, bottle_ml = 100;

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
  std::string folded = base::fold_name(unit);
  auto is = [&](std::string_view word) { return base::fold_name(word) == folded; };
  return is_piece_word(unit) || is("whole") || is("unit") || is(stock.head.name) ||
         is(stock.head.name + "s") || std::any_of(stock.aka.begin(), stock.aka.end(), is);
}

/// `2+3`: counted in two places.
std::optional<Exact> sum_of_numbers(const base::CsvTable& table, std::string_view text) {
  if (text.find('+', 1) == std::string_view::npos || !base::is_digit(text.front())) return std::nullopt;
  Exact sum = 0;
  for (bool is_last = false; !is_last;) {
    const auto plus = text.find('+');
    is_last = plus == std::string_view::npos;
    auto number = table.number(base::trim(text.substr(0, plus)));
    if (!number) return std::nullopt;
    sum += *number;
    if (!is_last) text.remove_prefix(plus + 1);
  }
  return sum;
}

/// `½`, `2½ btl`.
std::optional<NumberAndWords> vulgar_fraction_at(std::string_view text) {
  std::size_t end = 0;
  while (end < text.size() && (base::is_digit(text[end]) || text[end] == ' ')) ++end;
  // Two or three bytes of UTF-8: `½`, `⅓`.
  for (std::size_t length : {2, 3})
    if (end + length <= text.size() && static_cast<unsigned char>(text[end]) >= 0x80)
      if (auto number = base::parse_exact(text.substr(0, end + length)))
        return NumberAndWords{*number, std::string(base::trim(text.substr(end + length)))};
  return std::nullopt;
}

/// Where a second amount begins in `cs 2 btl`: cases and single ones; 0 where none does.
std::size_t second_count_at(const std::string& unit) {
  const auto digit = unit.find_first_of("0123456789");
  if (digit == std::string::npos || vessel_of(base::trim(unit.substr(0, digit))) != Vessel::offer) return 0;
  const auto word = unit.find_first_not_of("0123456789 ", digit);
  const bool is_count = word != std::string::npos &&
                        (vessel_of(unit.substr(word)) == Vessel::pack || is_piece_word(unit.substr(word)));
  return is_count ? digit : 0;
}

}  // namespace

std::optional<NumberAndWords> split_number(const base::CsvTable& table, std::string_view text) {
  text = base::trim(text);
  if (auto sum = sum_of_numbers(table, text)) return NumberAndWords{*sum, {}};
  if (auto vulgar = vulgar_fraction_at(text)) return vulgar;
  if (auto [fraction, length] = fraction_at(text); length > 0)
    return NumberAndWords{fraction, std::string(base::trim(text.substr(length)))};
  if (auto space = text.find(' '); space != std::string_view::npos)
    if (auto [fraction, length] = fraction_at(text.substr(space + 1)); length > 0)
      if (auto whole = table.number(text.substr(0, space)))
        return NumberAndWords{*whole + fraction, std::string(base::trim(text.substr(space + 1 + length)))};
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

std::optional<double> grams_of_counted_piece(StockId stock, const Costing& costing) {
  auto each = model::number_of(costing.measuring().grams_each(analysis::Use{stock, {}, {}}));
  if (!each) return std::nullopt;
  auto offers = costing.prices().offers(stock);
  if (offers.empty()) return costing.measuring().is_liquid(stock) ? std::nullopt : each;
  bool is_bought_by_piece = offers.front().buy->pack.kind == Kind::count;
  if (is_bought_by_piece) return each;
  return costing.measuring().is_liquid(stock) || *each < small_piece_g ? std::nullopt : each;
}

std::variant<CountedAmount, std::string> AmountReader::read(StockId stock, const Exact& number,
                                                            const std::string& unit, const std::string& size,
                                                            const base::CsvTable& table) const {
  double n = base::to_double(number);
  if (n < 0)
    return fmt::format("`{}` of `{}` is below nothing; count what is there.", base::to_decimal(number, 3),
                       house_.specs[stock].head.name);
  if (unit.empty() && size.empty() && may_be_millilitres(stock, n))
    return fmt::format(
        "`{0}` of `{1}` without a unit would be {0} times {2}; write `{0} ml`, or `{0} bottles`.",
        base::to_decimal(number, 3), house_.specs[stock].head.name, usual_unit(stock));
  if (unit.empty()) return size.empty() ? in_usual(stock, number) : in_packs(stock, n, false, size, table);
  // `3 bottles + 200 ml`: three and an open one.
  if (auto sum = base::fold_name(unit).find(" + "); sum != std::string::npos)
    return in_sum(stock, number, unit.substr(0, sum), unit.substr(sum + 3), table);
  if (auto second = second_count_at(unit); second > 0)
    return in_sum(stock, number, std::string(base::trim(unit.substr(0, second))), unit.substr(second), table);
  if (unit == "%") return in_share(stock, number, size, table);
  if (auto doubt = why_not_so_many(stock, number, unit, table); !doubt.empty()) return doubt;
  // `2x70cl`: so many of a pack that says what it holds.
  if (auto pack = read_pack(base::to_decimal(number, 6) + " " + unit, house_.units, table);
      std::holds_alternative<WrittenPack>(pack) && unit.find_first_of("0123456789") != std::string::npos)
    if (const auto& written = std::get<WrittenPack>(pack); written.unit.valid())
      return in_unit(stock, written.packs * written.number, written.unit);
  if (is_dozen_word(unit)) return read(stock, number * 12, "each", {}, table);
  if (counts_whole_things(unit, house_.specs[stock])) {
    if (auto each = model::number_of(costing_.measuring().grams_each(analysis::Use{stock, {}, {}})))
      return CountedAmount{n * *each};
    auto usual = in_usual(stock, number);
    // What nobody weighs is counted by the piece.
    bool is_counted = std::holds_alternative<std::string>(usual) && !costing_.measuring().is_liquid(stock);
    return is_counted ? CountedAmount{0, n} : usual;
  }
  if (auto id = unit_of(unit, house_.units); id.valid()) return in_unit(stock, number, id);
  switch (vessel_of(unit)) {
    case Vessel::pack:
      if (auto doubt = why_not_vessel(stock, unit); !doubt.empty()) return doubt;
      return in_packs(stock, n, false, size, table);
    case Vessel::offer:
      return in_packs(stock, n, true, size, table);
    case Vessel::none:
      break;
  }
  return fmt::format("`{}` is no unit that the house knows; write ml, l, g, kg, pieces, bottles or cases.",
                     unit);
}

std::variant<CountedAmount, std::string> AmountReader::in_share(StockId stock, const Exact& percent,
                                                                const std::string& size,
                                                                const base::CsvTable& table) const {
  if (grams_of_counted_piece(stock, costing_) || percent > 100)
    return fmt::format("`{} %` of `{}` is no amount of it; write how much there is, as 300 ml or 2.",
                       base::to_decimal(percent, 3), house_.specs[stock].head.name);
  return in_packs(stock, base::to_double(percent) / 100, false, size, table);
}

std::variant<CountedAmount, std::string> AmountReader::in_sum(StockId stock, const Exact& number,
                                                              const std::string& unit,
                                                              const std::string& behind,
                                                              const base::CsvTable& table) const {
  auto first = read(stock, number, unit, {}, table);
  if (std::holds_alternative<std::string>(first)) return first;
  auto rest = split_number(table, behind);
  if (!rest || rest->words.empty())
    return fmt::format(
        "`{} + {}` of `{}`: write an amount with its unit behind the +, as `3 bottles + 200 ml`.", unit,
        behind, house_.specs[stock].head.name);
  auto second = read(stock, rest->number, rest->words, {}, table);
  if (std::holds_alternative<std::string>(second)) return second;
  const auto& [grams, pieces] = std::get<CountedAmount>(first);
  const auto& [more_grams, more_pieces] = std::get<CountedAmount>(second);
  return CountedAmount{grams + more_grams, pieces + more_pieces};
}

std::string AmountReader::why_not_so_many(StockId stock, const Exact& number, const std::string& unit,
                                          const base::CsvTable& table) const {
  auto space = unit.find(' ');
  if (space == std::string::npos || vessel_of(unit.substr(0, space)) == Vessel::none) return {};
  auto quantity = size(unit.substr(space + 1), table);
  if (!quantity || quantity->kind == Kind::count) return {};
  // In that size it is bought, or nobody says in which.
  const auto offers = costing_.prices().offers(stock);
  const bool is_bought_so = std::any_of(offers.begin(), offers.end(), [&](const model::Offer& offer) {
    return offer.buy->pack.kind == quantity->kind && offer.buy->pack.value == quantity->value;
  });
  if (offers.empty() || is_bought_so) return {};
  const std::string count = base::to_decimal(number, 3), of = unit.substr(space + 1);
  return fmt::format(
      "`{0} {1}` of `{2}` may be {0} of {3} each, or {0} and {3} of an open one: write `{0} x {3}` or "
      "`{0} {4} + {3}`.",
      count, unit, house_.specs[stock].head.name, of, unit.substr(0, space));
}

std::string AmountReader::why_not_vessel(StockId stock, const std::string& vessel) const {
  // Kegs hold so much at least (common practice, no source).
  constexpr double min_keg_ml = 4000;
  const auto offers = costing_.prices().offers(stock);
  if (offers.empty()) return {};
  const auto& buy = *offers.front().buy;
  const auto& name = house_.specs[stock].head.name;
  switch (vessel_kind_of(vessel)) {
    case VesselKind::other:
      return {};
    case VesselKind::carton: {
      const bool comes_in_cases =
          std::any_of(offers.begin(), offers.end(), [](const auto& offer) { return offer.buy->packs > 1; });
      if (!comes_in_cases) return {};
      return fmt::format("`{}` of `{}`: a case ({}), or one of {}? Write `case` or `bottle`.", vessel, name,
                         pack_text(buy, house_.units), usual_unit(stock));
    }
    case VesselKind::keg:
      if (buy.pack.kind == Kind::volume && buy.pack.number() >= min_keg_ml) return {};
      break;
    case VesselKind::bottle_or_tin:
      if (buy.pack.kind != Kind::count) return {};
      break;
  }
  return fmt::format("`{}` is bought as {}, and no price list has a {} of it; write how much it is.", name,
                     pack_text(buy, house_.units), vessel);
}

bool AmountReader::may_be_millilitres(StockId stock, double n) const {
  auto offers = costing_.prices().offers(stock);
  if (n < many_bottles || offers.empty()) return false;
  const auto& pack = offers.front().buy->pack;
  return pack.kind == Kind::volume && pack.number() >= bottle_ml;
}

std::variant<CountedAmount, std::string> AmountReader::in_usual(StockId stock, const Exact& number) const {
  double n = base::to_double(number);
  if (auto each = grams_of_counted_piece(stock, costing_)) return CountedAmount{n * *each};
  if (auto pack = pack_grams(stock, false)) return CountedAmount{n * *pack};
  if (auto bottle = bottle_grams(stock)) return CountedAmount{n * *bottle};
  return fmt::format("It is not said what `{}` of `{}` is counted in; write the unit after the number.",
                     base::to_decimal(number, 3), house_.specs[stock].head.name);
}

std::string AmountReader::usual_unit(StockId stock) const {
  if (grams_of_counted_piece(stock, costing_)) return "each";
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
