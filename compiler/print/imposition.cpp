#include "print/imposition.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "print/type.h"

namespace gill::print {
namespace {

// A card that is as large as its share of the sheet still counts: sizes are rounded to whole millimetres.
constexpr double rounding_mm = 0.6;
constexpr double mark_pt = 9, cross_pt = 3;

int times(double room_mm, double one_mm) {
  return static_cast<int>(std::floor((room_mm + rounding_mm) / one_mm));
}

std::vector<Slot> grid(const Paper& sheet, const Paper& place, bool turned) {
  int columns = times(sheet.width_mm, place.width_mm), rows = times(sheet.height_mm, place.height_mm);
  double left = (sheet.width_pt() - columns * place.width_pt()) / 2,
         top = (sheet.height_pt() - rows * place.height_pt()) / 2;
  std::vector<Slot> slots;
  for (int row = 0; row < rows; ++row)
    for (int column = 0; column < columns; ++column)
      slots.push_back({left + column * place.width_pt(), top + row * place.height_pt(), turned});
  return slots;
}

Paper place_of(const Slot& slot, const Paper& card) {
  return slot.turned ? Paper{card.height_mm, card.width_mm} : card;
}

void add_once(std::vector<double>& values, double value) {
  auto same = [&](double other) { return std::abs(other - value) < 0.05; };
  if (std::none_of(values.begin(), values.end(), same)) values.push_back(value);
}

void line(cairo_t* context, double x1, double y1, double x2, double y2) {
  cairo_move_to(context, x1, y1);
  cairo_line_to(context, x2, y2);
  cairo_stroke(context);
}

}  // namespace

std::vector<Slot> slots_on(const Paper& sheet, const Paper& card) {
  auto upright = grid(sheet, card, false), lying = grid(sheet, {card.height_mm, card.width_mm}, true);
  return lying.size() > upright.size() ? lying : upright;
}

std::vector<Slot> slots_on_back(const std::vector<Slot>& slots, const Paper& sheet, const Paper& card) {
  std::vector<Slot> back = slots;
  for (auto& slot : back) slot.left = sheet.width_pt() - slot.left - place_of(slot, card).width_pt();
  return back;
}

void enter(cairo_t* context, const Slot& slot, const Paper& card, bool is_back) {
  cairo_translate(context, slot.left, slot.top);
  if (!slot.turned) return;
  if (is_back) {
    cairo_translate(context, card.height_pt(), 0);
    cairo_rotate(context, std::numbers::pi / 2);
  } else {
    cairo_translate(context, 0, card.width_pt());
    cairo_rotate(context, -std::numbers::pi / 2);
  }
}

void draw_cut_marks(cairo_t* context, const std::vector<Slot>& slots, const Paper& sheet, const Paper& card) {
  std::vector<double> across, down;
  for (const auto& slot : slots) {
    Paper place = place_of(slot, card);
    for (double x : {slot.left, slot.left + place.width_pt()}) add_once(across, x);
    for (double y : {slot.top, slot.top + place.height_pt()}) add_once(down, y);
  }
  double wide = sheet.width_pt(), high = sheet.height_pt();
  cairo_set_source_rgb(context, inks::text.red, inks::text.green, inks::text.blue);
  cairo_set_dash(context, nullptr, 0, 0);
  cairo_set_line_width(context, 0.3);
  for (double x : across) {
    line(context, x, 0, x, mark_pt);
    line(context, x, high - mark_pt, x, high);
  }
  for (double y : down) {
    line(context, 0, y, mark_pt, y);
    line(context, wide - mark_pt, y, wide, y);
  }
  for (double x : across)
    for (double y : down) {
      line(context, x - cross_pt, y, x + cross_pt, y);
      line(context, x, y - cross_pt, x, y + cross_pt);
    }
}

}  // namespace gill::print
