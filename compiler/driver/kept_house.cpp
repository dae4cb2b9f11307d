#include "driver/kept_house.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <unordered_map>
#include <utility>

#include "analysis/reader.h"
#include "base/text.h"
#include "driver/kept/lines.h"
#include "driver/kept/moves.h"
#include "driver/kept/same.h"
#include "driver/standard_library.h"
#include "lint/parts_of_judging.h"
#include "model/evaluation.h"
#include "symbols/renamed.h"
#include "syntax/parse.h"

namespace gill::driver {

using diagnostics::Diagnostic;
using symbols::DeclarationId;
using symbols::DeclarationKind;

namespace {

/// The files of the standard library, parsed.
struct ParsedLibrary {
  source::SourceSet sources;
  std::vector<syntax::File> files;
  diagnostics::DiagnosticSink sink;
};

/// Parsed once a program: it is the same for every house, and for every state of one that is watched.
const ParsedLibrary& parsed_library() {
  static const ParsedLibrary library = [] {
    ParsedLibrary parsed;
    for (const auto& file : standard_library()) {
      auto id = parsed.sources.add("stdlib/" + std::string(file.path), std::string(file.text), true);
      parsed.files.push_back(syntax::parse(id, parsed.sources, parsed.sink));
    }
    return parsed;
  }();
  return library;
}

}  // namespace

namespace kept {

using Findings = std::vector<Diagnostic>;

/// A file of the house as it was last read.
struct KnownFile {
  std::string path;
  source::FileId id;
  /// Bytes that are no text.
  Findings findings;
};

constexpr std::uint32_t is_new = UINT32_MAX;

/// What an edit did to the declarations, by their new number.
struct Edited {
  Moves moves;
  /// The old number of each; `is_new` for what came.
  std::vector<std::uint32_t> was;
  /// Its own lines, or what it is like.
  std::vector<bool> has_changed;
  /// In a file of which lines moved.
  std::vector<bool> may_have_moved;
  /// Names that mean something else now, as `AskedNames` keeps them, in order.
  std::vector<std::uint64_t> names;
  /// Read again so far, and of those what says something else.
  std::vector<bool> was_read, has_new_value;
  /// Declarations are read in another order now, or stock has another face: what was seen may differ.
  bool sees_anew = false;
  /// Declarations came or went, and none of them is stock.
  bool stock_stays = false;
};

}  // namespace kept

using kept::Edited;
using kept::Findings;
using kept::is_new;
using kept::KnownFile;

class KeptHouse::State {
 public:
  State(bool with_hands, std::vector<Redone>& redone)
      : result(std::make_unique<Compilation>()),
        evaluation_(result->specs, result->units, result->facts, with_hands),
        lint_{result->specs, result->facts, result->units},
        reader_(result->names, result->units, result->files, result->sources, result->specs, sink_, &logs_),
        redone_(redone) {}

  /// From nothing; false where it was asked to stop.
  bool compile(const HouseFiles& house, const std::stop_token& stop);
  /// After an edit; false where it reaches so far that all is to be done from nothing.
  bool update(const HouseFiles& house);

  std::unique_ptr<Compilation> result;

 private:
  void note(Redone::What what, const std::string& name, std::string why) {
    redone_.push_back({what, name, std::move(why)});
  }
  const std::string& name_of(std::size_t declaration) const {
    return result->names[DeclarationId::at(declaration)].name;
  }
  bool is_within_questions() const;
  void parse(std::size_t index);
  void set_keys();
  void keep_beside_values();
  bool is_library(std::size_t declaration) const {
    return result->names[DeclarationId::at(declaration)].from_library;
  }

  // what an edit did
  bool take_texts(const HouseFiles& house);
  bool is_same_list(const HouseFiles& house) const;
  void take_list(const HouseFiles& house);
  void match_in_place(Edited& edited) const;
  void match_by_name(const symbols::SymbolTable& old, Edited& edited) const;
  const syntax::File& old_tree(source::FileId id) const;
  bool compare_lines(const symbols::SymbolTable& old, Edited& edited);
  void find_changed_names(const symbols::SymbolTable& old, Edited& edited) const;
  void renumber(const symbols::SymbolTable& old, Edited& edited);
  bool stock_stays(const Edited& edited) const;
  template <typename Kind>
  void rearrange(std::vector<Kind>& table, DeclarationKind kind, DeclarationKind other,
                 kept::NewIds<Kind>& now, const std::vector<std::uint32_t>& old_index, const Edited& edited);
  void move_all(const Edited& edited);
  void place_new(const Edited& edited);
  void move_some(const Edited& edited);
  void move_one(std::size_t declaration, const kept::Moves& moves);

  // reading, working out, judging again
  bool must_read(std::size_t declaration, const Edited& edited, std::string& why) const;
  void read_again(Edited& edited);
  template <typename Kind>
  bool differs_after_reading(DeclarationId id, std::vector<Kind>& table);
  bool differs_after_reading(DeclarationId id);
  void read_one(std::size_t declaration, Edited& edited);
  bool compare_headers(const symbols::SymbolTable& old, const analysis::ReadingOrder& old_order,
                       Edited& edited);
  bool take_names(Edited& edited);
  void find_reach(const Edited& edited);
  void work_out_stock(bool anew);
  void work_out_preps(const std::vector<std::size_t>& order, bool anew, bool in_circles);
  void work_out_drinks(bool renumbered);
  void judge_again();
  void gather();

  std::string house_name_;
  std::vector<KnownFile> known_;
  /// Of files that are no more.
  std::vector<source::FileId> free_files_;
  /// While an edit is taken in: which files have another text, and what they were.
  std::vector<std::size_t> changed_;
  std::map<source::FileId, syntax::File> old_trees_;
  std::size_t library_files_ = 0;
  diagnostics::DiagnosticSink sink_;
  Findings of_library_, of_names_, of_units_;
  int name_questions_ = 0, unit_questions_ = 0;
  /// By declaration.
  std::vector<analysis::ReadLog> logs_;
  std::vector<std::uint64_t> keys_;
  model::Evaluation evaluation_;
  lint::House lint_;
  analysis::Reader reader_;
  /// By stock and by drink: what it names; what judging it found; whether that is to be done again.
  std::vector<std::vector<analysis::StockId>> named_by_stock_, named_by_drink_;
  std::vector<Findings> of_judged_stock_, of_judged_drinks_;
  std::vector<bool> judge_stock_, judge_drink_;
  /// While an edit is taken in: stock whose face is another (`StockFace`), and stock that is another thing to
  /// who uses it; families that say something else.
  std::vector<bool> new_face_, new_stock_, read_stock_, read_drinks_, new_families_;
  /// It reaches every recipe; it changes what things cost; prices are to be read again, if only since they
  /// stand elsewhere in memory.
  bool reaches_all_ = false, prices_changed_ = false, prices_moved_ = false;
  std::vector<Redone>& redone_;
};

namespace {

/// Enough for any declaration: how many a house asks together is looked at when all are read.
constexpr int questions_of_one = 1 << 20;

bool is_stock(DeclarationKind kind) {
  return kind == DeclarationKind::ingredient || kind == DeclarationKind::prep;
}

}  // namespace

// ---- from nothing

void KeptHouse::State::parse(std::size_t index) {
  auto& known = known_[index];
  diagnostics::DiagnosticSink sink;
  result->files[library_files_ + index] = syntax::parse(known.id, result->sources, sink);
  known.findings = std::move(sink.all());
}

void KeptHouse::State::set_keys() {
  keys_.resize(result->names.size());
  for (std::size_t i = 0; i < keys_.size(); ++i) {
    const auto& declaration = result->names[DeclarationId::at(i)];
    const auto& file = result->files[declaration.file_index];
    keys_[i] = declaration.from_library ? 0
                                        : kept::key_of(file.declarations[declaration.declaration_index], file,
                                                       result->sources[file.file_id]);
  }
}

/// What is kept beside the values, and that all is to be judged.
void KeptHouse::State::keep_beside_values() {
  const auto& specs = result->specs;
  for (const auto& stock : specs.stock) {
    named_by_stock_.push_back(kept::stock_named_in(stock));
    lint_.hazards.push_back(lint::hazards_of(stock));
  }
  lint_.uses = lint::count_uses(specs);
  for (const auto& drink : specs.drinks) named_by_drink_.push_back(kept::stock_named_in(drink));
  of_judged_stock_.resize(specs.stock.size());
  of_judged_drinks_.resize(specs.drinks.size());
  judge_stock_.assign(specs.stock.size(), true);
  judge_drink_.assign(specs.drinks.size(), true);
}

bool KeptHouse::State::compile(const HouseFiles& house, const std::stop_token& stop) {
  const ParsedLibrary& library = parsed_library();
  house_name_ = house.name;
  of_library_ = library.sink.all();
  result->sources = library.sources;
  result->files = library.files;
  library_files_ = library.files.size();
  for (const auto& file : house.files) {
    if (stop.stop_requested()) return false;
    known_.push_back({file.path, result->sources.add(file.path, file.text, false), {}});
    result->files.emplace_back();
    parse(known_.size() - 1);
  }
  result->house_file_count = house.files.size();
  result->names = symbols::declare(result->files, result->sources, sink_);
  of_names_ = std::exchange(sink_.all(), {});
  name_questions_ = result->names.questions_left();
  if (stop.stop_requested()) return false;
  result->units = units::build_units(result->names, result->files, result->sources, sink_);
  of_units_ = std::exchange(sink_.all(), {});
  unit_questions_ = result->units.questions_left();
  reader_.read_all(house.name);
  if (stop.stop_requested()) return false;
  set_keys();
  const auto& specs = result->specs;
  evaluation_.all_stock();
  evaluation_.of_drinks.resize(specs.drinks.size());
  result->facts.drinks.resize(specs.drinks.size());
  for (std::size_t i = 0; i < specs.drinks.size(); ++i) evaluation_.drink(i);
  if (stop.stop_requested()) return false;
  keep_beside_values();
  judge_again();
  gather();
  redone_ = {{Redone::What::everything, {}, "it was never compiled before"}};
  return true;
}

// ---- what an edit did

bool KeptHouse::State::is_same_list(const HouseFiles& house) const {
  return std::equal(known_.begin(), known_.end(), house.files.begin(), house.files.end(),
                    [](const KnownFile& known, const HouseFile& file) { return known.path == file.path; });
}

/// Takes new texts and parses them; false where nothing differs.
bool KeptHouse::State::take_texts(const HouseFiles& house) {
  for (std::size_t i = 0; i < known_.size(); ++i) {
    std::string_view now = house.files[i].text;
    if (now.starts_with("\xef\xbb\xbf")) now.remove_prefix(3);
    if (known_[i].id.valid() && result->sources[known_[i].id].text == now) continue;
    changed_.push_back(i);
    auto& id = known_[i].id;
    if (id.valid()) {
      old_trees_[id] = std::move(result->files[library_files_ + i]);
      result->sources.replace(id, known_[i].path, house.files[i].text);
    } else if (!free_files_.empty()) {
      id = free_files_.back();
      free_files_.pop_back();
      result->sources.replace(id, known_[i].path, house.files[i].text);
    } else {
      id = result->sources.add(known_[i].path, house.files[i].text, false);
    }
    parse(i);
    note(Redone::What::read_file, known_[i].path, "its text is another");
  }
  return !changed_.empty();
}

void KeptHouse::State::match_in_place(Edited& edited) const {
  edited.was.resize(result->names.size());
  for (std::size_t i = 0; i < edited.was.size(); ++i) edited.was[i] = static_cast<std::uint32_t>(i);
}

/// A declaration is the one that was called so before, in whatever file; of several each its own.
void KeptHouse::State::match_by_name(const symbols::SymbolTable& old, Edited& edited) const {
  std::unordered_map<std::string, std::vector<std::uint32_t>> by_name;
  auto key_of = [](const symbols::Declaration& declaration) {
    return std::string(keyword_of(declaration.kind)) + (declaration.from_library ? "." : " ") +
           declaration.name;
  };
  for (std::size_t i = old.size(); i-- > 0;)
    by_name[key_of(old[DeclarationId::at(i)])].push_back(static_cast<std::uint32_t>(i));
  edited.was.assign(result->names.size(), is_new);
  edited.moves.declarations.assign(old.size(), DeclarationId{});
  for (std::size_t i = 0; i < edited.was.size(); ++i) {
    auto found = by_name.find(key_of(result->names[DeclarationId::at(i)]));
    if (found == by_name.end() || found->second.empty()) continue;
    edited.was[i] = found->second.back();
    found->second.pop_back();
    edited.moves.declarations[edited.was[i]] = DeclarationId::at(i);
  }
}

/// Files came or went. What is still there keeps its tree; what is gone leaves it for the comparison.
void KeptHouse::State::take_list(const HouseFiles& house) {
  std::map<std::string, std::size_t> old;
  for (std::size_t i = 0; i < known_.size(); ++i) old[known_[i].path] = i;
  std::vector<KnownFile> known;
  std::vector<syntax::File> trees;
  for (const auto& file : house.files) {
    auto found = old.find(file.path);
    if (found == old.end()) {
      known.push_back({file.path, {}, {}});
      trees.emplace_back();
      continue;
    }
    known.push_back(std::move(known_[found->second]));
    trees.push_back(std::move(result->files[library_files_ + found->second]));
    old.erase(found);
  }
  for (const auto& [path, index] : old) {
    old_trees_[known_[index].id] = std::move(result->files[library_files_ + index]);
    free_files_.push_back(known_[index].id);
    note(Redone::What::read_file, path, "it is no more");
  }
  known_ = std::move(known);
  result->files.resize(library_files_);
  for (auto& tree : trees) result->files.push_back(std::move(tree));
  result->house_file_count = house.files.size();
}

const syntax::File& KeptHouse::State::old_tree(source::FileId id) const {
  if (auto found = old_trees_.find(id); found != old_trees_.end()) return found->second;
  return *std::find_if(result->files.begin(), result->files.end(),
                       [&](const syntax::File& file) { return file.file_id == id; });
}

/// Which declarations say something else, and where the lines of the others went. False where units or the
/// house's settings change, which reach everything.
bool KeptHouse::State::compare_lines(const symbols::SymbolTable& old, Edited& edited) {
  const auto& names = result->names;
  std::vector<std::uint64_t> keys(names.size());
  edited.has_changed.assign(names.size(), false);
  edited.may_have_moved.assign(names.size(), false);
  auto reaches_all = [](DeclarationKind kind) {
    return kind == DeclarationKind::unit || kind == DeclarationKind::house;
  };
  for (std::size_t i = 0; i < names.size(); ++i) {
    const auto& declaration = names[DeclarationId::at(i)];
    if (declaration.from_library) continue;
    const auto& file = result->files[declaration.file_index];
    const auto& tree = file.declarations[declaration.declaration_index];
    const auto was = edited.was[i];
    const auto* before = was == is_new ? nullptr : &old[DeclarationId{was}];
    if (before && before->name_span.file_id == file.file_id && !old_trees_.contains(file.file_id)) {
      bool stays = before->declaration_index == declaration.declaration_index;
      keys[i] = keys_[was];
      if (stays) continue;
    }
    keys[i] = kept::key_of(tree, file, result->sources[file.file_id]);
    edited.has_changed[i] = !before || keys[i] != keys_[was];
    if (edited.has_changed[i] && reaches_all(declaration.kind)) return false;
    if (edited.has_changed[i]) continue;
    const auto& old_file = old_tree(before->name_span.file_id);
    edited.may_have_moved[i] = kept::move_lines(old_file.declarations[before->declaration_index], old_file,
                                                tree, file, edited.moves);
  }
  for (std::size_t i = 0; i < edited.moves.declarations.size(); ++i)
    if (!edited.moves.declarations[i].valid() && reaches_all(old[DeclarationId::at(i)].kind)) return false;
  edited.moves.sort_lines();
  keys_ = std::move(keys);
  return true;
}

/// Which names mean something else. A name of a declaration that stands as it was does only where several
/// have it, which is a finding.
void KeptHouse::State::find_changed_names(const symbols::SymbolTable& old, Edited& edited) const {
  const auto& names = result->names;
  bool looks_at_all = !of_names_.empty();
  auto add = [&](const symbols::Declaration& declaration, bool says_something_else) {
    auto space = symbols::name_space_of(declaration.kind);
    auto compare = [&](const std::string& name) {
      std::string folded = base::fold_name(name);
      auto before = old.find_folded(space, folded), now = names.find_folded(space, folded);
      if (before.valid()) before = edited.moves.declarations[before.index()];
      if (says_something_else || before != now) edited.names.push_back(symbols::number_of(space, folded));
    };
    compare(declaration.name);
    for (const auto& alias : declaration.aliases) compare(alias.name);
  };
  for (std::size_t i = 0; i < names.size(); ++i) {
    const auto& now = names[DeclarationId::at(i)];
    if (now.from_library || !(looks_at_all || edited.has_changed[i])) continue;
    const auto* before = edited.was[i] == is_new ? nullptr : &old[DeclarationId{edited.was[i]}];
    auto same_name = [](const symbols::Alias& a, const symbols::Alias& b) { return a.name == b.name; };
    bool is_called_alike = before && before->name == now.name &&
                           std::equal(before->aliases.begin(), before->aliases.end(), now.aliases.begin(),
                                      now.aliases.end(), same_name);
    if (before && !is_called_alike) add(*before, true);
    if (!is_called_alike || looks_at_all) add(now, !is_called_alike);
  }
  for (std::size_t i = 0; i < old.size(); ++i) {
    bool is_gone = !edited.moves.declarations[i].valid();
    if (is_gone || (looks_at_all && !old[DeclarationId::at(i)].from_library))
      add(old[DeclarationId::at(i)], is_gone);
  }
  std::sort(edited.names.begin(), edited.names.end());
}

// ---- new numbers and places

/// The table of one kind in its new order: what was there goes to its place, what came waits to be read.
template <typename Kind>
void KeptHouse::State::rearrange(std::vector<Kind>& table, DeclarationKind kind, DeclarationKind other,
                                 kept::NewIds<Kind>& now, const std::vector<std::uint32_t>& old_index,
                                 const Edited& edited) {
  std::vector<Kind> arranged;
  now.assign(table.size(), {});
  for (std::size_t i = 0; i < result->names.size(); ++i) {
    const auto& declaration = result->names[DeclarationId::at(i)];
    if (declaration.kind != kind && declaration.kind != other) continue;
    auto& index = result->specs.index_of[i];
    index = static_cast<std::uint32_t>(arranged.size());
    if (edited.was[i] == is_new) {
      arranged.emplace_back();
      continue;
    }
    auto old = old_index[edited.was[i]];
    now[old] = base::Id<Kind>{index};
    arranged.push_back(std::move(table[old]));
  }
  table = std::move(arranged);
}

namespace {

/// The same for what is kept beside a table.
template <typename Value, typename Tag>
void rearrange_beside(std::vector<Value>& values, const kept::NewIds<Tag>& now, std::size_t count) {
  std::vector<Value> arranged(count);
  for (std::size_t i = 0; i < now.size(); ++i)
    if (now[i].valid()) arranged[now[i].index()] = std::move(values[i]);
  values = std::move(arranged);
}

}  // namespace

void KeptHouse::State::renumber(const symbols::SymbolTable& old, Edited& edited) {
  auto& specs = result->specs;
  auto& moves = edited.moves;
  moves.renumbers = true;
  auto old_index = std::move(specs.index_of);
  specs.index_of.assign(result->names.size(), 0);
  using enum DeclarationKind;
  rearrange(specs.stock, ingredient, prep, moves.stock, old_index, edited);
  rearrange(specs.glasses, glass, glass, moves.glasses, old_index, edited);
  rearrange(specs.ices, ice, ice, moves.ices, old_index, edited);
  rearrange(specs.families, family, family, moves.families, old_index, edited);
  rearrange(specs.drinks, drink, drink, moves.drinks, old_index, edited);
  rearrange(specs.price_lists, prices, prices, moves.price_lists, old_index, edited);
  kept::NewIds<analysis::Menu> menus;
  rearrange(specs.menus, menu, menu, menus, old_index, edited);
  for (std::size_t i = 0; i < old.size(); ++i)
    if (!moves.declarations[i].valid()) reader_.forget(logs_[i]);
  rearrange_beside(logs_, moves.declarations, result->names.size());
  rearrange_beside(specs.notes, moves.declarations, result->names.size());
  rearrange_beside(named_by_stock_, moves.stock, specs.stock.size());
  rearrange_beside(of_judged_stock_, moves.stock, specs.stock.size());
  rearrange_beside(lint_.hazards, moves.stock, specs.stock.size());
  rearrange_beside(named_by_drink_, moves.drinks, specs.drinks.size());
  rearrange_beside(of_judged_drinks_, moves.drinks, specs.drinks.size());
  rearrange_beside(evaluation_.of_drinks, moves.drinks, specs.drinks.size());
  rearrange_beside(result->facts.drinks, moves.drinks, specs.drinks.size());
  // They stand elsewhere in memory.
  prices_moved_ = true;
  edited.stock_stays = stock_stays(edited);
  // Otherwise all stock is worked out again.
  if (!edited.stock_stays) result->facts.stock.clear();
}

/// True where no stock came or went, or changed places.
bool KeptHouse::State::stock_stays(const Edited& edited) const {
  const auto& now = edited.moves.stock;
  for (std::size_t i = 0; i < now.size(); ++i)
    if (!now[i].valid() || now[i].index() != i) return false;
  return now.size() == result->specs.stock.size();
}

/// Everything that is kept, where declarations have other numbers.
void KeptHouse::State::move_all(const Edited& edited) {
  const auto& moves = edited.moves;
  auto& specs = result->specs;
  moves.apply(specs.house);
  auto apply = [&](auto& values) {
    for (auto& value : values) moves.apply(value);
  };
  apply(specs.stock), apply(specs.glasses), apply(specs.ices), apply(specs.families), apply(specs.drinks);
  apply(specs.price_lists), apply(specs.menus), apply(named_by_stock_), apply(named_by_drink_);
  apply(result->facts.drinks), apply(evaluation_.of_drinks), apply(of_judged_stock_),
      apply(of_judged_drinks_);
  if (edited.stock_stays) apply(result->facts.stock), apply(evaluation_.of_stock);
  for (auto& log : logs_) moves.apply(log, specs.readings, result->sources);
  apply(specs.notes);
  moves.apply(of_units_);
  moves.apply(evaluation_.of_circles);
}

/// What may hold places in a file whose lines moved: the declarations there, and those that are like one.
void KeptHouse::State::move_some(const Edited& edited) {
  for (std::size_t i = 0; i < edited.was.size(); ++i) {
    const auto& declaration = result->names[DeclarationId::at(i)];
    if (edited.may_have_moved[i] || (declaration.like.valid() && !declaration.from_library))
      move_one(i, edited.moves);
  }
  edited.moves.apply(of_units_);
  edited.moves.apply(evaluation_.of_circles);
}

/// What came has a place, and waits to be read.
void KeptHouse::State::place_new(const Edited& edited) {
  auto& specs = result->specs;
  for (std::size_t i = 0; i < edited.was.size(); ++i) {
    if (edited.was[i] != is_new) continue;
    auto id = DeclarationId::at(i);
    auto index = specs.index_of[i];
    switch (result->names[id].kind) {
      case DeclarationKind::house:
      case DeclarationKind::unit:
        break;
      case DeclarationKind::ingredient:
      case DeclarationKind::prep:
        reader_.set_place(id, specs.stock[index]);
        specs.stock[index].is_prep = result->names[id].kind == DeclarationKind::prep;
        break;
      case DeclarationKind::glass:
        reader_.set_place(id, specs.glasses[index]);
        break;
      case DeclarationKind::ice:
        reader_.set_place(id, specs.ices[index]);
        break;
      case DeclarationKind::family:
        reader_.set_place(id, specs.families[index]);
        break;
      case DeclarationKind::drink:
        reader_.set_place(id, specs.drinks[index]);
        break;
      case DeclarationKind::prices:
        reader_.set_place(id, specs.price_lists[index]);
        break;
      case DeclarationKind::menu:
        reader_.set_place(id, specs.menus[index]);
        break;
    }
  }
}

void KeptHouse::State::move_one(std::size_t declaration, const kept::Moves& moves) {
  auto& specs = result->specs;
  auto index = specs.index_of[declaration];
  moves.apply(logs_[declaration], specs.readings, result->sources);
  moves.apply(specs.notes[declaration]);
  switch (result->names[DeclarationId::at(declaration)].kind) {
    case DeclarationKind::house:
      return moves.apply(specs.house);
    case DeclarationKind::unit:
      return;
    case DeclarationKind::ingredient:
    case DeclarationKind::prep:
      moves.apply(specs.stock[index]);
      moves.apply(result->facts.stock[index]);
      moves.apply(evaluation_.of_stock[index]);
      return moves.apply(of_judged_stock_[index]);
    case DeclarationKind::glass:
      return moves.apply(specs.glasses[index]);
    case DeclarationKind::ice:
      return moves.apply(specs.ices[index]);
    case DeclarationKind::family:
      return moves.apply(specs.families[index]);
    case DeclarationKind::drink:
      moves.apply(specs.drinks[index]);
      moves.apply(result->facts.drinks[index]);
      moves.apply(evaluation_.of_drinks[index]);
      return moves.apply(of_judged_drinks_[index]);
    case DeclarationKind::prices:
      return moves.apply(specs.price_lists[index]);
    case DeclarationKind::menu:
      return moves.apply(specs.menus[index]);
  }
}

// ---- reading again

bool KeptHouse::State::is_within_questions() const {
  int names = 0, units = 0;
  for (const auto& log : logs_) names += log.asked.questions, units += log.unit_questions;
  return names <= name_questions_ && (units == 0 || units < unit_questions_);
}

bool KeptHouse::State::must_read(std::size_t declaration, const Edited& edited, std::string& why) const {
  const auto& log = logs_[declaration];
  if (edited.has_changed[declaration]) return why = "its lines say something else", true;
  auto like = result->names[DeclarationId::at(declaration)].like;
  if (like.valid() && edited.was_read[like.index()])
    return why = fmt::format("it is like `{}`", name_of(like.index())), true;
  if (!edited.names.empty()) {
    if (log.asked.hangs_on_every_name()) return why = "a name that it looks for may be another now", true;
    for (auto name : edited.names)
      if (std::binary_search(log.asked.names.begin(), log.asked.names.end(), name))
        return why = "a name that it asks for means something else", true;
  }
  if (!edited.sees_anew) return false;
  const auto& order = reader_.order();
  for (const auto& seen : log.seen) {
    auto of_stock = result->specs[seen.stock].head.declaration_id.index();
    bool is_read = order[of_stock] < order[declaration];
    if (is_read != seen.is_read || (is_read && new_face_[seen.stock.index()]))
      return why = fmt::format("`{}`, which it names, is another thing", name_of(of_stock)), true;
  }
  return false;
}

/// The value of a declaration before it is read again and after: true where they say something else.
template <typename Kind>
bool KeptHouse::State::differs_after_reading(DeclarationId id, std::vector<Kind>& table) {
  auto index = result->specs.index_of[id.index()];
  Kind before = std::move(table[index]);
  result->names.allow_questions(questions_of_one);
  result->units.allow_questions(questions_of_one);
  reader_.read_again(id);
  const Kind& now = table[index];
  bool differs = !kept::says_the_same(before, now);
  if constexpr (requires { now.recipe; }) {
    lint::count_uses(before.recipe, -1, lint_.uses);
    lint::count_uses(now.recipe, 1, lint_.uses);
  }
  if constexpr (std::is_same_v<Kind, analysis::Stock>) {
    new_face_[index] = !kept::have_the_same_face(before, now);
    named_by_stock_[index] = kept::stock_named_in(now);
    lint_.hazards[index] = lint::hazards_of(now);
    if (kept::are_bought_alike(before, now)) return differs;
    prices_changed_ = true;
    return differs && !kept::says_the_same_but_for_buys(before, now);
  }
  if constexpr (std::is_same_v<Kind, analysis::Drink>) named_by_drink_[index] = kept::stock_named_in(now);
  return differs;
}

bool KeptHouse::State::differs_after_reading(DeclarationId id) {
  auto& specs = result->specs;
  switch (result->names[id].kind) {
    case DeclarationKind::house:
    case DeclarationKind::unit:
      return false;
    case DeclarationKind::ingredient:
    case DeclarationKind::prep:
      return differs_after_reading(id, specs.stock);
    case DeclarationKind::glass:
      return differs_after_reading(id, specs.glasses);
    case DeclarationKind::ice:
      return differs_after_reading(id, specs.ices);
    case DeclarationKind::family:
      return differs_after_reading(id, specs.families);
    case DeclarationKind::drink:
      return differs_after_reading(id, specs.drinks);
    case DeclarationKind::prices:
      return differs_after_reading(id, specs.price_lists);
    case DeclarationKind::menu:
      return differs_after_reading(id, specs.menus);
  }
  return false;
}

void KeptHouse::State::read_one(std::size_t declaration, Edited& edited) {
  edited.was_read[declaration] = true;
  auto id = DeclarationId::at(declaration);
  bool differs = differs_after_reading(id);
  edited.has_new_value[declaration] = differs || edited.was[declaration] == is_new;
  if (is_stock(result->names[id].kind) && new_face_[result->specs.index_of[declaration]])
    edited.sees_anew = true;
}

void KeptHouse::State::read_again(Edited& edited) {
  const auto& names = result->names;
  edited.was_read.assign(names.size(), false);
  edited.has_new_value.assign(names.size(), false);
  new_face_.assign(result->specs.stock.size(), false);
  bool serves_change = false;
  for (auto id : names.in_order()) {
    auto kind = names[id].kind;
    std::string why;
    if (kind == DeclarationKind::house || kind == DeclarationKind::unit ||
        !must_read(id.index(), edited, why))
      continue;
    double serves =
        kind == DeclarationKind::drink ? result->specs.drinks[result->specs.index_of[id.index()]].serves : 0;
    read_one(id.index(), edited);
    note(Redone::What::read, name_of(id.index()), why);
    serves_change =
        serves_change || (kind == DeclarationKind::drink &&
                          (serves != result->specs.drinks[result->specs.index_of[id.index()]].serves ||
                           edited.was[id.index()] == is_new));
  }
  for (auto& menu : result->specs.menus) {
    auto declaration = menu.head.declaration_id.index();
    if (reader_.order()[declaration] == analysis::never_read) continue;
    if (!edited.was_read[declaration] && !serves_change) continue;
    if (!edited.was_read[declaration]) read_one(declaration, edited);
    reader_.share_out(menu);
  }
}

// ---- working out and judging again

namespace {

bool is_any(const std::vector<bool>& marks) {
  return std::find(marks.begin(), marks.end(), true) != marks.end();
}

/// True where one of them is marked; one that is no more counts as marked.
bool is_any_marked(const std::vector<analysis::StockId>& named, const std::vector<bool>& marks) {
  return std::any_of(named.begin(), named.end(), [&](auto id) { return !id.valid() || marks[id.index()]; });
}

}  // namespace

/// Which stock says something else, an ingredient also where what it gives does; and what of the house
/// reaches every recipe.
void KeptHouse::State::find_reach(const Edited& edited) {
  const auto& specs = result->specs;
  new_families_.assign(specs.families.size(), false);
  new_stock_.assign(specs.stock.size(), false);
  read_stock_.assign(specs.stock.size(), false);
  read_drinks_.assign(specs.drinks.size(), false);
  for (std::size_t i = 0; i < edited.was_read.size(); ++i) {
    if (!edited.was_read[i]) continue;
    auto kind = result->names[DeclarationId::at(i)].kind;
    if (is_stock(kind) || kind == DeclarationKind::prices) prices_moved_ = true;
    if (is_stock(kind)) read_stock_[specs.index_of[i]] = true;
    if (kind == DeclarationKind::drink) read_drinks_[specs.index_of[i]] = true;
    if (!edited.has_new_value[i]) continue;
    if (kind == DeclarationKind::glass || kind == DeclarationKind::ice) reaches_all_ = true;
    if (kind == DeclarationKind::prices || kind == DeclarationKind::ingredient) prices_changed_ = true;
    if (kind == DeclarationKind::family) new_families_[specs.index_of[i]] = true;
    if (is_stock(kind)) new_stock_[specs.index_of[i]] = true;
  }
  if (!edited.moves.renumbers && !is_any(new_stock_)) return;
  auto own = new_stock_;
  for (std::size_t i = 0; i < own.size(); ++i)
    if (!specs.stock[i].is_prep && is_any_marked(named_by_stock_[i], own)) new_stock_[i] = true;
}

/// Facts of the stock, as far as the edit reaches; `new_stock_` then marks all that is another thing to who
/// uses it.
void KeptHouse::State::work_out_stock(bool anew) {
  const auto& specs = result->specs;
  const std::size_t count = specs.stock.size();
  bool any = is_any(new_stock_) || is_any(read_stock_);
  if (!anew && !any && !reaches_all_ && !prices_changed_) {
    if (prices_moved_) evaluation_.read_prices();
    return;
  }
  auto order = evaluation_.preps_in_order();
  bool in_circles = !order;
  if (in_circles) {
    order.emplace();
    for (std::size_t i = 0; i < count; ++i)
      if (specs.stock[i].is_prep) order->push_back(i);
  }
  anew = anew || in_circles;
  if (anew) evaluation_.all_stock();
  for (std::size_t i = 0; i < count; ++i) {
    if (specs.stock[i].is_prep || !(new_stock_[i] || read_stock_[i])) continue;
    if (!anew) evaluation_.ingredient(i);
    note(Redone::What::worked_out, specs.stock[i].head.name, "its lines were read again");
  }
  if (!anew && prices_moved_) evaluation_.read_prices();
  if (!anew && prices_changed_) evaluation_.price_ingredients();
  work_out_preps(*order, anew, in_circles);
}

/// Preps in that order; where all was done `anew` it is only noted what another thing is.
void KeptHouse::State::work_out_preps(const std::vector<std::size_t>& order, bool anew, bool in_circles) {
  const auto& specs = result->specs;
  for (auto i : order) {
    bool is_another =
        new_stock_[i] || reaches_all_ || in_circles || is_any_marked(named_by_stock_[i], new_stock_);
    // What was read again and says the same has its places from the lines as they are now.
    bool is_reached = is_another || read_stock_[i];
    judge_stock_[i] = judge_stock_[i] || is_reached || prices_changed_;
    if (is_reached) {
      note(Redone::What::worked_out, specs.stock[i].head.name,
           read_stock_[i] ? "its lines were read again" : "what it is made of is another thing");
      new_stock_[i] = is_another;
      if (!anew) evaluation_.prep(i);
    } else if (prices_changed_ && !anew) {
      evaluation_.price_prep(i);
    }
  }
}

/// What names a thing that is no more is marked by that, where declarations came or went (`renumbered`).
void KeptHouse::State::work_out_drinks(bool renumbered) {
  const auto& drinks = result->specs.drinks;
  const bool looks_at_parts = is_any(new_stock_) || renumbered, looks_at_families = is_any(new_families_);
  for (std::size_t i = 0; i < drinks.size(); ++i) {
    bool has_new_parts = looks_at_parts && is_any_marked(named_by_drink_[i], new_stock_);
    if (read_drinks_[i] || reaches_all_ || has_new_parts) {
      evaluation_.drink(i);
      judge_drink_[i] = true;
      note(Redone::What::worked_out, drinks[i].head.name,
           read_drinks_[i] ? "its lines were read again" : "what it is made of is another thing");
    } else if (prices_changed_ && evaluation_.price_drink(i)) {
      judge_drink_[i] = true;
      note(Redone::What::priced, drinks[i].head.name, "prices changed");
    }
    if (looks_at_families && drinks[i].family.valid() && new_families_[drinks[i].family.index()])
      judge_drink_[i] = true;
  }
}

void KeptHouse::State::judge_again() {
  auto judge = [&](auto check, std::vector<bool>& marks, std::vector<Findings>& found) {
    for (std::size_t i = 0; i < marks.size(); ++i) {
      if (!marks[i]) continue;
      found[i].clear();
      check(lint_, i, found[i]);
      marks[i] = false;
    }
  };
  for (std::size_t i = 0; i < judge_drink_.size(); ++i)
    if (judge_drink_[i])
      note(Redone::What::judged, result->specs.drinks[i].head.name, "its facts were worked out");
  judge(lint::check_drink, judge_drink_, of_judged_drinks_);
  judge(lint::check_prep, judge_stock_, of_judged_stock_);
}

/// Everything that was found, as `allow` lines leave it.
void KeptHouse::State::gather() {
  Findings all = of_library_;
  all.reserve(result->findings.size() + result->suppressed.size() + 64);
  auto add = [&](const Findings& found) { all.insert(all.end(), found.begin(), found.end()); };
  auto add_each = [&](const std::vector<Findings>& found) {
    for (const auto& findings : found) add(findings);
  };
  for (const auto& file : known_) add(file.findings);
  add(of_names_);
  add(of_units_);
  for (bool is_house : {true, false})
    for (auto id : result->names.in_order()) {
      const auto& found = logs_[id.index()].findings;
      if (!found.empty() && (result->names[id].kind == DeclarationKind::house) == is_house) add(found);
    }
  add_each(evaluation_.of_stock);
  add(evaluation_.of_circles);
  add_each(evaluation_.of_drinks);
  add_each(of_judged_drinks_);
  add_each(of_judged_stock_);
  lint::check_house(lint_, all);
  auto judged = lint::suppress(lint_, std::move(all));
  result->findings = std::move(judged.shown);
  result->suppressed = std::move(judged.suppressed);
  diagnostics::sort_by_place(result->findings, result->sources);
  diagnostics::sort_by_place(result->suppressed, result->sources);
}

// ---- an update

/// What came and went, and what is like something else now. False where a circle of `like` takes something
/// away that was there.
bool KeptHouse::State::compare_headers(const symbols::SymbolTable& old,
                                       const analysis::ReadingOrder& old_order, Edited& edited) {
  auto is_setting = [](DeclarationKind kind) {
    return kind == DeclarationKind::glass || kind == DeclarationKind::ice;
  };
  auto is_priced = [](DeclarationKind kind) { return is_stock(kind) || kind == DeclarationKind::prices; };
  for (std::size_t i = 0; i < old.size(); ++i) {
    if (edited.moves.declarations[i].valid()) continue;
    auto kind = old[DeclarationId::at(i)].kind;
    reaches_all_ = reaches_all_ || is_setting(kind);
    prices_changed_ = prices_changed_ || is_priced(kind);
  }
  for (std::size_t i = 0; i < edited.was.size(); ++i) {
    const auto& declaration = result->names[DeclarationId::at(i)];
    if (edited.was[i] == is_new) {
      prices_changed_ = prices_changed_ || is_priced(declaration.kind);
      continue;
    }
    auto like = old[DeclarationId{edited.was[i]}].like;
    const bool was_like = like.valid();
    if (was_like) like = edited.moves.declarations[like.index()];
    bool was_in_circle = old_order[edited.was[i]] == analysis::never_read;
    bool is_in_circle = reader_.order()[i] == analysis::never_read;
    // A circle of `like` leaves nothing of those in it.
    if (is_in_circle && !was_in_circle) return false;
    if (like != declaration.like || was_like != like.valid() || was_in_circle != is_in_circle)
      edited.has_changed[i] = true;
  }
  return true;
}

/// New names after an edit of headers: old and new declarations are matched, and all that is kept takes its
/// new number. False where everything is to be done again.
bool KeptHouse::State::take_names(Edited& edited) {
  auto old = std::move(result->names);
  result->names = symbols::declare(result->files, result->sources, sink_);
  of_names_ = std::exchange(sink_.all(), {});
  name_questions_ = result->names.questions_left();
  match_by_name(old, edited);
  if (!compare_lines(old, edited)) return false;
  auto old_order = reader_.order();
  reader_.set_order();
  if (!compare_headers(old, old_order, edited)) return false;
  edited.sees_anew = true;
  find_changed_names(old, edited);
  renumber(old, edited);
  move_all(edited);
  place_new(edited);
  lint_.uses = lint::count_uses(result->specs);
  return true;
}

bool KeptHouse::State::update(const HouseFiles& house) {
  redone_.clear();
  changed_.clear();
  old_trees_.clear();
  reaches_all_ = prices_changed_ = prices_moved_ = false;
  if (house.name != house_name_ || reader_.is_full() || !is_within_questions()) return false;
  bool same_list = is_same_list(house);
  if (!same_list) take_list(house);
  if (!take_texts(house) && same_list) return true;
  Edited edited;
  bool in_place =
      same_list && of_names_.empty() && std::all_of(changed_.begin(), changed_.end(), [&](std::size_t i) {
        return symbols::renew_places(result->names, library_files_ + i, result->files, result->sources);
      });
  // A name that is being typed is another at each letter, and everything else stays where it is.
  if (!in_place && same_list && of_names_.empty() && changed_.size() == 1)
    if (auto names = symbols::take_new_name(result->names, library_files_ + changed_[0], result->files,
                                            result->sources)) {
      in_place = true;
      edited.names.assign(names->begin(), names->end());
      std::sort(edited.names.begin(), edited.names.end());
    }
  if (in_place) {
    match_in_place(edited);
    if (!compare_lines(result->names, edited)) return false;
    if (edited.moves.moves_lines()) move_some(edited);
  } else if (!take_names(edited)) {
    return false;
  }
  read_again(edited);
  if (reader_.is_full() || !is_within_questions()) return false;
  find_reach(edited);
  judge_stock_.resize(result->specs.stock.size());
  judge_drink_.resize(result->specs.drinks.size());
  work_out_stock(edited.moves.renumbers && !edited.stock_stays);
  work_out_drinks(edited.moves.renumbers);
  judge_again();
  gather();
  return true;
}

namespace {

std::string_view word_of(Redone::What what) {
  switch (what) {
    case Redone::What::read_file:
      return "parsed";
    case Redone::What::read:
      return "read";
    case Redone::What::worked_out:
      return "worked out";
    case Redone::What::priced:
      return "priced";
    case Redone::What::judged:
      return "judged";
    case Redone::What::everything:
      return "everything";
  }
  return {};
}

}  // namespace

std::string dump(const std::vector<Redone>& redone) {
  std::string text;
  for (const auto& one : redone)
    text += fmt::format("{}{}{}: {}\n", word_of(one.what), one.name.empty() ? "" : " ", one.name, one.why);
  return text;
}

KeptHouse::KeptHouse(bool with_hands) : with_hands_(with_hands) {}
KeptHouse::~KeptHouse() = default;

const Compilation* KeptHouse::now() const { return state_ ? state_->result.get() : nullptr; }

std::unique_ptr<Compilation> KeptHouse::take() {
  auto state = std::move(state_);
  return state ? std::move(state->result) : nullptr;
}

const Compilation* KeptHouse::update(const HouseFiles& house, const std::stop_token& stop) {
  if (state_ && state_->update(house)) return now();
  bool was_kept = state_ != nullptr;
  state_ = std::make_unique<State>(with_hands_, redone_);
  if (!state_->compile(house, stop)) state_.reset();
  if (state_ && was_kept) redone_.front().why = "what changed reaches every line";
  return now();
}

}  // namespace gill::driver
