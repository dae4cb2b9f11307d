#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "editor/house_view.h"

namespace gill::editor {

struct Completion {
  enum class Kind : std::uint8_t { name, prep, step, property, unit, word, rule, snippet } kind = Kind::word;
  std::string label;
  /// A few words beside it: `spirit, 40.0 % abv, in 5 drinks`.
  std::string detail;
  /// What is put in; the label where it is empty. A snippet's holes are in the protocol's own form,
  /// `${1:words}`.
  std::string insert = {};
  /// The declaration that it names; invalid for none.
  DeclarationId declaration = {};
};

/// What may stand at a place, and from where on the text is replaced: the words that were begun there.
struct Completions {
  std::uint32_t begin = 0;
  std::vector<Completion> items;
  /// True where more fit than a list is good for: whoever types on asks again.
  bool has_more = false;
};

/// What may stand at an offset of a text that is being typed; `view` is the house as it was last compiled,
/// which may be a few letters older. With `snippets`, a declaration comes whole, with holes for what nobody
/// knows yet.
Completions complete(const HouseView& view, std::string_view text, std::uint32_t offset, bool snippets);

/// The form of the line at a place, for who is typing it: its words, and which part of them the place is in.
struct LineForm {
  std::string label;
  std::string explained;
  /// As stretches of the label.
  std::vector<std::pair<std::uint32_t, std::uint32_t>> parts;
  std::size_t active = 0;
};
std::optional<LineForm> line_form(const HouseView& view, std::string_view text, std::uint32_t offset);

}  // namespace gill::editor
