#include "model/measuring.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/percent.h"
#include "model/physics/volume.h"

namespace gill::model {

using analysis::Form;
using analysis::Use;
using diagnostics::Rule;
using units::Density;
using units::Grams;
using units::Kind;
using units::Millilitres;
using units::Quantity;

namespace {

/// Two measures agree within 5 % of the larger, or within the wider tolerance that is stated.
constexpr double equal_measures_share = 0.05;

/// A whole piece stands for these; a half is half of one.
std::optional<double> share_of_whole(const std::string& item) {
  if (item == "piece") return 1.0;
  if (item == "half") return 0.5;
  return std::nullopt;
}

bool is_fluid_ounce(const units::Unit& unit) {
  return unit.kind == Kind::volume && unit.symbol.ends_with("oz");
}

/// A number without a unit before something poured: below this it was meant in ounces.
constexpr double max_bare_ounces = 5;

}  // namespace

const analysis::Gives* juice_of(const analysis::Stock& fruit) {
  for (const auto& gives : fruit.gives)
    if (gives.quantity.kind == Kind::volume && gives.what.stock.valid()) return &gives;
  return nullptr;
}

bool Measuring::is_liquid(analysis::StockId id) const {
  const auto& stock = specs_[id];
  if (!stock.is_prep || stock.form) return stock.effective_form() == Form::liquid;
  // A prep is a liquid unless it comes out dry, or in pieces.
  const Masses& per_gram = stock_[id.index()].composition.per_gram;
  if (stock.makes && stock.makes->kind == Kind::count) return false;
  return per_gram[Component::water] + per_gram[Component::ethanol] + per_gram[Component::fat] > 0.15;
}

std::optional<Density> Measuring::density(analysis::StockId id) const {
  const auto& composition = stock_[id.index()].composition;
  if (!is_liquid(id) && !composition.density_declared) return std::nullopt;
  return Density(composition.density_g_per_ml);
}

std::optional<Grams> Measuring::grams_each(const Use& use) const {
  const auto& stock = specs_[use.stock];
  const auto& facts = stock_[use.stock.index()];
  auto in_grams = [&](const Quantity& each) -> std::optional<Grams> {
    if (auto mass = each.mass()) return mass;
    auto of_one_ml = density(use.stock);
    if (!of_one_ml) return std::nullopt;
    return Millilitres(each.number()) * *of_one_ml;
  };
  auto piece_of_yield = [&]() -> std::optional<Grams> {
    if (!facts.yield_count || *facts.yield_count <= 0) return std::nullopt;
    return Grams(facts.yield_g / *facts.yield_count);
  };
  if (auto found = stock.each.find(use.item); found != stock.each.end()) return in_grams(found->second);
  auto whole = stock.each.find(units::UnitId{});
  if (use.item.valid()) {
    auto share = share_of_whole(units_[use.item].symbol);
    if (share && whole != stock.each.end())
      if (auto grams = in_grams(whole->second)) return *grams * *share;
    // `4 wheels dried apple` of a prep that makes 24: a piece is a piece.
    return piece_of_yield();
  }
  return piece_of_yield();
}

Use Measuring::laid_as(const Use& use) const {
  const auto& stock = specs_[use.stock];
  auto pinch = units_.find("pinch");
  bool is_strewn = stock.each.contains(units_.find("shaving")) || !grams_each(use);
  if (use.item.valid() || !stock.each.contains(pinch) || !is_strewn ||
      stock.kind == analysis::StockKind::herb)
    return use;
  Use laid = use;
  laid.item = pinch;
  return laid;
}

std::optional<Grams> Measuring::grams_silently(const Use& use, const Quantity& quantity) const {
  if (auto mass = quantity.mass()) return mass;
  if (auto volume = quantity.volume()) {
    auto of_one_ml = density(use.stock);
    if (!of_one_ml) return std::nullopt;
    return *volume * *of_one_ml;
  }
  if (quantity.kind != Kind::count) return std::nullopt;
  auto each = grams_each(use);
  if (!each) return std::nullopt;
  return *each * quantity.number();
}

namespace {

/// Why nobody can say what a quantity weighs, and what to do.
struct Unmeasured {
  Rule rule;
  std::string message, help;
};

/// What a fruit gives pressed; nothing of anything else.
std::string juice_name(const analysis::Stock& fruit, const analysis::Specs& specs) {
  const analysis::Gives* gives = juice_of(fruit);
  return gives ? specs[gives->what.stock].head.name : std::string();
}

Unmeasured ounce_of_solid(const Use& use, const Quantity& quantity, const analysis::Specs& specs,
                          const units::UnitTable& units) {
  // NIST Handbook 44, Appendix C: the avoirdupois ounce.
  constexpr double grams_in_an_ounce = 28.349523125;
  const auto& stock = specs[use.stock];
  const std::string& name = stock.head.name;
  const std::string juice = juice_name(stock, specs);
  const double ounces = quantity.number() / base::to_double(units[quantity.unit].factor);
  return {
      Rule::ounce_of_solid,
      fmt::format("an ounce of `{}` could be a fluid ounce or a weight, and {} is not a liquid", name, name),
      juice.empty() ? fmt::format("Write `{:g} oz wt {}`. In grams that is `{:.0f} g {}`.", ounces, name,
                                  ounces * grams_in_an_ounce, name)
                    : fmt::format("Write `{:g} oz {}` for the juice, or `{:g} oz wt {}` for the fruit.",
                                  ounces, juice, ounces, name)};
}

Unmeasured why_unknown(const Use& use, const Quantity& quantity, bool is_liquid, const analysis::Specs& specs,
                       const units::UnitTable& units) {
  const auto& stock = specs[use.stock];
  const std::string& name = stock.head.name;
  const std::string_view keyword = stock.is_prep ? "prep" : "ingredient";
  const std::string number = base::to_decimal(quantity.value, 3);
  if (quantity.kind == Kind::volume) {
    const std::string juice = juice_name(stock, specs);
    return {
        Rule::no_density,
        fmt::format("how much a millilitre of `{}` weighs is not known, so its volume cannot be turned "
                    "into a mass",
                    name),
        juice.empty()
            ? fmt::format("Weigh it (`20 g {}`), or add `density … g/ml` to `{} {}`.", name, keyword, name)
            : fmt::format("Write `{} ml {}` for the juice, or `1 {}{}` for the fruit.", number, juice,
                          stock.each.contains(units.find("wedge")) ? "wedge " : "", name)};
  }
  if (use.item.valid())
    return {Rule::no_density,
            fmt::format("how much one {} of `{}` weighs is not known", units[use.item].symbol, name),
            fmt::format("Add `each {} … g` to `{} {}`.", units[use.item].symbol, keyword, name)};
  // Nobody pours a few millilitres of juice, nor twenty ounces: small numbers were meant in ounces.
  if (is_liquid)
    return {Rule::unknown_unit, fmt::format("{} of what? `{}` is poured, not counted", number, name),
            fmt::format("Write a unit: `{} {} {}`.", number,
                        quantity.number() < max_bare_ounces ? "oz" : "ml", name)};
  // `6 mint`: of a herb its leaves or its sprigs are counted.
  std::vector<std::string> pieces;
  for (std::string_view item : {"leaf", "sprig", "slice", "wedge"})
    if (auto id = units.find(item); pieces.size() < 2 && id.valid() && stock.each.contains(id))
      pieces.push_back(fmt::format("`{} {} {}`", number, name, item));
  if (!pieces.empty())
    return {Rule::no_density, fmt::format("`{} {}` could be several pieces of it", number, name),
            fmt::format("Write {}.", fmt::join(pieces, " or "))};
  return {Rule::no_density, fmt::format("how much one `{}` weighs is not known", name),
          fmt::format("Add `each … g` to `{} {}`.", keyword, name)};
}

}  // namespace

std::optional<Grams> Measuring::grams(const Use& use, const Quantity& quantity, source::Span span,
                                      const std::string& drink) const {
  const bool is_ounce_of_solid = quantity.kind == Kind::volume && quantity.unit.valid() &&
                                 is_fluid_ounce(units_[quantity.unit]) && !is_liquid(use.stock);
  if (!is_ounce_of_solid) {
    if (auto grams = grams_silently(use, quantity)) return grams;
    // Something broken was reported at its own place.
    if (!stock_[use.stock.index()].valid) return std::nullopt;
  }
  auto [rule, message, help] = is_ounce_of_solid
                                   ? ounce_of_solid(use, quantity, specs_, units_)
                                   : why_unknown(use, quantity, is_liquid(use.stock), specs_, units_);
  sink_.add(rule, span, std::move(message), std::move(help)).drink = drink;
  return std::nullopt;
}

std::optional<Millilitres> Measuring::millilitres(analysis::StockId id, Grams grams) const {
  auto of_one_ml = density(id);
  if (!of_one_ml || *of_one_ml <= Density(0)) return std::nullopt;
  return grams / *of_one_ml;
}

double Measuring::relative_tolerance(const Use& use, const Quantity& quantity) const {
  if (quantity.tolerance) return quantity.relative_tolerance();
  if (quantity.kind != Kind::count) return 0;
  const auto& each = specs_[use.stock].each;
  auto found = each.find(use.item);
  if (found == each.end()) found = each.find(units::UnitId{});
  return found == each.end() ? 0 : found->second.relative_tolerance();
}

void Measuring::check_equal(const Use& use, const Quantity& first, const Quantity& second,
                            const std::string& drink) const {
  // Two measures of one kind are compared as they stand, others by what they weigh.
  bool same_kind = first.kind == second.kind;
  auto comparable = [&](const Quantity& quantity) -> std::optional<double> {
    if (same_kind) return quantity.number();
    auto weight = grams_silently(use, quantity);
    return weight ? std::optional(weight->value) : std::nullopt;
  };
  auto first_value = comparable(first), second_value = comparable(second);
  source::Span span{second.span};
  if (!first_value || !second_value) {
    if (!first_value) grams(use, first, first.span, drink);
    if (!second_value) grams(use, second, second.span, drink);
    return;
  }
  double larger = std::max(std::abs(*first_value), std::abs(*second_value));
  double width =
      std::max({equal_measures_share * larger, relative_tolerance(use, first) * std::abs(*first_value),
                relative_tolerance(use, second) * std::abs(*second_value)});
  double difference = std::abs(*first_value - *second_value);
  if (difference <= width * (1 + 1e-12)) return;
  auto volume_of_gram = millilitres(use.stock, Grams(1));
  std::string right;
  if (second.kind == Kind::volume && volume_of_gram)
    right = fmt::format("{:.4g} ml", same_kind ? *first_value : *first_value * volume_of_gram->value);
  else if (second.kind == Kind::mass)
    right = fmt::format("{:.4g} g", *first_value);
  else
    right = fmt::format("{:.3g}", *second_value > 0 ? second.number() * *first_value / *second_value : 0);
  sink_
      .add(Rule::unequal_measures, span,
           fmt::format("the two measures of `{}` differ by {:.0f} %", specs_[use.stock].head.name,
                       base::percent_of_share(difference / larger)),
           fmt::format("The first counts; it comes to {}. Correct one of them, or leave one out.", right))
      .drink = drink;
}

}  // namespace gill::model
