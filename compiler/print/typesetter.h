#pragma once
#include <pango/pangocairo.h>

#include <memory>
#include <string>

#include "print/type.h"

namespace gill::print {

/// A paragraph that is set: it knows how much room it takes, in points.
struct ShapedText {
  std::shared_ptr<PangoLayout> layout;
  std::string words;
  double width = 0, height = 0;
  /// From the top to the base line of the first line.
  double base_line = 0;
  /// The smallest type in it.
  double min_size_pt = 0;
  int lines = 0;
  /// True where it did not go into its lines and ends in an ellipsis.
  bool is_cut = false;
  /// True where no installed face has one of its letters.
  bool lacks_letters = false;
};

/// How a paragraph is to stand.
struct Shaping {
  /// Lines are no longer than this, in points; 0 for one line as long as it comes.
  double width = 0;
  Side side = Side::start;
  /// It ends in an ellipsis after so many lines; 0 for no end.
  int max_lines = 0;
};

/// Sets paragraphs in the house's faces, other scripts in whatever face has them.
class Typesetter {
 public:
  Typesetter();
  ShapedText set(const StyledText& text, const Shaping& setting = {}) const;
  ShapedText set(const std::string& words, const TextStyle& style, const Shaping& setting = {}) const;

 private:
  struct Release {
    void operator()(void* object) const { g_object_unref(object); }
  };
  std::unique_ptr<PangoContext, Release> context_;
};

}  // namespace gill::print
