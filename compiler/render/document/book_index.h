#pragma once
#include <map>
#include <string>
#include <vector>

#include "render/book/book.h"
#include "render/book/usage.h"
#include "render/document/document.h"

namespace gill::render::document {

/// Where a drink stands on a menu.
struct OnMenu {
  std::size_t menu = 0, section = 0, entry = 0;
};

/// What the pages of one book need to know of each other: which there are, where they stand, who uses what,
/// and what was found where.
class BookIndex {
 public:
  BookIndex(const BookInput& input, bool drafts);

  const BookInput& input() const { return input_; }
  const analysis::Specs& specs() const { return input_.specs; }
  const model::HouseFacts& facts() const { return input_.facts; }
  const units::UnitTable& units() const { return input_.units; }
  const analysis::House& house() const { return input_.specs.house; }

  /// What has a page, each by name.
  const std::vector<analysis::DrinkId>& drinks() const { return drinks_; }
  const std::vector<analysis::StockId>& preps() const { return preps_; }
  const std::vector<analysis::StockId>& ingredients() const { return ingredients_; }
  /// What the glossary holds, each by name: what the drinks of the book use, and the house's own.
  const std::vector<analysis::GlassId>& glasses() const { return glasses_; }
  const std::vector<analysis::IceId>& ices() const { return ices_; }
  const std::vector<analysis::FamilyId>& families() const { return families_; }

  /// The path of a page without its ending; empty where there is none.
  const std::string& path_of(analysis::DrinkId id) const { return drink_paths_[id.index()]; }
  const std::string& path_of(analysis::StockId id) const { return stock_paths_[id.index()]; }
  /// The anchor in the glossary; empty where there is none.
  const std::string& anchor_of(analysis::GlassId id) const { return glass_anchors_[id.index()]; }
  const std::string& anchor_of(analysis::IceId id) const { return ice_anchors_[id.index()]; }
  const std::string& anchor_of(analysis::FamilyId id) const { return family_anchors_[id.index()]; }

  /// The name as a link to its page, or plain where it has none. `words` takes the place of the name.
  Run link_to(analysis::DrinkId id) const;
  Run link_to(analysis::StockId id, const std::string& words = {}) const;
  Run link_to(analysis::GlassId id) const;
  Run link_to(analysis::IceId id, const std::string& words = {}) const;
  Run link_to(analysis::FamilyId id) const;

  const Usage& usage() const { return usage_; }
  /// The drinks of the book that are `like` this one.
  std::vector<analysis::DrinkId> variations_of(analysis::DrinkId id) const;
  /// Indices of the menus that have a drink of the book, the one that starts last first.
  const std::vector<std::size_t>& menus() const { return menus_; }
  const std::vector<OnMenu>& places_on_menus(analysis::DrinkId id) const { return on_menus_[id.index()]; }
  const analysis::MenuEntry& entry(const OnMenu& place) const {
    return specs().menus[place.menu].sections[place.section].entries[place.entry];
  }

  /// Errors and safety findings that stand in a declaration or concern the drink.
  std::vector<const diagnostics::Diagnostic*> errors_of(analysis::DrinkId id) const;
  std::vector<const diagnostics::Diagnostic*> errors_of(analysis::StockId id) const;
  /// True where a line, an amount or a finding makes it doubtful, or nothing goes in yet: its pages, cards
  /// and labels say so instead of what cannot be trusted.
  bool is_in_error(analysis::DrinkId id) const;
  bool is_in_error(analysis::StockId id) const;
  std::vector<const diagnostics::Diagnostic*> safety_of(analysis::DrinkId id) const;
  std::vector<const diagnostics::Diagnostic*> safety_of(analysis::StockId id) const;

 private:
  using Findings = std::vector<const diagnostics::Diagnostic*>;

  void choose_pages(bool drafts);
  void choose_glossary();
  void name_pages();
  void place_on_menus();
  void sort_findings();

  const BookInput& input_;
  Usage usage_;
  std::vector<analysis::DrinkId> drinks_;
  std::vector<analysis::StockId> preps_, ingredients_;
  std::vector<analysis::GlassId> glasses_;
  std::vector<analysis::IceId> ices_;
  std::vector<analysis::FamilyId> families_;
  std::vector<std::string> drink_paths_, stock_paths_, glass_anchors_, ice_anchors_, family_anchors_;
  std::vector<std::vector<analysis::DrinkId>> variations_;
  std::vector<std::size_t> menus_;
  std::vector<std::vector<OnMenu>> on_menus_;
  std::vector<Findings> drink_findings_, stock_findings_;
};

}  // namespace gill::render::document
