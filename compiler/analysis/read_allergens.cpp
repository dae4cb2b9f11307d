// Allergen codes as people write them on an `allergen` or `expect allergens` line.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "analysis/declaration_reader.h"
#include "base/text.h"

namespace gill::analysis {

using diagnostics::Rule;
using syntax::TokenKind;

namespace {

// Regulation (EU) No 1169/2011, Annex II: the fourteen groups, and the kinds that two of them are named by.
constexpr std::array<std::string_view, 14> groups = {"cereals",  "crustaceans", "egg",   "fish",    "peanuts",
                                                     "soybeans", "milk",        "nuts",  "celery",  "mustard",
                                                     "sesame",   "sulphites",   "lupin", "molluscs"};
constexpr std::array<std::string_view, 4> cereals = {"wheat", "rye", "barley", "oats"};
constexpr std::array<std::string_view, 8> nuts = {"almond", "hazelnut", "walnut",    "cashew",
                                                  "pecan",  "brazil",   "pistachio", "macadamia"};

struct Advice {
  std::string_view word;
  std::string_view help;
};

constexpr std::string_view which_cereal =
    "Write the cereal: `cereals: wheat`, `cereals: rye`, `cereals: barley` or `cereals: oats`.";
constexpr std::string_view which_nut = "Write which nut: `nuts: almond`, `nuts: hazelnut` …";

// Words that do not say which allergen is meant, or that have another name here.
constexpr std::array<Advice, 12> vague = {{
    {"gluten", which_cereal},
    {"cereals", which_cereal},
    {"cereal", which_cereal},
    {"nuts", which_nut},
    {"nut", which_nut},
    {"tree nuts", which_nut},
    {"dairy", "Write `milk`."},
    {"lactose", "Write `milk`."},
    {"shellfish", "Write `crustaceans` or `molluscs`."},
    {"soy", "Write `soybeans`."},
    {"soya", "Write `soybeans`."},
    {"sulphur dioxide", "Write `sulphites`."},
}};

template <std::size_t size>
bool holds(const std::array<std::string_view, size>& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

template <std::size_t size>
std::optional<std::string> nearest(const std::array<std::string_view, size>& words, std::string_view word) {
  base::NearestWord nearest(word);
  for (auto known : words) nearest.consider(known, known);
  return nearest.best();
}

/// What to write instead of a code that is vague or misspelt; nothing where it may stand. A house may name
/// any other allergen that it cares for (`coconut`), so only what is nearly a known word is taken for it.
std::optional<std::string> fix_of(const std::string& code) {
  for (const auto& advice : vague)
    if (code == advice.word) return std::string(advice.help);
  auto colon = code.find(':');
  std::string group = code.substr(0, colon);
  if (colon == std::string::npos) {
    if (holds(groups, code)) return std::nullopt;
    if (holds(cereals, code)) return fmt::format("Write `cereals: {}`.", code);
    if (holds(nuts, code)) return fmt::format("Write `nuts: {}`.", code);
    if (auto near = nearest(groups, code)) return fmt::format("Did you mean `{}`?", *near);
    return std::nullopt;
  }
  std::string kind = code.substr(colon + 1);
  if (!holds(groups, group))
    if (auto near = nearest(groups, group)) return fmt::format("Did you mean `{}: {}`?", *near, kind);
  auto near = group == "nuts"      ? holds(nuts, kind) ? std::nullopt : nearest(nuts, kind)
                   : group == "cereals" ? holds(cereals, kind) ? std::nullopt : nearest(cereals, kind)
                                        : std::nullopt;
  if (near) return fmt::format("Did you mean `{}: {}`?", group, *near);
  return std::nullopt;
}

/// One code up to `end`, folded, without space after its colon: `nuts:almond`. Empty when it has failed.
std::string read_code(LineReader& reader, std::size_t end) {
  const auto& line = reader.line();
  std::string code;
  for (std::size_t i = reader.at(); i < end; ++i) {
    if (line.kind(i) == TokenKind::colon) {
      code += ':';
    } else if (line.kind(i) == TokenKind::word) {
      if (!code.empty() && code.back() != ':') code += ' ';
      code += base::fold_name(line.text(i));
    } else {
      if (line.text(i) == "…") {
        reader.fail(
            Rule::bad_line, line.span(i), "which allergens it holds is still to be said",
            "Read its label, and write `allergen milk`, say; `allergen none` where the label names none.");
        return {};
      }
      reader.fail(Rule::bad_line, line.span(i), "an allergen is one or two words",
                  "Write `egg`, `nuts: almond` or another word.");
      return {};
    }
  }
  if (auto help = fix_of(code))
    reader.fail(Rule::unknown_word, line.span(reader.at(), end),
                fmt::format("`{}` does not say which allergen is meant",
                            base::collapse_space(line.raw(reader.at(), end))),
                *help);
  return code;
}

}  // namespace

std::vector<std::string> read_allergen_codes(LineReader& reader) {
  std::vector<std::string> codes;
  while (!reader.failed() && !reader.done()) {
    std::size_t end = reader.comma_or_end();
    std::string code = end > reader.at() ? read_code(reader, end) : std::string();
    if (reader.failed()) break;
    reader.move_to(end);
    reader.take_comma();
    if (!code.empty()) codes.push_back(std::move(code));
  }
  return codes;
}

}  // namespace gill::analysis
