#pragma once
#include <vector>

#include "editor/house_view.h"

namespace gill::editor {

/// One end of a line by which a drink or a prep needs a thing, and where that is written.
struct Need {
  DeclarationId declaration;
  std::vector<Span> places;
};

/// What a drink or prep needs: preps and ingredients that its own lines, or those that `like` brought, name.
std::vector<Need> needs(const HouseView& view, DeclarationId id);
/// Which drinks and preps need it; the places are theirs.
std::vector<Need> needed_by(const HouseView& view, DeclarationId id);

}  // namespace gill::editor
