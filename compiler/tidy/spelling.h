#pragma once
#include <string>

#include "syntax/line_view.h"
#include "tidy/tidy.h"

namespace gill::tidy {

/// What a stretch of a line holds.
enum class Content : std::uint8_t {
  terms,  ///< amounts, names and signs of the language
  words   ///< the writer's own words: only white space is looked after
};

/// True where words may take another spelling.
inline bool is_spelled(Extent extent) { return extent == Extent::forms || extent == Extent::terms; }

/// The items [first, last) of a line as they are written properly: one space between words, numbers and units
/// in the language's spelling, signs with the space that they have. White space alone where no more may
/// change.
std::string spelled(const syntax::LineView& line, std::size_t first, std::size_t last, Content content,
                    Extent extent, const Terms& terms);

}  // namespace gill::tidy
