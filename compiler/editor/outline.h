#pragma once
#include <string>
#include <vector>

#include "editor/house_view.h"

/// A file at a glance: what it declares, what folds, what leads elsewhere.
namespace gill::editor {

struct OutlineEntry {
  std::string name;
  /// A few words beside the name: `sour`, `like Weld`.
  std::string detail;
  symbols::DeclarationKind kind = symbols::DeclarationKind::house;
  /// True for a section of a menu; `kind` is the menu's then.
  bool is_section = false;
  Span whole, name_span;
  std::vector<OutlineEntry> inner = {};
};

/// What a file declares, in its order.
std::vector<OutlineEntry> outline(const HouseView& view, const syntax::File& file);

/// The declarations of the house, or what each is called as well, with the query's letters in their order in
/// the name; those that begin with it first. At most `limit`.
std::vector<NamePlace> find_declarations(const HouseView& view, std::string_view query, std::size_t limit);

struct Fold {
  std::uint32_t first_line = 0, last_line = 0;
  bool is_comment = false;
};

/// Declarations, menu sections, stretches of comments and of text.
std::vector<Fold> folds(const HouseView& view, const syntax::File& file);

struct WebLink {
  Span span;
  std::string address;
};

/// Addresses of the web in texts, sources and comments.
std::vector<WebLink> links(const HouseView& view, const syntax::File& file);

/// A line above a declaration.
struct Lens {
  enum class Kind : std::uint8_t {
    figures,  ///< strength, volume and cost as served
    users,    ///< which drinks and preps use it, and on which menus it stands
    preview,  ///< opens its page
  } kind = Kind::figures;
  Span span;
  std::string words;
  DeclarationId declaration;
};

std::vector<Lens> lenses(const HouseView& view, const syntax::File& file);

}  // namespace gill::editor
