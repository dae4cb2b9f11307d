#include "diagnostics/render.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/json.h"
#include "base/text.h"

namespace gill::diagnostics {
namespace {

// The longest piece of a source line that is shown; a longer one is cut around the marker.
constexpr std::size_t widest_excerpt_bytes = 160;

struct Excerpt {
  std::string line;
  std::string marker;
};

std::string_view cut_at_code_points(std::string_view text) {
  while (!text.empty() && (static_cast<unsigned char>(text.front()) & 0xc0) == 0x80) text.remove_prefix(1);
  return text;
}

/// Bytes that a terminal should not get (control characters, broken UTF-8) are shown as `?`.
std::string printable(std::string_view text) {
  std::string result(text);
  for (auto bad = base::first_bad_byte(result); bad; bad = base::first_bad_byte(result)) result[*bad] = '?';
  std::replace(result.begin(), result.end(), '\t', ' ');
  return result;
}

Excerpt excerpt(const source::SourceFile& file, const source::Span& span) {
  std::size_t line = file.line_of(span.begin);
  std::string_view text = file.line_text(line);
  std::size_t offset = std::min<std::size_t>(span.begin - file.line_starts[line], text.size());
  std::size_t length = std::min<std::size_t>(span.end - span.begin, text.size() - offset);
  std::string_view before = text.substr(0, offset);
  std::string_view marked = text.substr(offset, length);
  std::string_view after = text.substr(offset + length);
  if (text.size() > widest_excerpt_bytes) {
    if (before.size() > 60) before = cut_at_code_points(before.substr(before.size() - 60));
    marked = marked.substr(0, 60);
    after = after.substr(0, 40);
  }
  std::string shown_before = printable(before), shown_marked = printable(marked);
  return Excerpt{shown_before + shown_marked + printable(after),
                 std::string(base::display_width(shown_before), ' ') +
                     std::string(std::max<std::size_t>(1, base::display_width(shown_marked)), '^')};
}

std::string_view colour_of(Severity severity) {
  switch (severity) {
    case Severity::error:
      return "\x1b[1;31m";
    case Severity::warning:
      return "\x1b[1;33m";
    case Severity::note:
      return "\x1b[1;36m";
  }
  return "";
}

std::string position(const source::SourceFile& file, const source::Span& span) {
  auto place = file.place_of(span);
  return fmt::format("{}:{}:{}", file.path, place.line, place.column);
}

void render_one(std::string& out, const Diagnostic& finding, const source::SourceSet& sources, bool colour) {
  const auto& file = sources[finding.span.file_id];
  std::string_view paint = colour ? colour_of(finding.severity) : "", plain = colour ? "\x1b[0m" : "";
  out += fmt::format("{}: {}{}:{} {} [{}]\n", position(file, finding.span), paint, name_of(finding.severity),
                     plain, finding.message, info(finding.rule).name);
  auto shown = excerpt(file, finding.span);
  out += fmt::format("  | {}\n  | {}{}{}\n", shown.line, paint, shown.marker, plain);
  for (const auto& related : finding.related)
    out += fmt::format("  {}: {}\n", position(sources[related.span.file_id], related.span), related.message);
  if (!finding.help.empty()) out += fmt::format("  {}\n", finding.help);
}

}  // namespace

std::string render_text(const std::vector<Diagnostic>& findings, const source::SourceSet& sources,
                        bool colour) {
  std::string out;
  for (const auto& finding : findings) render_one(out, finding, sources, colour);
  return out;
}

std::string render_json(const std::vector<Diagnostic>& findings, const source::SourceSet& sources) {
  auto list = base::Json::array();
  for (const auto& finding : findings) {
    const auto& file = sources[finding.span.file_id];
    auto place = file.place_of(finding.span);
    list.push_back(base::Json{{"rule", info(finding.rule).name},
                              {"severity", name_of(finding.severity)},
                              {"message", finding.message},
                              {"file", file.path},
                              {"line", place.line},
                              {"column", place.column},
                              {"length", place.length},
                              {"help", finding.help},
                              {"drink", base::text_or_null(finding.drink)}});
  }
  base::Json document{{"findings", list}};
  return base::json_text(std::move(document));
}

}  // namespace gill::diagnostics
