#pragma once
#include <optional>
#include <string>

#include "editor/house_view.h"
#include "editor/page_parts.h"

namespace gill::editor {

/// What is told of a place: Markdown, and the words that it is about.
struct Hover {
  std::string markdown;
  Span span;
};

/// What the book says of the name, the amount, the step or the rule at a place, and the page of the rule of a
/// finding there. Every figure is the book's own. Nothing where the place holds none of these.
std::optional<Hover> hover(const HouseView& view, const syntax::File& file, std::uint32_t offset,
                           Pictures pictures = Pictures::left_out);

/// A declaration as `hover` tells it; `around` is the declaration in which it is named, invalid for none.
std::string told_of(const HouseView& view, DeclarationId id, DeclarationId around,
                    Pictures pictures = Pictures::left_out);

}  // namespace gill::editor
