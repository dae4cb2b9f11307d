#pragma once
#include "diff/changes.h"
#include "render/document/document.h"

namespace gill::diff {

/// The rows of both builds next to each other, before and now: what came, went and changed; with `all` also
/// what stayed.
std::vector<std::vector<render::document::Cell>> build_rows(const Change& change, bool all);

}  // namespace gill::diff
