#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/any_of.h"
#include "base/text.h"
#include "lint/hazards.h"
#include "lint/rules.h"
#include "model/allergen_words.h"
#include "model/allergens.h"

namespace gill::lint {

namespace {

using analysis::StockKind;

constexpr std::pair<std::string_view, std::string_view> shown_by_words[] = {
#define SHOWN(code, words) {code, words},
#include "lint/allergen_words.def"
#undef SHOWN
};

/// The words of the allergen's line, and of its heading's: `nuts:almond` is shown by `almond` and by `nuts`.
bool tells(const std::string& folded_text, std::string_view code) {
  for (auto [shown, words] : shown_by_words) {
    if (shown != code && shown != model::heading_of(code)) continue;
    while (!words.empty()) {
      auto bar = words.find('|');
      if (has_words(folded_text, words.substr(0, bar))) return true;
      if (bar == std::string_view::npos) break;
      words.remove_prefix(bar + 1);
    }
  }
  // A word of the house's own, and a code that says its kind.
  auto colon = code.find(':');
  return has_words(folded_text, code.substr(colon == std::string_view::npos ? 0 : colon + 1));
}

/// What everybody expects of the kind.
bool kind_tells(StockKind kind, std::string_view code) {
  auto heading = model::heading_of(code);
  if (kind == StockKind::dairy) return heading == "milk";
  if (kind == StockKind::egg) return heading == "egg";
  if (kind == StockKind::beer) return heading == "cereals" || heading == "sulphites";
  return heading == "sulphites" &&
         base::is_any_of(kind, {StockKind::wine, StockKind::sparkling, StockKind::fortified_wine});
}

/// What a guest reads of the drink: its name, the line on the menu, tags.
std::string guest_words(const analysis::Drink& drink) {
  std::string words = drink.head.name + " " + drink.guest;
  for (const auto& tag : drink.tags) words += " " + tag;
  return base::fold_name(words);
}

}  // namespace

void hidden_allergen(const DrinkCase& drink, Reporter& report) {
  std::string guest = guest_words(drink.drink);
  std::vector<std::string> reported;
  for (const auto& entry : drink.facts.entries) {
    const auto& stock = drink.house.specs[entry.use.stock];
    std::string name = base::fold_name(entry.name + " " + stock.head.name);
    std::vector<std::string> hidden;
    for (const auto& code : drink.house.facts[entry.use.stock].allergens.present()) {
      if (kind_tells(stock.kind, code) || tells(name, code) || tells(guest, code)) continue;
      if (std::find(reported.begin(), reported.end(), code) != reported.end()) continue;
      hidden.push_back(code);
      reported.push_back(code);
    }
    if (hidden.empty()) continue;
    auto words = model::allergen_words(hidden);
    report.add(entry.role == model::Role::amount ? drink.span_of_amount(entry.index)
                                                 : drink.span_of_step(entry.index),
               fmt::format("`{}` holds {}, and neither its name nor the guest line says so", entry.name,
                           base::join_with_and(words)),
               fmt::format("Name it to the guest: `guest \"… Contains {}.\"`. Bars must tell guests of "
                           "allergens in most places (Regulation (EU) No "
                           "1169/2011, Article 44; FDA Food Code 2022, 3-602.12, from memory). Your local "
                           "code and a trained person decide.",
                           base::join_with_and(words)));
  }
}

}  // namespace gill::lint
