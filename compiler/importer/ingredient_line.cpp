#include "importer/ingredient_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include "base/characters.h"
#include "base/text.h"
#include "importer/foreign_words.h"
#include "importer/spec_labels.h"
#include "symbols/symbol_table.h"

namespace gill::importer {
namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 15> fraction_signs = {{{"½", "1/2"},
                                                                                           {"¼", "1/4"},
                                                                                           {"¾", "3/4"},
                                                                                           {"⅓", "1/3"},
                                                                                           {"⅔", "2/3"},
                                                                                           {"⅛", "1/8"},
                                                                                           {"⅜", "3/8"},
                                                                                           {"⅝", "5/8"},
                                                                                           {"⅞", "7/8"},
                                                                                           {"⅕", "1/5"},
                                                                                           {"⅖", "2/5"},
                                                                                           {"⅗", "3/5"},
                                                                                           {"⅘", "4/5"},
                                                                                           {"⅙", "1/6"},
                                                                                           {"⅚", "5/6"}}};
constexpr std::array<std::pair<std::string_view, std::string_view>, 13> number_words = {{{"one", "1"},
                                                                                         {"two", "2"},
                                                                                         {"three", "3"},
                                                                                         {"four", "4"},
                                                                                         {"five", "5"},
                                                                                         {"six", "6"},
                                                                                         {"seven", "7"},
                                                                                         {"eight", "8"},
                                                                                         {"nine", "9"},
                                                                                         {"ten", "10"},
                                                                                         {"half", "1/2"},
                                                                                         {"an", "1"},
                                                                                         {"a", "1"}}};

std::size_t skip_space(std::string_view text, std::size_t at) {
  while (at < text.size() && text[at] == ' ') ++at;
  return at;
}

std::string digits_at(std::string_view text, std::size_t& at) {
  std::string digits;
  while (at < text.size() && base::is_digit(text[at])) digits += text[at++];
  return digits;
}

/// One number without a range: moves `at` past it; empty where none is.
std::string single_number(std::string_view text, std::size_t& at) {
  std::size_t start = at;
  for (auto [sign, plain] : fraction_signs)
    if (text.substr(at).starts_with(sign)) {
      at += sign.size();
      return std::string(plain);
    }
  std::string whole = digits_at(text, at);
  if (!whole.empty()) {
    if (at + 1 < text.size() && text[at] == '/' && base::is_digit(text[at + 1])) {
      ++at;
      std::string below = digits_at(text, at);
      return whole + "/" + below;
    }
    if (at + 1 < text.size() && (text[at] == '.' || text[at] == ',') && base::is_digit(text[at + 1])) {
      ++at;
      return whole + "." + digits_at(text, at);
    }
    // `1 1/2`, `1-1/2`, `1½`, `1 ½`
    std::size_t next = at;
    if (next < text.size() && (text[next] == ' ' || text[next] == '-')) next = skip_space(text, next + 1);
    for (auto [sign, plain] : fraction_signs)
      if (text.substr(next).starts_with(sign)) {
        at = next + sign.size();
        return whole + " " + std::string(plain);
      }
    std::size_t slash = next;
    std::string above = digits_at(text, slash);
    if (next > at && !above.empty() && slash + 1 < text.size() && text[slash] == '/' &&
        base::is_digit(text[slash + 1])) {
      at = slash + 1;
      return whole + " " + above + "/" + digits_at(text, at);
    }
    return whole;
  }
  if (at + 1 < text.size() && text[at] == '.' && base::is_digit(text[at + 1])) {
    ++at;
    return "0." + digits_at(text, at);
  }
  for (auto [word, plain] : number_words) {
    if (!base::equals_ignoring_case(text.substr(at, word.size()), word)) continue;
    std::size_t end = at + word.size();
    if (end >= text.size() || text[end] != ' ') continue;
    at = end;
    return std::string(plain);
  }
  at = start;
  return {};
}

bool is_decimal(const std::string& number) { return number.find_first_of(" /") == std::string::npos; }

/// The longest run of words from the start that is a unit; the bytes it takes.
std::pair<std::string, std::size_t> leading_unit(std::string_view text, const units::UnitTable& units) {
  std::pair<std::string, std::size_t> best{{}, 0};
  std::size_t at = 0;
  std::string run;
  for (int words = 0; words < 3 && at < text.size(); ++words) {
    std::size_t end = at;
    while (end < text.size() && text[end] != ' ' && text[end] != ',' && text[end] != '(') ++end;
    std::string word(text.substr(at, end - at));
    // `dash(es)`
    std::size_t taken = end;
    if (text.substr(end).starts_with("(s)")) taken = end + 3;
    if (text.substr(end).starts_with("(es)")) taken = end + 4;
    std::erase(word, '.');
    if (auto english = run.empty() ? english_unit(word) : std::string_view(); !english.empty())
      word = english;
    run += (run.empty() ? "" : " ") + base::lower_ascii(word);
    if (units.find(run).valid()) best = {run, taken};
    at = skip_space(text, taken);
    if (taken < text.size() && text[taken] != ' ') break;
  }
  return best;
}

/// Takes `(…)` out of the text; what stood in it.
std::string take_brackets(std::string& text) {
  std::string inside;
  for (auto open = text.find('('); open != std::string::npos; open = text.find('(')) {
    auto close = text.find(')', open);
    if (close == std::string::npos) break;
    inside += (inside.empty() ? "" : "; ") + text.substr(open + 1, close - open - 1);
    text = text.substr(0, open) + " " + text.substr(close + 1);
  }
  text = base::collapse_space(text);
  return inside;
}

// What a line says of a good that is the same good without it.
constexpr auto qualities = std::to_array<std::string_view>({"freshly squeezed ",
                                                            "freshly pressed ",
                                                            "fresh squeezed ",
                                                            "fresh-squeezed ",
                                                            "fresh ",
                                                            "freshly ",
                                                            "good ",
                                                            "chilled ",
                                                            "hot ",
                                                            "warm ",
                                                            "boiling ",
                                                            "cold ",
                                                            "ice-cold ",
                                                            "ripe ",
                                                            "large ",
                                                            "small ",
                                                            "medium ",
                                                            "whole ",
                                                            "organic ",
                                                            "homemade ",
                                                            "home-made ",
                                                            "house ",
                                                            "quality "});

class NameReader {
 public:
  explicit NameReader(const House& house) : house_(house) {}

  /// The name in the house's own words; empty where none fits.
  std::string find(std::string text) const {
    text = base::collapse_space(text);
    if (auto english = english_thing(text); !known(text) && known(std::string(english)))
      return std::string(english);
    for (std::string_view first : {"of ", "the ", "de ", "d'", "d’", "di "})
      if (base::equals_ignoring_case(std::string_view(text).substr(0, first.size()), first))
        text.erase(0, first.size());
    if (known(text)) return text;
    if (auto english = english_thing(text); known(std::string(english))) return std::string(english);
    // `whiskey, rye`
    if (auto comma = text.find(", "); comma != std::string::npos) {
      std::string turned = text.substr(comma + 2) + " " + text.substr(0, comma);
      if (known(turned)) return turned;
    }
    for (auto word : qualities)
      if (base::equals_ignoring_case(std::string_view(text).substr(0, word.size()), word)) {
        std::string rest = find(text.substr(word.size()));
        if (!rest.empty()) return rest;
      }
    if (text.size() > 3 && text.ends_with('s') && known(text.substr(0, text.size() - 1)))
      return text.substr(0, text.size() - 1);
    return {};
  }

 private:
  bool known(const std::string& name) const {
    if (name.empty()) return false;
    if (house_.names.find(symbols::NameSpace::stock, name).valid()) return true;
    // A word with several meanings, which the language asks about.
    if (house_.specs.house.asks.contains(base::fold_name(name))) return true;
    // `mint leaves`, `lemon twist`: a name and an item word.
    auto space = name.rfind(' ');
    if (space == std::string::npos) return false;
    auto unit = house_.units.find(base::lower_ascii(name.substr(space + 1)));
    return unit.valid() && house_.units[unit].is_item_word &&
           house_.names.find(symbols::NameSpace::stock, name.substr(0, space)).valid();
  }

  const House& house_;
};

/// The amount of juice in `juice of 1/2 lime`: half of what one gives.
bool read_juice_of(std::string_view text, const House& house, IngredientLine& line) {
  std::string lower = base::lower_ascii(text);
  std::size_t at = 0;
  for (std::string_view first : {"the juice of ", "juice of ", "juice from "})
    if (lower.starts_with(first)) at = first.size();
  if (at == 0) return false;
  auto number = leading_number(std::string_view(text).substr(at));
  std::string count = number ? number->gill : "1";
  std::string fruit(base::trim(std::string_view(text).substr(at + (number ? number->bytes : 0))));
  if (fruit.starts_with("a ")) fruit.erase(0, 2);
  if (fruit.ends_with('s') && !house.names.find(symbols::NameSpace::stock, fruit).valid()) fruit.pop_back();
  auto id = house.names.find(symbols::NameSpace::stock, fruit);
  auto exact = base::parse_exact(count);
  if (!id.valid() || !exact) return false;
  const auto& stock = house.specs.stock[house.specs.index_of[id.index()]];
  for (const auto& gives : stock.gives) {
    if (gives.quantity.kind != units::Kind::volume) continue;
    line.number = base::to_decimal(*exact * gives.quantity.value, 2);
    line.unit = "ml";
    line.name = house.specs[gives.what.stock].head.name;
    line.written_name = std::string(text);
    return true;
  }
  return false;
}

/// `soda water to top`, `top with soda water`, `top up with …`, `absinthe rinse`.
bool read_pour(std::string_view text, const House& house, IngredientLine& line) {
  std::string lower = base::lower_ascii(text);
  std::string rest;
  auto strip = [&](std::string_view first, std::string_view verb) {
    if (line.verb.empty() && lower.starts_with(first)) {
      line.verb = verb;
      rest = std::string(text.substr(first.size()));
    }
  };
  auto strip_end = [&](std::string_view last, std::string_view verb) {
    if (line.verb.empty() && lower.ends_with(last)) {
      line.verb = verb;
      rest = std::string(text.substr(0, text.size() - last.size()));
    }
  };
  for (std::string_view first : {"top up with ", "top off with ", "top with ", "top: ", "top ", "fill with "})
    strip(first, "top");
  for (std::string_view last : {", to top", " to top up", " to top", " to fill", ", top", " top up"})
    strip_end(last, "top");
  for (std::string_view last : {", to rinse", " to rinse", " rinse"}) strip_end(last, "rinse");
  strip("rinse of ", "rinse");
  if (line.verb.empty()) return false;
  line.written_name = base::collapse_space(rest);
  line.name = NameReader(house).find(rest);
  return true;
}

/// Without bullets, trailing signs and the sign of fractions that a keyboard lacks.
std::string plain_text(std::string_view written) {
  std::string text = base::collapse_space(written);
  for (std::string_view bullet : {"- ", "* ", "• ", "– ", "— ", "☐ "})
    if (text.starts_with(bullet)) text.erase(0, bullet.size());
  for (auto at = text.find("⁄"); at != std::string::npos; at = text.find("⁄"))
    text.replace(at, std::string_view("⁄").size(), "/");
  while (!text.empty() && (text.back() == '.' || text.back() == ';' || text.back() == ',')) text.pop_back();
  return text;
}

/// `…, optional` and `… (optional)`.
void take_optional(std::string& text, IngredientLine& line) {
  std::string lower = base::lower_ascii(text);
  for (std::string_view last : {", optional", " optional"})
    if (lower.ends_with(last)) {
      line.is_optional = true;
      text.resize(text.size() - last.size());
      break;
    }
  if (base::lower_ascii(line.remark) == "optional") {
    line.is_optional = true;
    line.remark.clear();
  }
}

/// Takes number and unit, and gives what stands behind them; nothing where no number stands.
std::optional<std::string_view> take_measure(std::string_view from, const House& house,
                                             IngredientLine& line) {
  auto number = leading_number(from);
  if (!number) return std::nullopt;
  auto rest = from.substr(skip_space(from, number->bytes));
  auto [unit, bytes] = leading_unit(rest, house.units);
  line.number = number->gill;
  line.unit = unit;
  return rest.substr(skip_space(rest, bytes));
}

bool is_poured_unit(const std::string& name, const House& house) {
  auto unit = house.units.find(name);
  return unit.valid() &&
         (house.units[unit].kind == units::Kind::volume || house.units[unit].kind == units::Kind::mass);
}

/// Takes a measure in another unit off the start of the words; what stands behind it, or nothing.
std::optional<std::string_view> take_other_measure(std::string_view from, const House& house,
                                                   IngredientLine& line) {
  IngredientLine other;
  auto rest = take_measure(from, house, other);
  if (!rest || other.unit == line.unit || !is_poured_unit(other.unit, house) ||
      !is_poured_unit(line.unit, house))
    return std::nullopt;
  line.other_measure = other.number + " " + other.unit;
  return rest;
}

/// `60 ml (2 oz) gin`, `60 ml / 2 oz gin`, `60 ml gin = 2 oz`: so much in two units. Takes the second out of
/// the remark or the name.
void take_second_measure(std::string& name, const House& house, IngredientLine& line) {
  if (auto rest = take_other_measure(line.remark, house, line); rest && rest->empty()) {
    line.remark.clear();
    return;
  }
  line.other_measure.clear();
  for (std::string_view sign : {"=", "/", "|"}) {
    if (name.starts_with(sign))
      if (auto rest = take_other_measure(base::trim(std::string_view(name).substr(1)), house, line);
          rest && !rest->empty()) {
        name = std::string(base::trim(*rest));
        return;
      }
    line.other_measure.clear();
  }
  auto at = name.find(" = ");
  if (at == std::string::npos) return;
  if (auto rest = take_other_measure(std::string_view(name).substr(at + 3), house, line);
      rest && rest->empty())
    name.resize(at);
  else
    line.other_measure.clear();
}

/// `rye 2 oz`, `Lemon juice – 22.5 ml`: the name before a measure that stands at the end; else empty.
std::string take_measure_at_end(std::string_view text, const House& house, IngredientLine& line) {
  std::string name;
  for (std::size_t at = 1; at < text.size() && name.empty(); ++at) {
    char before = text[at - 1];
    if (before != ' ' && before != ':' && before != '\t' && before != '-') continue;
    if (!base::is_digit(text[at]) && static_cast<unsigned char>(text[at]) < 0x80) continue;
    auto rest = take_measure(text.substr(at), house, line);
    if (rest && base::trim(*rest).empty()) name = std::string(text.substr(0, at));
  }
  while (!name.empty() &&
         (name.back() == ' ' || name.back() == ':' || name.back() == '-' || name.back() == ','))
    name.pop_back();
  for (std::string_view dash : {"–", "—"})
    if (name.ends_with(dash))
      name = std::string(base::trim(std::string_view(name).substr(0, name.size() - dash.size())));
  return name;
}

/// Takes the measure, wherever it stands, and gives the name; nothing where there is none.
std::optional<std::string> name_beside_measure(std::string_view text, const House& house,
                                               IngredientLine& line) {
  if (auto rest = take_measure(text, house, line)) return std::string(*rest);
  auto [unit, bytes] = leading_unit(text, house.units);
  if (!unit.empty() && text.substr(bytes).starts_with(" ")) {
    // `dash of bitters`
    line.number = "1";
    line.unit = unit;
    return std::string(base::trim(text.substr(bytes)));
  }
  auto name = take_measure_at_end(text, house, line);
  if (name.empty()) return std::nullopt;
  return name;
}

/// `cognac (45 ml)`, of something that is known and is not made of what stands below it; else nothing.
std::optional<std::string> name_with_measure_in_brackets(const std::string& text, const House& house,
                                                         IngredientLine& line) {
  IngredientLine measure;
  auto rest = take_measure(line.remark, house, measure);
  if (!rest || !rest->empty() || !is_poured_unit(measure.unit, house) || names_a_prep(text) ||
      NameReader(house).find(text).empty())
    return std::nullopt;
  line.number = measure.number;
  line.unit = measure.unit;
  line.remark.clear();
  return text;
}

/// `mint x 8`, `mint × 8`: a count behind its thing, put before it.
void take_times_behind(std::string& text) {
  for (std::string_view sign : {" x ", " x", " X ", " × ", " ×"}) {
    auto at = text.rfind(sign);
    if (at == std::string::npos || at == 0) continue;
    auto count = std::string_view(text).substr(at + sign.size());
    if (count.empty() || !std::all_of(count.begin(), count.end(), base::is_digit)) continue;
    if (leading_number(text)) continue;
    text = std::string(count) + " " + text.substr(0, at);
    return;
  }
}

/// `8 x mint leaves`: the sign says nothing.
void drop_times(std::string& text) {
  auto number = leading_number(text);
  if (!number) return;
  for (std::string_view sign : {" x ", "x ", " X ", " × ", "× ", "×"})
    if (std::string_view(text).substr(number->bytes).starts_with(sign)) {
      text.replace(number->bytes, sign.size(), " ");
      return;
    }
}

/// `~30 ml`, `ca. 30 ml`, `about 30 ml`.
void take_about(std::string& text, IngredientLine& line) {
  for (std::string_view word : {"~", "≈", "about ", "approx. ", "approx ", "ca. ", "ca ", "circa ", "c. ",
                                "etwa ", "environ ", "env. "}) {
    if (!base::equals_ignoring_case(std::string_view(text).substr(0, word.size()), word)) continue;
    auto rest = std::string(base::trim(std::string_view(text).substr(word.size())));
    if (!leading_number(rest)) return;
    line.is_about = true;
    text = std::move(rest);
    return;
  }
}

/// What the house knows by the name: itself, one `or` another, or with a remark behind a comma
/// (`lime juice, strained`).
void find_name(const std::string& name, const House& house, IngredientLine& line) {
  NameReader names(house);
  line.name = names.find(name);
  static constexpr auto warmths =
      std::to_array<std::string_view>({"hot", "warm", "chilled", "cold", "boiling"});
  for (auto word : warmths)
    if (base::equals_ignoring_case(std::string_view(name).substr(0, word.size() + 1),
                                   fmt::format("{} ", word)) &&
        !base::fold_name(line.name).starts_with(word))
      line.warmth = word;
  if (auto either = name.find(" or "); line.name.empty() && either != std::string::npos) {
    std::string first = names.find(name.substr(0, either)), second = names.find(name.substr(either + 4));
    if (!first.empty() && !second.empty()) {
      line.name = first;
      line.substitute = second;
    }
  }
  for (std::string_view sign : {",", " – ", " — ", " - "}) {
    auto at = name.find(sign);
    if (!line.name.empty() || at == std::string::npos) continue;
    line.name = names.find(name.substr(0, at));
    if (!line.name.empty())
      line.remark += (line.remark.empty() ? "" : "; ") +
                     std::string(base::trim(std::string_view(name).substr(at + sign.size())));
  }
}

/// `1 oz fresh lime` is its juice.
void take_juice_for_fruit(const House& house, IngredientLine& line) {
  auto unit = house.units.find(line.unit);
  if (line.name.empty() || !unit.valid() ||
      (house.units[unit].kind != units::Kind::volume && house.units[unit].kind != units::Kind::part))
    return;
  auto id = house.names.find(symbols::NameSpace::stock, line.name);
  if (!id.valid()) return;
  for (const auto& gives : house.specs.stock[house.specs.index_of[id.index()]].gives)
    if (gives.quantity.kind == units::Kind::volume) {
      line.name = house.specs[gives.what.stock].head.name;
      return;
    }
}

}  // namespace

std::string with_plain_fractions(std::string_view text) {
  std::string plain;
  for (std::size_t at = 0; at < text.size();) {
    auto sign = std::find_if(fraction_signs.begin(), fraction_signs.end(),
                             [&](const auto& one) { return text.substr(at).starts_with(one.first); });
    if (sign == fraction_signs.end()) {
      plain += text[at++];
      continue;
    }
    if (!plain.empty() && base::is_digit(plain.back())) plain += ' ';
    plain += sign->second;
    at += sign->first.size();
  }
  return plain;
}

std::optional<LeadingNumber> leading_number(std::string_view text) {
  std::size_t at = skip_space(text, 0);
  std::string first = single_number(text, at);
  if (first.empty()) return std::nullopt;
  // A range: `2-3`, `2 – 3`, `2 to 3`.
  std::size_t next = skip_space(text, at);
  for (std::string_view between : {"-", "–", "—", "to ", ".."}) {
    if (!text.substr(next).starts_with(between)) continue;
    std::size_t end = skip_space(text, next + between.size());
    if (end >= text.size() || (!base::is_digit(text[end]) && static_cast<unsigned char>(text[end]) < 0x80))
      continue;
    std::string second = single_number(text, end);
    if (second.empty() || !is_decimal(first) || !is_decimal(second)) continue;
    return LeadingNumber{first + ".." + second, end};
  }
  return LeadingNumber{first, at};
}

std::optional<IngredientLine> read_ingredient_line(std::string_view written, const House& house) {
  std::string text = plain_text(written);
  IngredientLine line;
  line.remark = take_brackets(text);
  take_about(text, line);
  take_times_behind(text);
  drop_times(text);
  take_optional(text, line);
  if (read_juice_of(text, house, line) || read_pour(text, house, line)) return line;
  auto name = name_beside_measure(text, house, line);
  if (!name) name = name_with_measure_in_brackets(text, house, line);
  if (!name) return std::nullopt;
  take_second_measure(*name, house, line);
  // `50 ml - gin`
  for (std::string_view dash : {"- ", "– ", "— ", ": "})
    if (name->starts_with(dash)) name->erase(0, dash.size());
  if (name->starts_with("of ")) name->erase(0, 3);
  line.written_name = *name;
  find_name(*name, house, line);
  take_juice_for_fruit(house, line);
  return line;
}

}  // namespace gill::importer
