#include "render/html/page.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/drawing/svg.h"
#include "render/html/escape.h"
#include "render/prose/common_mark.h"

namespace gill::render::html {

using namespace document;

namespace {

/// The way from a page to the book's root: `../` for each folder.
std::string way_to_root(const std::string& path) {
  std::string way;
  for (auto slashes = std::count(path.begin(), path.end(), '/'); slashes > 0; --slashes) way += "../";
  return way;
}

std::string_view class_of(Align align) {
  switch (align) {
    case Align::start: return "";
    case Align::end: return " class=\"end\"";
    case Align::centre: return " class=\"centre\"";
  }
  return "";
}

std::string_view class_of(Notice::Role role) {
  switch (role) {
    case Notice::Role::allergens: return "allergens";
    case Notice::Role::caution: return "caution";
    case Notice::Role::error: return "error";
    case Notice::Role::note: return "note";
  }
  return "note";
}

std::string_view class_of(Tone tone) {
  switch (tone) {
    case Tone::normal: return "";
    case Tone::lead: return " class=\"lead\"";
    case Tone::small: return " class=\"small\"";
  }
  return "";
}

class PageWriter {
 public:
  PageWriter(const Page& page, const Frame& frame) : page_(page), frame_(frame), root_(way_to_root(page.path)) {}

  std::string run() {
    head();
    top();
    out_ += "<main id=\"content\">\n<header class=\"title\">\n";
    out_ += fmt::format("<h1>{}</h1>\n", escape(page_.title));
    if (!page_.subtitle.empty()) line("<p class=\"subtitle\">", page_.subtitle, "</p>\n");
    out_ += "</header>\n<div class=\"body\">\n";
    for (const auto& block : page_.blocks) write(block, 2);
    out_ += "</div>\n</main>\n";
    foot();
    // Search and the switch of units load here, after the content, once there are any.
    out_ += "</body>\n</html>\n";
    return std::move(out_);
  }

 private:
  void head() {
    out_ += fmt::format(
        "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<meta name=\"color-scheme\" content=\"light dark\">\n<title>{}</title>\n"
        "<link rel=\"stylesheet\" href=\"{}book.css\">\n</head>\n<body class=\"page-{}\">\n",
        escape(page_.language), escape(full_title()), root_, escape(page_.kind));
  }

  std::string full_title() const {
    return page_.title == frame_.house ? page_.title : page_.title + " · " + frame_.house;
  }

  void top() {
    out_ += "<a class=\"skip\" href=\"#content\">Skip to the content</a>\n<header class=\"top\">\n";
    out_ += fmt::format("<p class=\"house\"><a href=\"{}\">{}</a></p>\n<nav aria-label=\"Book\">\n<ul>\n",
                        address("index", {}), escape(frame_.house));
    for (const auto& link : frame_.navigation)
      out_ += fmt::format("<li><a href=\"{}\"{}>{}</a></li>\n", address(link.page, link.fragment),
                          link.page == page_.path && link.fragment.empty() ? " aria-current=\"page\"" : "", escape(link.text));
    out_ += "</ul>\n</nav>\n</header>\n";
  }

  void foot() {
    out_ += "<footer>\n";
    for (const auto& words : frame_.foot) out_ += fmt::format("<p>{}</p>\n", escape(words));
    out_ += "</footer>\n";
  }

  std::string address(const std::string& page, const std::string& fragment) const {
    std::string url = page.empty() ? std::string() : root_ + page + ".html";
    if (!fragment.empty()) url += "#" + fragment;
    return escape(url);
  }

  // ---- inside a line

  void line(std::string_view before, const Run& run, std::string_view after) {
    out_ += before;
    write(run);
    out_ += after;
  }

  void write(const Run& run) {
    for (const auto& part : run.parts) std::visit([&](const auto& one) { write(one); }, part);
  }

  void write(const Plain& part) { out_ += escape(part.text); }
  void write(const Strong& part) { out_ += "<strong>" + escape(part.text) + "</strong>"; }
  void write(const Emphasis& part) { out_ += "<em>" + escape(part.text) + "</em>"; }
  void write(const Link& part) {
    out_ += fmt::format("<a href=\"{}\">{}</a>", address(part.page, part.fragment), escape(part.text));
  }

  void write(const Number& part) {
    out_ += part.converted ? "<span class=\"number converted\">" : "<span class=\"number\">";
    out_ += with_fractions(part.number);
    if (!part.unit.empty()) out_ += " <span class=\"unit\">" + escape(part.unit) + "</span>";
    out_ += "</span>";
  }

  /// Puts `3/4` into a span of its own, so that it can be set as a fraction.
  static std::string with_fractions(const std::string& number) {
    auto slash = number.find('/');
    if (slash == std::string::npos) return escape(number);
    auto begin = number.find_last_not_of("0123456789", slash - 1);
    begin = begin == std::string::npos ? 0 : begin + 1;
    auto end = number.find_first_not_of("0123456789", slash + 1);
    if (end == std::string::npos) end = number.size();
    return escape(number.substr(0, begin)) + "<span class=\"fraction\">" + escape(number.substr(begin, end - begin)) +
           "</span>" + (end < number.size() ? with_fractions(number.substr(end)) : std::string());
  }

  // ---- blocks

  void write(const Block& block, int level) {
    std::visit([&](const auto& one) { write(one, level); }, block.content);
  }

  void write(const Paragraph& paragraph, int) {
    line(fmt::format("<p{}>", class_of(paragraph.tone)), paragraph.run, "</p>\n");
  }

  void write(const Prose& prose, int level) {
    out_ += "<div class=\"prose\">\n" + prose::to_html(prose.common_mark, std::min(level + 1, 6)) + "</div>\n";
  }

  void common_mark_below(const std::string& text) {
    if (!text.empty()) out_ += "\n<div class=\"prose\">\n" + prose::to_html(text, 4) + "</div>";
  }

  void write(const List& list, int) {
    bool numbered = list.kind == List::Kind::numbered;
    out_ += numbered ? "<ol>\n" : list.kind == List::Kind::index ? "<ul class=\"index\">\n" : "<ul>\n";
    for (const auto& item : list.items) {
      line("<li>", item.run, "");
      common_mark_below(item.common_mark);
      out_ += "</li>\n";
    }
    out_ += numbered ? "</ol>\n" : "</ul>\n";
  }

  void write(const FactList& facts, int) {
    out_ += facts.tone == Tone::lead ? "<dl class=\"facts lead\">\n" : "<dl class=\"facts\">\n";
    for (const auto& fact : facts.facts) {
      out_ += fmt::format("<div><dt>{}</dt>", escape(fact.term));
      for (const auto& value : fact.values) line("<dd>", value, "</dd>");
      out_ += "</div>\n";
    }
    out_ += "</dl>\n";
  }

  void write(const Table& table, int) {
    out_ += table.is_wide ? fmt::format("<div class=\"sideways\" role=\"region\" aria-label=\"{}\" tabindex=\"0\">\n",
                                        escape(table.caption))
                          : std::string();
    out_ += fmt::format("<table>\n<caption>{}</caption>\n<thead>\n<tr>", escape(table.caption));
    for (const auto& column : table.columns)
      out_ += fmt::format("<th scope=\"col\"{}>{}</th>", class_of(column.align), escape(column.title));
    out_ += "</tr>\n</thead>\n<tbody>\n";
    for (const auto& row : table.rows) write_row(table, row);
    out_ += "</tbody>\n</table>\n";
    if (table.is_wide) out_ += "</div>\n";
  }

  void write_row(const Table& table, const std::vector<Cell>& row) {
    out_ += "<tr>";
    std::size_t at = 0;
    for (const auto& cell : row) {
      auto align = at < table.columns.size() ? table.columns[at].align : Align::start;
      std::string tag = cell.is_header ? "th" : "td";
      out_ += fmt::format("<{}{}{}{}>", tag, cell.is_header ? " scope=\"row\"" : "",
                          cell.columns > 1 ? fmt::format(" colspan=\"{}\"", cell.columns) : std::string(), class_of(align));
      write(cell.run);
      common_mark_below(cell.common_mark);
      out_ += fmt::format("</{}>", tag);
      at += cell.columns;
    }
    out_ += "</tr>\n";
  }

  void write(const Notice& notice, int level) {
    out_ += fmt::format("<section class=\"notice {}\" aria-label=\"{}\">\n<p class=\"notice-title\">{}</p>\n",
                        class_of(notice.role), escape(notice.title), escape(notice.title));
    for (const auto& block : notice.blocks) write(block, level);
    out_ += "</section>\n";
  }

  void write(const Figure& figure, int) {
    out_ += "<figure>\n" + drawing::to_svg(figure.scene, drawing::SvgUse::on_page, fmt::format("picture-{}", ++pictures_));
    if (!figure.caption.empty()) line("<figcaption>", figure.caption, "</figcaption>\n");
    out_ += "</figure>\n";
  }

  void write(const Section& section, int level) {
    out_ += fmt::format("<section class=\"part {0}\" id=\"{0}\" aria-labelledby=\"{0}-title\">\n<h{1} id=\"{0}-title\">",
                        escape(section.name), level);
    write(section.title);
    out_ += fmt::format("</h{}>\n", level);
    for (const auto& block : section.blocks) write(block, std::min(level + 1, 6));
    out_ += "</section>\n";
  }

  void write(const Group& group, int level) {
    out_ += fmt::format("<div class=\"group {}\">\n", escape(group.name));
    for (const auto& block : group.blocks) write(block, level);
    out_ += "</div>\n";
  }

  const Page& page_;
  const Frame& frame_;
  std::string root_;
  std::string out_;
  int pictures_ = 0;
};

}  // namespace

std::string to_html(const Page& page, const Frame& frame) { return PageWriter(page, frame).run(); }

}  // namespace gill::render::html
