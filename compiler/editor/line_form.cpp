#include <fmt/format.h>

#include "analysis/verbs.h"
#include "editor/completion.h"
#include "editor/typed_line.h"

namespace gill::editor {

using analysis::VerbInfo;
using symbols::DeclarationKind;
using syntax::TokenKind;

namespace {

/// Puts a form together, part by part.
class FormWriter {
 public:
  FormWriter& add(std::string_view words) {
    if (!form_.label.empty()) form_.label += words.starts_with(',') ? "" : " ";
    auto begin = static_cast<std::uint32_t>(form_.label.size());
    form_.label += words;
    form_.parts.emplace_back(begin, static_cast<std::uint32_t>(form_.label.size()));
    return *this;
  }
  LineForm done(std::string explained, std::size_t active) {
    form_.explained = std::move(explained);
    form_.active = form_.parts.empty() ? 0 : std::min(active, form_.parts.size() - 1);
    return std::move(form_);
  }

 private:
  LineForm form_;
};

LineForm form_of_step(const VerbInfo& verb, const syntax::LineView& line, std::size_t tokens) {
  FormWriter form;
  form.add(verb.name);
  std::size_t active = line.size() > tokens ? 1 : 0;
  if (verb.takes_amount) form.add("30 ml");
  if (verb.takes_count) form.add("6");
  if (verb.name_slot != VerbInfo::Name::never)
    form.add(verb.name_slot == VerbInfo::Name::must ? "NAME" : "[NAME]");
  if (verb.takes_gas) form.add("to 3.5 vol");
  if (verb.takes_target) form.add("to 500 ml | by 30 %");
  if (verb.takes_words) form.add("WORDS");
  if (verb.time != VerbInfo::Time::never) form.add(verb.time == VerbInfo::Time::should ? "12 s" : "[12 s]");
  if (verb.takes_temperature) form.add(verb.time == VerbInfo::Time::never ? "[to 65 C]" : "[at 65 C]");
  if (verb.takes_ice) {
    form.add("[with ICE]");
    for (std::size_t i = tokens; i < line.size(); ++i)
      if (line.is_word(i, "with")) active = SIZE_MAX;
  }
  std::string explained = verb.usual_s > 0
                              ? fmt::format("Where no time is written, {} s are used.", verb.usual_s)
                              : std::string();
  return form.done(std::move(explained), active);
}

LineForm form_of_amount(const HouseView& view, const syntax::LineView& line, bool at_new_word) {
  std::size_t at = 0;
  while (at < line.size() && line.kind(at) != TokenKind::word) ++at;
  auto unit = view.house().units.match(line, at);
  bool has_comma = false;
  for (std::size_t i = 0; i < line.size(); ++i) has_comma = has_comma || line.kind(i) == TokenKind::comma;
  std::size_t active = 0;
  if (at < line.size() || at_new_word) active = 1;
  if (unit.unit.valid() && (at + unit.tokens < line.size() || at_new_word)) active = 2;
  if (has_comma) active = 3;
  return FormWriter()
      .add("60")
      .add("ml")
      .add("NAME")
      .add(", chilled | optional | or NAME")
      .done("How much, in which measure, of what.", active);
}

}  // namespace

std::optional<LineForm> line_form(const HouseView& view, std::string_view text, std::uint32_t offset) {
  TypedLine typed(text, offset);
  if (typed.is_prose() || typed.is_header() || typed.view().size() == 0) return std::nullopt;
  if (typed.kind() != DeclarationKind::drink && typed.kind() != DeclarationKind::prep) return std::nullopt;
  if (auto verb = analysis::match_verb(typed.view(), 0))
    return form_of_step(analysis::info(verb->verb), typed.view(), verb->tokens);
  if (typed.view().kind(0) == TokenKind::number)
    return form_of_amount(view, typed.view(), typed.at_new_word());
  return std::nullopt;
}

}  // namespace gill::editor
