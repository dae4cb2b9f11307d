// What changed on the menus.
#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <map>

#include "base/text.h"
#include "diff/compare_sheets.h"
#include "diff/matching.h"
#include "diff/menus.h"
#include "render/wording/numbers.h"

namespace gill::diff {
namespace {

struct Line {
  MenuLine line;
  Identity drink = no_identity;
  /// Section and drink: where it stands.
  std::string place;
};

std::string sells_of(const analysis::MenuEntry& entry) {
  static constexpr const char* days[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
  std::vector<std::string> parts;
  if (entry.sells) parts.push_back(render::wording::trimmed(*entry.sells, 2));
  for (std::size_t day = 0; day < entry.sells_on.size(); ++day)
    if (entry.sells_on[day])
      parts.push_back(fmt::format("{} {}", days[day], render::wording::trimmed(*entry.sells_on[day], 2)));
  return base::join(parts, ", ");
}

std::vector<Line> lines_of(const analysis::Menu& menu, const Snapshot& snapshot, const Identities& same) {
  std::vector<Line> lines;
  for (const auto& section : menu.sections) {
    std::size_t position = 0;
    for (const auto& entry : section.entries) {
      ++position;
      if (!entry.drink.valid()) continue;
      Line line;
      line.line = {snapshot.specs[entry.drink].head.name,
                   section.name,
                   position,
                   entry.printed_price(),
                   entry.sold_by,
                   sells_of(entry)};
      line.drink = same.drinks[entry.drink.index()];
      line.place = fmt::format("{}\n{}", base::fold_name(section.name), line.drink);
      lines.push_back(std::move(line));
    }
  }
  return lines;
}

bool same_price(const std::optional<units::Money>& a, const std::optional<units::Money>& b) {
  if (a.has_value() != b.has_value()) return false;
  return !a || (a->amount == b->amount && a->currency == b->currency);
}

class MenuPairing {
 public:
  MenuPairing(std::vector<Line> before, std::vector<Line> after)
      : before_(std::move(before)),
        after_(std::move(after)),
        partner_(after_.size()),
        taken_(before_.size()) {}

  std::vector<MenuLineChange> pair() {
    pair(&Line::place);
    pair_by_drink();
    auto stays = staying();
    std::vector<MenuLineChange> changes;
    for (std::size_t j = 0; j < after_.size(); ++j) {
      MenuLineChange change;
      change.drink = after_[j].line.drink;
      change.after = after_[j].line;
      if (partner_[j]) {
        change.before = before_[*partner_[j]].line;
        change.moved = !stays[j];
        change.price_changed = !same_price(change.before->price, change.after->price) ||
                               change.before->sold_by != change.after->sold_by;
        change.sells_changed = change.before->sells != change.after->sells;
        if (!change.moved && !change.price_changed && !change.sells_changed) continue;
      }
      changes.push_back(std::move(change));
    }
    for (std::size_t i = 0; i < before_.size(); ++i)
      if (!taken_[i])
        changes.push_back({before_[i].line.drink, before_[i].line, std::nullopt, false, false, false});
    return changes;
  }

 private:
  void take(std::size_t i, std::size_t j) {
    taken_[i] = true;
    partner_[j] = i;
  }

  void pair(std::string Line::*key) {
    std::map<std::string, std::deque<std::size_t>> free;
    for (std::size_t i = 0; i < before_.size(); ++i) free[before_[i].*key].push_back(i);
    for (std::size_t j = 0; j < after_.size(); ++j) {
      auto found = free.find(after_[j].*key);
      if (found == free.end() || found->second.empty()) continue;
      take(found->second.front(), j);
      found->second.pop_front();
    }
  }

  void pair_by_drink() {
    std::map<Identity, std::deque<std::size_t>> free;
    for (std::size_t i = 0; i < before_.size(); ++i)
      if (!taken_[i]) free[before_[i].drink].push_back(i);
    for (std::size_t j = 0; j < after_.size(); ++j) {
      auto found = free.find(after_[j].drink);
      if (partner_[j] || found == free.end() || found->second.empty()) continue;
      take(found->second.front(), j);
      found->second.pop_front();
    }
  }

  /// Lines that stand in the order in which they stood, others having come and gone between them.
  std::vector<bool> staying() const {
    std::vector<std::string_view> old_places, new_places;
    std::vector<std::size_t> new_index;
    for (std::size_t i = 0; i < before_.size(); ++i)
      if (taken_[i]) old_places.push_back(before_[i].place);
    for (std::size_t j = 0; j < after_.size(); ++j)
      if (partner_[j]) new_places.push_back(after_[j].place), new_index.push_back(j);
    std::vector<bool> stays(after_.size());
    for (auto [i, j] : common_sequence(old_places, new_places)) stays[new_index[j]] = true;
    return stays;
  }

  std::vector<Line> before_, after_;
  std::vector<std::optional<std::size_t>> partner_;
  std::vector<bool> taken_;
};

std::vector<Property> properties_of(const analysis::Menu& menu) {
  std::vector<Property> properties;
  auto add = [&](const char* name, const std::string& words) {
    if (!words.empty())
      properties.push_back({name, base::collapse_space(words), words, Property::Reach::none});
  };
  if (!menu.runs_from.empty() || !menu.runs_to.empty())
    add("runs", fmt::format("{} .. {}", menu.runs_from, menu.runs_to));
  add("text", menu.head.text);
  return properties;
}

}  // namespace

std::vector<MenuChange> compare_menus(const Snapshot& before, const Snapshot& after,
                                      const Matching& matching) {
  std::map<std::string, std::pair<const analysis::Menu*, const analysis::Menu*>> menus;
  for (const auto& [name, index] : by_folded_name(before.specs.menus))
    menus[name].first = &before.specs.menus[index];
  for (const auto& [name, index] : by_folded_name(after.specs.menus))
    menus[name].second = &after.specs.menus[index];
  std::vector<MenuChange> changes;
  for (const auto& [name, pair] : menus) {
    auto [old, now] = pair;
    MenuChange change;
    change.kind = !old ? Kind::added : !now ? Kind::removed : Kind::changed;
    change.name = now ? now->head.name : old->head.name;
    change.properties = compare_properties(old ? properties_of(*old) : std::vector<Property>{},
                                           now ? properties_of(*now) : std::vector<Property>{});
    change.lines = MenuPairing(old ? lines_of(*old, before, matching.before) : std::vector<Line>{},
                               now ? lines_of(*now, after, matching.after) : std::vector<Line>{})
                       .pair();
    if (change.kind != Kind::changed || !change.properties.empty() || !change.lines.empty())
      changes.push_back(std::move(change));
  }
  return changes;
}

}  // namespace gill::diff
