#pragma once
#include <string>

#include "diff/changes.h"

/// What the forms of a comparison share: short pieces of wording.
namespace gill::diff {

/// `amount`, `rinse`, `top` …, as `gill facts` names them.
std::string_view name_of(model::Role role);

/// What is poured: the amount, or what the line does where it has none; with the other things that it says
/// where the two sides differ in them. `columns` says whether all the house's columns are told or the first
/// alone.
enum class Columns : std::uint8_t { all, first };
std::string words_of(const Pour& pour, const Pour* other, Columns columns);

/// `floated`, `to top`, `in the glass first`; empty for what is simply poured.
std::string_view words_of(model::Role role);

/// True where the words on the card differ, not only what they come to.
bool reads_differently(const PourChange& change);

/// True for what stands on or beside the drink: told with the garnish.
bool is_garnish(model::Role role);

/// A rename in words: `was Clear Wool`, `was Clear Wool, at a guess: 94 % of the build is the same`.
std::string rename_words(const Change& change);

/// `because of honey and dash`, `because of honey; its cost also by the price of gin`; of what is changed or
/// renamed itself, and only its cost by others, `its cost also by the price of gin`; empty without a cause.
std::string because_words(const Change& change);

/// `Quad (because of honey)`: what makes it taste otherwise; the name alone where nothing else does.
std::string name_and_taste_cause(const Change& change);

/// One sentence a change of the method, in the order of the new one: `Step 2: Shake 12 s. → Shake 15 s.`
std::vector<std::string> method_changes_in_words(const Change& change);

/// What goes straight into the glass, in its order.
std::vector<std::string> poured_into_glass(const std::optional<Sheet>& sheet);

/// `nuts:almond` as people say it, with what it comes by unless that is `owner` itself.
std::string words_of(const Allergen& allergen, const std::string& owner);

/// The value of a figure on either side; null when the sheet has none.
const FigureValue* figure_of(const std::optional<Sheet>& sheet, Figure figure);

/// The property of that name in words; empty when the sheet has none.
std::string property_words(const std::optional<Sheet>& sheet, std::string_view name);

/// `14.00 GBP`; `no price` where there is none.
std::string words_of(const std::optional<units::Money>& price);

/// `1 drink`, `3 drinks`.
std::string counted(std::size_t count, std::string_view one, std::string_view many);

}  // namespace gill::diff
