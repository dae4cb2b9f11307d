#pragma once
#include <cstdint>
#include <vector>

#include "driver/kept/moves.h"
#include "syntax/tree.h"

namespace gill::driver::kept {

/// Tells whether two declarations have the same lines: comments, blank lines and white space around a line
/// count for nothing.
std::uint64_t key_of(const syntax::Declaration& declaration, const syntax::File& file,
                     const source::SourceFile& source);

/// The lines of a declaration that did not change go from where they were to where they are. False where all
/// of them are where they were.
bool move_lines(const syntax::Declaration& old, const syntax::File& old_file, const syntax::Declaration& now,
                const syntax::File& now_file, Moves& moves);

}  // namespace gill::driver::kept
