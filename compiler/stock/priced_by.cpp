#include "stock/priced_by.h"

#include <algorithm>
#include <utility>

#include "base/characters.h"
#include "base/text.h"

namespace gill::stock {
namespace {

using units::Kind;

// What comes in a larger vessel than a magnum is its own case (common practice, no source).
const Exact max_bottle_l = Exact(3) / 2;

/// Before what a price is of, in English, German, French, Spanish and Italian.
constexpr std::string_view words_before[] = {"per ", "/",   "je ", "pro ", "par ", "por ", "al ", "alla ",
                                             "la ",  "le ", "à ",  "a ",   "the ", "l'",   "il ", "el "};

std::string_view without_word_before(std::string_view folded) {
  for (bool is_taken = true; is_taken;) {
    is_taken = false;
    for (auto word : words_before)
      if (folded.size() > word.size() && folded.starts_with(word)) {
        folded = base::trim(folded.substr(word.size()));
        is_taken = true;
      }
  }
  return folded;
}

bool is_counted(const WrittenPack& pack, const units::UnitTable& units) {
  return !pack.unit.valid() || units[pack.unit].is_item_word;
}

/// So many times the measure of the price as the whole pack holds.
std::optional<Exact> measures_in(const WrittenPack& pack, const PricedBy& by, const units::UnitTable& units) {
  if (is_counted(pack, units) || units[pack.unit].kind != units[by.unit].kind) return std::nullopt;
  return pack.packs * pack.number * units[pack.unit].factor / (by.number * units[by.unit].factor);
}

/// A price of so many: of pieces that are counted, or of the one that it all is.
std::optional<Exact> pieces_in(const WrittenPack& pack, const Exact& number, bool is_counted) {
  if (is_counted) return Exact(pack.packs * pack.number / number);
  return pack.packs == 1 && number == 1 ? std::optional<Exact>(1) : std::nullopt;
}

}  // namespace

std::optional<PriceOf> price_of_words(const std::string& words) {
  static constexpr std::pair<std::string_view, PriceOf> things[] = {
      {"kg", PriceOf::kilo},   {"kilo", PriceOf::kilo},   {"l", PriceOf::litre},
      {"ltr", PriceOf::litre}, {"litre", PriceOf::litre}, {"liter", PriceOf::litre},
      {"lt", PriceOf::litre},  {"litro", PriceOf::litre}};
  for (auto [thing, of] : things)
    if (words == thing) return of;
  if (is_piece_word(words)) return PriceOf::one;
  switch (vessel_of(words)) {
    case Vessel::none:
      return std::nullopt;
    case Vessel::pack:
      return PriceOf::one;
    case Vessel::offer:
      return PriceOf::whole_case;
  }
  return std::nullopt;
}

std::optional<PricedBy> read_priced_by(std::string_view words, const units::UnitTable& units,
                                       const base::CsvTable& table) {
  const std::string folded = base::fold_name(base::collapse_space(words));
  const std::string thing(without_word_before(folded));
  if (auto of = price_of_words(thing)) return PricedBy{*of};
  if (thing.starts_with("1 "))
    if (auto of = price_of_words(thing.substr(2))) return PricedBy{*of};
  auto read = read_pack(thing, units, table);
  const auto* measure = std::get_if<WrittenPack>(&read);
  if (!measure) return std::nullopt;
  if (measure->unit.valid() && !units[measure->unit].is_item_word)
    return PricedBy{PriceOf::measure, measure->packs * measure->number, measure->unit};
  const Exact pieces = measure->packs * measure->number;
  if (pieces != base::floor(pieces)) return std::nullopt;
  return PricedBy{PriceOf::pieces, pieces};
}

bool says_priced_by(std::string_view words) {
  const std::string folded = base::fold_name(base::collapse_space(words));
  return without_word_before(folded).size() < folded.size();
}

std::optional<Exact> prices_in(const WrittenPack& pack, const PricedBy& by, const units::UnitTable& units) {
  const bool counted = is_counted(pack, units);
  const auto kind = counted ? Kind::count : units[pack.unit].kind;
  auto thousands = [&] { return Exact(pack.packs * pack.number * units[pack.unit].factor / 1000); };
  switch (by.of) {
    case PriceOf::pack:
      return Exact(1);
    case PriceOf::whole_case:
      return pack.packs == 1 && kind == Kind::volume && thousands() <= max_bottle_l ? std::nullopt
                                                                                    : std::optional<Exact>(1);
    case PriceOf::one:
      return counted ? Exact(pack.packs * pack.number) : pack.packs;
    case PriceOf::kilo:
      return kind == Kind::mass ? std::optional<Exact>(thousands()) : std::nullopt;
    case PriceOf::litre:
      return kind == Kind::volume ? std::optional<Exact>(thousands()) : std::nullopt;
    case PriceOf::measure:
      return measures_in(pack, by, units);
    case PriceOf::pieces:
      return pieces_in(pack, by.number, counted);
  }
  return std::nullopt;
}

}  // namespace gill::stock
