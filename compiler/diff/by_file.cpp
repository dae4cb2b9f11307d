#include "diff/by_file.h"

#include <algorithm>
#include <map>

#include "base/text.h"

namespace gill::diff {
namespace {

using Paths = std::set<std::string>;

class Filing {
 public:
  Filing(const Changes& changes, const FiledSnapshot& before, const FiledSnapshot& after, const Paths& paths,
         const Paths& changed)
      : changes_(changes), before_(before), after_(after), paths_(paths), changed_(changed) {
    for (const auto& side : {before, after}) note_prices(side);
    note_causes(&analysis::Specs::stock, changes.preps);
    note_causes(&analysis::Specs::stock, changes.ingredients);
    note_causes(&analysis::Specs::glasses, changes.glasses);
    note_causes(&analysis::Specs::ices, changes.ices);
  }

  Changes keep() {
    Changes kept;
    kept.before_label = changes_.before_label;
    kept.before_menu = changes_.before_menu;
    kept.after_menu = changes_.after_menu;
    kept.brings_menu = changes_.brings_menu;
    kept.before_from = changes_.before_from;
    kept.after_from = changes_.after_from;
    kept.after_label = changes_.after_label;
    kept.house = changes_.house;
    kept.served = changes_.served;
    keep_of(&analysis::Specs::drinks, changes_.drinks, kept.drinks);
    keep_of(&analysis::Specs::stock, changes_.preps, kept.preps);
    keep_of(&analysis::Specs::stock, changes_.ingredients, kept.ingredients);
    keep_of(&analysis::Specs::glasses, changes_.glasses, kept.glasses);
    keep_of(&analysis::Specs::ices, changes_.ices, kept.ices);
    keep_of(&analysis::Specs::families, changes_.families, kept.families);
    for (const auto& menu : changes_.menus)
      if (is_here(named(&analysis::Specs::menus, menu.name))) kept.menus.push_back(menu);
    for (const auto& move : changes_.menu_moves)
      if (std::any_of(kept.menus.begin(), kept.menus.end(), [&](const MenuChange& menu) {
            return std::any_of(menu.lines.begin(), menu.lines.end(), [&](const MenuLineChange& line) {
              return base::fold_name(line.drink) == base::fold_name(move.sheet.name);
            });
          }))
        kept.menu_moves.push_back(move);
    if (is_here(of_house())) kept.house_lines = changes_.house_lines;
    for (const auto& one : changes_.not_compared) {
      auto paths = one.kind == "drink" ? named(&analysis::Specs::drinks, one.name)
                                       : named(&analysis::Specs::stock, one.name);
      if (is_here(paths)) kept.not_compared.push_back(one);
    }
    return kept;
  }

 private:
  static std::string path_of(const FiledSnapshot& side, const source::Span& span) {
    auto written = side.sources.written(span);
    return written.file_id.valid() ? side.sources[written.file_id].path : std::string();
  }

  /// A price list says what a bottle costs that is declared elsewhere.
  void note_prices(const FiledSnapshot& side) {
    for (const auto& list : side.snapshot.specs.price_lists) {
      auto path = path_of(side, list.head.name_span);
      if (!changed_.contains(path)) continue;
      for (const auto& price : list.prices)
        priced_in_[base::fold_name(side.snapshot.specs[price.use.stock].head.name)].insert(path);
    }
  }

  template <typename Declared>
  void note_causes(std::vector<Declared> analysis::Specs::*table, const std::vector<Change>& changes) {
    for (const auto& change : changes)
      if (change.is_own) causes_[change.name].merge(own_paths(table, change));
  }

  /// The files that declare it, of those that differ.
  template <typename Declared>
  Paths own_paths(std::vector<Declared> analysis::Specs::*table, const Change& change) const {
    Paths paths;
    auto add = [&](const FiledSnapshot& side, std::optional<std::size_t> index) {
      if (!index || *index >= (side.snapshot.specs.*table).size()) return;
      auto path = path_of(side, (side.snapshot.specs.*table)[*index].head.name_span);
      if (changed_.contains(path)) paths.insert(path);
    };
    add(before_, change.before_index);
    add(after_, change.after_index);
    if (auto priced = priced_in_.find(base::fold_name(change.name));
        paths.empty() && priced != priced_in_.end())
      paths = priced->second;
    return paths;
  }

  template <typename Declared>
  Paths named(std::vector<Declared> analysis::Specs::*table, const std::string& name) const {
    Paths paths;
    for (const auto& side : {before_, after_})
      for (const auto& declared : side.snapshot.specs.*table)
        if (base::fold_name(declared.head.name) == base::fold_name(name)) {
          auto path = path_of(side, declared.head.name_span);
          if (changed_.contains(path)) paths.insert(path);
        }
    return paths;
  }

  /// The files that declare the house, of those that differ.
  Paths of_house() const {
    Paths paths;
    for (const auto& side : {before_, after_}) {
      const auto& head = side.snapshot.specs.house.head;
      if (!head.declaration_id.valid()) continue;
      auto path = path_of(side, head.name_span);
      if (changed_.contains(path)) paths.insert(path);
    }
    return paths;
  }

  template <typename Declared>
  void keep_of(std::vector<Declared> analysis::Specs::*table, const std::vector<Change>& changes,
               std::vector<Change>& kept) const {
    for (const auto& change : changes) {
      Paths paths = own_paths(table, change);
      for (const auto& cause : change.because) {
        if (!paths.empty()) break;
        if (auto found = causes_.find(cause); found != causes_.end()) paths = found->second;
      }
      if (is_here(paths)) kept.push_back(change);
    }
  }

  /// Each change stands with the last of its files by name; what none of them is known to make, with the last
  /// of all.
  bool is_here(const Paths& of_change) const {
    const Paths& any = of_change.empty() ? changed_ : of_change;
    return any.empty() || paths_.contains(*any.rbegin());
  }

  const Changes& changes_;
  FiledSnapshot before_, after_;
  const Paths& paths_;
  const Paths& changed_;
  std::map<std::string, Paths> priced_in_, causes_;
};

}  // namespace

Changes changes_of_file(const Changes& changes, const FiledSnapshot& before, const FiledSnapshot& after,
                        const std::set<std::string>& paths, const std::set<std::string>& changed) {
  return Filing(changes, before, after, paths, changed).keep();
}

}  // namespace gill::diff
