#include "print/card_head.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.h"

namespace gill::print {
namespace {

// Sizes of type on a card of A6 at scale 1, in points.
constexpr std::array<double, 4> title_pt = {22, 19.5, 17, 15};
constexpr std::array<double, 3> long_title_pt = {15, 12.5, 10.5};
constexpr double kind_pt = 8, first_pt = 10.5, allergen_pt = 11, tab_pt = 7;

// Millimetres on a card of A6.
constexpr double picture_wide_mm = 33;

}  // namespace

ShapedText CardHead::title() {
  for (double size : title_pt) {
    auto one_line = try_set(card_.name, serif(size * size_, true, inks::green));
    if (one_line.width > width_) continue;
    note(one_line);
    return one_line;
  }
  ShapedText smallest;
  for (double size : long_title_pt) {
    smallest = try_set(card_.name, serif(size * size_, true, inks::green), {width_, Side::start, 3});
    if (!smallest.is_cut) break;
  }
  note(smallest);
  return smallest;
}

PlacedParts CardHead::first() {
  PlacedParts head;
  auto& parts = head.parts;
  double y = -mm(1);
  auto name = title();
  y += name.height;
  parts.push_back(PlacedText{std::move(name), 0, -mm(1)});
  y = add_kind(parts, y);
  y += mm(1);
  parts.push_back(PlacedRule{0, y, width_, y, 1.2 * size_, inks::green, 0});
  y += mm(2);
  y = add_first_identities(parts, y);
  y = add_warnings(parts, y + mm(1.4));
  head.height = y + mm(1);
  return head;
}

double CardHead::add_kind(std::vector<Placed>& parts, double y) {
  StyledText kind;
  if (card_.is_draft) kind.push_back({"Draft: not approved", sans(kind_pt * size_, true)});
  if (!card_.kind.empty())
    kind.push_back({(kind.empty() ? "" : " · ") + card_.kind, sans(kind_pt * size_, false, inks::soft)});
  if (kind.empty()) return y;
  auto words = set(kind, {width_, Side::start, 2});
  double height = words.height;
  parts.push_back(PlacedText{std::move(words), 0, y});
  return y + height;
}

double CardHead::add_first_identities(std::vector<Placed>& parts, double top) {
  double picture_room = card_.picture.glass ? picture_wide_mm * size_ * points_per_mm : 0;
  double y = add_first_words(parts, top, width_ - picture_room);
  if (!card_.picture.glass) return y;
  double high_mm = std::max(fit_.picture_mm * size_, (y - top) / points_per_mm);
  auto picture = card_.picture;
  picture.parts.clear();
  // The scene has its own margins: for the mark of the line on the left, for ice above the rim.
  render::drawing::Room room{picture_wide_mm * size_ - 16, high_mm - 6, false};
  auto scene = std::make_shared<render::drawing::Scene>(render::drawing::draw_drink(picture, room).scene);
  double wide = scene->width_mm * points_per_mm, high = scene->height_mm * points_per_mm;
  parts.push_back(PlacedPicture{std::move(scene), width_ - wide, top, 1});
  return std::max(y, top + high);
}

double CardHead::add_first_words(std::vector<Placed>& parts, double top, double words_width) {
  // Three stand below their labels; more go beside them, which takes less height.
  constexpr std::size_t max_stacked = 3;
  bool stacked = card_.first.size() <= max_stacked;
  double left = stacked ? 0 : mm(12);
  double y = top;
  for (const auto& fact : card_.first) {
    auto label = set(fact.label, sans(label_pt * size_, false, inks::soft), {words_width, Side::start, 1});
    auto words = set(fact.words, sans(first_pt * type_, true), {words_width - left, Side::start, 4});
    double words_top = stacked ? y + label.height - mm(0.3) : y;
    double label_top = stacked ? y : y + words.base_line - label.base_line;
    parts.push_back(PlacedText{std::move(label), 0, label_top});
    y = words_top + words.height + mm(stacked ? 1 : 0.6);
    parts.push_back(PlacedText{std::move(words), left, words_top});
  }
  return y;
}

std::vector<CardHead::Warning> CardHead::warnings() const {
  const auto& allergens = card_.allergens;
  std::vector<Warning> all;
  if (!allergens.present.empty())
    all.push_back({Tab::filled, "Contains", base::join(allergens.present, ", ")});
  if (!allergens.possible.empty())
    all.push_back({Tab::framed, "May contain", base::join(allergens.possible, ", ")});
  if (!allergens.all_known) all.push_back({Tab::dashed, "Not known", not_known()});
  if (all.empty()) all.push_back({Tab::framed, "Allergens", "none declared"});
  bool in_full = shape_.has_back || fit_.with_cautions;
  if (!card_.take_care.empty())
    all.push_back({Tab::filled, "Take care", card_.take_care, in_full ? "" : "  in full in the book"});
  return all;
}

std::string CardHead::not_known() const {
  constexpr std::size_t max_names = 3;
  const auto& silent = card_.allergens.silent;
  if (silent.empty()) return card_.allergens.why_not_known + "; ask before you answer a guest";
  std::vector<std::string> names(
      silent.begin(), silent.begin() + static_cast<std::ptrdiff_t>(std::min(silent.size(), max_names)));
  if (silent.size() > max_names) names.push_back(fmt::format("{} more", silent.size() - max_names));
  return base::join_with_and(names) + ": read the label";
}

double CardHead::add_warnings(std::vector<Placed>& parts, double top) {
  auto all = warnings();
  double tab_width = 0, pad = mm(1);
  std::vector<ShapedText> labels;
  for (const auto& warning : all) {
    labels.push_back(set(warning.label,
                         sans(tab_pt * size_, true, warning.tab == Tab::filled ? inks::paper : inks::text)));
    tab_width = std::max(tab_width, labels.back().width + 2 * pad);
  }
  parts.push_back(PlacedRule{0, top, width_, top, 1.2 * size_, inks::text, 0});
  double y = top + mm(1);
  for (std::size_t i = 0; i < all.size(); ++i) {
    double size = allergen_pt * std::max(type_, size_ * 0.9);
    StyledText text = {{all[i].words, sans(size, true)}};
    if (!all[i].aside.empty())
      text.push_back({all[i].aside, sans(remark_pt * size_ * 0.9, false, inks::soft, true)});
    auto words = set(text, {width_ - tab_width - mm(1.8), Side::start, 5});
    double tab_height = labels[i].height + mm(0.5);
    // The label's letters stand on the line of the words.
    double tab_top = y + words.base_line - labels[i].base_line - mm(0.25);
    parts.push_back(tab(all[i].tab, tab_top, tab_width, tab_height));
    parts.push_back(PlacedText{labels[i], pad, tab_top + mm(0.25)});
    double height = words.height;
    parts.push_back(PlacedText{std::move(words), tab_width + mm(1.8), y});
    y += std::max(height, tab_height) + mm(0.5);
  }
  y += mm(0.5);
  parts.push_back(PlacedRule{0, y, width_, y, 1.2 * size_, inks::text, 0});
  return y;
}

PlacedPanel CardHead::tab(Tab kind, double top, double width, double height) const {
  double thick = 0.8 * size_;
  switch (kind) {
    case Tab::filled:
      return {0, top, width, height, inks::text, 0, inks::text, 0};
    case Tab::framed:
      return {thick / 2, top + thick / 2, width - thick, height - thick, {}, thick, inks::text, 0};
    case Tab::dashed:
      return {thick / 2, top + thick / 2, width - thick, height - thick, {}, thick, inks::text, 2 * size_};
  }
  return {};
}

PlacedParts CardHead::later(bool is_detail) {
  PlacedParts head;
  StyledText words = {{card_.name, serif(13 * size_, true, inks::green)},
                      {is_detail ? "" : ", continued", serif(10 * size_, false, inks::soft, true)}};
  auto name = set(words, {width_, Side::start, 3});
  double y = name.height;
  head.parts.push_back(PlacedText{std::move(name), 0, 0});
  y += mm(1);
  // What can hurt stands on every face; the back begins with it in full.
  if (is_detail)
    head.parts.push_back(PlacedRule{0, y, width_, y, 1.2 * size_, inks::green, 0});
  else
    y = add_warnings(head.parts, y);
  head.height = y + mm(1.5);
  return head;
}

}  // namespace gill::print
