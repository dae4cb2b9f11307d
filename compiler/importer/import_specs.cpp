#include "importer/import_specs.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "base/file_kind.h"
#include "base/text.h"
#include "importer/phrase_reader.h"
#include "importer/phrasebook.h"
#include "importer/plain_specs.h"
#include "importer/recipe_json.h"
#include "importer/spec_kind.h"
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

/// Why a file is no text of specs, and what to do; empty where it may be one.
std::string why_refused(std::string_view bytes) {
  if (auto kind = base::no_text_kind(bytes); !kind.empty())
    return fmt::format(
        "This is {}, no plain text: open it in the program that wrote it, save it as plain "
        "text (.txt), and bring that in.",
        kind);
  if (base::trim(base::to_utf8(bytes)).empty()) return "The file is empty: there is no spec in it.";
  return {};
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

/// The bracket is JSON's where an object, a list or a text follows, or nothing at all: `[ ] 60 ml gin` is a
/// list to tick off, `[12.10.26, 18:05] Bea:` a message.
bool begins_json(std::string_view bytes, std::size_t at) {
  auto behind = bytes.find_first_not_of(" \t\r\n", at + 1);
  if (behind == std::string_view::npos) return true;
  if (bytes[at] == '{') return bytes[behind] != '|';
  const bool is_empty_list =
      bytes[behind] == ']' && bytes.find_first_not_of(" \t\r\n", behind + 1) == std::string_view::npos;
  return is_empty_list || std::string_view("{[\"").find(bytes[behind]) != std::string_view::npos;
}

ReadFile read_file(std::string_view bytes, PhraseReader& reader) {
  auto begins = bytes.find_first_not_of(" \t\r\n");
  char first = begins == std::string_view::npos ? ' ' : bytes[begins];
  const bool is_json = (first == '{' || first == '[') && begins_json(bytes, begins);
  if (!is_json && first != '<') return {plain_specs(bytes, reader), {}, false};
  auto file = first == '<' ? read_html(bytes) : read_json(bytes);
  for (auto& spec : file.specs) spec.is_prep = is_prep_by_its_name(spec, reader);
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

std::string lines_in(std::size_t count) {
  return count == 1 ? std::string("1 line") : fmt::format("{} lines", count);
}

/// One question for all numbers without a unit.
void ask_for_unit(const std::set<std::size_t>& lines, std::vector<base::RowProblem>& findings) {
  if (lines.empty()) return;
  findings.push_back(
      {*lines.begin(),
       fmt::format(
           "{} with a number and no unit{}: `--numbers ml` or `--numbers oz` says what {}.",
           lines.size() == 1 ? "A line stands here" : fmt::format("{} lines stand here", lines.size()),
           lines.size() == 1 ? "" : ", this first", lines.size() == 1 ? "it means" : "they all mean")});
}

/// One question for each word with several meanings.
void ask_for_meanings(const SpecWriter& writer, const PhraseReader& reader,
                      std::vector<base::RowProblem>& findings) {
  for (const auto& [word, lines] : writer.asked()) {
    std::vector<std::string> answers;
    for (const auto& answer : reader.answers_to(word)) answers.push_back("`" + answer + "`");
    findings.push_back(
        {*lines.begin(),
         fmt::format(
             "`{0}` can mean several things{1}: write {2}, or answer once for all lines in your house "
             "declaration: `mean {0} = {3}`.",
             word, lines.size() == 1 ? "" : fmt::format(", here and in {} more", lines_in(lines.size() - 1)),
             base::join_with_or(answers), reader.answers_to(word).front())});
  }
}

/// Reads and writes once, as far as the phrasebook knows its words by now.
ImportedSpecs bring_in(std::string_view bytes, const std::string& file, PhraseReader& reader,
                       std::string_view numbers, const CheckText* check) {
  auto read = read_file(bytes, reader);
  SpecWriter writer(reader, file);
  for (const auto& spec : read.specs) writer.write(spec);
  if (read.is_kept_whole) write_as_comment(bytes, writer);
  if (check) writer.comment_out_errors(*check);
  ImportedSpecs result{writer.text(), std::move(read.unreadable), read.specs.size()};
  result.findings.insert(result.findings.end(), writer.findings().begin(), writer.findings().end());
  if (numbers.empty()) ask_for_unit(writer.bare_numbers(), result.findings);
  ask_for_meanings(writer, reader, result.findings);
  std::stable_sort(result.findings.begin(), result.findings.end(),
                   [](const base::RowProblem& a, const base::RowProblem& b) { return a.line < b.line; });
  return result;
}

}  // namespace

ImportedSpecs import_specs(std::string_view file_bytes, const std::string& file, const House& house,
                           const CheckText& check, std::string_view numbers) {
  if (auto why = why_refused(file_bytes); !why.empty()) return {{}, {{1, std::move(why)}}, 0};
  const std::string bytes = base::to_utf8(file_bytes);
  Phrasebook phrases(check);
  PhraseReader reader(house, phrases, numbers);
  // Each reading learns which words it still has to ask about, until nothing is new.
  constexpr int max_rounds = 12;
  for (int round = 0; round < max_rounds; ++round) {
    bring_in(bytes, file, reader, numbers, nullptr);
    if (!phrases.ask()) break;
  }
  return bring_in(bytes, file, reader, numbers, &check);
}

}  // namespace gill::importer
