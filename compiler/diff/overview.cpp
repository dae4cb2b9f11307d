#include "diff/overview.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "base/text.h"
#include "diff/menu_section.h"
#include "diff/page_parts.h"
#include "diff/words.h"
#include "model/money.h"
#include "render/wording/numbers.h"
#include "units/money.h"

namespace gill::diff {

namespace {

/// A thing in place of another comes in about as much. Common practice, no source.
constexpr double max_swap_ratio = 1.6;
/// More reasons than this are not told in one line.
constexpr std::size_t max_reasons = 3;

const FigureChange* price_of(const Change& change) {
  for (const auto& figure : change.figures)
    if (figure.after.figure == &figures::price && figure.before.value && figure.after.value &&
        is_same_money(figure.before, figure.after) && shows(figure))
      return &figure;
  return nullptr;
}

long long step_of(const FigureChange& price) { return price_step(*price.after.value - *price.before.value); }

/// What hands or eyes meet, or what is said of it.
bool says_otherwise(const Change& change) {
  return !change.method.empty() || !change.properties.empty() ||
         std::any_of(change.pours.begin(), change.pours.end(),
                     [](const PourChange& pour) { return !pour.follows || reads_differently(pour); });
}

/// A prep that is steeped for longer shows in no figure, and in the mouth.
bool tastes_otherwise(const Change& change) {
  return change.allergens.any() || !change.taste_because.empty() ||
         std::any_of(change.figures.begin(), change.figures.end(), [](const FigureChange& figure) {
           return shows(figure) && !figure.after.figure->is_money &&
                  figure.after.figure != &figures::pour_cost_percent;
         });
}

std::string status_of(const std::optional<Property>& status) { return status ? status->words : "approved"; }

double amount_of(const Pour& pour) {
  return pour.mass_g.value_or(pour.volume_ml.value_or(pour.count.value_or(0)));
}

bool may_swap(const PourChange& gone, const PourChange& come) {
  const auto &before = *gone.before, &after = *come.after;
  if (before.role != after.role) return false;
  double a = amount_of(before), b = amount_of(after);
  if (a <= 0 || b <= 0) return before.amount == after.amount;
  return std::max(a, b) <= max_swap_ratio * std::min(a, b);
}

void add_pours(const Change& change, std::vector<std::string>& reasons) {
  auto swaps = swaps_of(change);
  for (const auto& [gone, come] : swaps)
    reasons.push_back(fmt::format("{} in place of {}", come->after->name, gone->before->name));
  for (const auto& pour : change.pours) {
    if (is_in(swaps, pour) || (pour.follows && !reads_differently(pour))) continue;
    if (!pour.before)
      reasons.push_back("with " + pour.after->name);
    else if (!pour.after)
      reasons.push_back("without " + pour.before->name);
    else if (pour.before->first_amount != pour.after->first_amount)
      reasons.push_back(
          fmt::format("{} {} → {}", pour.after->name, pour.before->first_amount, pour.after->first_amount));
    else
      reasons.push_back(pour.after->name + " otherwise");
  }
}

/// Those that move alike together, where there are enough of them; the rest one by one.
std::vector<GoodsMove> goods_moves(const std::vector<Change>& ingredients) {
  std::map<double, GoodsMove> alike;
  for (const auto& change : ingredients)
    if (auto percent = price_move(change)) {
      alike[*percent].percent = *percent;
      alike[*percent].goods.push_back(&change);
    }
  std::vector<GoodsMove> moves;
  for (auto& [percent, move] : alike) {
    if (move.goods.size() >= min_uniform_prices) {
      moves.push_back(std::move(move));
      continue;
    }
    for (const auto* one : move.goods) moves.push_back({percent, {one}});
  }
  std::stable_sort(moves.begin(), moves.end(),
                   [](const GoodsMove& a, const GoodsMove& b) { return a.goods.size() > b.goods.size(); });
  return moves;
}

}  // namespace

bool is_withdrawn(const Change& change) {
  for (const auto& property : change.properties)
    if (property.name == "status")
      return status_of(property.before) == "approved" && status_of(property.after) != "approved";
  return false;
}

std::string withdrawn_words(const Change& change) {
  for (const auto& property : change.properties)
    if (property.name == "status" && status_of(property.after) == "draft") return "a draft again";
  return "retired";
}

bool is_in(const std::vector<Swap>& swaps, const PourChange& pour) {
  return std::any_of(swaps.begin(), swaps.end(),
                     [&](const Swap& swap) { return swap.first == &pour || swap.second == &pour; });
}

std::vector<Swap> swaps_of(const Change& change) {
  std::vector<Swap> swaps;
  std::vector<const PourChange*> come;
  for (const auto& pour : change.pours)
    if (!pour.before) come.push_back(&pour);
  for (const auto& gone : change.pours) {
    if (gone.after) continue;
    // The same amount before another one.
    auto found = std::find_if(come.begin(), come.end(), [&](const PourChange* one) {
      return may_swap(gone, *one) && gone.before->amount == one->after->amount;
    });
    if (found == come.end())
      found =
          std::find_if(come.begin(), come.end(), [&](const PourChange* one) { return may_swap(gone, *one); });
    if (found == come.end()) continue;
    swaps.emplace_back(&gone, *found);
    come.erase(found);
  }
  return swaps;
}

std::string why_of(const Change& change) {
  std::vector<std::string> reasons;
  add_pours(change, reasons);
  for (const auto& property : change.properties)
    // What is poured or laid on otherwise is said already.
    if (is_row(property.name) &&
        (reasons.empty() || (property.name != "batched" && property.name != "garnish")))
      reasons.push_back(fmt::format("{} {}", property.name,
                                    property.after ? property.after->words : std::string("left out")));
  if (!change.method.empty()) reasons.emplace_back("another method");
  if (reasons.empty())
    for (const auto& property : change.properties) reasons.push_back("another " + property.name);
  if (reasons.empty() && !change.because.empty()) reasons.push_back(because_words(change));
  if (reasons.size() > max_reasons) {
    std::size_t more = reasons.size() - max_reasons;
    reasons.resize(max_reasons);
    reasons.push_back(fmt::format("{} more", more));
  }
  return base::join(reasons, "; ");
}

long long price_step(double difference) { return std::llround(difference * 1e4); }
double difference_of_step(long long step) { return static_cast<double>(step) / 1e4; }

std::string difference_words(const UniformPrice& price) {
  return fmt::format("{} {}",
                     units::price_text({model::decimal_of(std::abs(price.difference)), price.currency}),
                     price.difference < 0 ? "less" : "more");
}

std::optional<double> price_move(const Change& change) {
  if (change.kind != Kind::changed || !change.pours.empty() || !change.method.empty() ||
      change.allergens.any())
    return std::nullopt;
  for (const auto& property : change.properties)
    if ((property.after ? property.after : property.before)->reach != Property::Reach::cost)
      return std::nullopt;
  if (change.figures.size() != 1 || !is_cost(change.figures[0].after.figure)) return std::nullopt;
  const auto &before = change.figures[0].before, &after = change.figures[0].after;
  if (!before.value || !after.value || *before.value <= 0 || !is_same_money(before, after))
    return std::nullopt;
  return std::round((*after.value / *before.value - 1) * 1000) / 10;
}

std::string move_words(const GoodsMove& move) {
  std::string percent = fmt::format("{} % {}", render::wording::trimmed(std::abs(move.percent), 1),
                                    move.percent < 0 ? "less" : "more");
  return move.goods.size() < min_uniform_prices ? fmt::format("{} {}", move.goods[0]->name, percent)
                                                : fmt::format("{} for {} goods", percent, move.goods.size());
}

bool Overview::is_uniform(const FigureChange& figure) const {
  return uniform_price && figure.after.figure == &figures::price && figure.before.value &&
         figure.after.value && figure.after.currency == uniform_price->currency &&
         is_same_money(figure.before, figure.after) &&
         step_of(figure) == price_step(uniform_price->difference);
}

namespace {

/// True where the figures of the drink tell the price that moves on that menu.
bool is_told_by_figures(const Changes& changes, const std::string& drink, const std::string& menu) {
  return std::any_of(changes.drinks.begin(), changes.drinks.end(), [&](const Change& change) {
    return change.name == drink && price_of(change) &&
           (change.either().price_menu.empty() || change.either().price_menu == menu);
  });
}

void add_menu_prices(const Changes& changes, Overview& overview) {
  for (const auto& menu : changes.menus)
    for (const auto& line : menu.lines)
      if (line.price_changed && line.before && line.after && line.before->price && line.after->price &&
          !is_told_by_figures(changes, line.drink, menu.name))
        overview.menu_prices.emplace_back(&menu, &line);
}

/// A menu that stays, or that comes beside the others: one that takes another's place is the season's.
bool stands_beside_others(const Changes& changes, const MenuChange& menu) {
  const bool one_is_gone = std::any_of(changes.menus.begin(), changes.menus.end(),
                                       [](const MenuChange& other) { return other.kind == Kind::removed; });
  return menu.kind == Kind::changed ||
         (menu.kind == Kind::added && !one_is_gone && !changes.before_menu.empty());
}

void add_further_menus(const Changes& changes, Overview& overview) {
  std::set<std::string> told;
  for (const auto* list : {&overview.fresh, &overview.gone})
    for (const auto* change : *list) told.insert(change->name);
  for (const auto* list : {&overview.on_menu, &overview.off_menu})
    for (const auto* move : *list) told.insert(move->sheet.name);
  for (const auto& menu : changes.menus)
    for (const auto& line : menu.lines)
      if (line.before.has_value() != line.after.has_value() && !told.contains(line.drink) &&
          stands_beside_others(changes, menu))
        overview.further_menus.emplace_back(&menu, &line);
}

}  // namespace

std::string further_menu_words(const MenuChange& menu, const MenuLineChange& line) {
  if (!line.after) return fmt::format("{} off {}", line.drink, menu.name);
  return fmt::format("{} on {}{}", line.drink, menu.name,
                     line.after->price ? " at " + price_words(*line.after) : "");
}

Overview overview_of(const Changes& changes) {
  Overview overview;
  overview.goods = goods_moves(changes.ingredients);
  std::map<std::pair<std::string, long long>, std::size_t> moves;
  std::size_t prices = 0;
  for (const auto& move : changes.menu_moves)
    (move.is_on ? overview.on_menu : overview.off_menu).push_back(&move);
  auto moves_on_menu = [&](const Change& change) {
    return std::any_of(changes.menu_moves.begin(), changes.menu_moves.end(),
                       [&](const MenuMove& move) { return change.after_index == move.after_index; });
  };
  for (const auto& change : changes.drinks) {
    if (change.is_unserved) continue;
    if (change.kind == Kind::added) {
      overview.fresh.push_back(&change);
      continue;
    }
    if (change.kind == Kind::removed || is_withdrawn(change)) {
      overview.gone.push_back(&change);
      continue;
    }
    if (change.kind == Kind::renamed) overview.renamed.push_back(&change);
    if (says_otherwise(change))
      overview.recipes.push_back(&change);
    else if (tastes_otherwise(change))
      overview.tastes.push_back(&change);
    else if (change.kind != Kind::renamed && !moves_on_menu(change))
      overview.money_alone.push_back(&change);
    if (const auto* price = moves_on_menu(change) ? nullptr : price_of(change)) {
      ++prices;
      ++moves[{price->after.currency, step_of(*price)}];
    }
  }
  for (const auto& [move, count] : moves)
    if (count >= min_uniform_prices && 2 * count >= prices &&
        (!overview.uniform_price || count > overview.uniform_price->count))
      overview.uniform_price = {difference_of_step(move.second), move.first, count};
  for (const auto& change : changes.drinks)
    if (const auto* price = change.is_unserved || change.kind == Kind::added ||
                                    change.kind == Kind::removed || is_withdrawn(change) ||
                                    moves_on_menu(change)
                                ? nullptr
                                : price_of(change);
        price && !overview.is_uniform(*price))
      overview.other_prices.push_back(&change);
  add_menu_prices(changes, overview);
  add_further_menus(changes, overview);
  return overview;
}

}  // namespace gill::diff
