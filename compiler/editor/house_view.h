#pragma once
#include <map>
#include <memory>
#include <optional>
#include <string>

#include "driver/compile.h"
#include "editor/names.h"
#include "render/document/book_index.h"

/// What an editor asks of a house: each answer is a value made of the compiled house and a place in it.
/// Places are offsets in bytes; nothing here knows the protocol, a file or the clock.
namespace gill::editor {

/// The declaration that holds a place.
struct Holder {
  std::size_t file_index = 0;
  std::size_t declaration_index = 0;
  /// Invalid where the header could not be read.
  DeclarationId id;
};

/// A compiled house with the tables that questions share, each made when it is first asked for.
class HouseView {
 public:
  /// Of a house that stays as it is while it is looked at.
  explicit HouseView(const driver::Compilation& house) : house_(&house), input_(house.book_input()) {}
  explicit HouseView(std::unique_ptr<driver::Compilation> house) : HouseView(*house) {
    owned_ = std::move(house);
  }

  const driver::Compilation& house() const { return *house_; }
  const render::BookInput& input() const { return input_; }
  const analysis::Specs& specs() const { return house_->specs; }
  const NamePlaces& names() const;
  /// The book's own tables, drafts included: what an editor shows is what the book says.
  const render::document::BookIndex& book() const;

  /// The tree of a file of the house, by its path relative to it; of the library, by `stdlib/…`. Null where
  /// there is none.
  const syntax::File* file(const std::string& path) const;
  std::size_t index_of(const syntax::File& file) const;
  const source::SourceFile& text(const syntax::File& file) const { return house_->sources[file.file_id]; }
  std::optional<Holder> holder(const syntax::File& file, std::uint32_t offset) const;
  /// The declaration whose header is the n-th of a file; invalid where it could not be read.
  DeclarationId declared(std::size_t file_index, std::size_t declaration_index) const;
  /// The stretch of a declaration: from its header to the end of its last line that is not blank.
  Span extent(const syntax::File& file, std::size_t declaration_index) const;

  /// True where a declaration has that name, or says so in an `aka` line.
  bool is_called(DeclarationId id, std::string_view name) const;
  /// The drink or stock of a declaration, where it is one.
  std::optional<analysis::DrinkId> drink(DeclarationId id) const;
  std::optional<analysis::StockId> stock(DeclarationId id) const;
  /// The recipe of either; null for any other.
  const analysis::Recipe* recipe(DeclarationId id) const;

 private:
  std::unique_ptr<driver::Compilation> owned_;
  const driver::Compilation* house_;
  render::BookInput input_;
  mutable std::unique_ptr<NamePlaces> names_;
  mutable std::unique_ptr<render::document::BookIndex> book_;
  mutable std::map<std::pair<std::size_t, std::size_t>, DeclarationId> declared_;
};

/// The number of the line (from 0) that holds an offset.
std::uint32_t line_at(const source::SourceFile& source, std::uint32_t offset);

}  // namespace gill::editor
