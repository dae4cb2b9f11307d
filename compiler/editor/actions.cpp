#include "editor/actions.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/text.h"
#include "editor/rewrites.h"

namespace gill::editor {

using diagnostics::Diagnostic;
using diagnostics::Edit;
using diagnostics::Rule;
using ActionKind = Action::Kind;

namespace {

bool is_of_library(const HouseView& view, const Edit& edit) {
  return view.house().sources[edit.span.file_id].from_library;
}

std::string mend_title(const HouseView& view, const diagnostics::Fix& fix) {
  if (fix.edits.size() != 1) {
    std::vector<std::string> words;
    for (const auto& edit : fix.edits) words.push_back(fmt::format("`{}`", base::collapse_space(edit.text)));
    return "Write " + base::join_with_and(words);
  }
  const auto& edit = fix.edits.front();
  auto was = view.house().sources.text(edit.span);
  if (edit.text.empty()) return fmt::format("Take `{}` out", base::collapse_space(was));
  if (was.empty()) return fmt::format("Put in `{}`", base::collapse_space(edit.text));
  return fmt::format("Write `{}`", base::collapse_space(edit.text));
}

class ActionFinder {
 public:
  ActionFinder(const HouseView& view, const syntax::File& file, std::uint32_t begin, std::uint32_t end)
      : view_(view), file_(file), begin_(begin), end_(end) {}

  std::vector<Action> find() {
    const auto& findings = view_.house().findings;
    for (std::size_t i = 0; i < findings.size(); ++i) {
      if (!(findings[i].span.file_id == file_.file_id)) continue;
      if (findings[i].span.begin > end_ || findings[i].span.end < begin_) continue;
      add_mend(findings[i], i);
      add_declaration(findings[i], i);
      add_allow(findings[i], i);
    }
    add_rewrites(view_, file_, begin_, end_, actions_);
    add_mend_all();
    return std::move(actions_);
  }

 private:
  void add_mend(const Diagnostic& finding, std::size_t index) {
    if (!finding.fix || finding.fix->edits.empty()) return;
    if (std::any_of(finding.fix->edits.begin(), finding.fix->edits.end(),
                    [&](const Edit& edit) { return is_of_library(view_, edit); }))
      return;
    actions_.push_back(
        {ActionKind::mend, mend_title(view_, *finding.fix), finding.fix->edits, finding.fix->safe, index});
  }

  /// The finding's own words say what to declare (`ingredient NAME like RELATION`), right as they stand.
  void add_declaration(const Diagnostic& finding, std::size_t index) {
    if (finding.rule != Rule::unknown_name) return;
    auto begin = finding.help.find("`ingredient ");
    if (begin == std::string::npos) return;
    auto end = finding.help.find('`', begin + 1);
    std::string line = finding.help.substr(begin + 1, end == std::string::npos ? end : end - begin - 1);
    if (end == std::string::npos || line.find(" like ") == std::string::npos) return;
    auto holder = view_.holder(file_, finding.span.begin);
    if (!holder) return;
    auto at = view_.extent(file_, holder->declaration_index).begin;
    actions_.push_back({ActionKind::mend,
                        fmt::format("Declare `{}`", line),
                        {{{file_.file_id, at, at}, line + "\n\n"}},
                        false,
                        index});
  }

  /// An `allow` line at the end of the declaration that the finding is about.
  void add_allow(const Diagnostic& finding, std::size_t index) {
    if (finding.severity == diagnostics::Severity::error || finding.subject == diagnostics::no_subject)
      return;
    DeclarationId id{finding.subject};
    const auto& declaration = view_.house().names[id];
    if (declaration.from_library) return;
    const auto& file = view_.house().files[declaration.file_index];
    auto at = view_.extent(file, declaration.declaration_index).end;
    auto name = diagnostics::info(finding.rule).name;
    actions_.push_back(
        {ActionKind::mend,
         fmt::format("Allow {} in {}, with a reason", name, declaration.name),
         {{{file.file_id, at, at}, fmt::format("\n  allow          {} because \"say why here\"", name)}},
         false,
         index});
  }

  void add_mend_all() {
    Action all{ActionKind::mend_all, "Mend all that can mean only one thing", {}};
    for (const auto& finding : view_.house().findings) {
      if (!finding.fix || !finding.fix->safe || finding.fix->edits.empty()) continue;
      const auto& edits = finding.fix->edits;
      bool is_here = std::all_of(edits.begin(), edits.end(), [&](const Edit& edit) {
        return edit.span.file_id == file_.file_id &&
               std::none_of(all.edits.begin(), all.edits.end(), [&](const Edit& other) {
                 return edit.span.begin <= other.span.end && other.span.begin <= edit.span.end;
               });
      });
      if (is_here) all.edits.insert(all.edits.end(), edits.begin(), edits.end());
    }
    if (!all.edits.empty()) actions_.push_back(std::move(all));
  }

  const HouseView& view_;
  const syntax::File& file_;
  std::uint32_t begin_, end_;
  std::vector<Action> actions_;
};

}  // namespace

std::vector<Action> actions(const HouseView& view, const syntax::File& file, std::uint32_t begin,
                            std::uint32_t end) {
  return ActionFinder(view, file, begin, end).find();
}

}  // namespace gill::editor
