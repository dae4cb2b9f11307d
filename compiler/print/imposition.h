#pragma once
#include <cairo.h>

#include <vector>

#include "print/paper.h"

/// Several cards or labels on one sheet.
namespace gill::print {

/// A place on a sheet, in points; `turned` where what stands there lies on its side (a quarter turn to the
/// left).
struct Slot {
  double left = 0, top = 0;
  bool turned = false;
};

/// As many places of one size as go on a sheet in rows and columns that touch, in the middle of it, upright
/// or on their side. Empty where not even one goes on it.
std::vector<Slot> slots_on(const Paper& sheet, const Paper& card);

/// The same places as they are seen from the back of a sheet that was turned on its long edge.
std::vector<Slot> slots_on_back(const std::vector<Slot>& slots, const Paper& sheet, const Paper& card);

/// Puts the context into the place, so that the card is drawn from its own top left corner. `is_back` turns a
/// lying card the other way round, as it must lie to back the one in front.
void enter(cairo_t* context, const Slot& slot, const Paper& card, bool is_back);

/// Short lines at the edges of the sheet and crosses between, where the knife goes.
void draw_cut_marks(cairo_t* context, const std::vector<Slot>& slots, const Paper& sheet, const Paper& card);

}  // namespace gill::print
