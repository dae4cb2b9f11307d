#include "editor/house_view.h"

#include <algorithm>

namespace gill::editor {

using symbols::DeclarationKind;
using syntax::LineKind;

const NamePlaces& HouseView::names() const {
  if (!names_) names_ = std::make_unique<NamePlaces>(*house_);
  return *names_;
}

const render::document::BookIndex& HouseView::book() const {
  if (!book_) book_ = std::make_unique<render::document::BookIndex>(input_, true);
  return *book_;
}

const syntax::File* HouseView::file(const std::string& path) const {
  // The library's files come first, and a house may call a file as it likes.
  std::size_t library = house_->files.size() - house_->house_file_count;
  auto has_path = [&](const syntax::File& one) { return house_->sources[one.file_id].path == path; };
  auto first = house_->files.begin(), own = first + static_cast<std::ptrdiff_t>(library);
  auto found = std::find_if(own, house_->files.end(), has_path);
  if (found == house_->files.end()) {
    found = std::find_if(first, own, has_path);
    if (found == own) return nullptr;
  }
  return &*found;
}

std::size_t HouseView::index_of(const syntax::File& file) const {
  return static_cast<std::size_t>(&file - house_->files.data());
}

DeclarationId HouseView::declared(std::size_t file_index, std::size_t declaration_index) const {
  if (declared_.empty())
    for (std::size_t i = 0; i < house_->names.size(); ++i) {
      auto id = DeclarationId::at(i);
      declared_[{house_->names[id].file_index, house_->names[id].declaration_index}] = id;
    }
  auto found = declared_.find({file_index, declaration_index});
  return found == declared_.end() ? DeclarationId{} : found->second;
}

std::optional<Holder> HouseView::holder(const syntax::File& file, std::uint32_t offset) const {
  auto line = line_at(text(file), offset);
  auto after = std::upper_bound(
      file.declarations.begin(), file.declarations.end(), line,
      [](std::uint32_t wanted, const syntax::Declaration& one) { return wanted < one.header; });
  if (after == file.declarations.begin()) return std::nullopt;
  auto index = static_cast<std::size_t>(after - file.declarations.begin()) - 1;
  return Holder{index_of(file), index, declared(index_of(file), index)};
}

Span HouseView::extent(const syntax::File& file, std::size_t declaration_index) const {
  const auto& declarations = file.declarations;
  std::uint32_t first = declarations[declaration_index].header;
  auto last = declaration_index + 1 < declarations.size() ? declarations[declaration_index + 1].header
                                                          : static_cast<std::uint32_t>(file.lines.size());
  // A comment in front of the next header is about that one.
  auto belongs = [&](const syntax::Line& line) {
    bool is_set_in =
        line.begin < line.end && (text(file).text[line.begin] == ' ' || text(file).text[line.begin] == '\t');
    return line.kind != LineKind::blank && (line.kind != LineKind::comment || is_set_in);
  };
  while (last - 1 > first && !belongs(file.lines[last - 1])) --last;
  return {file.file_id, file.lines[first].begin, file.lines[last - 1].end};
}

bool HouseView::is_called(DeclarationId id, std::string_view name) const {
  const auto& declaration = house_->names[id];
  return declaration.name == name ||
         std::any_of(declaration.aliases.begin(), declaration.aliases.end(),
                     [&](const symbols::Alias& alias) { return alias.name == name; });
}

std::optional<analysis::DrinkId> HouseView::drink(DeclarationId id) const {
  if (!id.valid() || house_->names[id].kind != DeclarationKind::drink) return std::nullopt;
  return analysis::DrinkId{specs().index_of[id.index()]};
}

std::optional<analysis::StockId> HouseView::stock(DeclarationId id) const {
  if (!id.valid()) return std::nullopt;
  auto kind = house_->names[id].kind;
  if (kind != DeclarationKind::ingredient && kind != DeclarationKind::prep) return std::nullopt;
  return analysis::StockId{specs().index_of[id.index()]};
}

const analysis::Recipe* HouseView::recipe(DeclarationId id) const {
  if (auto drink = this->drink(id)) return &specs()[*drink].recipe;
  if (auto stock = this->stock(id)) return &specs()[*stock].recipe;
  return nullptr;
}

std::uint32_t line_at(const source::SourceFile& source, std::uint32_t offset) {
  return static_cast<std::uint32_t>(source.line_of(offset));
}

}  // namespace gill::editor
