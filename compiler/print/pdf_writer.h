#pragma once
#include <cairo.h>

#include <memory>
#include <optional>
#include <string>

#include "print/paper.h"

namespace gill::print {

/// A PDF in memory, page by page. It holds no time and nothing of the machine, so that the same pages give
/// the same bytes.
class PdfWriter {
 public:
  PdfWriter(const std::string& title, const std::string& author);

  /// Begins a page and gives what is drawn with, in points from its top left corner.
  cairo_t* begin_page(const Paper& paper);
  void end_page();
  /// A line of the outline that leads to the page that was begun last.
  void add_to_outline(const std::string& words);

  /// The bytes; nothing where it could not be drawn.
  std::optional<std::string> finish();

 private:
  struct Release {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
    void operator()(cairo_t* context) const { cairo_destroy(context); }
  };
  std::string bytes_;
  std::unique_ptr<cairo_surface_t, Release> surface_;
  std::unique_ptr<cairo_t, Release> context_;
  int page_ = 0;
};

}  // namespace gill::print
