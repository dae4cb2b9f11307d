#include "diff/build_rows.h"

#include <fmt/format.h>

#include <algorithm>

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
  BuildRows(const Change& change, bool all) : change_(change), all_(all) {}

  std::vector<std::vector<Cell>> build() {
    if (all_ && change_.after)
      for (const auto& pour : change_.after->pours) {
        const PourChange* own = change_of(pour);
        if (own)
          add(*own);
        else if (!is_garnish(pour.role))
          add_same(pour);
      }
    for (const auto& pour : change_.pours)
      if (!all_ || !pour.after) add(pour);
    add_properties();
    return std::move(rows_);
  }

 private:
  const PourChange* change_of(const Pour& pour) const {
    for (const auto& change : change_.pours)
      if (change.after && change.after->same_place_as(pour) && change.after->amount == pour.amount)
        return &change;
    return nullptr;
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
  std::vector<std::vector<Cell>> rows_;
};

}  // namespace

std::vector<std::vector<Cell>> build_rows(const Change& change, bool all) {
  return BuildRows(change, all).build();
}

}  // namespace gill::diff
