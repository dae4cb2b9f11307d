#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/embedded_file.h"
#include "render/book/book.h"

/// The guide to the language: pages of CommonMark in `grammar/guide`, carried inside the program. Their order
/// is that of the links of the contents page, `README.md`.
namespace gill::guide {

/// Every page as it was written, the contents page among them, in the order of their paths.
const std::vector<base::EmbeddedFile>& guide_pages();

/// The pictures that pages show, as SVG, by their names (`editor-walk-1.svg`). tests/editor draws them.
const std::vector<base::EmbeddedFile>& guide_pictures();

/// One page of the guide.
struct Topic {
  /// What `gill guide` knows it by, and its file's name without the ending.
  std::string name;
  std::string title;
  /// What it is about, in half a line.
  std::string about;
  /// CommonMark, its heading included.
  std::string_view text;
};

/// A page's text with a line above each example that its fence marks `pending`: the program does not read it
/// yet, and whoever reads the page is told so.
std::string with_pending_marked(std::string_view text);

/// Every topic in the order of the contents.
const std::vector<Topic>& topics();

/// The topic that is meant by what somebody typed: its name in any case, or a word that one title alone has
/// (`units` for `amounts`). Nothing where there is none.
const Topic* find_topic(std::string_view typed);

/// Names and words of titles that may have been meant by one that no topic has.
std::vector<std::string> topics_like(std::string_view typed);

/// Every topic with what it is about, a line each.
std::string list_of_topics();

/// A page for a terminal, wrapped to `width` columns; `styled` adds terminal styles and changes no word.
std::string topic_as_text(const Topic& topic, std::size_t width, bool styled);

/// The whole guide as HTML: `index.html` and a file a topic, each complete in itself, its pictures inside.
std::vector<render::OutputFile> guide_as_html();

}  // namespace gill::guide
