#pragma once
#include "model/calibration.h"
#include "render/document/book_index.h"

namespace gill::render::document {

/// How this house's hands and ice differ from the usual, drawn and in figures. `table` is the file whose rows
/// some of the measurements are.
Page hands_page(const BookIndex& index, const model::Calibration& calibration, const std::string& table = {});

}  // namespace gill::render::document
