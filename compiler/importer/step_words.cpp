#include "importer/step_words.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <initializer_list>
#include <string>
#include <vector>

#include "base/characters.h"
#include "base/text.h"
#include "importer/spec_labels.h"

namespace gill::importer {
namespace {

// Words that begin a step and hardly a name (common practice, no source).
constexpr auto order_words = std::to_array<std::string_view>(
    {"shake",    "stir",     "strain",    "muddle",     "pour",    "garnish",  "swizzle", "blend",
     "build",    "add",      "serve",     "combine",    "divide",  "transfer", "discard", "squeeze",
     "secouer",  "shaker",   "remuer",    "filtrer",    "verser",  "servir",   "ajouter", "agitar",
     "mélanger", "remover",  "colar",     "verter",     "añadir",  "mezclar",  "agitare", "versare",
     "servire",  "filtrare", "mescolare", "aggiungere", "partager"});
// German has them at the end.
constexpr auto last_order_words = std::to_array<std::string_view>(
    {"schütteln", "rühren", "verrühren", "abseihen", "auffüllen", "aufgießen", "aufgiessen", "garnieren",
     "servieren", "geben", "zugeben", "gießen", "giessen", "verteilen"});
constexpr auto manners = std::to_array<std::string_view>({"double", "dbl", "fine", "dry", "wet", "hard"});
constexpr auto place_words = std::to_array<std::string_view>(
    {"into", "over", "in", "with", "onto",  "between", "through", "until", "for", "then", "dans",
     "sur",  "avec", "en", "con",  "sobre", "entre",   "su",      "sopra", "auf", "mit"});
constexpr auto small_numbers = std::to_array<std::string_view>({"two", "three", "four", "five", "six"});

template <typename Words>
bool is_step_word(const Words& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_count(const std::string& word) {
  return base::is_digit(word.front()) || is_step_word(small_numbers, word);
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

bool begins_with_order(std::string_view text) {
  const auto words = base::folded_words(text.substr(0, text.find_first_of(".,;/\n")));
  auto verb =
      std::find_if(words.begin(), words.end(), [](const auto& word) { return !is_step_word(manners, word); });
  return verb != words.end() && is_step_word(order_words, *verb);
}

bool tells_a_step(std::string_view line, bool after_blank) {
  auto words = base::folded_words(line);
  // `Gently stir …`, `Then strain …`
  if (words.size() > 2 && (words[0] == "then" || words[0].ends_with("ly"))) words.erase(words.begin());
  if (words.size() < 2) return false;
  if (is_step_word(last_order_words, words.back())) return true;
  const bool is_title = is_title_case(line) && (after_blank || !is_all_capitals(line));
  // Behind the place stands what it is: `Blend In` and `Muddle Through` are names.
  const auto before_last = words.end() - (is_title ? 1 : 0);
  const bool says_place = std::any_of(words.begin() + 1, before_last,
                                      [](const auto& word) { return is_step_word(place_words, word); });
  const bool says_count = std::any_of(words.begin() + 1, words.end(), is_count);
  std::size_t verb = 0;
  while (verb + 1 < words.size() && is_step_word(manners, words[verb])) ++verb;
  if (is_step_word(order_words, words[verb])) {
    constexpr std::size_t longest_name = 3;
    return says_place || (verb + 1 < words.size() && is_count(words[verb + 1])) ||
           (!is_title && (says_count || !after_blank || words.size() > longest_name));
  }
  return begins_with_verb(words.front()) && !is_title && (says_count || (says_place && !after_blank));
}

bool is_made_with_ice(std::string_view line) {
  const auto words = base::folded_words(line);
  auto stands_before = [&](std::size_t end, std::initializer_list<std::string_view> wanted) {
    return std::any_of(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(end),
                       [&](const auto& word) { return is_step_word(wanted, word); });
  };
  for (std::size_t i = 1; i < words.size(); ++i) {
    if (words[i] != "ice") continue;
    const bool is_other_thing = i + 1 < words.size() && (words[i + 1] == "bath" || words[i + 1] == "water" ||
                                                         words[i + 1] == "cream");
    if (!is_other_thing && stands_before(i, {"with", "over", "on", "w"}) &&
        stands_before(i,
                      {"shake", "shaken", "stir", "stirred", "swizzle", "build", "built", "throw", "strain"}))
      return true;
  }
  return false;
}

}  // namespace gill::importer
