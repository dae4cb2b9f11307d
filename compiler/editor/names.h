#pragma once
#include <vector>

#include "driver/compile.h"

/// Where each name of a house is written.
namespace gill::editor {

using source::FileId;
using source::Span;
using symbols::DeclarationId;

/// One place at which a declaration is named.
struct NamePlace {
  /// The name alone, without an item word or a plural's ending behind it.
  Span span;
  DeclarationId declaration;
  /// The name with what belongs to it: `lemon twist`.
  Span whole;
  /// True in the header and in an `aka` line.
  bool declares = false;
  /// True where the name, or another name of the same thing, stands there as it was declared: whoever renames
  /// can put a new one in its place.
  bool is_spelled_out = false;
};

/// Every place of a house and of the library, by file and offset.
class NamePlaces {
 public:
  explicit NamePlaces(const driver::Compilation& house);

  /// The name at an offset, its end included; null where none is.
  const NamePlace* at(FileId file, std::uint32_t offset) const;
  /// Where a declaration says its name first: the name alone, as far as it can be found.
  Span declared(DeclarationId declaration) const;
  /// All places of a declaration, in the order of the files.
  std::vector<NamePlace> of(DeclarationId declaration) const;
  const std::vector<NamePlace>& all() const { return places_; }

 private:
  void add(const Span& span, DeclarationId declaration, bool declares = false);
  void add_declarations();
  void add_uses();
  void add_recipe(const analysis::Recipe& recipe);
  void add_use(const analysis::Use& use);
  /// The name's own words in a stretch that may hold more.
  NamePlace narrowed(const Span& span, DeclarationId declaration) const;

  const driver::Compilation& house_;
  std::vector<NamePlace> places_;
};

}  // namespace gill::editor
