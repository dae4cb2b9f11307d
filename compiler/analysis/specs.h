#pragma once
#include <array>
#include <cstdint>
#include <deque>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "analysis/verbs.h"
#include "diagnostics/diagnostic.h"
#include "symbols/symbol_table.h"
#include "units/quantity.h"
#include "units/unit_table.h"

/// A house as typed data: every declaration with its names resolved, its quantities typed and `like` written
/// out.
namespace gill::analysis {

using source::Span;
using symbols::DeclarationId;
using units::Quantity;
using units::UnitId;

struct Stock;
struct Glass;
struct Ice;
struct Family;
struct Drink;
struct PriceList;
struct Menu;
/// An ingredient or a prep: what the bar stocks.
using StockId = base::Id<Stock>;
using GlassId = base::Id<Glass>;
using IceId = base::Id<Ice>;
using FamilyId = base::Id<Family>;
using DrinkId = base::Id<Drink>;
using PriceListId = base::Id<PriceList>;
using MenuId = base::Id<Menu>;

/// `allow RULE because "reason"`.
struct Allow {
  diagnostics::Rule rule;
  std::string reason;
  Span span;
};

/// What every declaration has.
struct Head {
  std::string name;
  DeclarationId declaration_id;
  bool from_library = false;
  /// True when the declaration could not be read whole (a line of it is in error).
  bool has_errors = false;
  /// True when an amount line of it is in error: build and balance lint keep silent then.
  bool has_amount_errors = false;
  /// True when a line is in error that how it is built hangs on, be it an amount, a step, the glass, its ice,
  /// or one that says nothing known: what it would have done is not judged.
  bool has_build_errors = false;
  Span name_span;
  /// CommonMark.
  std::string text;
  std::string source;
  std::vector<Allow> allows;
};

// ---- what is poured

/// Something of the stock, whole or by an item word: `mint`, `mint leaf`, `lemon twist`.
struct Use {
  StockId stock;
  /// The item word's unit; invalid when the thing itself is meant.
  UnitId item;
  Span span;
  bool operator==(const Use& other) const { return stock == other.stock && item == other.item; }
};

enum class UntilProperty : std::uint8_t { acid, sugar, strength };

/// `2 parts citric acid` in an `until` line.
struct Portion {
  double parts = 1;
  Use use;
};

/// One amount line.
struct Amount {
  enum class Form : std::uint8_t {
    measured,  ///< `60 ml rye whiskey`
    fill,      ///< `to 1 l water`: up to this total
    until,     ///< `until acid 6 % w/v citric acid`: as much as brings the vessel to the value
  };
  Form form = Form::measured;
  /// The measure; of `fill` the total, of `until` the value to reach.
  Quantity quantity;
  /// The second measure of `3/4 oz = 22.5 ml`.
  std::optional<Quantity> second;
  UntilProperty until = UntilProperty::acid;
  /// What is added; more than one only in `until`.
  std::vector<Portion> portions;
  std::vector<Use> alternatives;
  std::optional<Quantity> temperature;
  bool chilled = false;
  bool frozen = false;
  bool hot = false;
  bool optional = false;
  bool sealed = false;
  std::vector<std::string> notes;
  std::string text;
  /// The measure as it was written, white space as one space.
  std::string as_written;
  Span span;

  const Use& use() const { return portions.front().use; }
};

/// `with 4 cubes`, `with 120 g crushed`.
struct IceUse {
  IceId ice;
  /// A count or a mass; nothing where the line does not say.
  std::optional<Quantity> amount;
  Span span;
};

/// One method line.
struct Step {
  Verb verb = Verb::do_;
  std::optional<Quantity> time;
  std::optional<Quantity> temperature;
  /// `cool to 4 C within 2 h`
  std::optional<Quantity> within;
  std::optional<Quantity> amount;
  /// `reduce to 500 ml`, `carbonate to 3.5 vol`
  std::optional<Quantity> target;
  /// `reduce by 30 %`, `remove …, keeping 1 %`
  std::optional<double> share;
  std::optional<double> count;
  std::optional<IceUse> ice;
  /// What is named; nothing where nothing is, or where the name is not known (`unknown_garnish`).
  std::optional<Use> use;
  /// The words of `do`, `serve`, and a garnish that nothing declares.
  std::string words;
  /// What the words of `do` and `serve` name: `serve with a bowl of peanuts` brings peanuts to the guest.
  std::vector<Use> named;
  bool unknown_garnish = false;
  bool garnish_none = false;
  bool kept = false;    ///< `rinse …, kept`
  bool to_tin = false;  ///< `strain to tin`
  bool half = false;    ///< `rim salt, half`
  std::vector<std::string> notes;
  std::string text;
  std::string as_written;
  Span span;
  Span verb_span;
};

/// Amounts and method lines in the order in which they are done.
struct RecipeLine {
  bool is_amount = true;
  std::uint32_t index = 0;
  bool inherited = false;
};

struct Recipe {
  std::vector<Amount> amounts;
  std::vector<Step> steps;
  std::vector<RecipeLine> order;
};

// ---- expectations

enum class Property : std::uint8_t {
  strength,
  sugar,
  acid,
  balance,
  volume,
  dilution,
  temperature,
  cost,
  energy,
  units,
  allergens,
  vegan,
  vegetarian,
};
std::string_view name_of(Property property);

/// `expect PROPERTY RANGE`.
struct Expect {
  Property property = Property::strength;
  Quantity range;
  std::vector<std::string> allergens;
  /// `vegan` and `vegetarian`: yes or no.
  bool is_so = true;
  Span span;
};

// ---- what the house measured

/// `measured 2026-09-12, 110 g before, 172 g after, -5 C, shake 12 s, with 250 g cubed`: a drink or a prep as
/// it was made one day.
struct Measurement {
  std::string date;
  /// What was in the vessel before ice or strain, and what came out of it: volumes or masses.
  std::optional<Quantity> before, after;
  /// Of what came out.
  std::optional<Quantity> temperature, brix;
  /// Which step, and how long it took; the first that chills where no word names it.
  std::optional<Verb> verb;
  std::optional<Quantity> time;
  std::optional<IceUse> ice;
  std::string words;
  /// Nowhere for a row of a table, whose line is `row` then.
  Span span;
  std::size_t row = 0;
};

/// How this bar's hands differ from the usual: a factor, and how far the next one may lie, as a share of it.
struct Hand {
  double factor = 1;
  std::optional<double> width;
};

// ---- stock

/// Kinds of sugar that taste differently sweet.
enum class SugarKind : std::uint8_t { sucrose, glucose, fructose, maltose, lactose };
std::string_view name_of(SugarKind kind);

/// `sugars 47 % fructose, 42 % glucose`: shares of a thing's sugar.
struct SugarShare {
  SugarKind kind = SugarKind::sucrose;
  double share = 1;
};

enum class StockKind : std::uint8_t {
  unstated,
  spirit,
  liqueur,
  fortified_wine,
  wine,
  sparkling,
  beer,
  bitters,
  juice,
  syrup,
  sweetener,
  acid,
  dairy,
  egg,
  fat,
  fruit,
  herb,
  spice,
  tea_coffee,
  mixer,
  water,
  saline,
  additive,
  garnish,
};
std::string_view name_of(StockKind kind);

enum class Form : std::uint8_t { liquid, solid, powder };
enum class Storage : std::uint8_t { ambient, chilled, frozen };
std::string_view name_of(Storage storage);

enum class Acid : std::uint8_t { citric, malic, tartaric, lactic, acetic, phosphoric, ascorbic };
std::string_view name_of(Acid acid);

struct AcidLine {
  Acid acid = Acid::citric;
  Quantity quantity;
};

/// `allergen nuts: almond`, `allergen may milk`. The code has no space: `nuts:almond`.
struct AllergenLine {
  std::string code;
  bool may = false;
};

/// Where a thing comes from. Milk, egg and what bees make are taken from an animal that lives on; `animal` is
/// of its body: meat, fish, gelatine, carmine, isinglass. Fungi and yeasts count as plants, what is made
/// without living things as mineral.
enum class Origin : std::uint8_t { plant, mineral, milk, egg, bees, animal };
std::string_view name_of(Origin origin);

/// `origin plant`, `origin may be animal`.
struct OriginLine {
  Origin origin = Origin::plant;
  bool may = false;
};

struct Keeps {
  Quantity duration;
  Storage storage = Storage::ambient;
};

/// `buy 6 x 700 ml for 171 EUR from Quay Supply, code 4471`.
struct Buy {
  Quantity pack;
  double packs = 1;
  units::Money price;
  std::string supplier;
  std::string code;
  Span span;
};

struct Gives {
  Use what;
  Quantity quantity;
};

struct Stock {
  Head head;
  bool is_prep = false;
  StockKind kind = StockKind::unstated;
  std::optional<Form> form;
  std::optional<Quantity> strength, sugar, fat, protein, salt, other, density, fizz;
  std::vector<AcidLine> acids;
  /// What else a table tells of a food. Dissolved: dextrin (digestible), gum (fibre), polyols, ash (minerals)
  /// and what is inert (feeds nobody); undissolved: starch and fibre.
  std::optional<Quantity> water, starch, dextrin, fibre, gum, polyol, ash, inert;
  std::optional<double> ph;
  /// What its sugar is; the rest of it is not said.
  std::vector<SugarShare> sugars;
  /// Of which a law speaks.
  std::optional<Quantity> caffeine, quinine, sulphites;
  /// Weight or volume of one piece, by item word; the invalid id is the whole thing.
  std::map<UnitId, Quantity> each;
  std::vector<Gives> gives;
  bool allergens_stated = false;
  std::vector<AllergenLine> allergens;
  /// Empty where no line says so, and after `origin not known`.
  std::vector<OriginLine> origins;
  bool origin_stated = false;
  std::optional<Keeps> keeps, opened;
  std::vector<Buy> buys;
  std::optional<double> waste;
  std::string treated;
  std::optional<bool> foams, holds_fat;
  std::string colour;
  std::vector<std::string> cautions;
  std::vector<std::string> aka;
  /// Spans of property lines by keyword, for messages.
  std::map<std::string, Span> property_spans;

  // preps only
  Recipe recipe;
  std::optional<Quantity> makes, bottle, par, takes, largest_batch;
  /// What an instrument showed of it: brix, and specific gravity (a plain number), brix or strength.
  std::optional<Quantity> refractometer, hydrometer;
  std::vector<Measurement> measured;
  std::string station;
  std::vector<Expect> expects;

  Form effective_form() const;
};

// ---- glass, ice, family

struct ProfilePoint {
  double diameter_mm = 0;
  double height_mm = 0;
};

struct Glass {
  Head head;
  std::optional<Quantity> holds, line;
  std::vector<ProfilePoint> shape;
  double stem_mm = 0, foot_mm = 0, wall_mm = 2;
  std::string material = "glass";
};

struct Ice {
  Head head;
  std::optional<Quantity> each;
  double melt = 1;
  double packs = 0.57;
  double wet = 0;
};

struct Family {
  Head head;
  std::optional<Verb> method;
  /// On which ice its drinks usually stand; nothing where they are served up.
  std::optional<IceUse> ice;
  std::optional<Quantity> strength, sugar, acid, balance, volume;
};

// ---- drink

enum class Status : std::uint8_t { approved, draft, retired };

/// What a drink is served on.
struct GlassIce {
  enum class Kind : std::uint8_t { unstated, none, given } kind = Kind::unstated;
  IceUse use;
};

struct Batched {
  std::vector<Use> uses;
  bool with_water = false;
  std::optional<Quantity> bottle;
  Span span;
};

struct Tasting {
  std::string date;
  std::string words;
};

struct Drink {
  Head head;
  FamilyId family;
  GlassId glass;
  /// From the fridge, from the freezer, rinsed with hot water: the last stays among the notes, in the line's
  /// words.
  bool glass_chilled = false, glass_frozen = false, glass_warmed = false;
  std::vector<std::string> glass_notes;
  Span glass_span;
  GlassIce ice;
  Recipe recipe;
  std::vector<std::string> right_when;
  std::vector<Expect> expects;
  /// `alcohol ..0.5 % abv`
  std::optional<Quantity> alcohol;
  double serves = 1;
  GlassId cup;
  std::optional<Batched> batched;
  std::optional<Quantity> size;
  std::string station;
  std::vector<std::string> tags;
  std::string guest;
  std::string was;
  std::vector<std::string> authors;
  std::string since;
  std::vector<Tasting> tastings;
  std::vector<Measurement> measured;
  Status status = Status::approved;
  std::string approved_on;
  std::vector<std::string> cautions;
  std::string colour;
  DrinkId like;
};

// ---- house, prices, menu

struct Tax {
  double rate = 0;
  bool included = true;
};

struct Rate {
  std::string from, to;
  base::Exact factor = 1;
};

struct House {
  Head head;
  std::string place;
  std::string currency;
  std::vector<Quantity> measures;
  std::vector<UnitId> show_drinks, show_preps;
  double room_c = 20, fridge_c = 4, freezer_c = -18, ice_c = 0;
  std::string alcohol_unit = "UK";
  std::string allergen_list = "EU";
  double strongest_g = 40;
  std::optional<Tax> tax;
  /// Upper end of the pour cost aimed at, as a share of the price without tax.
  std::optional<double> pour_cost;
  std::optional<base::Exact> round_prices_to;
  std::vector<Rate> rates;
  std::vector<std::string> notices;
  /// `hands shake melt 1.08 ± 0.06`: by the verb that chills.
  std::map<Verb, Hand> hands;
  /// `hands strain hold 1.2 ± 0.2`: what solids keep of a prep's liquid.
  Hand strain_hand;
  /// `ask rum = white rum, aged rum`: words with several meanings, by folded word, and the names that are
  /// meant.
  std::map<std::string, std::vector<std::string>> asks;
  /// `mean rum = aged rum`: the house's own answers.
  std::map<std::string, std::string> means;
};

struct Price {
  Use use;
  Buy buy;
  /// Its whole line.
  source::Span span;
};

struct PriceList {
  Head head;
  /// `from DATE`, when the list says so.
  std::string from;
  PriceListId like;
  std::vector<Price> prices;
};

struct MenuEntry {
  DrinkId drink;
  Span span;
  /// Of one serve.
  std::optional<units::Money> price;
  /// Of a drink for several that is sold whole (`at 95 GBP a bowl`): what the line says, and of what.
  std::optional<units::Money> whole_price;
  /// What the price is for, where the line says it: `a bowl`, `a cup`.
  std::string sold_by;
  /// What the menu prints.
  const std::optional<units::Money>& printed_price() const { return whole_price ? whole_price : price; }
  /// Portions a service day, Monday first; nothing where the line does not say.
  std::optional<double> sells;
  std::array<std::optional<double>, 7> sells_on;
};

struct MenuSection {
  std::string name;
  std::string text;
  std::vector<MenuEntry> entries;
};

struct Menu {
  Head head;
  std::string runs_from, runs_to;
  std::vector<MenuSection> sections;
};

// ---- everything

/// A line in the forms of the language, as a stretch of a reading or of the line that was written.
struct ReadAs {
  Span span;
  /// A step said it in passing (`strain over ice`): it holds where the drink's own line says nothing else.
  bool implied = false;
};

/// What a line in the trade's own words was read as.
struct FormReading {
  Span written;
  std::vector<ReadAs> lines;
};

/// A place where a line names a glass, an ice, a family, a drink or what a word of several meanings means.
/// (What is poured keeps its place in its own `Use`.)
struct NameUse {
  Span span;
  DeclarationId declaration;
};

/// What reading one declaration came to beside its value.
struct ReadingNotes {
  /// Which of its lines were read as which lines, where that is not the line itself.
  std::vector<FormReading> forms;
  /// For who looks for a name. A line that was tried twice may stand here twice.
  std::vector<NameUse> name_uses;
};

/// A whole house with the library, typed.
struct Specs {
  House house;
  std::vector<Stock> stock;
  std::vector<Glass> glasses;
  std::vector<Ice> ices;
  std::vector<Family> families;
  std::vector<Drink> drinks;
  std::vector<PriceList> price_lists;
  std::vector<Menu> menus;
  /// What the trade's own forms were read as, in the order of the declarations; they are files of the
  /// `SourceSet`.
  std::deque<syntax::File> readings;
  /// By declaration.
  std::vector<ReadingNotes> notes;
  /// By declaration: its index in the table of its kind.
  std::vector<std::uint32_t> index_of;

  const Stock& operator[](StockId id) const { return stock[id.index()]; }
  const Glass& operator[](GlassId id) const { return glasses[id.index()]; }
  const Ice& operator[](IceId id) const { return ices[id.index()]; }
  const Family& operator[](FamilyId id) const { return families[id.index()]; }
  const Drink& operator[](DrinkId id) const { return drinks[id.index()]; }
};

/// Reads every declaration, after those that it is `like`. Bad lines are reported and left out; the rest
/// stands. `house_name` is the house's name where it declares none (its folder's).
Specs analyse(const symbols::SymbolTable& names, const units::UnitTable& units,
              const std::vector<syntax::File>& files, source::SourceSet& sources,
              const std::string& house_name, diagnostics::DiagnosticSink& sink);

/// The name of what is used, item word included: `mint leaf`, `lemon twist`.
std::string name_of(const Use& use, const Specs& specs, const units::UnitTable& units);

/// The ice of a line that names none, and of a drink that is built and says nothing.
inline constexpr std::string_view usual_ice_name = "cubed";
/// The ice of that name, however its capitals are written, the house's own before the library's; invalid
/// where nobody declares it.
IceId usual_ice(const Specs& specs);

/// The typed declarations of the house as plain text, for `gill dump units`.
std::string dump(const Specs& specs, const units::UnitTable& units);

/// What lines of the house in the trade's own forms are read as, one a line: `sours.gill:7: dash absinthe ->
/// 1 dash absinthe`.
std::string dump_readings(const Specs& specs, const source::SourceSet& sources);

}  // namespace gill::analysis
