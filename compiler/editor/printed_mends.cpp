#include "editor/printed_mends.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "syntax/line_view.h"

namespace gill::editor {

using diagnostics::Diagnostic;
using diagnostics::Edit;
using diagnostics::Severity;

namespace {

/// The help from the first sentence on that tells to write something; empty where none does.
std::string_view told_to_write(std::string_view help) {
  static constexpr std::string_view openings[] = {
      "Write ", "Put ", "Add ", "Say ", "Did you mean ", "Was `", "Name it to the guest"};
  while (!help.empty()) {
    for (auto opening : openings)
      if (help.starts_with(opening)) return help;
    auto next = help.find(". ");
    help = next == std::string_view::npos ? std::string_view() : help.substr(next + 2);
  }
  return help;
}

/// What stands between backticks in the sentence with which it begins.
std::vector<std::string> printed_in(std::string_view help) {
  std::vector<std::string> printed;
  bool is_code = false;
  std::string code;
  for (std::size_t i = 0; i < help.size(); ++i) {
    if (help[i] == '`') {
      if (is_code) printed.push_back(std::exchange(code, {}));
      is_code = !is_code;
    } else if (is_code) {
      code += help[i];
    } else if (help[i] == '.' && (i + 1 == help.size() || help[i + 1] == ' ')) {
      break;
    }
  }
  return printed;
}

/// Where a finding's line stands, without its indent and its comment.
struct MarkedLine {
  source::Span words;
  std::uint32_t begin = 0, end = 0;  ///< with both; `end` is in front of the line's break
  std::string indent;
};

MarkedLine line_of(const HouseView& view, const syntax::File& file, source::Span span) {
  const auto& source = view.text(file);
  const auto index = line_at(source, span.begin);
  const auto& line = file.lines[index];
  MarkedLine marked{syntax::LineView(source, file, index).whole(), line.begin, line.end, {}};
  marked.indent = source.text.substr(line.begin, marked.words.begin - line.begin);
  // A header has none, and what is put below it has.
  if (marked.indent.empty() || !base::trim(marked.indent).empty()) marked.indent = "  ";
  return marked;
}

/// The measure of the amount that a finding marks; nothing where it marks none.
std::optional<source::Span> measure_at(const HouseView& view, DeclarationId id, source::Span span) {
  const auto* recipe = view.recipe(id);
  if (!recipe) return std::nullopt;
  for (const auto& amount : recipe->amounts)
    if (amount.span.file_id == span.file_id && amount.span.begin <= span.begin &&
        span.begin < amount.span.end &&
        view.house().sources.written(amount.quantity.span) == amount.quantity.span)
      return amount.quantity.span;
  return std::nullopt;
}

/// The ways in which one printed text may be meant.
void add_ways(const HouseView& view, DeclarationId id, PrintedMend& mend, const Diagnostic& finding,
              const MarkedLine& line, std::uint32_t end, const std::string& printed) {
  auto put = [&](source::Span span, std::string text) { mend.ways.push_back({span, std::move(text)}); };
  // `Was 2 oz meant?`
  if (told_to_write(finding.help).starts_with("Was ")) {
    if (auto measure = measure_at(view, id, finding.span)) put(*measure, printed);
    return;
  }
  if (finding.severity == Severity::error) {
    if (!(finding.span == line.words)) put(finding.span, printed);
    put(line.words, printed);
  }
  // `shake` becomes `shake 12 s`.
  auto first_word = [](std::string_view text) { return text.substr(0, text.find(' ')); };
  if (finding.severity != Severity::error &&
      first_word(view.house().sources.text(line.words)) == first_word(printed))
    put(line.words, printed);
  std::string whole = line.indent + printed;
  put({finding.span.file_id, line.end, line.end}, "\n" + whole);
  put({finding.span.file_id, line.begin, line.begin}, whole + "\n");
  put({finding.span.file_id, end, end}, "\n  " + printed);
}

constexpr std::string_view rest = "\"… ";

/// `guest "… Contains almond."`: the words are put behind those of the line of that keyword; where there is
/// none, they are its first.
void add_to_text(const HouseView& view, const syntax::File& file, const Holder& holder, PrintedMend& mend,
                 std::uint32_t end, const std::string& printed) {
  const auto keyword = printed.substr(0, printed.find(' '));
  const auto words = printed.substr(printed.find(rest) + rest.size());
  for (const auto& body : file.declarations[holder.declaration_index].body) {
    const syntax::LineView line(view.text(file), file, body.line);
    if (line.size() < 2 || line.text(0) != keyword) continue;
    if (auto last = line.text(line.size() - 1); !last.ends_with('"') || last.size() < 2) continue;
    auto quote = line.whole().end - 1;
    mend.ways.push_back({{file.file_id, quote, quote + 1}, " " + words});
    return;
  }
  mend.ways.push_back({{file.file_id, end, end}, fmt::format("\n  {} \"{}", keyword, words)});
}

bool says_to_choose(std::string_view help) {
  return help.find("` or `") != std::string_view::npos || help.find(", or `") != std::string_view::npos ||
         help.starts_with("Did you mean") || help.starts_with("Was ");
}

std::string key_of(const Diagnostic& finding) {
  return fmt::format("{} {} {}", static_cast<int>(finding.rule), finding.drink, finding.message);
}

std::vector<std::string> keys_of(const std::vector<Diagnostic>& findings, Severity severity) {
  std::vector<std::string> keys;
  for (const auto& finding : findings)
    if (finding.severity == severity) keys.push_back(key_of(finding));
  std::sort(keys.begin(), keys.end());
  return keys;
}

}  // namespace

std::vector<PrintedMend> printed_mends(const HouseView& view, const syntax::File& file, std::uint32_t begin,
                                       std::uint32_t end) {
  std::vector<PrintedMend> mends;
  const auto& findings = view.house().findings;
  for (std::size_t i = 0; i < findings.size(); ++i) {
    const auto& finding = findings[i];
    if (!(finding.span.file_id == file.file_id) || finding.span.begin > end || finding.span.end < begin)
      continue;
    auto holder = view.holder(file, finding.span.begin);
    if (finding.fix || !holder) continue;
    auto line = line_of(view, file, finding.span);
    auto last = view.extent(file, holder->declaration_index).end;
    auto help = told_to_write(finding.help);
    auto printed = printed_in(help);
    if (printed.size() > 1 && !says_to_choose(help)) printed = {base::join(printed, "\n" + line.indent)};
    for (const auto& text : printed) {
      PrintedMend mend{i, fmt::format("Write `{}`", base::collapse_space(text)), {}};
      if (text.find(rest) != std::string::npos) add_to_text(view, file, *holder, mend, last, text);
      // `…` elsewhere leaves words to the writer.
      else if (text.find("…") == std::string::npos)
        add_ways(view, holder->id, mend, finding, line, last, text);
      mends.push_back(std::move(mend));
    }
    if (finding.help.starts_with("Delete the line"))
      mends.push_back({i, "Delete the line", {{{file.file_id, line.begin, line.end}, {}}}});
  }
  return mends;
}

bool has_ended(const Diagnostic& finding, const std::vector<Diagnostic>& before,
               const std::vector<Diagnostic>& after) {
  auto count = [&](const std::vector<Diagnostic>& findings) {
    auto key = key_of(finding);
    return std::count_if(findings.begin(), findings.end(),
                         [&](const Diagnostic& one) { return key_of(one) == key; });
  };
  auto errors_before = keys_of(before, Severity::error), errors_after = keys_of(after, Severity::error);
  bool brings_none =
      std::includes(errors_before.begin(), errors_before.end(), errors_after.begin(), errors_after.end());
  auto warnings_before = keys_of(before, Severity::warning).size(),
       warnings_after = keys_of(after, Severity::warning).size();
  // What an error hid may show now.
  bool no_more_warnings = finding.severity == Severity::error || warnings_after <= warnings_before;
  return count(after) < count(before) && brings_none && no_more_warnings;
}

}  // namespace gill::editor
