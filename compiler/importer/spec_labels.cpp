#include "importer/spec_labels.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <sstream>
#include <vector>

#include "base/characters.h"
#include "base/text.h"
#include "importer/step_words.h"

namespace gill::importer {
namespace {

struct LabelWord {
  std::string_view word;
  LabelRole role;
};

// Words before a colon on spec sheets, in the languages that their kitchens speak (common practice, no
// source).
constexpr std::array label_words = {LabelWord{"name", LabelRole::name},
                                    LabelWord{"drink", LabelRole::name},
                                    LabelWord{"prep", LabelRole::name},
                                    LabelWord{"cocktail", LabelRole::name},
                                    LabelWord{"cocktail name", LabelRole::name},
                                    LabelWord{"cocktailname", LabelRole::name},
                                    LabelWord{"drink name", LabelRole::name},
                                    LabelWord{"recipe name", LabelRole::name},
                                    LabelWord{"name of drink", LabelRole::name},
                                    LabelWord{"title", LabelRole::name},
                                    LabelWord{"titel", LabelRole::name},
                                    LabelWord{"titre", LabelRole::name},
                                    LabelWord{"título", LabelRole::name},
                                    LabelWord{"titolo", LabelRole::name},
                                    LabelWord{"nom", LabelRole::name},
                                    LabelWord{"nombre", LabelRole::name},
                                    LabelWord{"nome", LabelRole::name},
                                    LabelWord{"glass", LabelRole::glass},
                                    LabelWord{"glassware", LabelRole::glass},
                                    LabelWord{"glas", LabelRole::glass},
                                    LabelWord{"gl", LabelRole::glass},
                                    LabelWord{"verre", LabelRole::glass},
                                    LabelWord{"vaso", LabelRole::glass},
                                    LabelWord{"copa", LabelRole::glass},
                                    LabelWord{"bicchiere", LabelRole::glass},
                                    LabelWord{"vessel", LabelRole::glass},
                                    LabelWord{"serve in", LabelRole::glass},
                                    LabelWord{"served in", LabelRole::glass},
                                    LabelWord{"ice", LabelRole::ice},
                                    LabelWord{"eis", LabelRole::ice},
                                    LabelWord{"glace", LabelRole::ice},
                                    LabelWord{"hielo", LabelRole::ice},
                                    LabelWord{"ghiaccio", LabelRole::ice},
                                    LabelWord{"garnish", LabelRole::garnish},
                                    LabelWord{"garn", LabelRole::garnish},
                                    LabelWord{"gar", LabelRole::garnish},
                                    LabelWord{"g", LabelRole::garnish},
                                    LabelWord{"décor", LabelRole::garnish},
                                    LabelWord{"decor", LabelRole::garnish},
                                    LabelWord{"décoration", LabelRole::garnish},
                                    LabelWord{"garnishes", LabelRole::garnish},
                                    LabelWord{"garnitur", LabelRole::garnish},
                                    LabelWord{"garniture", LabelRole::garnish},
                                    LabelWord{"deko", LabelRole::garnish},
                                    LabelWord{"decoración", LabelRole::garnish},
                                    LabelWord{"guarnizione", LabelRole::garnish},
                                    LabelWord{"rim", LabelRole::rim},
                                    LabelWord{"method", LabelRole::method},
                                    LabelWord{"directions", LabelRole::method},
                                    LabelWord{"instructions", LabelRole::method},
                                    LabelWord{"preparation", LabelRole::method},
                                    LabelWord{"technique", LabelRole::method},
                                    LabelWord{"procedure", LabelRole::method},
                                    LabelWord{"preparación", LabelRole::method},
                                    LabelWord{"preparazione", LabelRole::method},
                                    LabelWord{"meth", LabelRole::method},
                                    LabelWord{"meth.", LabelRole::method},
                                    LabelWord{"m", LabelRole::method},
                                    LabelWord{"prép", LabelRole::method},
                                    LabelWord{"prép.", LabelRole::method},
                                    LabelWord{"procedimento", LabelRole::method},
                                    LabelWord{"procedimiento", LabelRole::method},
                                    LabelWord{"esecuzione", LabelRole::method},
                                    LabelWord{"tecnica", LabelRole::method},
                                    LabelWord{"técnica", LabelRole::method},
                                    LabelWord{"elaboración", LabelRole::method},
                                    LabelWord{"herstellung", LabelRole::method},
                                    LabelWord{"arbeitsweise", LabelRole::method},
                                    LabelWord{"steps", LabelRole::method},
                                    LabelWord{"build", LabelRole::method},
                                    LabelWord{"zubereitung", LabelRole::method},
                                    LabelWord{"méthode", LabelRole::method},
                                    LabelWord{"préparation", LabelRole::method},
                                    LabelWord{"método", LabelRole::method},
                                    LabelWord{"ingredients", LabelRole::amounts},
                                    LabelWord{"spec", LabelRole::amounts},
                                    LabelWord{"specs", LabelRole::amounts},
                                    LabelWord{"you need", LabelRole::amounts},
                                    LabelWord{"how", LabelRole::method},
                                    LabelWord{"how to", LabelRole::method},
                                    LabelWord{"serve", LabelRole::glass},
                                    LabelWord{"recipe", LabelRole::amounts},
                                    LabelWord{"zutaten", LabelRole::amounts},
                                    LabelWord{"ingrédients", LabelRole::amounts},
                                    LabelWord{"ingredientes", LabelRole::amounts},
                                    LabelWord{"ingredienti", LabelRole::amounts},
                                    LabelWord{"yield", LabelRole::makes},
                                    LabelWord{"yields", LabelRole::makes},
                                    LabelWord{"makes", LabelRole::makes},
                                    LabelWord{"batch", LabelRole::makes},
                                    LabelWord{"batched", LabelRole::makes},
                                    LabelWord{"pre-batch", LabelRole::makes},
                                    LabelWord{"prebatch", LabelRole::makes},
                                    LabelWord{"serves", LabelRole::serves},
                                    LabelWord{"keeps", LabelRole::keeps},
                                    LabelWord{"shelf life", LabelRole::keeps},
                                    LabelWord{"note", LabelRole::remark},
                                    LabelWord{"notes", LabelRole::remark},
                                    LabelWord{"nb", LabelRole::remark},
                                    LabelWord{"n.b.", LabelRole::remark},
                                    LabelWord{"ps", LabelRole::remark},
                                    LabelWord{"p.s.", LabelRole::remark},
                                    LabelWord{"tip", LabelRole::remark},
                                    LabelWord{"tips", LabelRole::remark},
                                    LabelWord{"story", LabelRole::remark},
                                    LabelWord{"history", LabelRole::remark},
                                    LabelWord{"variation", LabelRole::remark},
                                    LabelWord{"variations", LabelRole::remark},
                                    LabelWord{"variant", LabelRole::remark},
                                    LabelWord{"allergens", LabelRole::remark},
                                    LabelWord{"allergen", LabelRole::remark},
                                    LabelWord{"cost", LabelRole::remark},
                                    LabelWord{"price", LabelRole::remark},
                                    LabelWord{"preis", LabelRole::remark},
                                    LabelWord{"prix", LabelRole::remark},
                                    LabelWord{"precio", LabelRole::remark},
                                    LabelWord{"prezzo", LabelRole::remark},
                                    LabelWord{"station", LabelRole::remark},
                                    LabelWord{"status", LabelRole::remark},
                                    LabelWord{"allergene", LabelRole::remark},
                                    LabelWord{"allergènes", LabelRole::remark},
                                    LabelWord{"alérgenos", LabelRole::remark},
                                    LabelWord{"allergeni", LabelRole::remark},
                                    LabelWord{"pairing", LabelRole::remark},
                                    LabelWord{"remember", LabelRole::remark},
                                    LabelWord{"warning", LabelRole::remark},
                                    LabelWord{"important", LabelRole::remark},
                                    LabelWord{"source", LabelRole::remark},
                                    LabelWord{"equipment", LabelRole::remark},
                                    LabelWord{"tools", LabelRole::remark},
                                    LabelWord{"hinweis", LabelRole::remark},
                                    LabelWord{"achtung", LabelRole::remark},
                                    LabelWord{"remarque", LabelRole::remark},
                                    LabelWord{"nota", LabelRole::remark}};

// Words of a heading, each of which may stand in one (common practice, no source).
constexpr std::array<std::string_view, 34> drink_sections = {
    "shaken",     "stirred",   "built",  "sours",     "highballs", "highball", "classics",
    "signatures", "cocktails", "drinks", "mocktails", "spritzes",  "fizzes",   "punches",
    "martinis",   "tiki",      "zero",   "proof",     "alcohol",   "free",     "low",
    "abv",        "long",      "short",  "aperitifs", "digestifs", "menu",     "specs",
    "recipes",    "house",     "hot",    "frozen",    "sharing",   "seasonal"};
constexpr std::array<std::string_view, 18> prep_sections = {
    "syrups",  "cordials", "preps",    "prep",  "shrubs", "infusions", "tinctures", "purees",    "purées",
    "batches", "brines",   "ferments", "foams", "juices", "sherbets",  "oleos",     "homemades", "mise"};

template <typename Words>
bool is_one_of(const Words& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// The bytes of a colon or a dash with spaces that part a label from what it labels.
std::size_t label_end_at(std::string_view text) {
  for (std::string_view sign : {":", " :", " - ", " – ", " — ", " = "})
    if (text.starts_with(sign)) return sign.size();
  return 0;
}

/// `Sweet: 15 ml honey syrup`: a part of the drink before what is poured for it.
Labelled part_of_drink_of(std::string_view line) {
  static constexpr std::array<std::string_view, 19> words = {
      "spirit",     "base",      "modifier", "mod",     "citrus", "sour",  "acid",
      "sweet",      "sweetener", "bitter",   "bitters", "juice",  "syrup", "mixer",
      "lengthener", "liqueur",   "säure",    "süße",    "basis"};
  auto colon = line.find(':');
  if (colon == std::string_view::npos) return {};
  const auto word = base::fold_name(base::trim(line.substr(0, colon)));
  auto rest = base::trim(line.substr(colon + 1));
  if (rest.empty() || !(base::is_digit(rest.front()) || rest.starts_with("½") || rest.starts_with("¾")))
    return {};
  if (std::find(words.begin(), words.end(), word) == words.end()) return {};
  return {LabelRole::place, std::string(rest)};
}

/// `Step 2: strain`, `Schritt 2 - abseihen`.
Labelled numbered_step_of(std::string_view line) {
  for (std::string_view word : {"step ", "schritt ", "étape ", "paso ", "passo "}) {
    if (!base::equals_ignoring_case(line.substr(0, word.size()), word)) continue;
    auto rest = line.substr(word.size());
    auto digits = std::min(rest.find_first_not_of("0123456789"), rest.size());
    if (auto end = label_end_at(rest.substr(digits)); digits > 0 && end > 0)
      return {LabelRole::place, std::string(base::trim(rest.substr(digits + end)))};
  }
  return {};
}

// Words of a batch, and what may stand beside them and a number. Common practice, no source.
constexpr std::array batch_words = {std::string_view("batch"),   std::string_view("batched"),
                                    std::string_view("bottled"), std::string_view("bulk"),
                                    std::string_view("charge"),  std::string_view("ansatz"),
                                    std::string_view("lote"),    std::string_view("lotto"),
                                    std::string_view("pre"),     std::string_view("prebatch")};
constexpr std::array beside_batch_words = {
    std::string_view("for"),      std::string_view("fur"),      std::string_view("pour"),
    std::string_view("para"),     std::string_view("per"),      std::string_view("x"),
    std::string_view("people"),   std::string_view("pax"),      std::string_view("guests"),
    std::string_view("serves"),   std::string_view("servings"), std::string_view("portions"),
    std::string_view("personen"), std::string_view("l"),        std::string_view("ml"),
    std::string_view("cl"),       std::string_view("litre"),    std::string_view("liter"),
    std::string_view("bottle"),   std::string_view("of")};

/// `Batch (10): 350 ml rye, …`, `1 L batch: …`, `For 10: …`: the drink above once more, for several.
Labelled batch_of_drink_of(std::string_view line) {
  const auto colon = line.find(':');
  if (colon == std::string_view::npos) return {};
  bool has_number = false, names_batch = false, is_for = false;
  std::string words = base::fold_without_accents(line.substr(0, colon));
  for (char& c : words)
    if (!base::is_ascii_letter(c) && !base::is_digit(c)) c = ' ';
  std::istringstream stream(words);
  for (std::string word; stream >> word;) {
    const auto letters = std::min(word.find_first_not_of("0123456789"), word.size());
    has_number = has_number || letters > 0;
    const auto rest = word.substr(letters);
    const bool is_batch = is_one_of(batch_words, rest);
    if (!rest.empty() && !is_batch && !is_one_of(beside_batch_words, rest)) {
      // `x10`
      if (!rest.starts_with('x') || rest.find_first_not_of("x0123456789") != std::string::npos) return {};
      has_number = true;
    }
    names_batch = names_batch || is_batch;
    is_for = is_for || rest == "for" || rest == "fur" || rest == "pour" || rest == "para" || rest == "per";
  }
  const auto behind = base::trim(line.substr(colon + 1));
  // `Batch: 350 ml rye, …` tells amounts; `Batch: 1 l` how much it makes.
  constexpr std::size_t words_of_an_amount = 2;
  const bool tells_amounts = names_batch && !behind.empty() && base::is_digit(behind.front()) &&
                             base::folded_words(behind).size() > words_of_an_amount;
  if (!tells_amounts && (!has_number || !(names_batch || is_for))) return {};
  return {LabelRole::remark, std::string(behind)};
}

}  // namespace

Labelled label_of(std::string_view line) {
  for (const auto& place : {numbered_step_of(line), part_of_drink_of(line), batch_of_drink_of(line)})
    if (place.role != LabelRole::none) return place;
  for (auto [word, role] : label_words) {
    if (!base::equals_ignoring_case(line.substr(0, word.size()), word)) continue;
    auto rest = line.substr(word.size());
    // Without a colon these words alone are a label, the others a step or a glass.
    bool stands_alone = rest.empty() && (role == LabelRole::method || role == LabelRole::amounts) &&
                        word != "build" && word != "recipe" && word != "spec";
    // `Story - coupe` is a drink.
    const bool is_dash_of_name =
        role == LabelRole::remark && rest.substr(0, 2).find(':') == std::string_view::npos;
    // A letter is one before a colon alone.
    const bool is_letter = word.size() == 1 && !rest.starts_with(":");
    if (is_letter) continue;
    if (auto end = label_end_at(rest); (end > 0 && !is_dash_of_name) || stands_alone) {
      std::string labelled(base::trim(rest.substr(end)));
      // `Recipe: Lily`, and `Build: 50 ml rye, 25 ml lemon juice`, which may be shaken.
      const bool begins_with_digit = !labelled.empty() && base::is_digit(labelled.front());
      if (word == "recipe" && is_title_case(labelled) &&
          std::none_of(labelled.begin(), labelled.end(), base::is_digit))
        return {LabelRole::name, std::move(labelled)};
      if (word == "build" && begins_with_digit) return {LabelRole::amounts, std::move(labelled)};
      // `Build: highball` says where it is built.
      if (word == "build" && !labelled.empty() && !begins_with_verb(base::fold_name(labelled)))
        labelled = "build, " + labelled;
      return {role, std::move(labelled)};
    }
  }
  return {};
}

SectionKind section_of(std::string_view line) {
  auto words = base::folded_words(line);
  bool names_preps = false, names_drinks = false;
  constexpr std::size_t max_words = 4;
  if (words.empty() || words.size() > max_words) return SectionKind::none;
  for (const auto& word : words) {
    if (is_one_of(prep_sections, word))
      names_preps = true;
    else if (is_one_of(drink_sections, word))
      names_drinks = true;
    else if (word != "and" && word != "no" && word.find_first_not_of("0123456789") != std::string::npos)
      return SectionKind::none;
  }
  if (names_preps) return SectionKind::preps;
  return names_drinks ? SectionKind::drinks : SectionKind::none;
}

bool names_a_prep(std::string_view name) {
  static constexpr std::array<std::string_view, 19> made_ahead = {
      "syrup", "cordial", "shrub",    "infusion", "tincture",  "brine", "saline",
      "oleo",  "sherbet", "falernum", "orgeat",   "grenadine", "puree", "purée",
      "stock", "premix",  "mix",      "solution", "foam"};
  auto words = base::folded_words(name);
  std::erase_if(words, [](const std::string& word) {
    return word.find_first_not_of("0123456789") == std::string::npos;
  });
  if (words.empty()) return false;
  static constexpr std::array<std::string_view, 5> made_ahead_first = {"sirop", "jarabe", "sirope", "almíbar",
                                                                       "sciroppo"};
  return is_one_of(made_ahead, words.back()) || is_one_of(made_ahead_first, words.front()) ||
         words.back().ends_with("sirup") || words.front() == "oleo" || words.front() == "saline" ||
         is_one_of(words, "infused") || is_one_of(words, "washed");
}

std::optional<int> serves_of(std::string_view yield) {
  static constexpr std::array<std::string_view, 24> counted = {
      "",         "serving",   "servings", "serve",     "serves",    "drink",    "drinks",  "people",
      "persons",  "person",    "portions", "portion",   "cocktail",  "guests",   "glasses", "cocktails",
      "personen", "portionen", "gäste",    "personnes", "porciones", "personas", "verres",  "raciones"};
  auto number = base::trim(yield);
  for (std::string_view first : {"serves ", "for ", "makes ", "für ", "pour ", "para "})
    if (base::equals_ignoring_case(number.substr(0, first.size()), first))
      number = base::trim(number.substr(first.size()));
  auto end = std::min(number.find_first_not_of("0123456789"), number.size());
  constexpr std::size_t max_digits = 4;
  if (end == 0 || end > max_digits) return std::nullopt;
  auto word = base::fold_name(base::trim(number.substr(end)));
  if (std::find(counted.begin(), counted.end(), word) == counted.end()) return std::nullopt;
  return std::stoi(std::string(number.substr(0, end)));
}

namespace {

constexpr std::array<std::string_view, 6> name_signs = {" (", " -- ", " - ", " – ", " — ", ", "};

/// `1 l bottle`, `750ml batch`: how much of it stands ready in what.
bool is_full_bottle(std::string_view words) {
  static constexpr std::array<std::string_view, 12> vessels = {"bottle",  "bottles",   "batch",   "jug",
                                                               "keg",     "jar",       "flasche", "bouteille",
                                                               "botella", "bottiglia", "deli",    "cambro"};
  const auto folded = base::folded_words(words);
  return folded.size() >= 2 && folded.size() <= 4 && base::is_digit(folded.front().front()) &&
         is_one_of(vessels, folded.back());
}

std::string words_behind(std::string_view name, std::size_t at) {
  for (auto sign : name_signs) {
    if (!name.substr(at).starts_with(sign)) continue;
    auto words = base::trim(name.substr(at + sign.size()));
    if (sign == " (" && words.ends_with(')')) words.remove_suffix(1);
    return std::string(words);
  }
  return {};
}

}  // namespace

std::size_t words_of_whole_at(std::string_view name) {
  for (auto sign : name_signs) {
    auto at = name.rfind(sign);
    if (at == std::string::npos || at == 0 || (sign == " (" && !name.ends_with(')'))) continue;
    const std::string words = words_behind(name, at), folded = base::fold_name(words);
    const bool is_yield =
        folded.starts_with("makes ") || folded.starts_with("keeps ") || is_full_bottle(words);
    // A number alone is a name's.
    if (is_yield || (serves_of(words) && words.find(' ') != std::string::npos)) return at;
  }
  return std::string_view::npos;
}

std::string words_of_whole(std::string_view name) {
  auto at = words_of_whole_at(name);
  return at == std::string_view::npos ? std::string() : words_behind(name, at);
}

bool names_a_full_bottle(std::string_view name) { return is_full_bottle(words_of_whole(name)); }

bool is_batch_alone(std::string_view line) {
  auto words = base::folded_words(line);
  return !words.empty() && words.size() <= 2 && std::all_of(words.begin(), words.end(), [](const auto& word) {
    return is_one_of(batch_words, word);
  });
}

bool is_named_like_a_batch(std::string_view name) {
  static constexpr std::array<std::string_view, 8> vessels = {"keg",  "batch", "bottled", "cask",
                                                              "fass", "fût",   "fusto",   "barril"};
  const auto words = base::folded_words(name.substr(0, name.find(" (")));
  return !words.empty() && is_one_of(vessels, words.back());
}

bool is_drink_of_glass(std::string_view name) {
  // Common practice, no source.
  static constexpr std::array<std::string_view, 20> drinks = {
      "wine",     "beer",    "cider",    "tea",     "coffee", "punch", "sherry", "port",  "sake", "champagne",
      "prosecco", "bubbles", "cocktail", "martini", "water",  "toddy", "sling",  "julep", "fizz", "shot"};
  const auto words = base::folded_words(name.substr(0, name.find(" (")));
  return !words.empty() && is_one_of(drinks, words.back());
}

bool is_title_case(std::string_view line) {
  static constexpr std::array<std::string_view, 12> small_words = {"of", "the", "and", "in",  "on", "at",
                                                                   "a",  "an",  "to",  "for", "by", "no"};
  bool has_capital = false, at_start = true;
  for (std::size_t i = 0; i < line.size(); ++i) {
    char before = i == 0 ? ' ' : line[i - 1];
    if (before != ' ' || line[i] == ' ') continue;
    auto word = line.substr(i, line.find(' ', i) - i);
    bool capital = (word[0] >= 'A' && word[0] <= 'Z') || static_cast<unsigned char>(word[0]) >= 0x80;
    bool is_small = !at_start && std::find(small_words.begin(), small_words.end(), word) != small_words.end();
    if (base::is_ascii_letter(word[0]) && !capital && !is_small) return false;
    has_capital = has_capital || capital;
    at_start = false;
  }
  return has_capital;
}

bool is_all_capitals(std::string_view line) {
  bool has_capital = false;
  for (char c : line) {
    if (c >= 'a' && c <= 'z') return false;
    has_capital = has_capital || (c >= 'A' && c <= 'Z');
  }
  return has_capital;
}

bool looks_like_a_name(const std::string& line) {
  constexpr std::ptrdiff_t max_words = 6;
  return !line.empty() && has_whole_brackets(line) &&
         std::string_view(".!,;?").find(line.back()) == std::string_view::npos &&
         std::count(line.begin(), line.end(), ' ') < max_words;
}

bool has_whole_brackets(std::string_view line) {
  return std::count(line.begin(), line.end(), '(') == std::count(line.begin(), line.end(), ')') &&
         std::count(line.begin(), line.end(), '[') == std::count(line.begin(), line.end(), ']');
}

std::string without_colon(std::string_view line) {
  std::string name(line);
  while (!name.empty() && std::string_view(": *#").find(name.back()) != std::string_view::npos)
    name.pop_back();
  return name.empty() ? std::string(line) : name;
}

}  // namespace gill::importer
