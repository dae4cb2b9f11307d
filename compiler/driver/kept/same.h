#pragma once
#include "analysis/specs.h"
#include "analysis/specs_in_reach.h"

namespace gill::driver::kept {

// True where both say the same, wherever their lines stand.

bool says_the_same(const analysis::Stock& a, const analysis::Stock& b);
bool says_the_same(const analysis::Glass& a, const analysis::Glass& b);
bool says_the_same(const analysis::Ice& a, const analysis::Ice& b);
bool says_the_same(const analysis::Family& a, const analysis::Family& b);
bool says_the_same(const analysis::Drink& a, const analysis::Drink& b);
bool says_the_same(const analysis::PriceList& a, const analysis::PriceList& b);
bool says_the_same(const analysis::Menu& a, const analysis::Menu& b);

/// True where lines that name the one or the other read the same (`StockFace`).
bool have_the_same_face(const analysis::Stock& a, const analysis::Stock& b);
/// True where only the lines that say what they cost to buy may differ.
bool says_the_same_but_for_buys(const analysis::Stock& a, const analysis::Stock& b);
/// True where both cost the same to buy, in what their own lines say of it.
bool are_bought_alike(const analysis::Stock& a, const analysis::Stock& b);

}  // namespace gill::driver::kept
