#include "importer/import_specs.h"

#include <fmt/format.h>

#include <algorithm>

#include "importer/plain_specs.h"
#include "importer/recipe_json.h"
#include "importer/spec_writer.h"

namespace gill::importer {
namespace {

/// What stands in a file, and what could not be read of it.
struct ReadFile {
  std::vector<OldSpec> specs;
  std::vector<base::RowProblem> unreadable;
  /// It is no text of plain lines, and holds no spec: all of it is kept as a comment.
  bool is_kept_whole = false;
};

bool is_utf16(std::string_view bytes) {
  return bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF");
}

ReadFile read_json(std::string_view bytes) {
  ReadFile file;
  if (!read_recipes(bytes, file.specs))
    file.unreadable.push_back({1, "This begins like JSON and is none; it is kept as a comment, whole."});
  return file;
}

ReadFile read_html(std::string_view bytes) {
  ReadFile file;
  for (const auto& script : json_scripts_of(bytes))
    if (!read_recipes(script.text, file.specs, script.line))
      file.unreadable.push_back(
          {script.line, "A script of JSON-LD in the page is no JSON; it was left out."});
  if (file.specs.empty())
    file.unreadable.push_back(
        {1, "The page holds no schema.org `Recipe`; copy its lines into a plain text file."});
  return file;
}

ReadFile read_plain(std::string_view bytes, const House& house, std::string_view numbers) {
  auto plain = plain_specs(bytes, house, numbers);
  ReadFile file{std::move(plain.specs), {}, false};
  if (numbers.empty() && !plain.bare_numbers.empty())
    file.unreadable.push_back(
        {plain.bare_numbers.front(),
         fmt::format("{} with a number and no unit, this first: `--numbers ml` or `--numbers oz` says what "
                     "they all mean.",
                     plain.bare_numbers.size() == 1
                         ? "One line stands here"
                         : fmt::format("{} lines stand here", plain.bare_numbers.size()))});
  return file;
}

ReadFile read_file(std::string_view bytes, const House& house, std::string_view numbers) {
  auto begins = bytes.find_first_not_of(" \t\r\n");
  char first = begins == std::string_view::npos ? ' ' : bytes[begins];
  if (first != '{' && first != '[' && first != '<') return read_plain(bytes, house, numbers);
  auto file = first == '<' ? read_html(bytes) : read_json(bytes);
  file.is_kept_whole = file.specs.empty();
  if (file.is_kept_whole && file.unreadable.empty())
    file.unreadable.push_back({1, "There is no object of `@type` `Recipe` in it; it is kept as a comment."});
  return file;
}

void write_as_comment(std::string_view bytes, SpecWriter& writer) {
  for (std::size_t at = 0; at < bytes.size();) {
    auto end = std::min(bytes.find('\n', at), bytes.size());
    writer.write_comment(bytes.substr(at, end - at));
    at = end + 1;
  }
}

}  // namespace

ImportedSpecs import_specs(std::string_view file_bytes, const std::string& file, const House& house,
                           const CheckText& check, std::string_view numbers) {
  std::string bytes = base::to_utf8(file_bytes);
  // Bytes that no text holds: a picture, a word processor's file, a spreadsheet.
  if (file_bytes.find('\0') != std::string_view::npos && !is_utf16(file_bytes))
    return {{}, {{1, "This is no text: save it as plain text (.txt) or CSV first, and bring that in."}}, 0};
  auto read = read_file(bytes, house, numbers);
  SpecWriter writer(house, file);
  for (const auto& spec : read.specs) writer.write(spec);
  if (read.is_kept_whole) write_as_comment(bytes, writer);
  writer.comment_out_errors(check);
  ImportedSpecs result{writer.text(), std::move(read.unreadable), read.specs.size()};
  result.findings.insert(result.findings.end(), writer.findings().begin(), writer.findings().end());
  std::stable_sort(result.findings.begin(), result.findings.end(),
                   [](const base::RowProblem& a, const base::RowProblem& b) { return a.line < b.line; });
  return result;
}

}  // namespace gill::importer
