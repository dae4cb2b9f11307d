#pragma once
#include "costing/costing.h"
#include "support/front_end.h"

/// What the fuzz targets share: a small house, so that names are found and a run stays quick.
namespace gill::fuzzing {

/// The library's units, ice and families with a few ingredients: not evaluated yet, ready for more files.
const testing::FrontEnd& pantry();

/// Bytes as text.
inline std::string text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

/// The pantry alone, evaluated: what readers of tables and old specs look names up in.
const costing::House& evaluated_pantry();

/// Ends the run where the words are not UTF-8, which every output is.
void require_utf8(const std::string& words);

}  // namespace gill::fuzzing
