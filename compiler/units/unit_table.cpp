#include "units/unit_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.h"
#include "units/read_quantity.h"

namespace gill::units {

using base::Exact;
using diagnostics::DiagnosticSink;
using diagnostics::Rule;
using syntax::LineView;
using syntax::TokenKind;

namespace {

// More words than any unit's spelling has (`us fluid ounce`).
constexpr std::size_t longest_spelling_words = 4;

// More digits than any real unit takes, above or below the line.
constexpr std::size_t max_unit_digits = 120;

// Units in which volumes have more than one meaning; the house may say which it means.
constexpr std::array<std::string_view, 4> ambiguous_units = {"cup", "pint", "quart", "gallon"};

/// A unit's words as one key: lower case, single spaces, `% abv` for `%abv`.
std::string key_of(std::string_view spelling) { return base::fold_name(spelling); }

std::string without_last_point(std::string word) {
  if (word.size() > 1 && word.back() == '.') word.pop_back();
  return word;
}

}  // namespace

UnitId UnitTable::add(Unit unit, const std::vector<std::string>& spellings) {
  auto id = UnitId::at(units_.size());
  add_spelling(unit.symbol, id);
  add_spelling(unit.plural, id);
  for (const auto& spelling : spellings) add_spelling(spelling, id);
  units_.push_back(std::move(unit));
  return id;
}

void UnitTable::add_spelling(const std::string& spelling, UnitId id) {
  spellings_[key_of(spelling)] = id;
  in_order_.clear();
}

UnitId UnitTable::find(std::string_view spelling) const {
  std::string key = without_last_point(key_of(spelling));
  if (auto found = spellings_.find(key); found != spellings_.end()) return found->second;
  for (std::string_view ending : {"s", "es"}) {
    if (key.size() <= ending.size() + 1 || !key.ends_with(ending)) continue;
    auto found = spellings_.find(key.substr(0, key.size() - ending.size()));
    if (found != spellings_.end()) return found->second;
  }
  return {};
}

std::vector<std::string> UnitTable::spellings() const {
  std::vector<std::string> all;
  for (const auto& [known, id] : spellings_) all.push_back(known);
  std::sort(all.begin(), all.end());
  return all;
}

UnitMatch UnitTable::match(const LineView& line, std::size_t first) const {
  UnitMatch best;
  std::string key;
  for (std::size_t n = 0; n < longest_spelling_words && first + n < line.size(); ++n) {
    TokenKind kind = line.kind(first + n);
    if (kind != TokenKind::word && kind != TokenKind::percent) break;
    if (n > 0) key += ' ';
    key += without_last_point(std::string(line.text(first + n)));
    if (key.size() > 60) break;
    if (auto id = find(key); id.valid()) best = {id, n + 1};
  }
  return best;
}

std::optional<std::string> UnitTable::nearest(std::string_view spelling) const {
  if (questions_left_ <= 0) return std::nullopt;
  --questions_left_;
  std::string key = key_of(spelling);
  base::NearestWord nearest(key);
  if (in_order_.empty())
    for (const auto& known : spellings()) in_order_.emplace_back(known, spellings_.at(known));
  for (const auto& [known, id] : in_order_) nearest.consider(known, units_[id.index()].symbol);
  return nearest.best();
}

namespace {

/// What a bar pours by a word whose size the house sets: the two usual sizes, ml. Common practice, no source.
struct PourByHouse {
  std::string_view word;
  /// What bars mean by it, in ml; 0 where there are but two.
  std::array<int, 3> ml;
};
constexpr PourByHouse pours_by_house[] = {
    {"shot", {30, 45, 25}},    {"single", {25, 30, 35}},  {"double", {50, 60, 70}}, {"jigger", {45, 60, 30}},
    {"measure", {25, 35, 0}},  {"bottle", {700, 750, 0}}, {"can", {250, 330, 0}},   {"pony", {20, 30, 0}},
    {"carafe", {250, 500, 0}}, {"jug", {500, 1000, 0}}};

const PourByHouse* find_pour_by_house(std::string_view word) {
  std::string key = base::lower_ascii(word);
  for (const auto& pour : pours_by_house)
    if (key == pour.word || key == std::string(pour.word) + "s") return &pour;
  return nullptr;
}

}  // namespace

UnknownUnit UnitTable::explain_unknown(std::string_view word) const {
  if (auto choice = choice_of_meanings(word)) {
    choice->message = fmt::format("`{}` means {} things", word, choice->units.size() > 2 ? "several" : "two");
    return *choice;
  }
  if (auto pour = find_pour_by_house(word)) {
    UnknownUnit unknown{fmt::format("`{}` is another measure in every house", word), {}, {}, {}};
    std::vector<std::string> meanings;
    for (int ml : pour->ml) {
      if (ml == 0) continue;
      unknown.millilitres.push_back(ml);
      meanings.push_back(fmt::format("`{} ml`", ml));
    }
    unknown.help = fmt::format("Write how much it is ({}), or say it once for the house: `unit {} = {} ml`.",
                               base::join_with_or(meanings), pour->word, pour->ml[0]);
    return unknown;
  }
  auto near = nearest(word);
  return {fmt::format("`{}` is no unit", word),
          near ? fmt::format("Did you mean `{}`?", *near) : "Declare it: `unit NAME = QUANTITY`.",
          {},
          {}};
}

/// For `cup`, `pint`, `quart`, `gallon` or `proof` where nobody says which: how to say it.
std::optional<UnknownUnit> UnitTable::choice_of_meanings(std::string_view word) const {
  std::string key = without_last_point(key_of(word));
  if (key == "proof")
    return UnknownUnit{
        {}, "Write `proof us` (half a % abv a degree) or `proof uk` (four sevenths), or `% abv`.", {}, {}};
  if (key.ends_with('s')) key.pop_back();
  if (key == "qt") key = "quart";
  if (key == "pt") key = "pint";
  if (key == "gal") key = "gallon";
  if (key == "spoon")
    return UnknownUnit{
        {}, "Write `barspoon` (5 ml), `tsp` (5 ml) or `tbsp` (15 ml).", {"barspoon", "tsp", "tbsp"}, {}};
  for (auto unit : ambiguous_units) {
    if (key != unit) continue;
    UnknownUnit unknown;
    std::vector<std::string> meanings;
    for (std::string_view system : {"us", "metric", "imp"}) {
      auto id = find(fmt::format("{} {}", system, unit));
      if (!id.valid()) continue;
      unknown.units.push_back(fmt::format("{} {}", system, unit));
      meanings.push_back(
          fmt::format("`{} {}` ({} ml)", system, unit, base::to_decimal((*this)[id].factor, 1)));
    }
    unknown.help =
        fmt::format("Write {}, or say which in the house: `{} us`.", base::join_with_or(meanings), unit);
    return unknown;
  }
  return std::nullopt;
}

/// Fills the table: what the language builds in, then the library's and the house's declarations, each after
/// the units that it is made of.
class UnitTableBuilder {
 public:
  UnitTableBuilder(const symbols::SymbolTable& names, const std::vector<syntax::File>& files,
                   const source::SourceSet& sources, DiagnosticSink& sink)
      : names_(names), files_(files), sources_(sources), sink_(sink) {}

  UnitTable build() {
    add_built_in();
    add_declared(true);
    add_house_meanings();
    add_declared(false);
    return std::move(table_);
  }

 private:
  void add(Kind kind, const std::string& symbol, Exact factor, const std::vector<std::string>& spellings,
           std::string source, Exact offset = 0) {
    Unit unit{symbol, symbol, kind, std::move(factor), std::move(offset), {}, false, std::move(source)};
    table_.add(std::move(unit), spellings);
  }

  void add_item_word(const std::string& singular, const std::string& plural) {
    table_.add(Unit{singular, plural, Kind::count, 1, 0, {}, true, "a piece of the thing"}, {});
  }

  void add_built_in() {
    add(Kind::volume, "ml", 1, {"millilitre", "milliliter", "cc", "cm3"}, "SI Brochure");
    add(Kind::mass, "g", 1, {"gram", "gramme", "gr"}, "SI Brochure");
    add(Kind::time, "s", 1, {"sec", "second"}, "SI Brochure");
    add(Kind::length, "mm", 1, {"millimetre", "millimeter"}, "SI Brochure");
    add(Kind::part, "part", 1, {"parts"}, "a share of the drink's size");
    add_temperatures();
    add_strengths_and_concentrations();
    add_gas_and_energy();
    add(Kind::share, "%", Exact(1, 100), {"percent", "per cent"}, "SI Brochure");
    for (auto [singular, plural] : std::initializer_list<std::pair<const char*, const char*>>{
             {"leaf", "leaves"},  {"sprig", "sprigs"}, {"slice", "slices"},  {"wedge", "wedges"},
             {"wheel", "wheels"}, {"twist", "twists"}, {"peel", "peels"},    {"strip", "strips"},
             {"half", "halves"},  {"cube", "cubes"},   {"pod", "pods"},      {"stick", "sticks"},
             {"stalk", "stalks"}, {"clove", "cloves"}, {"bean", "beans"},    {"berry", "berries"},
             {"piece", "pieces"}, {"sheet", "sheets"}, {"bunch", "bunches"}, {"handful", "handfuls"},
             {"pinch", "pinches"}})
      add_item_word(singular, plural);
  }

  void add_temperatures() {
    add(Kind::temperature, "C", 1, {"°C", "° C", "celsius", "degrees C", "deg C"}, "SI Brochure");
    add(Kind::temperature, "F", Exact(5, 9), {"°F", "° F", "fahrenheit", "degrees F", "deg F"},
        "NIST Special Publication 811", Exact(-160, 9));
    add(Kind::temperature, "K", 1, {"kelvin"}, "SI Brochure", Exact(-27315, 100));
  }

  void add_strengths_and_concentrations() {
    add(Kind::strength, "% abv", Exact(1, 100), {"% vol", "% v/v", "abv"}, "OIML R 22");
    add(Kind::strength, "proof us", Exact(1, 200), {"us proof"}, "27 CFR 5.1, from memory");
    // 100 degrees of old UK proof are 4/7 by volume (57.14 %).
    add(Kind::strength, "proof uk", Exact(4, 700), {"uk proof"}, "common practice");
    add(Kind::mass_concentration, "% w/v", Exact(1, 100), {"g/100ml", "g/100 ml", "g/dl"}, "g in 100 ml");
    add(Kind::mass_concentration, "g/l", Exact(1, 1000), {"g/litre", "g/liter"}, "SI Brochure");
    add(Kind::mass_concentration, "mg/l", Exact(1, 1000000), {"mg/litre", "mg/liter"}, "SI Brochure");
    add(Kind::mass_concentration, "mg/100ml", Exact(1, 100000), {"mg/100 ml", "mg/dl"}, "mg in 100 ml");
    add(Kind::mass_fraction, "mg/kg", Exact(1, 1000000), {"ppm"}, "SI Brochure");
    add(Kind::mass_fraction, "mg/100g", Exact(1, 100000), {"mg/100 g"}, "mg in 100 g");
    add(Kind::mass_fraction, "% w/w", Exact(1, 100), {"% m/m", "g/100g"}, "g in 100 g");
    add(Kind::mass_fraction, "brix", Exact(1, 100), {"°brix", "° brix", "°bx", "bx"},
        "ICUMSA: mass per cent sucrose");
    add(Kind::density, "g/ml", 1, {"g/cm3", "g/cc"}, "SI Brochure");
    add(Kind::density, "kg/l", 1, {"kg/litre"}, "SI Brochure");
    add(Kind::density, "kg/m3", Exact(1, 1000), {}, "SI Brochure");
  }

  void add_gas_and_energy() {
    add(Kind::gas, "vol", 1, {"volume", "vols"}, "litres of CO2 at 0 °C and 1.01325 bar in a litre");
    add(Kind::pressure, "bar", 1, {"bars"}, "SI Brochure");
    // One pound-force on a square inch: 0.45359237 kg × 9.80665 m/s² over (0.0254 m)², in bar.
    add(Kind::pressure, "psi",
        Exact(45359237, 100000000) * Exact(980665, 100000) / (Exact(254, 10000) * Exact(254, 10000)) / 100000,
        {}, "NIST Special Publication 811");
    add(Kind::energy, "kJ", 1, {"kilojoule"}, "SI Brochure");
    add(Kind::energy, "kcal", Exact(4184, 1000), {"cal", "kilocalorie"}, "thermochemical calorie, 4.184 kJ");
  }

  LineView view(const symbols::Declaration& declaration, std::uint32_t line) const {
    const auto& file = files_[declaration.file_index];
    return LineView(sources_[file.file_id], file, line);
  }

  const syntax::Declaration& tree(const symbols::Declaration& declaration) const {
    return files_[declaration.file_index].declarations[declaration.declaration_index];
  }

  /// Adds the `unit` declarations of the library or of the house, each after the one that it is defined by.
  void add_declared(bool library) {
    enum class State : std::uint8_t { fresh, open, done };
    std::vector<symbols::DeclarationId> declared;
    UnitTable meant;  // what each spelling will be, before its size is known
    for (auto id : names_.in_order()) {
      if (names_[id].kind != symbols::DeclarationKind::unit || names_[id].from_library != library) continue;
      declared.push_back(id);
      meant.add(Unit{names_[id].name, plural_of(names_[id].name), Kind::count, 1, 0, {}, false, {}},
                spellings_of(names_[id]));
    }
    std::vector<State> states(declared.size(), State::fresh);
    std::vector<std::size_t> chain;
    for (std::size_t i = 0; i < declared.size(); ++i) {
      if (states[i] == State::fresh) chain.push_back(i);
      while (!chain.empty()) {
        std::size_t at = chain.back();
        auto needed = needed_by(names_[declared[at]], meant);
        bool waits = needed && *needed != at;
        if (waits && states[*needed] == State::fresh) {
          states[at] = State::open;
          chain.push_back(*needed);
          continue;
        }
        chain.pop_back();
        if (waits && states[*needed] == State::open)
          report_circle(names_[declared[at]]);
        else
          define(names_[declared[at]],
                 waits ? std::string_view(names_[declared[*needed]].name) : std::string_view());
        states[at] = State::done;
      }
    }
  }

  static std::vector<std::string> spellings_of(const symbols::Declaration& declaration) {
    std::vector<std::string> spellings;
    for (const auto& alias : declaration.aliases) spellings.push_back(alias.name);
    return spellings;
  }

  /// The item at which the unit of a definition stands; the line's size where it has none.
  std::size_t defining_item(const LineView& line, std::size_t at) const {
    while (at < line.size() && !(line.kind(at) == TokenKind::percent ||
                                 (line.kind(at) == TokenKind::word && !line.is_word(at, "about"))))
      ++at;
    return at;
  }

  /// Which of the declared units a definition is made of; nothing where it is made of one that is known
  /// already.
  std::optional<std::size_t> needed_by(const symbols::Declaration& declaration,
                                       const UnitTable& meant) const {
    LineView line = view(declaration, tree(declaration).header);
    std::size_t at = defining_item(line, declaration.definition_item);
    auto match = meant.match(line, at);
    if (!match.unit.valid() || match.tokens < table_.match(line, at).tokens) return std::nullopt;
    return match.unit.index();
  }

  void report_circle(const symbols::Declaration& declaration) {
    LineView line = view(declaration, tree(declaration).header);
    sink_.add(Rule::name_cycle, line.span(defining_item(line, declaration.definition_item)),
              fmt::format("`{}` is defined by itself", declaration.name),
              "Define it by a unit that the language knows, such as ml or g.");
  }

  /// Adds a unit; `needed` is the declared one that it is made of, which may itself be in error.
  void define(const symbols::Declaration& declaration, std::string_view needed) {
    LineView line = view(declaration, tree(declaration).header);
    std::size_t at = declaration.definition_item, unit_at = defining_item(line, at);
    if (unit_at < line.size() && !table_.match(line, unit_at).unit.valid() &&
        !is_currency_code(line.text(unit_at))) {
      // What it is made of was reported at its own definition.
      if (needed.empty()) report_undefined(declaration, line, unit_at);
      return;
    }
    auto quantity = QuantityReader(line, table_, sink_).read(at);
    if (!quantity) return;
    if (at < line.size()) {
      sink_.add(Rule::bad_line, line.span(at, line.size()), "a unit is one quantity, and more follows it",
                fmt::format("Write `unit {} = QUANTITY ± TOLERANCE`.", declaration.name));
      return;
    }
    if (quantity->value <= 0 || quantity->is_range || quantity->kind == Kind::temperature ||
        quantity->kind == Kind::money) {
      sink_.add(Rule::wrong_kind, quantity->span, "a unit is a plain amount above nothing",
                fmt::format("Write `unit {} = 0.8 ml ± 40 %`, say.", declaration.name));
      return;
    }
    // Chains of units multiply their digits.
    if (base::digits_in(quantity->value) > max_unit_digits) {
      sink_.add(Rule::bad_number, quantity->span,
                fmt::format("this unit is built from so many others that its size has more than {} digits",
                            max_unit_digits),
                "Define it by a unit that the language knows, such as ml or g.");
      return;
    }
    std::optional<double> tolerance;
    if (quantity->tolerance && *quantity->tolerance > 0) tolerance = quantity->relative_tolerance();
    Unit unit{declaration.name, plural_of(declaration.name),   quantity->kind,        quantity->value, 0,
              tolerance,        quantity->kind == Kind::count, source_of(declaration)};
    table_.add(std::move(unit), spellings_of(declaration));
  }

  /// Long names take an `s`; abbreviations (`ml`, `kg`) and names of two words stay as they are.
  static std::string plural_of(const std::string& name) {
    bool is_word = name.size() > 4 || name == "dash" || name == "drop";
    if (!is_word || name.find(' ') != std::string::npos || name.ends_with('s')) return name;
    return name + (name.ends_with("sh") || name.ends_with("ch") ? "es" : "s");
  }

  std::string source_of(const symbols::Declaration& declaration) const {
    for (const auto& body : tree(declaration).body) {
      LineView line = view(declaration, body.line);
      if (line.is_word(0, "source")) return std::string(line.raw(1, line.size()));
    }
    return declaration.from_library ? std::string() : std::string("the house");
  }

  void report_undefined(const symbols::Declaration& declaration, const LineView& line, std::size_t unit_at) {
    std::string_view word = line.text(unit_at);
    if (is_own_name(declaration, word)) return report_circle(declaration);
    const auto unknown = table_.explain_unknown(word);
    sink_.add(Rule::unknown_unit, line.span(unit_at), unknown.message, unknown.help);
  }

  static bool is_own_name(const symbols::Declaration& declaration, std::string_view word) {
    UnitTable own;
    auto id = own.add(Unit{declaration.name, plural_of(declaration.name), Kind::count, 1, 0, {}, false, {}},
                      spellings_of(declaration));
    return own.find(word) == id;
  }

  /// `ounce 30 ml`, `ounce us oz`, `pint imp`, `cup us`; without a line the ounce is 30 ml.
  void add_house_meanings() {
    static const std::vector<std::string> ounce = {"ounce", "fl oz", "fluid ounce", "floz", "fl. oz"};
    add(Kind::volume, "oz", 30, ounce, "the house's ounce; 30 ml is common practice");
    for (auto id : names_.in_order()) {
      const auto& declaration = names_[id];
      if (declaration.kind != symbols::DeclarationKind::house || declaration.from_library) continue;
      for (const auto& body : tree(declaration).body) read_house_meaning(view(declaration, body.line), ounce);
    }
  }

  void read_house_meaning(const LineView& line, const std::vector<std::string>& ounce) {
    if (line.is_word(0, "ounce")) {
      if (auto factor = read_meaning(line, "oz"))
        add(Kind::volume, "oz", *factor, ounce, "the house's ounce");
      return;
    }
    for (auto name : ambiguous_units)
      if (line.is_word(0, name))
        if (auto factor = read_meaning(line, name))
          add(Kind::volume, std::string(name), *factor, {}, "the house's " + std::string(name));
  }

  std::optional<Exact> read_meaning(const LineView& line, std::string_view unit) {
    std::size_t at = 1;
    if (!QuantityReader::begins_quantity(line, at)) return named_volume(line, unit);
    auto quantity = QuantityReader(line, table_, sink_).read(at);
    if (!quantity) return std::nullopt;
    if (quantity->kind != Kind::volume || quantity->value <= 0 || quantity->is_range) {
      report_not_volume(line);
    } else if (at < line.size()) {
      sink_.add(Rule::bad_line, line.span(at, line.size()), "this line is one volume, and more follows it",
                "Delete the rest, or put it in a comment (#).");
    } else {
      return quantity->value;
    }
    return std::nullopt;
  }

  /// `us`, `imp`, `us oz`: the volume meant by a system's name.
  std::optional<Exact> named_volume(const LineView& line, std::string_view unit) {
    std::string words = line.size() > 1 ? base::collapse_space(line.raw(1, line.size())) : std::string();
    auto id = table_.find(words);
    if (!id.valid()) id = table_.find(fmt::format("{} {}", words, unit));
    if (id.valid() && table_[id].kind == Kind::volume) return table_[id].factor;
    sink_.add(Rule::unknown_unit, line.span(1, line.size()),
              words.empty() ? fmt::format("`{}` says which one the house means, and nothing follows it", unit)
                            : fmt::format("`{}` is no {} that is known", words, unit),
              fmt::format("Write `{0} us`, `{0} imp` or a volume.", line.text(0)));
    return std::nullopt;
  }

  void report_not_volume(const LineView& line) {
    sink_.add(Rule::wrong_kind, line.span(1, line.size()),
              fmt::format("the house's {} is a volume", line.text(0)),
              fmt::format("Write `{} 30 ml`, say.", line.text(0)));
  }

  const symbols::SymbolTable& names_;
  const std::vector<syntax::File>& files_;
  const source::SourceSet& sources_;
  DiagnosticSink& sink_;
  UnitTable table_;
};

UnitTable build_units(const symbols::SymbolTable& names, const std::vector<syntax::File>& files,
                      const source::SourceSet& sources, DiagnosticSink& sink) {
  return UnitTableBuilder(names, files, sources, sink).build();
}

std::string with_unit(std::string number, const Unit& unit, bool is_one) {
  return number + " " + (is_one ? unit.symbol : unit.plural);
}

}  // namespace gill::units
