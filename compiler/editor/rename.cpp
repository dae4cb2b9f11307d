#include "editor/rename.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/text.h"
#include "syntax/line_view.h"
#include "syntax/parse.h"

namespace gill::editor {

using diagnostics::Edit;

namespace {

std::string folded_at(const HouseView& view, const NamePlace& place) {
  return base::fold_name(view.house().sources.text(place.span));
}

/// The name as a line takes it: in quotes where it would else end early; nothing where no name can be so.
std::optional<std::string> as_written(std::string_view wanted) {
  std::string name = base::collapse_space(wanted);
  if (name.empty() || base::first_bad_byte(name) || name.find_first_of("\"\n\r") != std::string::npos)
    return std::nullopt;
  source::SourceSet sources;
  diagnostics::DiagnosticSink ignored;
  auto id = sources.add("name", "drink " + name, false);
  auto file = syntax::parse(id, sources, ignored);
  syntax::LineView line(sources[id], file, 0);
  std::size_t bad = 0;
  bool is_plain = line.size() > 1 && file.lines[0].tail == file.lines[0].end &&
                  syntax::is_plain_name(line, 1, line.size(), bad) &&
                  syntax::name_text(line, 1, line.size()) == name;
  return is_plain ? name : "\"" + name + "\"";
}

std::string place_words(const HouseView& view, DeclarationId id) {
  const auto& span = view.house().names[id].name_span;
  const auto& source = view.house().sources[span.file_id];
  return fmt::format("{}:{}", source.path, source.line_of(span.begin) + 1);
}

/// Why the house may not call it so; empty where it may.
std::string taken(const HouseView& view, DeclarationId id, std::string_view name) {
  const auto& names = view.house().names;
  auto space = symbols::name_space_of(names[id].kind);
  auto other = names.find(space, name);
  if (!other.valid() || other == id) return {};
  if (names[other].from_library)
    return fmt::format("the library has {} {} called `{}` already, which other lines may mean",
                       base::article(symbols::keyword_of(names[other].kind)),
                       symbols::keyword_of(names[other].kind), names[other].name);
  return fmt::format("{} `{}` is declared already, in {}", symbols::keyword_of(names[other].kind),
                     names[other].name, place_words(view, other));
}

/// The edits that put the new name wherever the old one stands.
std::vector<Edit> edits_of(const HouseView& view, const NamePlace& at, const std::string& written) {
  std::string old_name = folded_at(view, at);
  std::vector<Edit> edits;
  for (const auto& place : view.names().of(at.declaration)) {
    if (!place.is_spelled_out || folded_at(view, place) != old_name) continue;
    if (view.house().sources[place.span.file_id].from_library) continue;
    auto span = place.span;
    const std::string& text = view.house().sources[span.file_id].text;
    bool in_quotes =
        span.begin > 0 && text[span.begin - 1] == '"' && span.end < text.size() && text[span.end] == '"';
    if (in_quotes) --span.begin, ++span.end;
    edits.push_back({span, written});
  }
  return edits;
}

/// How often each rule speaks.
std::map<diagnostics::Rule, std::size_t> counts_of(const std::vector<diagnostics::Diagnostic>& findings) {
  std::map<diagnostics::Rule, std::size_t> counts;
  for (const auto& finding : findings) ++counts[finding.rule];
  return counts;
}

/// True where the house says with the edits what it said before, the name aside.
bool means_the_same(const HouseView& view, const NamePlace& at, std::string_view new_name,
                    const std::vector<Edit>& edits) {
  auto compiled = driver::compile_for_findings(with_edits(view, edits));
  const auto& before = view.house();
  if (counts_of(compiled->findings) != counts_of(before.findings) ||
      counts_of(compiled->suppressed) != counts_of(before.suppressed))
    return false;
  auto space = symbols::name_space_of(before.names[at.declaration].kind);
  auto renamed = compiled->names.find(space, new_name);
  return renamed.valid() &&
         NamePlaces(*compiled).of(renamed).size() == view.names().of(at.declaration).size();
}

}  // namespace

std::variant<NamePlace, Refusal> renamed_at(const HouseView& view, const syntax::File& file,
                                            std::uint32_t offset) {
  const auto* place = view.names().at(file.file_id, offset);
  if (!place) return Refusal{"There is no name here that something is called by."};
  const auto& declaration = view.house().names[place->declaration];
  if (declaration.from_library)
    return Refusal{
        fmt::format("`{}` belongs to the library. A house can declare one of its own: `{} NAME like {}`.",
                    declaration.name, symbols::keyword_of(declaration.kind), declaration.name)};
  if (!place->is_spelled_out)
    return Refusal{
        fmt::format("Here `{}` is not called by its name; rename it where it is.", declaration.name)};
  return *place;
}

std::variant<std::vector<Edit>, Refusal> rename(const HouseView& view, const syntax::File& file,
                                                std::uint32_t offset, std::string_view new_name) {
  auto found = renamed_at(view, file, offset);
  if (auto* refusal = std::get_if<Refusal>(&found)) return *refusal;
  const auto& at = std::get<NamePlace>(found);
  auto written = as_written(new_name);
  if (!written) return Refusal{fmt::format("`{}` cannot be a name.", base::collapse_space(new_name))};
  std::string name = base::collapse_space(new_name);
  if (auto why = taken(view, at.declaration, name); !why.empty())
    return Refusal{base::capitalised(why) + "."};
  auto edits = edits_of(view, at, *written);
  if (!means_the_same(view, at, name, edits))
    return Refusal{fmt::format("Called `{}`, a line of the house would mean something else.", name)};
  return edits;
}

driver::HouseFiles with_edits(const HouseView& view, const std::vector<Edit>& edits) {
  const auto& house = view.house();
  driver::HouseFiles files{house.specs.house.head.name, {}};
  for (std::size_t i = house.files.size() - house.house_file_count; i < house.files.size(); ++i) {
    const auto& source = house.sources[house.files[i].file_id];
    std::vector<const Edit*> of_file;
    for (const auto& edit : edits)
      if (edit.span.file_id == house.files[i].file_id) of_file.push_back(&edit);
    std::sort(of_file.begin(), of_file.end(),
              [](const Edit* a, const Edit* b) { return a->span.begin > b->span.begin; });
    std::string text = source.text;
    for (const auto* edit : of_file)
      text.replace(edit->span.begin, edit->span.end - edit->span.begin, edit->text);
    files.files.push_back({source.path, std::move(text)});
  }
  return files;
}

}  // namespace gill::editor
