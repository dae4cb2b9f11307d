#include "importer/method_clauses.h"

#include <algorithm>
#include <cctype>

#include "base/characters.h"
#include "base/text.h"

namespace gill::importer {
namespace {

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
    text.replace(at, from.size(), to);
}

/// Points, slashes and commas part steps, but not the digits of a number.
bool parts_steps(const std::string& text, std::size_t i) {
  if (std::string_view(".,;/").find(text[i]) == std::string_view::npos) return false;
  bool in_number = i > 0 && i + 1 < text.size() && base::is_digit(text[i - 1]) && base::is_digit(text[i + 1]);
  return !in_number;
}

/// Without the abbreviations of a note.
std::string in_full(std::string_view line) {
  std::string text(line);
  replace_all(text, "w/ ", "with ");
  replace_all(text, "w/", "with ");
  replace_all(text, " & ", " and ");
  replace_all(text, "dbl. ", "double ");
  for (std::string_view word : {"dbl ", "Dbl "}) replace_all(text, word, "double ");
  return text;
}

}  // namespace

bool begins_with_verb(std::string_view folded) {
  for (std::string_view verb :
       {"shake",    "stir",    "strain", "double", "dbl",    "fine",    "dry",     "wet",
        "hard",     "reverse", "muddle", "build",  "blend",  "garnish", "combine", "pour",
        "add",      "swizzle", "serve",  "mix",    "rim",    "whip",    "dump",    "float",
        "fill",     "put",     "top",    "churn",  "throw",  "roll",    "rinse",   "express",
        "flame",    "layer",   "infuse", "steep",  "simmer", "boil",    "bring",   "heat",
        "dissolve", "rest",    "press",  "freeze", "chill",  "reduce",  "clarify"})
    if (folded.starts_with(verb) &&
        (folded.size() == verb.size() || !std::isalpha(static_cast<unsigned char>(folded[verb.size()]))))
      return true;
  return false;
}

bool is_reworded(std::string_view line) { return in_full(line) != line; }

std::vector<std::string> clauses_of(std::string_view line) {
  std::string text = in_full(line);
  replace_all(text, " then ", ", ");
  std::vector<std::string> clauses(1);
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (parts_steps(text, i))
      clauses.emplace_back();
    else
      clauses.back() += text[i];
  }
  for (auto& clause : clauses) clause = base::collapse_space(clause);
  std::erase_if(clauses, [](const std::string& clause) { return clause.empty(); });
  return clauses;
}

}  // namespace gill::importer
