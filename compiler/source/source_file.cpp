#include "source/source_file.h"

#include <algorithm>

#include "base/text.h"

namespace gill::source {

SourceFile::SourceFile(std::string path_, std::string text_, bool from_library_)
    : path(std::move(path_)), text(std::move(text_)), from_library(from_library_) {
  if (text.starts_with("\xef\xbb\xbf")) text.erase(0, 3);
  line_starts.push_back(0);
  for (std::size_t at = text.find('\n'); at != std::string::npos; at = text.find('\n', at + 1))
    if (at + 1 < text.size()) line_starts.push_back(static_cast<std::uint32_t>(at + 1));
}

std::size_t SourceFile::line_of(std::uint32_t offset) const {
  auto after = std::upper_bound(line_starts.begin(), line_starts.end(), offset);
  return static_cast<std::size_t>(after - line_starts.begin()) - 1;
}

std::string_view SourceFile::line_text(std::size_t line) const {
  std::size_t begin = line_starts[line];
  std::size_t end = line + 1 < line_starts.size() ? line_starts[line + 1] : text.size();
  std::string_view content = std::string_view(text).substr(begin, end - begin);
  if (content.ends_with('\n')) content.remove_suffix(1);
  if (content.ends_with('\r')) content.remove_suffix(1);
  return content;
}

Place SourceFile::place_of(const Span& span) const {
  std::size_t line = line_of(span.begin);
  std::string_view content = line_text(line);
  std::size_t offset = std::min<std::size_t>(span.begin - line_starts[line], content.size());
  std::size_t length = std::min<std::size_t>(span.end - span.begin, content.size() - offset);
  // A broken byte starts no code point, and what is missing has no length: a marker is one wide all the same.
  return Place{line + 1, base::count_code_points(content.substr(0, offset)) + 1,
               std::max<std::size_t>(1, base::count_code_points(content.substr(offset, length)))};
}

FileId SourceSet::add(std::string path, std::string text, bool from_library) {
  files_.emplace_back(std::move(path), std::move(text), from_library);
  return FileId::at(files_.size() - 1);
}

std::string_view SourceSet::text(const Span& span) const {
  return std::string_view((*this)[span.file_id].text).substr(span.begin, span.end - span.begin);
}

FileId SourceSet::add_reading(std::string text, const Span& written, std::vector<ReadFrom> parts) {
  const auto& file = files_[written.file_id.index()];
  auto id = add(file.path, std::move(text), file.from_library);
  files_[id.index()].read_from = written;
  files_[id.index()].parts = std::move(parts);
  return id;
}

void SourceSet::replace(FileId id, std::string path, std::string text) {
  auto& file = files_[id.index()];
  file = SourceFile(std::move(path), std::move(text), file.from_library);
}

void SourceSet::replace_reading(FileId id, std::string text, const Span& written,
                                std::vector<ReadFrom> parts) {
  const auto& origin = files_[written.file_id.index()];
  SourceFile reading(origin.path, std::move(text), origin.from_library);
  reading.read_from = written;
  reading.parts = std::move(parts);
  files_[id.index()] = std::move(reading);
}

Span SourceSet::written(const Span& span) const {
  if (!span.file_id.valid()) return span;
  const auto& file = files_[span.file_id.index()];
  if (!file.read_from.file_id.valid()) return span;
  Span found = file.read_from;
  bool any = false;
  for (const auto& part : file.parts) {
    bool overlaps = part.begin < span.end && span.begin < part.end;
    bool covers = part.begin <= span.begin && span.end <= part.end;
    if (!overlaps && !covers) continue;
    // Words that stand as they were written, byte for byte, lead to those bytes alone.
    Span origin = part.origin;
    bool is_verbatim = part.end - part.begin == origin.end - origin.begin;
    if (is_verbatim && span.begin > part.begin) origin.begin += std::min(span.begin, part.end) - part.begin;
    if (is_verbatim && span.end < part.end) origin.end -= part.end - std::max(span.end, part.begin);
    if (!any) found = origin;
    found.begin = std::min(found.begin, origin.begin);
    found.end = std::max(found.end, origin.end);
    any = true;
  }
  return written(found);
}

}  // namespace gill::source
