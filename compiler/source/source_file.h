#pragma once
#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "base/id.h"

namespace gill::source {

struct SourceFile;
using FileId = base::Id<SourceFile>;

/// A stretch of one file, in bytes, end not included.
struct Span {
  FileId file_id;
  std::uint32_t begin = 0;
  std::uint32_t end = 0;

  constexpr bool operator==(const Span&) const = default;
};

/// A place as a person counts: line and column from 1, columns and length in code points.
struct Place {
  std::size_t line = 1;
  std::size_t column = 1;
  std::size_t length = 0;
};

/// What a stretch of a reading was written as.
struct ReadFrom {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  Span origin;
};

/// One text with the offsets of its lines. A byte-order mark is not part of the text.
struct SourceFile {
  /// `path` is what messages show, relative to the house; `text` is the file's bytes, whatever they are.
  SourceFile(std::string path, std::string text, bool from_library);

  std::string path;
  std::string text;
  /// True for a file of the standard library.
  bool from_library;
  /// Byte offset of the first byte of every line.
  std::vector<std::uint32_t> line_starts;
  /// Of a reading (a line of the trade's own words written in the forms of the language): the line that was
  /// written, and which of its words stand where. Empty for a file.
  Span read_from;
  std::vector<ReadFrom> parts;

  /// The line (from 0) that holds the byte.
  std::size_t line_of(std::uint32_t offset) const;
  /// The text of a line (from 0) without its line end (LF or CRLF).
  std::string_view line_text(std::size_t line) const;
  /// Where a span begins, and how long it is up to the end of its first line.
  Place place_of(const Span& span) const;
};

/// All files of one run; ids stay valid while it lives.
class SourceSet {
 public:
  FileId add(std::string path, std::string text, bool from_library);
  /// Adds what a written line is read as.
  FileId add_reading(std::string text, const Span& written, std::vector<ReadFrom> parts);
  /// Another text in the place of a file, or of a reading, that is no more.
  void replace(FileId id, std::string path, std::string text);
  void replace_reading(FileId id, std::string text, const Span& written, std::vector<ReadFrom> parts);
  /// Where a reading was made from, for who moves lines.
  template <typename Move>
  void move_origin(FileId id, Move move) {
    auto& file = files_[id.index()];
    move(file.read_from);
    for (auto& part : file.parts) move(part.origin);
  }
  /// Where the span stands in what was written: itself, or the words (else the line) that a reading was made
  /// from.
  Span written(const Span& span) const;
  const SourceFile& operator[](FileId id) const { return files_[id.index()]; }
  std::size_t size() const { return files_.size(); }
  std::string_view text(const Span& span) const;

 private:
  std::deque<SourceFile> files_;
};

}  // namespace gill::source
