#include "importer/foreign_words.h"

#include <algorithm>
#include <array>

#include "costing/foreign_goods.h"

namespace gill::importer {
namespace {

using Meant = std::pair<std::string_view, std::string_view>;

constexpr auto units = std::to_array<Meant>({
    {"el", "tbsp"},
    {"tl", "tsp"},
    {"bl", "barspoon"},
    {"barlöffel", "barspoon"},
    {"spritzer", "dashes"},
    {"tropfen", "drops"},
    {"prise", "pinch"},
    {"trait", "dash"},
    {"traits", "dashes"},
    {"gouttes", "drops"},
    {"pincée", "pinch"},
    {"golpe", "dash"},
    {"golpes", "dashes"},
    {"gotas", "drops"},
    {"gocce", "drops"},
    {"pizca", "pinch"},
    {"cucharadita", "tsp"},
    {"cucharada", "tbsp"},
});

// Glasses and ice, which stand behind keywords of their own.
constexpr auto vessels = std::to_array<Meant>({
    {"cocktailschale", "coupe"},    {"coupette", "coupe"},      {"longdrinkglas", "highball"},
    {"highballglas", "highball"},   {"tumbler", "rocks"},       {"weinglas", "wine glass"},
    {"verre à vin", "wine glass"},  {"verre long", "highball"}, {"vaso largo", "highball"},
    {"vaso alto", "highball"},      {"vaso corto", "rocks"},    {"vaso bajo", "rocks"},
    {"copa de vino", "wine glass"}, {"copa coupe", "coupe"},    {"eiswürfel", "cubed"},
    {"gestossenes eis", "crushed"}, {"glaçons", "cubed"},       {"glace pilée", "crushed"},
    {"hielo picado", "crushed"},    {"hielo", "cubed"},         {"ghiaccio", "cubed"},
    {"bicchiere basso", "rocks"},   {"tumbler basso", "rocks"}, {"bicchiere alto", "highball"},
    {"tumbler alto", "highball"},   {"coppa", "coupe"},         {"coppetta", "coupe"},
    {"sektglas", "flute"},          {"sektflöte", "flute"},     {"flûte", "flute"},
    {"crushed eis", "crushed"},     {"würfeleis", "cubed"},     {"ghiaccio tritato", "crushed"},
});

constexpr auto steps = std::to_array<Meant>({
    {"schütteln", "shake"},
    {"kräftig schütteln", "shake, hard"},
    {"shaken", "shake"},
    {"trocken schütteln", "dry shake"},
    {"rühren", "stir"},
    {"verrühren", "stir"},
    {"aufkochen", "bring to the boil"},
    {"faire bouillir", "bring to the boil"},
    {"hervir", "bring to the boil"},
    {"abseihen", "strain"},
    {"doppelt abseihen", "double strain"},
    {"fein abseihen", "fine strain"},
    {"im glas bauen", "build"},
    {"shaker", "shake"},
    {"secouer", "shake"},
    {"frapper", "shake"},
    {"remuer", "stir"},
    {"filtrer", "strain"},
    {"passer", "strain"},
    {"double filtrer", "double strain"},
    {"filtrer deux fois", "double strain"},
    {"filtrer finement", "fine strain"},
    {"monter au verre", "build"},
    {"agitar", "shake"},
    {"agitar en seco", "dry shake"},
    {"batir", "shake"},
    {"remover", "stir"},
    {"revolver", "stir"},
    {"colar", "strain"},
    {"doble colado", "double strain"},
    {"colar doble", "double strain"},
    {"colar fino", "fine strain"},
    {"directo en vaso", "build"},
    {"agitare", "shake"},
    {"mescolare", "stir"},
    {"filtrare", "strain"},
});

/// Words before a thing, words behind it, and what the language says before it.
struct StepFrame {
  std::string_view before, behind, english;
};
constexpr auto frames = std::to_array<StepFrame>({
    {"mit ", " auffüllen", "top with "},
    {"mit ", " aufgiessen", "top with "},
    {"auffüllen mit ", "", "top with "},
    {"aufgiessen mit ", "", "top with "},
    {"compléter avec ", "", "top with "},
    {"compléter de ", "", "top with "},
    {"compléter au ", "", "top with "},
    {"compléter d'", "", "top with "},
    {"allonger de ", "", "top with "},
    {"completar con ", "", "top with "},
    {"rellenar con ", "", "top with "},
    {"colmare con ", "", "top with "},
    {"mit ", " garnieren", "garnish "},
    {"garnieren mit ", "", "garnish "},
    {"décorer avec ", "", "garnish "},
    {"décorer d'", "", "garnish "},
    {"garnir de ", "", "garnish "},
    {"decorar con ", "", "garnish "},
    {"adornar con ", "", "garnish "},
    {"guarnire con ", "", "garnish "},
    {"filtrer dans ", "", "strain into "},
    {"filtrer deux fois dans ", "", "double strain into "},
    {"double filtrer dans ", "", "double strain into "},
    {"colar en ", "", "strain into "},
    {"colar doble en ", "", "double strain into "},
    {"directo en ", "", "build in "},
    {"filtrare in ", "", "strain into "},
    {"versare in ", "", "pour into "},
    {"verser dans ", "", "pour into "},
    {"in ein ", " abseihen", "strain into "},
    {"in eine ", " abseihen", "strain into "},
});

template <typename Table>
std::string_view meant_by(const Table& table, const std::string& words) {
  auto found = std::find_if(table.begin(), table.end(), [&](const Meant& one) { return one.first == words; });
  return found == table.end() ? std::string_view() : found->second;
}

/// Where and on what something is done goes without saying, or is the ice.
constexpr auto circumstances = std::to_array<std::pair<std::string_view, std::string_view>>({
    {"im rührglas ", ""},
    {"im shaker ", ""},
    {"auf eis ", " with ice"},
    {"mit eis ", " with ice"},
    {" mit eis", " with ice"},
    {" auf eis", " with ice"},
    {" avec des glaçons", " with ice"},
    {" avec glaçons", " with ice"},
    {" sur glace", " with ice"},
    {" con hielo", " with ice"},
    {" con ghiaccio", " with ice"},
});

/// Takes them out of a step; what the language says of them behind it.
std::string take_circumstances(std::string& step) {
  std::string english;
  for (auto [words, meant] : circumstances)
    if (auto at = step.find(words); at != std::string::npos) {
      step.erase(at, words.size());
      if (english.empty()) english = meant;
    }
  return english;
}

}  // namespace

std::string_view english_thing(std::string_view words) {
  if (auto good = costing::english_good(words); !good.empty()) return good;
  std::string folded = costing::folded_plainly(words);
  for (std::size_t articles = 0; articles < 2; ++articles) {
    if (auto vessel = meant_by(vessels, folded); !vessel.empty()) return vessel;
    folded = costing::without_foreign_article(std::move(folded));
  }
  return {};
}

std::string_view english_unit(std::string_view word) {
  return meant_by(units, costing::folded_plainly(word));
}

std::string english_step(std::string_view clause) {
  std::string folded = costing::folded_plainly(clause);
  const std::string behind = take_circumstances(folded);
  if (auto step = meant_by(steps, folded); !step.empty()) return std::string(step) + behind;
  for (const auto& frame : frames) {
    if (!folded.starts_with(frame.before) || !folded.ends_with(frame.behind) ||
        folded.size() <= frame.before.size() + frame.behind.size())
      continue;
    auto thing = costing::without_foreign_article(
        folded.substr(frame.before.size(), folded.size() - frame.before.size() - frame.behind.size()));
    auto english = english_thing(thing);
    return std::string(frame.english) + (english.empty() ? thing : std::string(english));
  }
  return {};
}

}  // namespace gill::importer
