#pragma once
#include "diff/changes.h"
#include "diff/page.h"
#include "render/document/document.h"

namespace gill::diff {

/// One change in full: why, both builds, method, words, figures, allergens; a new drink is told whole. With
/// the books of both sides a drink's pictures stand beside each other. `name` is the section's own.
render::document::Section change_section(const Change& change, const BothBooks* books, std::string name);

/// What changed only by what it is made of, a line each: why, and what follows; empty without any.
std::vector<render::document::Block> reached_blocks(const std::vector<const Change*>& changes);

}  // namespace gill::diff
