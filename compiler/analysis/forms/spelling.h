#pragma once
#include <optional>

#include "analysis/forms/reading.h"
#include "analysis/line_reader.h"

namespace gill::analysis {

/// The line with what a hurried hand writes spelled out, before anything is read of it: abbreviations (`w/`,
/// `til`, `dbl.`, `o/n`), marks that part a line (`;`, `//`, a full stop inside it), marks for words (`@`,
/// `15"`, `~10`), and letters and figures run together (`gin40ml`, `stir/strain`). Nothing where it has none
/// of them. Only what means one thing is spelled out.
std::optional<Reading> spelled_out(const syntax::LineView& line, const Context& context, bool in_prep);

}  // namespace gill::analysis
