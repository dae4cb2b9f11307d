#include <fmt/format.h>

#include "analysis/declaration_reader.h"
#include "base/text.h"

namespace gill::analysis {

using symbols::DeclarationKind;

namespace {

// What `like` may bring in all: far beyond any house, and it keeps the memory that a hostile file takes
// within bounds.
constexpr std::size_t max_imported = 300000;

/// How many parts of a declaration can pile up from one `like` to the next.
std::size_t parts_of(const Stock& stock) { return stock.recipe.order.size() + stock.each.size(); }
std::size_t parts_of(const Drink& drink) { return drink.recipe.order.size(); }
std::size_t parts_of(const PriceList& list) { return list.prices.size(); }
std::size_t parts_of(const Menu& menu) {
  std::size_t parts = menu.sections.size();
  for (const auto& section : menu.sections) parts += section.entries.size();
  return parts;
}
template <typename Kind>
std::size_t parts_of(const Kind&) {
  return 0;
}

class SpecReader {
 public:
  SpecReader(const symbols::SymbolTable& names, const units::UnitTable& units,
             const std::vector<syntax::File>& files, source::SourceSet& sources,
             const std::string& house_name, diagnostics::DiagnosticSink& sink)
      : names_(names),
        files_(files),
        context_{names, units, sources, specs_.readings, specs_.form_readings, specs_.name_uses,
                 sink,  specs_},
        house_name_(house_name) {}

  Specs analyse() {
    allocate();
    specs_.house.head.name = house_name_;
    specs_.house.show_drinks =
        specs_.house.show_preps = {context_.units.find("ml"), context_.units.find("oz")};
    // What a house sets is known to every line.
    for (auto id : names_.in_order())
      if (names_[id].kind == DeclarationKind::house) read(id);
    for (auto id : names_.in_order())
      if (names_[id].kind != DeclarationKind::house) read(id);
    for (auto& menu : specs_.menus)
      for (auto& section : menu.sections)
        for (auto& entry : section.entries)
          if (entry.whole_price) share_out(entry);
    return std::move(specs_);
  }

 private:
  /// What is sold whole is reckoned by the serve, as all the rest is: its price and how many are sold.
  void share_out(MenuEntry& entry) {
    const auto& drink = specs_[entry.drink];
    if (drink.serves <= 1) {
      context_.sink.add(
          diagnostics::Rule::bad_number, entry.span,
          fmt::format("`{}` is made for one, and the menu sells it by {}", drink.head.name,
                      entry.sold_by.substr(2)),
          "Add `serves 10` to the drink, for as many as it is, or leave out what it is sold by.");
      entry.whole_price.reset();
      return;
    }
    entry.price->amount = entry.whole_price->amount / base::Exact(drink.serves);
    if (entry.sells) *entry.sells *= drink.serves;
    for (auto& sells : entry.sells_on)
      if (sells) *sells *= drink.serves;
  }

  /// Gives every declaration its place first, so that names can be resolved in any order.
  void allocate() {
    specs_.index_of.resize(names_.size(), 0);
    for (std::size_t i = 0; i < names_.size(); ++i) {
      auto id = DeclarationId::at(i);
      switch (names_[id].kind) {
        case DeclarationKind::house:
        case DeclarationKind::unit:
          break;
        case DeclarationKind::ingredient:
        case DeclarationKind::prep:
          place(id, specs_.stock);
          specs_.stock.back().is_prep = names_[id].kind == DeclarationKind::prep;
          break;
        case DeclarationKind::glass:
          place(id, specs_.glasses);
          break;
        case DeclarationKind::ice:
          place(id, specs_.ices);
          break;
        case DeclarationKind::family:
          place(id, specs_.families);
          break;
        case DeclarationKind::drink:
          place(id, specs_.drinks);
          break;
        case DeclarationKind::prices:
          place(id, specs_.price_lists);
          break;
        case DeclarationKind::menu:
          place(id, specs_.menus);
          break;
      }
    }
  }

  template <typename Kind>
  void place(DeclarationId id, std::vector<Kind>& table) {
    specs_.index_of[id.index()] = static_cast<std::uint32_t>(table.size());
    table.emplace_back();
    // Until it is read it counts as broken: a circle of `like` is never read.
    auto& head = table.back().head;
    head.has_errors = head.has_build_errors = head.has_amount_errors = true;
    set_head(id, table.back().head);
  }

  void set_head(DeclarationId id, Head& head) const {
    const auto& declaration = names_[id];
    head.name = declaration.name;
    head.declaration_id = id;
    head.from_library = declaration.from_library;
    head.name_span = declaration.name_span;
  }

  DeclarationReader lines(DeclarationId id, Head& head) const {
    const auto& file = files_[names_[id].file_index];
    return {context_, file, file.declarations[names_[id].declaration_index], head, names_[id].like.valid()};
  }

  /// A copy of what this one is like, without what `like` does not bring; a fresh one where it is like
  /// nothing.
  template <typename Kind>
  Kind start(DeclarationId id, const std::vector<Kind>& table) {
    Kind target;
    if (auto like = names_[id].like;
        like.valid() && may_bring(id, parts_of(table[specs_.index_of[like.index()]])))
      target = table[specs_.index_of[like.index()]];
    else if (like.valid())
      target.head.has_errors = target.head.has_build_errors = target.head.has_amount_errors = true;
    auto base = std::move(target.head);
    target.head = Head{};
    // A `like` that names nothing leaves the declaration without what it should bring.
    bool lost = names_[id].like_span.file_id.valid() && !names_[id].like.valid();
    target.head.has_errors = lost || (names_[id].like.valid() && base.has_errors);
    target.head.has_build_errors = lost || (names_[id].like.valid() && base.has_build_errors);
    target.head.has_amount_errors = lost || (names_[id].like.valid() && base.has_amount_errors);
    target.head.source = base.source;
    set_head(id, target.head);
    return target;
  }

  bool may_bring(DeclarationId id, std::size_t parts) {
    brought_ += parts;
    if (brought_ <= max_imported) return true;
    brought_ -= parts;
    context_.sink.add(
        diagnostics::Rule::bad_line, names_[id].like_span,
        fmt::format("`like` brings more than {} amounts, steps and prices in this house", max_imported),
        "Write this one out in full, or start it from a shorter one.");
    return false;
  }

  template <typename Kind, typename Reader>
  void read_into(DeclarationId id, std::vector<Kind>& table, Reader reader) {
    Kind target = start(id, table);
    auto declaration_lines = lines(id, target.head);
    reader(declaration_lines, target);
    table[specs_.index_of[id.index()]] = std::move(target);
  }

  void read(DeclarationId id) {
    switch (names_[id].kind) {
      case DeclarationKind::house:
        return read_house_declaration(id);
      case DeclarationKind::unit:
        return;
      case DeclarationKind::ingredient:
      case DeclarationKind::prep:
        return read_stock_declaration(id);
      case DeclarationKind::glass:
        return read_into(id, specs_.glasses, read_glass);
      case DeclarationKind::ice:
        return read_into(id, specs_.ices, read_ice_kind);
      case DeclarationKind::family:
        return read_into(id, specs_.families, read_family);
      case DeclarationKind::drink:
        return read_drink_declaration(id);
      case DeclarationKind::prices:
        return read_into(id, specs_.price_lists, [&](DeclarationReader& declaration_lines, PriceList& list) {
          // Prices are brought, and not the day from which they count.
          list.from.clear();
          auto like = names_[id].like;
          list.like = like.valid() ? PriceListId{specs_.index_of[like.index()]} : PriceListId{};
          read_price_list(declaration_lines, list);
        });
      case DeclarationKind::menu:
        return read_into(id, specs_.menus, read_menu);
    }
  }

  void read_house_declaration(DeclarationId id) {
    // A second `house` is a duplicate and was reported; the library's comes first and is the default.
    if (!names_[id].from_library && house_read_) return;
    house_read_ = house_read_ || !names_[id].from_library;
    set_head(id, specs_.house.head);
    if (names_[id].from_library || specs_.house.head.name.empty()) specs_.house.head.name = house_name_;
    auto declaration_lines = lines(id, specs_.house.head);
    read_house(declaration_lines, specs_.house);
    if (names_[id].from_library) specs_.house.head.text.clear();
  }

  void read_stock_declaration(DeclarationId id) {
    read_into(id, specs_.stock, [&](DeclarationReader& declaration_lines, Stock& stock) {
      stock.buys.clear();
      stock.expects.clear();
      stock.is_prep = names_[id].kind == DeclarationKind::prep;
      stock.aka.clear();
      for (const auto& alias : names_[id].aliases) stock.aka.push_back(alias.name);
      read_stock(declaration_lines, context_, stock, names_[id].like.valid());
    });
  }

  void read_drink_declaration(DeclarationId id) {
    read_into(id, specs_.drinks, [&](DeclarationReader& declaration_lines, Drink& drink) {
      auto like = names_[id].like;
      if (like.valid()) drink.like = DrinkId{specs_.index_of[like.index()]};
      drink.was.clear();
      drink.since.clear();
      drink.authors.clear();
      drink.tastings.clear();
      drink.measured.clear();
      drink.status = Status::approved;
      drink.approved_on.clear();
      drink.expects.clear();
      read_drink(declaration_lines, context_, drink, like.valid());
    });
  }

  const symbols::SymbolTable& names_;
  const std::vector<syntax::File>& files_;
  Specs specs_;
  Context context_;
  std::string house_name_;
  bool house_read_ = false;
  std::size_t brought_ = 0;
};

}  // namespace

Specs analyse(const symbols::SymbolTable& names, const units::UnitTable& units,
              const std::vector<syntax::File>& files, source::SourceSet& sources,
              const std::string& house_name, diagnostics::DiagnosticSink& sink) {
  return SpecReader(names, units, files, sources, house_name, sink).analyse();
}

IceId usual_ice(const Specs& specs) {
  IceId found;
  for (std::size_t i = 0; i < specs.ices.size(); ++i) {
    if (base::fold_name(specs.ices[i].head.name) != usual_ice_name) continue;
    if (!specs.ices[i].head.from_library) return IceId::at(i);
    found = IceId::at(i);
  }
  return found;
}

std::string name_of(const Use& use, const Specs& specs, const units::UnitTable& units) {
  std::string name = use.stock.valid() ? specs[use.stock].head.name : std::string("?");
  if (use.item.valid()) name += " " + units[use.item].symbol;
  return name;
}

}  // namespace gill::analysis
