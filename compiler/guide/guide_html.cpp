#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "guide/guide.h"
#include "render/html/page.h"

namespace gill::guide {

using namespace render::document;

namespace {

constexpr std::string_view index_path = "index";

const Frame& frame() {
  static const Frame standing = {
      "The guide to Gill",
      {},
      {"Every example on these pages is tried by the program. The bar, its drinks and its brands are "
       "invented.",
       "Nothing that Gill prints clears anything. Your local code and licensed practice decide."}};
  return standing;
}

/// Links between pages lead to their HTML.
std::string with_html_links(std::string text) {
  for (const auto& topic : topics()) {
    std::string from = "](" + topic.name + ".md)", to = "](" + topic.name + ".html)";
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
      text.replace(at, from.size(), to);
  }
  return text;
}

/// `2. Write one drink` as an anchor: `write-one-drink`.
std::string anchor_of(std::string_view heading) {
  std::string anchor;
  for (char c : base::lower_ascii(heading)) {
    if (c >= 'a' && c <= 'z')
      anchor += c;
    else if (!anchor.empty() && anchor.back() != '-')
      anchor += '-';
  }
  while (anchor.ends_with('-')) anchor.pop_back();
  return anchor.empty() ? "part" : anchor;
}

/// A page's text by its second-order headings, so that each is a section of the document.
std::vector<Block> blocks_of(std::string_view text) {
  std::vector<Block> blocks;
  std::string words, heading;
  auto finish = [&] {
    if (!base::trim(words).empty() || !heading.empty()) {
      Prose prose{with_html_links(words)};
      if (heading.empty())
        blocks.push_back(std::move(prose));
      else
        blocks.push_back(Section{anchor_of(heading), heading, {std::move(prose)}});
    }
    words.clear();
  };
  bool in_example = false;
  for (std::size_t begin = 0; begin < text.size();) {
    std::size_t end = std::min(text.find('\n', begin), text.size());
    auto line = text.substr(begin, end - begin);
    begin = end + 1;
    if (line.starts_with("```")) in_example = !in_example;
    if (!in_example && line.starts_with("## ")) {
      finish();
      heading = line.substr(3);
    } else if (in_example || !line.starts_with("# ")) {
      words.append(line).append("\n");
    }
  }
  finish();
  return blocks;
}

/// What CommonMark of strangers makes a link to a picture is the picture itself on a page of our own.
std::string with_pictures(std::string html) {
  constexpr std::string_view opening = "<p><a href=\"pictures/", closing = "</a></p>";
  for (auto at = html.find(opening); at != std::string::npos; at = html.find(opening, at + 1)) {
    auto name_end = html.find("\">", at), end = html.find(closing, at);
    if (name_end == std::string::npos || end == std::string::npos || end < name_end) break;
    auto name = html.substr(at + opening.size(), name_end - at - opening.size());
    auto words = html.substr(name_end + 2, end - name_end - 2);
    auto picture = base::text_of(guide_pictures(), name);
    if (picture.empty()) continue;
    html.replace(
        at, end + closing.size() - at,
        fmt::format("<figure class=\"screen\">\n{}<figcaption>{}</figcaption>\n</figure>", picture, words));
  }
  return html;
}

Page page_of(std::size_t index) {
  const auto& topic = topics()[index];
  Page page;
  page.path = topic.name;
  page.title = topic.title;
  page.kind = "guide";
  page.subtitle.link("Contents", std::string(index_path));
  if (index > 0) page.subtitle.plain(" · before: ").link(topics()[index - 1].title, topics()[index - 1].name);
  page.blocks = blocks_of(with_pending_marked(topic.text));
  if (index + 1 < topics().size()) {
    const auto& next = topics()[index + 1];
    page.subtitle.plain(" · next: ").link(next.title, next.name);
    page.blocks.push_back(Paragraph{Run("Next: ").link(next.title, next.name), Tone::lead});
  }
  return page;
}

Page contents() {
  Page page;
  page.path = index_path;
  page.title = "Contents";
  page.kind = "guide";
  page.subtitle.plain("How to write a bar down, page by page");
  List list{List::Kind::index, {}};
  for (const auto& topic : topics())
    list.items.push_back({Run().link(topic.title, topic.name).plain(" " + topic.about), {}});
  page.blocks.push_back(std::move(list));
  return page;
}

}  // namespace

std::vector<render::OutputFile> guide_as_html() {
  auto file = [](const Page& page) {
    return render::OutputFile{page.path + ".html", with_pictures(render::html::to_html_alone(page, frame()))};
  };
  std::vector<render::OutputFile> files = {file(contents())};
  for (std::size_t i = 0; i < topics().size(); ++i) files.push_back(file(page_of(i)));
  return files;
}

}  // namespace gill::guide
