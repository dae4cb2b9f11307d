#include "render/html/page.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "render/document/page_names.h"
#include "render/drawing/svg.h"
#include "render/html/book_files.h"
#include "render/html/escape.h"
#include "render/prose/common_mark.h"

namespace gill::render::html {

using namespace document;

namespace {

/// What a page may run and ask for, and where its forms lead; what none of ours has is forbidden to all.
std::string policy_meta(std::string_view run_and_asked, std::string_view forms) {
  return fmt::format(
      "<meta http-equiv=\"Content-Security-Policy\" content=\"{}; font-src 'none'; media-src 'none'; "
      "object-src "
      "'none'; frame-src 'none'; worker-src 'none'; base-uri 'none'; form-action {}\">\n",
      run_and_asked, forms);
}

/// Of a page of the book: the book's own script and style, from the server or the folder that it lies in.
std::string policy_of_book() {
  return policy_meta("script-src 'self' file:; connect-src 'self'; img-src 'self' file: data:",
                     "'self' file:");
}

std::string_view class_of(Align align) {
  switch (align) {
    case Align::start:
      return "";
    case Align::end:
      return " class=\"end\"";
    case Align::centre:
      return " class=\"centre\"";
  }
  return "";
}

std::string_view class_of(Notice::Role role) {
  switch (role) {
    case Notice::Role::allergens:
      return "allergens";
    case Notice::Role::caution:
      return "caution";
    case Notice::Role::error:
      return "error";
    case Notice::Role::note:
      return "note";
  }
  return "note";
}

std::string_view class_of(Tone tone) {
  switch (tone) {
    case Tone::normal:
      return "";
    case Tone::lead:
      return " class=\"lead\"";
    case Tone::small:
      return " class=\"small\"";
  }
  return "";
}

/// Without the script there is no search, and none is shown.
constexpr std::string_view search_form = R"html(<search class="find" hidden>
<label for="find-words">Find</label>
<input id="find-words" type="search" autocomplete="off" spellcheck="false" aria-describedby="find-count">
<div class="found" hidden>
<p id="find-count" role="status"></p>
</div>
</search>
)html";

class PageWriter {
 public:
  PageWriter(const Page& page, const Frame& frame, bool alone)
      : page_(page), frame_(frame), alone_(alone), root_(path_to_root(page.path)) {}

  std::string write() {
    head();
    top();
    out_ += "<main id=\"content\">\n<header class=\"title\">\n";
    out_ += fmt::format("<h1>{}</h1>\n", escape(page_.title));
    if (!page_.subtitle.empty()) line("<p class=\"subtitle\">", page_.subtitle, "</p>\n");
    out_ += "</header>\n";
    if (page_.finder) write(*page_.finder);
    out_ += "<div class=\"body\">\n";
    for (const auto& block : page_.blocks) write(block, 2);
    out_ += "</div>\n</main>\n";
    foot();
    out_ += "</body>\n</html>\n";
    return std::move(out_);
  }

 private:
  void head() {
    out_ += fmt::format(
        "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "{}<meta name=\"color-scheme\" content=\"light dark\">\n<title>{}</title>\n",
        escape(page_.language), alone_ ? policy_of_one_file() : policy_of_book(), escape(full_title()));
    out_ += alone_ ? "<style>\n" + std::string(base::text_of(book_files(), "book.css")) + "</style>\n"
                   : fmt::format(
                         "<link rel=\"stylesheet\" href=\"{0}book.css\">\n<script src=\"{0}book.js\" "
                         "defer></script>\n",
                         root_);
    if (!page_.linked_data.empty())
      out_ += "<script type=\"application/ld+json\">\n" + inside_script(page_.linked_data) + "\n</script>\n";
    out_ += fmt::format("</head>\n<body class=\"page-{}\">\n", escape(page_.kind));
  }

  /// JSON that cannot end the script element it stands in.
  static std::string inside_script(const std::string& json) {
    std::string text;
    for (char c : json) text += c == '<' ? std::string("\\u003c") : std::string(1, c);
    return text;
  }

  std::string full_title() const {
    return page_.title == frame_.house ? page_.title : page_.title + " · " + frame_.house;
  }

  void top() {
    if (alone_) {
      out_ +=
          fmt::format("<header class=\"top\">\n<p class=\"house\">{}</p>\n</header>\n", escape(frame_.house));
      return;
    }
    out_ += "<a class=\"skip\" href=\"#content\">Skip to the content</a>\n<header class=\"top\">\n";
    out_ += fmt::format("<p class=\"house\"><a href=\"{}\">{}</a></p>\n<nav aria-label=\"Book\">\n<ul>\n",
                        address("index", {}), escape(frame_.house));
    for (const auto& link : frame_.navigation)
      out_ += fmt::format("<li><a href=\"{}\"{}>{}</a></li>\n", address(link.page, link.fragment),
                          link.page == page_.path && link.fragment.empty() ? " aria-current=\"page\"" : "",
                          escape(link.text));
    out_ += "</ul>\n</nav>\n";
    out_ += search_form;
    out_ += "</header>\n";
  }

  void foot() {
    if (frame_.foot.empty()) return;
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
    for (const auto& part : run.parts) std::visit([&](const auto& inline_part) { write(inline_part); }, part);
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
    return escape(number.substr(0, begin)) + "<span class=\"fraction\">" +
           escape(number.substr(begin, end - begin)) + "</span>" +
           (end < number.size() ? with_fractions(number.substr(end)) : std::string());
  }

  // ---- blocks

  void write(const Block& block, int level) {
    std::visit([&](const auto& content) { write(content, level); }, block.content);
  }

  void write(const Paragraph& paragraph, int) {
    line(fmt::format("<p{}>", class_of(paragraph.tone)), paragraph.run, "</p>\n");
  }

  void write(const Prose& prose, int level) {
    out_ +=
        "<div class=\"prose\">\n" + prose::to_html(prose.common_mark, std::min(level + 1, 6)) + "</div>\n";
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

  // ---- what only the script makes work, and only the script shows

  void write(const Finder& finder) {
    out_ += "<section class=\"finder\" aria-label=\"Filters\" hidden>\n";
    choose("menu", "Menu", finder.menus);
    choose("family", "Family", finder.families);
    choose("base", "Base", finder.bases);
    choose("glass", "Glass", finder.glasses);
    if (!finder.allergens.empty()) {
      out_ +=
          "<details>\n<summary>Without a declared …</summary>\n<fieldset>\n<legend>Without a "
          "declared</legend>\n";
      for (const auto& choice : finder.allergens)
        out_ += fmt::format("<label><input type=\"checkbox\" value=\"{}\"> {}</label>\n",
                            escape(choice.value), escape(choice.words));
      out_ += "</fieldset>\n</details>\n";
    }
    out_ +=
        "<label><input type=\"checkbox\" name=\"free\" value=\"yes\"> Alcohol-free, as declared</label>\n"
        "<button type=\"button\">All drinks</button>\n</section>\n";
    out_ += fmt::format(
        "<section class=\"matches\" aria-labelledby=\"matches-title\" hidden>\n<h2 "
        "id=\"matches-title\">Matches</h2>\n"
        "<p class=\"count\" role=\"status\"></p>\n<p class=\"notice allergen-note\" "
        "hidden>{}</p>\n</section>\n",
        escape(finder.allergen_note));
  }

  void choose(std::string_view name, std::string_view title, const std::vector<Choice>& choices) {
    if (choices.empty()) return;
    out_ += fmt::format("<label>{} <select name=\"{}\"><option value=\"\">any</option>", title, name);
    for (const auto& choice : choices)
      out_ += fmt::format("<option value=\"{}\">{}</option>", escape(choice.value), escape(choice.words));
    out_ += "</select></label>\n";
  }

  void switches(const Table& table) {
    std::vector<std::string> units;
    for (const auto& column : table.columns)
      if (column.is_unit) units.push_back(column.title);
    if (table.scales.size() < 2 && units.size() < 2) return;
    ++switched_tables_;
    out_ += "<div class=\"switches\" hidden>\n";
    if (table.scales.size() > 1) radios("scale", "Amounts", table.scales, {});
    if (units.size() > 1) {
      std::vector<std::string> words = {base::join_with_and(units)}, values = {""};
      words.insert(words.end(), units.begin(), units.end());
      values.insert(values.end(), units.begin(), units.end());
      radios("unit", "Measures", words, values);
    }
    if (!table.scale_note.empty())
      out_ +=
          fmt::format("<p class=\"scale-note\" role=\"status\" hidden>{}</p>\n", escape(table.scale_note));
    out_ += "</div>\n";
  }

  void radios(std::string_view name, std::string_view title, const std::vector<std::string>& words,
              const std::vector<std::string>& values) {
    out_ += fmt::format("<fieldset data-switch=\"{}\">\n<legend>{}</legend>\n", name, title);
    for (std::size_t i = 0; i < words.size(); ++i)
      out_ += fmt::format("<label><input type=\"radio\" name=\"{}-{}\" value=\"{}\"{}>{}</label>\n", name,
                          switched_tables_, values.empty() ? fmt::format("{}", i) : escape(values[i]),
                          i == 0 ? " checked" : "", escape(words[i]));
    out_ += "</fieldset>\n";
  }

  void write(const Table& table, int) {
    out_ += table.is_wide ? fmt::format("<section class=\"sideways\" aria-label=\"{}\" tabindex=\"0\">\n",
                                        escape(table.caption))
                          : std::string();
    out_ += "<table>\n";
    if (!table.caption.empty()) out_ += fmt::format("<caption>{}</caption>\n", escape(table.caption));
    out_ += "<thead>\n<tr>";
    for (const auto& column : table.columns)
      out_ +=
          fmt::format("<th scope=\"col\"{}{}>{}</th>", class_of(column.align),
                      column.is_unit ? fmt::format(" data-unit=\"{}\"", escape(column.title)) : std::string(),
                      escape(column.title));
    out_ += "</tr>\n</thead>\n<tbody>\n";
    for (const auto& row : table.rows) write_row(table, row);
    out_ += "</tbody>\n</table>\n";
    if (table.is_wide) out_ += "</section>\n";
    switches(table);
  }

  void write_row(const Table& table, const std::vector<Cell>& row) {
    out_ += "<tr>";
    std::size_t at = 0;
    for (const auto& cell : row) {
      Column column = at < table.columns.size() ? table.columns[at] : Column{};
      std::string_view tag = cell.is_header ? "th" : "td";
      out_ += fmt::format("<{}{}{}{}>", tag, cell.is_header ? " scope=\"row\"" : "", columns_of(cell, column),
                          class_of(column.align));
      write_scales(cell);
      common_mark_below(cell.common_mark);
      out_ += fmt::format("</{}>", tag);
      at += cell.columns;
    }
    out_ += "</tr>\n";
  }

  /// The unit in whose column a cell stands, or how many columns it spans.
  static std::string columns_of(const Cell& cell, const Column& column) {
    if (cell.columns > 1)
      return fmt::format(" colspan=\"{}\"{}", cell.columns, column.is_unit ? " data-units" : "");
    return column.is_unit ? fmt::format(" data-unit=\"{}\"", escape(column.title)) : std::string();
  }

  /// What a cell says, at every scale of its table; the first is shown.
  void write_scales(const Cell& cell) {
    if (cell.scaled.empty()) return write(cell.run);
    line("<span data-scale=\"0\">", cell.run, "</span>");
    for (std::size_t i = 0; i < cell.scaled.size(); ++i)
      line(fmt::format("<span data-scale=\"{}\" hidden>", i + 1), cell.scaled[i], "</span>");
  }

  void write(const Notice& notice, int level) {
    out_ += fmt::format("<section class=\"notice {}\"{}>\n<p class=\"notice-title\">{}</p>\n",
                        class_of(notice.role), landmark(level, "aria-label", escape(notice.title)),
                        escape(notice.title));
    for (const auto& block : notice.blocks) write(block, level);
    out_ += "</section>\n";
  }

  /// Only the main parts of a page are landmarks: where many things are, nobody finds one.
  static std::string landmark(int level, std::string_view attribute, const std::string& label) {
    return level > 2 ? std::string() : fmt::format(" {}=\"{}\"", attribute, label);
  }

  void write(const Figure& figure, int) {
    out_ += "<figure>\n" + drawing::to_svg(figure.scene, drawing::SvgUse::on_page,
                                           fmt::format("picture-{}", ++pictures_), root_);
    if (!figure.caption.empty()) line("<figcaption>", figure.caption, "</figcaption>\n");
    out_ += "</figure>\n";
  }

  void write(const Section& section, int level) {
    out_ += fmt::format("<section class=\"part {0}\" id=\"{0}\"{2}>\n<h{1} id=\"{0}-title\">",
                        escape(section.name), level,
                        landmark(level, "aria-labelledby", escape(section.name) + "-title"));
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
  bool alone_;
  std::string root_;
  std::string out_;
  int pictures_ = 0;
  int switched_tables_ = 0;
};

}  // namespace

std::string policy_of_one_file() {
  return policy_meta("script-src 'none'; connect-src 'none'; img-src data:", "'none'");
}

std::string to_html(const Page& page, const Frame& frame) { return PageWriter(page, frame, false).write(); }

std::string to_html_alone(const Page& page, const Frame& frame) {
  return PageWriter(page, frame, true).write();
}

}  // namespace gill::render::html
