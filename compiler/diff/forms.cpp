#include "diff/forms.h"

#include <fmt/format.h>

#include "diff/style_sheets.h"
#include "diff/terminal.h"
#include "render/html/book_files.h"
#include "render/html/escape.h"
#include "render/html/page.h"
#include "render/markdown/page.h"

namespace gill::diff {

using render::document::Frame;
using render::document::Page;

namespace {

/// The page's content without the frame of a book, which is not there.
std::string content_of(const std::string& html) {
  auto begin = html.find("<main");
  auto end = html.rfind("</main>");
  if (begin == std::string::npos || end == std::string::npos) return html;
  return html.substr(begin, end - begin) + "</main>\n";
}

}  // namespace

std::string to_text(const Page& page, bool colour) { return to_terminal(page, standing_lines(), colour); }

std::string to_markdown(const Page& page) {
  Frame frame;
  frame.foot = standing_lines();
  return render::markdown::to_markdown(page, frame).text;
}

std::string to_html(const Page& page, const std::string& house) {
  Frame frame;
  frame.house = house;
  std::string out = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "{}<meta name=\"color-scheme\" content=\"light dark\">\n<title>{} · {}</title>\n<style>\n",
      render::html::policy_of_one_file(), render::html::escape(page.title), render::html::escape(house));
  out += base::text_of(render::html::book_files(), "book.css");
  out += "\n";
  out += base::text_of(style_sheets(), "changes.css");
  out += fmt::format("</style>\n</head>\n<body class=\"page-{}\">\n", render::html::escape(page.kind));
  out += content_of(render::html::to_html(page, frame));
  out += "<footer>\n";
  for (const auto& line : standing_lines()) out += fmt::format("<p>{}</p>\n", render::html::escape(line));
  out += "</footer>\n</body>\n</html>\n";
  return out;
}

}  // namespace gill::diff
