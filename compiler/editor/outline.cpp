#include "editor/outline.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/text.h"
#include "editor/words.h"
#include "syntax/line_view.h"

namespace gill::editor {

using symbols::DeclarationKind;
using syntax::LineKind;

namespace {

std::string detail_of(const HouseView& view, DeclarationId id) {
  const auto& house = view.house();
  const auto& declaration = house.names[id];
  std::vector<std::string> words;
  if (auto drink = view.drink(id); drink && house.specs[*drink].family.valid())
    words.push_back(house.specs[house.specs[*drink].family].head.name);
  if (auto stock = view.stock(id); stock && house.specs[*stock].kind != analysis::StockKind::unstated)
    words.push_back(std::string(analysis::name_of(house.specs[*stock].kind)));
  if (declaration.like.valid()) words.push_back("like " + house.names[declaration.like].name);
  return base::join(words, ", ");
}

bool is_section_line(const syntax::LineView& line) { return line.size() > 1 && line.is_word(0, "section"); }

/// The sections of a menu, each to the line before the next.
std::vector<OutlineEntry> sections_of(const HouseView& view, const syntax::File& file,
                                      const syntax::Declaration& declaration, const Span& whole) {
  std::vector<OutlineEntry> sections;
  for (const auto& body : declaration.body) {
    syntax::LineView line(view.text(file), file, body.line);
    if (is_section_line(line)) {
      auto name = line.span(1, line.size());
      sections.push_back({std::string(view.house().sources.text(name)),
                          {},
                          DeclarationKind::menu,
                          true,
                          {file.file_id, file.lines[body.line].begin, whole.end},
                          name});
    }
    if (!sections.empty()) sections.back().whole.end = file.lines[body.line].end;
  }
  return sections;
}

}  // namespace

std::vector<OutlineEntry> outline(const HouseView& view, const syntax::File& file) {
  std::vector<OutlineEntry> entries;
  for (std::size_t i = 0; i < file.declarations.size(); ++i) {
    auto id = view.declared(view.index_of(file), i);
    if (!id.valid()) continue;
    const auto& declaration = view.house().names[id];
    OutlineEntry entry{declaration.name,     detail_of(view, id),  declaration.kind, false,
                       view.extent(file, i), declaration.name_span};
    if (declaration.kind == DeclarationKind::menu)
      entry.inner = sections_of(view, file, file.declarations[i], entry.whole);
    entries.push_back(std::move(entry));
  }
  return entries;
}

std::vector<NamePlace> find_declarations(const HouseView& view, std::string_view query, std::size_t limit) {
  std::string wanted = base::fold_name(query);
  std::vector<std::pair<int, NamePlace>> found;
  for (const auto& place : view.names().all()) {
    if (!place.declares || view.house().names[place.declaration].from_library) continue;
    if (auto match = match_of(base::fold_name(view.house().sources.text(place.span)), wanted))
      found.emplace_back(*match, place);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<NamePlace> places;
  for (std::size_t i = 0; i < found.size() && i < limit; ++i) places.push_back(found[i].second);
  return places;
}

std::vector<Fold> folds(const HouseView& view, const syntax::File& file) {
  std::vector<Fold> result;
  const auto& source = view.text(file);
  auto add = [&](std::uint32_t first, std::uint32_t last, bool is_comment) {
    if (last > first) result.push_back({first, last, is_comment});
  };
  for (std::size_t i = 0; i < file.declarations.size(); ++i) {
    auto whole = view.extent(file, i);
    add(line_at(source, whole.begin), line_at(source, whole.end), false);
    for (const auto& section : sections_of(view, file, file.declarations[i], whole))
      add(line_at(source, section.whole.begin), line_at(source, section.whole.end), false);
  }
  for (std::uint32_t line = 0, last = 0; line < file.lines.size(); line = last + 1) {
    last = line;
    auto kind = file.lines[line].kind;
    if (kind != LineKind::comment && kind != LineKind::text) continue;
    while (last + 1 < file.lines.size() && file.lines[last + 1].kind == kind) ++last;
    add(line, last, true);
  }
  return result;
}

std::vector<WebLink> links(const HouseView& view, const syntax::File& file) {
  std::vector<WebLink> found;
  const std::string& text = view.text(file).text;
  for (std::string_view scheme : {"https://", "http://"})
    for (auto at = text.find(scheme); at != std::string::npos; at = text.find(scheme, at + 1)) {
      auto end = text.find_first_of(" \t\r\n\"<>|`", at);
      if (end == std::string::npos) end = text.size();
      // What ends a sentence is no part of an address.
      while (end > at && std::string_view(".,;:!?)").find(text[end - 1]) != std::string_view::npos) --end;
      if (end > at + scheme.size())
        found.push_back({{file.file_id, static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(end)},
                         text.substr(at, end - at)});
    }
  return found;
}

}  // namespace gill::editor
