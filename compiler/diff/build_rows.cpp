#include "diff/build_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "diff/overview.h"
#include "diff/page_parts.h"
#include "diff/words.h"
#include "render/wording/numbers.h"

namespace gill::diff {

using render::document::Cell;
namespace wording = render::wording;

namespace {

/// The rows of both builds next to each other: what came, went, changed and (where all is told) stayed.
class BuildRows {
 public:
  BuildRows(const Change& change, bool all) : change_(change), all_(all), swaps_(swaps_of(change)) {}

  std::vector<std::vector<Cell>> build() {
    if (!all_)
      for (const auto& [gone, come] : swaps_) add_swap(*gone, *come);
    if (all_ && change_.after)
      for (const auto& pour : change_.after->pours) {
        const PourChange* own = change_of(pour);
        if (const auto* swap = swap_into(own))
          add_swap(*swap->first, *swap->second);
        else if (own)
          add(*own);
        else if (!is_garnish(pour.role))
          add_same(pour);
      }
    for (const auto& pour : change_.pours)
      if ((!all_ || !pour.after) && !is_in(swaps_, pour)) add(pour);
    add_properties();
    return std::move(rows_);
  }

 private:
  const Swap* swap_into(const PourChange* come) const {
    for (const auto& swap : swaps_)
      if (come && swap.second == come) return &swap;
    return nullptr;
  }

  void add_swap(const PourChange& gone, const PourChange& come) {
    if (is_garnish(come.after->role)) return;
    rows_.push_back({header(fmt::format("{}, in place of {}", row_name(*come.after), gone.before->name)),
                     cell(words_of(*gone.before, nullptr, Columns::all)),
                     cell(words_of(*come.after, nullptr, Columns::all), true)});
  }

  const PourChange* change_of(const Pour& pour) const {
    for (const auto& change : change_.pours)
      if (change.after && change.after->same_place_as(pour) && change.after->amount == pour.amount)
        return &change;
    return nullptr;
  }

  /// What nobody can pour: less than a hundredth of the line.
  static bool is_petty(const PourChange& change) {
    constexpr double petty_share = 0.01;
    return change.before && change.after && change.before->volume_ml && change.after->volume_ml &&
           std::abs(*change.after->volume_ml - *change.before->volume_ml) <=
               petty_share * *change.before->volume_ml;
  }

  static std::string row_name(const Pour& pour) {
    auto role = words_of(pour.role);
    return role.empty() ? pour.name : fmt::format("{}, {}", pour.name, role);
  }

  static std::string side_words(const std::optional<Pour>& pour, const std::optional<Pour>& other) {
    return pour ? words_of(*pour, other ? &*other : nullptr, Columns::all) : nothing;
  }

  void add(const PourChange& change) {
    if (is_garnish(change.either().role)) return;
    std::string before = side_words(change.before, change.after),
                after = side_words(change.after, change.before);
    if (change.follows && before == after && is_petty(change)) return;
    if (change.follows && before == after && change.before->volume_ml && change.after->volume_ml) {
      auto measured = [](const Pour& pour) {
        return fmt::format(" ({} ml)", wording::trimmed(*pour.volume_ml, 2));
      };
      before += measured(*change.before);
      after += measured(*change.after);
    }
    rows_.push_back({header(row_name(change.either())), cell(before), cell(after, true)});
  }

  void add_same(const Pour& pour) {
    std::string words = words_of(pour, nullptr, Columns::all);
    rows_.push_back({header(row_name(pour)), cell(words), cell(words)});
  }

  void add_properties() {
    for (const auto& property : change_.properties)
      if (is_row(property.name))
        rows_.push_back({header(property.name), cell(property.before ? property.before->words : nothing),
                         cell(property.after ? property.after->words : nothing, true)});
    if (!all_ || !change_.before || !change_.after) return;
    for (const auto& property : change_.after->properties) {
      bool changed = std::any_of(change_.properties.begin(), change_.properties.end(),
                                 [&](const PropertyChange& one) { return one.name == property.name; });
      if (!changed && is_row(property.name))
        rows_.push_back({header(property.name), cell(property.words), cell(property.words)});
    }
  }

  const Change& change_;
  bool all_;
  const std::vector<Swap> swaps_;
  std::vector<std::vector<Cell>> rows_;
};

}  // namespace

std::vector<std::vector<Cell>> build_rows(const Change& change, bool all) {
  return BuildRows(change, all).build();
}

}  // namespace gill::diff
