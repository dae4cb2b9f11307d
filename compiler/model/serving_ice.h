#pragma once
#include "model/lowering.h"

/// The ice that a drink is served on: which and how much, before its method and after it.
namespace gill::model {

/// True when a count or a weight says how much ice there is, or a single large piece stands for itself.
bool is_ice_measured(const analysis::IceUse& use, const analysis::Specs& specs);
/// The mass of ice that a line means: its count or weight, else one large piece, else a scoop of the glass.
units::Grams ice_mass(const analysis::IceUse& use, const analysis::Specs& specs,
                      units::Millilitres glass_holds);
/// A heap of so tightly packed ice that fills a glass as far as a scoop does.
units::Grams ice_heap(units::Millilitres glass_holds, double packs);

/// True where the drink stands in its glass from this operation on.
bool moves_into_glass(const Operation& operation);

/// The first operation in which hands decide how much ice melts, of one method where that is asked for;
/// nothing where all ice counts, or the water is in the bottle already.
std::optional<std::size_t> first_melt(const Program& program,
                                      std::optional<ChillMethod> method = std::nullopt);

/// Pours something hot, or heats what is there (`hot_drink_from_c`).
bool makes_hot(const analysis::Amount& amount);
bool makes_hot(const analysis::Step& step);
/// True where the recipe pours something hot, or heats what is there (`hot_drink_from_c`), and in a hot room.
bool gets_hot(const analysis::Recipe& recipe, units::Celsius room);

/// Finds the first line that puts ice into the glass: where nothing moves the drink to one any more.
void find_added_ice(Lowering& job);
/// What the drink's own lines say it stands on; cubes where it is built and says nothing, unless it is hot.
/// `expected` is what the drink comes to, which decides how much ice goes beside it.
void choose_glass_ice(Lowering& job, units::Millilitres expected, const analysis::Specs& specs);
/// What the method leaves the drink on where its own lines name no ice.
void settle_glass_ice(Lowering& job, const analysis::Specs& specs);
/// The ice that a serve takes from the well, by kind: once for each vessel, however often it is worked there.
/// `scale` is one over the serves.
std::vector<IceUsed> ice_used(const Program& program, const Outcome& outcome, double scale);
/// A drink that is worked briefly on its serving ice stands on it until it is served all the same: the last
/// such step lasts at least as long as that.
void lengthen_to_serving(Program& program);

}  // namespace gill::model
