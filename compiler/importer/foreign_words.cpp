#include "importer/foreign_words.h"

#include <algorithm>
#include <array>

#include "base/text.h"

namespace gill::importer {
namespace {

using Meant = std::pair<std::string_view, std::string_view>;

// What cards in other languages call the things of the bar, folded (common practice, no source).
constexpr auto things = std::to_array<Meant>({
    // juices
    {"zitronensaft", "lemon juice"},
    {"limettensaft", "lime juice"},
    {"limonensaft", "lime juice"},
    {"orangensaft", "orange juice"},
    {"grapefruitsaft", "grapefruit juice"},
    {"ananassaft", "pineapple juice"},
    {"apfelsaft", "apple juice"},
    {"tomatensaft", "tomato juice"},
    {"jus de citron", "lemon juice"},
    {"jus de citron jaune", "lemon juice"},
    {"jus de citron vert", "lime juice"},
    {"jus d'orange", "orange juice"},
    {"jus de pamplemousse", "grapefruit juice"},
    {"jus d'ananas", "pineapple juice"},
    {"jus de pomme", "apple juice"},
    {"jus de tomate", "tomato juice"},
    {"zumo de limón", "lemon juice"},
    {"jugo de limón", "lemon juice"},
    {"zumo de lima", "lime juice"},
    {"jugo de lima", "lime juice"},
    {"zumo de naranja", "orange juice"},
    {"jugo de naranja", "orange juice"},
    {"zumo de pomelo", "grapefruit juice"},
    {"zumo de piña", "pineapple juice"},
    {"jugo de piña", "pineapple juice"},
    {"zumo de tomate", "tomato juice"},
    {"succo di limone", "lemon juice"},
    {"succo di lime", "lime juice"},
    {"succo d'arancia", "orange juice"},
    // sugar and syrups
    {"zuckersirup", "sugar syrup"},
    {"läuterzucker", "sugar syrup"},
    {"honigsirup", "honey syrup"},
    {"agavensirup", "agave syrup"},
    {"agavendicksaft", "agave syrup"},
    {"ahornsirup", "maple syrup"},
    {"holundersirup", "elderflower cordial"},
    {"mandelsirup", "orgeat"},
    {"honig", "honey"},
    {"zucker", "white sugar"},
    {"salz", "salt"},
    {"wasser", "water"},
    {"sirop de sucre", "sugar syrup"},
    {"sirop de canne", "sugar syrup"},
    {"sirop d'agave", "agave syrup"},
    {"sirop d'érable", "maple syrup"},
    {"sirop d'orgeat", "orgeat"},
    {"miel", "honey"},
    {"sucre", "white sugar"},
    {"sel", "salt"},
    {"eau", "water"},
    {"jarabe de azúcar", "sugar syrup"},
    {"jarabe simple", "simple syrup"},
    {"almíbar", "sugar syrup"},
    {"sirope de agave", "agave syrup"},
    {"azúcar", "white sugar"},
    {"sal", "salt"},
    {"agua", "water"},
    {"sciroppo di zucchero", "sugar syrup"},
    {"zucchero", "white sugar"},
    // eggs and dairy
    {"eiweiss", "egg white"},
    {"eigelb", "egg yolk"},
    {"ei", "whole egg"},
    {"sahne", "heavy cream"},
    {"milch", "whole milk"},
    {"blanc d'œuf", "egg white"},
    {"blanc d'oeuf", "egg white"},
    {"jaune d'œuf", "egg yolk"},
    {"lait", "whole milk"},
    {"clara de huevo", "egg white"},
    {"yema de huevo", "egg yolk"},
    {"leche", "whole milk"},
    {"albume", "egg white"},
    // drinks
    {"wodka", "vodka"},
    {"weisser rum", "white rum"},
    {"brauner rum", "brown rum"},
    {"trockener wermut", "dry vermouth"},
    {"roter wermut", "sweet vermouth"},
    {"wermut", "vermouth"},
    {"sodawasser", "soda water"},
    {"rum blanc", "white rum"},
    {"rhum blanc", "white rum"},
    {"rhum ambré", "aged rum"},
    {"rhum vieux", "aged rum"},
    {"rhum", "rum"},
    {"de bitter orange", "orange bitters"},
    {"vermouth rouge", "sweet vermouth"},
    {"vermouth sec", "dry vermouth"},
    {"eau gazeuse", "soda water"},
    {"eau pétillante", "soda water"},
    {"bière de gingembre", "ginger beer"},
    {"ron blanco", "white rum"},
    {"ron añejo", "aged rum"},
    {"ron", "rum"},
    {"ginebra", "gin"},
    {"vermut rojo", "sweet vermouth"},
    {"vermut seco", "dry vermouth"},
    {"vermut", "vermouth"},
    {"agua con gas", "soda water"},
    {"cerveza de jengibre", "ginger beer"},
    {"vino", "wine"},
    // what lies on it or is muddled
    {"ingwer", "ginger"},
    {"gingembre", "ginger"},
    {"jengibre", "ginger"},
    {"lima", "lime"},
    {"limas", "lime"},
    {"limón", "lemon"},
    {"citron", "lemon"},
    {"citron vert", "lime"},
    {"gurke", "cucumber"},
    {"zitronen", "lemon"},
    {"limetten", "lime"},
    {"zitrone", "lemon"},
    {"limette", "lime"},
    {"minze", "mint"},
    {"minzblätter", "mint leaves"},
    {"minzeblätter", "mint leaves"},
    {"minzzweig", "mint sprig"},
    {"zitronenzeste", "lemon peel"},
    {"orangenzeste", "orange peel"},
    {"zitronenscheibe", "lemon slice"},
    {"limettenscheibe", "lime slice"},
    {"orangenscheibe", "orange slice"},
    {"gurkenscheibe", "cucumber slice"},
    {"gurkenscheiben", "cucumber slices"},
    {"limettenachtel", "lime wedge"},
    {"limettenspalte", "lime wedge"},
    {"cocktailkirsche", "cherry"},
    {"muskatnuss", "nutmeg"},
    {"feuilles de menthe", "mint leaves"},
    {"brin de menthe", "mint sprig"},
    {"zeste de citron", "lemon peel"},
    {"zeste d'orange", "orange peel"},
    {"rondelle de citron", "lemon wheel"},
    {"rondelle de citron vert", "lime wheel"},
    {"tranche d'orange", "orange slice"},
    {"quartier de citron vert", "lime wedge"},
    {"hojas de menta", "mint leaves"},
    {"hojas de hierbabuena", "mint leaves"},
    {"ramita de menta", "mint sprig"},
    {"piel de limón", "lemon peel"},
    {"piel de naranja", "orange peel"},
    {"twist de limón", "lemon twist"},
    {"twist de naranja", "orange twist"},
    {"zeste de citron vert", "lime peel"},
    {"rodaja de lima", "lime slice"},
    {"rodaja de limón", "lemon slice"},
    {"rodaja de naranja", "orange slice"},
    {"gajo de lima", "lime wedge"},
    {"cáscara de naranja", "orange peel"},
    {"scorza di limone", "lemon peel"},
    {"scorza d'arancia", "orange peel"},
});

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

/// Folded, with the straight apostrophe.
std::string folded_plainly(std::string_view words) {
  std::string folded = base::collapse_space(base::fold_name(words));
  constexpr std::string_view curly = "’";
  for (auto at = folded.find(curly); at != std::string::npos; at = folded.find(curly))
    folded.replace(at, curly.size(), "'");
  return folded;
}

std::string without_foreign_article(std::string words) {
  for (std::string_view first : {"einem ", "einer ", "ein ", "eine ", "une ", "un ", "una ", "de l'", "d'un ",
                                 "d'une ", "du ", "la ", "le ", "el ", "d'", "de ", "di "})
    if (words.starts_with(first)) return words.substr(first.size());
  return words;
}

}  // namespace

std::string_view english_thing(std::string_view words) {
  std::string folded = folded_plainly(words);
  for (std::size_t articles = 0; articles < 2; ++articles) {
    for (auto found : {meant_by(things, folded), meant_by(vessels, folded)})
      if (!found.empty()) return found;
    folded = without_foreign_article(std::move(folded));
  }
  return {};
}

std::string_view english_unit(std::string_view word) { return meant_by(units, folded_plainly(word)); }

std::string english_step(std::string_view clause) {
  std::string folded = folded_plainly(clause);
  const std::string behind = take_circumstances(folded);
  if (auto step = meant_by(steps, folded); !step.empty()) return std::string(step) + behind;
  for (const auto& frame : frames) {
    if (!folded.starts_with(frame.before) || !folded.ends_with(frame.behind) ||
        folded.size() <= frame.before.size() + frame.behind.size())
      continue;
    auto thing = without_foreign_article(
        folded.substr(frame.before.size(), folded.size() - frame.before.size() - frame.behind.size()));
    auto english = english_thing(thing);
    return std::string(frame.english) + (english.empty() ? thing : std::string(english));
  }
  return {};
}

std::vector<Meant> foreign_things() { return {things.begin(), things.end()}; }

}  // namespace gill::importer
