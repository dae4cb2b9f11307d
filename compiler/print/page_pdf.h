#pragma once
#include <optional>
#include <string>

#include "render/document/document.h"

namespace gill::print {

/// A page of lists and tables as a sheet to print: A4, boxes to tick drawn, the titles of a table again on
/// each sheet that it runs on to. Nothing when the sheet cannot be drawn. The same page gives the same bytes
/// where the fonts are the same.
std::optional<std::string> page_pdf(const render::document::Page& page, const render::document::Frame& frame);

}  // namespace gill::print
