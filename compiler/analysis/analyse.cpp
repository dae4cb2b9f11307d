#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "analysis/declaration_reader.h"
#include "analysis/reader.h"
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

template <typename Value>
void leave_each_once(std::vector<Value>& values) {
  std::sort(values.begin(), values.end());
  values.erase(std::unique(values.begin(), values.end()), values.end());
  values.shrink_to_fit();
}

/// Takes what stands behind the first `count` of them.
template <typename Value>
std::vector<Value> take_behind(std::vector<Value>& values, std::size_t count) {
  auto first = values.begin() + static_cast<std::ptrdiff_t>(count);
  std::vector<Value> taken(std::make_move_iterator(first), std::make_move_iterator(values.end()));
  values.erase(first, values.end());
  return taken;
}

}  // namespace

StockFace SpecsInReach::operator[](StockId id) const {
  static const Stock unread;
  const Stock& stock = specs_[id];
  bool is_known = is_read(id);
  if (seen_) seen_->push_back({id, is_known});
  const Stock& shown = is_known ? stock : unread;
  return {{stock.head.name, stock.head.from_library},
          stock.is_prep,
          shown.kind,
          shown.each,
          shown.gives,
          shown.fizz,
          shown.form};
}

class Reader::Work {
 public:
  Work(const symbols::SymbolTable& names, const units::UnitTable& units,
       const std::vector<syntax::File>& files, source::SourceSet& sources, Specs& specs,
       diagnostics::DiagnosticSink& sink, std::vector<ReadLog>* logs)
      : names_(names),
        files_(files),
        specs_(specs),
        logs_(logs),
        reach_(specs, order_),
        store_{specs.readings},
        context_{names, units, sources, store_, notes_, sink, reach_} {}

  void read_all(const std::string& house_name) {
    house_name_ = house_name;
    allocate();
    set_order();
    if (logs_) logs_->assign(names_.size(), ReadLog{});
    specs_.house.head.name = house_name_;
    specs_.house.show_drinks =
        specs_.house.show_preps = {context_.units.find("ml"), context_.units.find("oz")};
    // What a house sets is known to every line.
    for (auto id : names_.in_order())
      if (names_[id].kind == DeclarationKind::house) read(id);
    for (auto id : names_.in_order())
      if (names_[id].kind != DeclarationKind::house) read(id);
    for (auto& menu : specs_.menus) share_out(menu);
  }

  void set_order() {
    order_.assign(names_.size(), never_read);
    std::uint32_t place = 0;
    for (bool is_house : {true, false})
      for (auto id : names_.in_order())
        if ((names_[id].kind == DeclarationKind::house) == is_house) order_[id.index()] = place++;
  }
  const ReadingOrder& order() const { return order_; }
  bool is_full() const { return is_full_; }

  void read_again(DeclarationId id) {
    auto& log = (*logs_)[id.index()];
    store_.free.insert(store_.free.end(), log.readings.begin(), log.readings.end());
    brought_ -= log.brought;
    read(id);
  }

  /// The findings go with those of reading the menu.
  void share_out(Menu& menu) {
    std::size_t found = context_.sink.all().size();
    for (auto& section : menu.sections)
      for (auto& entry : section.entries)
        if (entry.whole_price) share_out(entry);
    if (!logs_) return;
    for (auto& finding : take_behind(context_.sink.all(), found))
      (*logs_)[menu.head.declaration_id.index()].findings.push_back(std::move(finding));
  }

  void forget(ReadLog& log) {
    store_.free.insert(store_.free.end(), log.readings.begin(), log.readings.end());
    brought_ -= log.brought;
  }

  template <typename Kind>
  void set_place(DeclarationId id, Kind& place) {
    place = Kind{};
    // Until it is read it counts as broken: a circle of `like` is never read.
    place.head.has_errors = place.head.has_build_errors = place.head.has_amount_errors = true;
    set_head(id, place.head);
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
    specs_.notes.resize(names_.size());
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
    set_place(id, table.emplace_back());
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
    is_full_ = true;
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

  /// Reads a declaration, and notes what that hung on and came to where somebody wants to know.
  void read(DeclarationId id) {
    notes_ = {};
    if (logs_) {
      read_with_log(id);
    } else {
      reach_.begin(order_[id.index()], nullptr);
      read_lines(id);
    }
    specs_.notes[id.index()] = std::exchange(notes_, {});
  }

  void read_with_log(DeclarationId id) {
    ReadLog log;
    const std::size_t findings = context_.sink.all().size(), brought = brought_;
    const int unit_questions = context_.units.questions_left();
    store_.taken.clear();
    reach_.begin(order_[id.index()], &log.seen);
    names_.note_in(&log.asked);
    read_lines(id);
    names_.note_in(nullptr);
    log.findings = take_behind(context_.sink.all(), findings);
    log.readings = store_.taken;
    log.unit_questions = unit_questions - context_.units.questions_left();
    log.brought = brought_ - brought;
    leave_each_once(log.asked.names);
    leave_each_once(log.seen);
    (*logs_)[id.index()] = std::move(log);
  }

  void read_lines(DeclarationId id) {
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
  Specs& specs_;
  std::vector<ReadLog>* logs_;
  ReadingOrder order_;
  SpecsInReach reach_;
  ReadingStore store_;
  /// Of the declaration that is being read.
  ReadingNotes notes_;
  Context context_;
  std::string house_name_;
  bool house_read_ = false;
  std::size_t brought_ = 0;
  bool is_full_ = false;
};

Reader::Reader(const symbols::SymbolTable& names, const units::UnitTable& units,
               const std::vector<syntax::File>& files, source::SourceSet& sources, Specs& specs,
               diagnostics::DiagnosticSink& sink, std::vector<ReadLog>* logs)
    : work_(std::make_unique<Work>(names, units, files, sources, specs, sink, logs)) {}
Reader::~Reader() = default;
void Reader::read_all(const std::string& house_name) { work_->read_all(house_name); }
void Reader::set_order() { work_->set_order(); }
const ReadingOrder& Reader::order() const { return work_->order(); }
bool Reader::is_full() const { return work_->is_full(); }
void Reader::set_place(DeclarationId id, Stock& place) { work_->set_place(id, place); }
void Reader::set_place(DeclarationId id, Glass& place) { work_->set_place(id, place); }
void Reader::set_place(DeclarationId id, Ice& place) { work_->set_place(id, place); }
void Reader::set_place(DeclarationId id, Family& place) { work_->set_place(id, place); }
void Reader::set_place(DeclarationId id, Drink& place) { work_->set_place(id, place); }
void Reader::set_place(DeclarationId id, PriceList& place) { work_->set_place(id, place); }
void Reader::set_place(DeclarationId id, Menu& place) { work_->set_place(id, place); }
void Reader::read_again(DeclarationId id) { work_->read_again(id); }
void Reader::share_out(Menu& menu) { work_->share_out(menu); }
void Reader::forget(ReadLog& log) { work_->forget(log); }

Specs analyse(const symbols::SymbolTable& names, const units::UnitTable& units,
              const std::vector<syntax::File>& files, source::SourceSet& sources,
              const std::string& house_name, diagnostics::DiagnosticSink& sink) {
  Specs specs;
  Reader(names, units, files, sources, specs, sink, nullptr).read_all(house_name);
  return specs;
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
