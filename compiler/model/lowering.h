#pragma once
#include <optional>
#include <string>

#include "model/constants.h"
#include "model/program_builder.h"

namespace gill::model {

/// A recipe on its way to a program: what its lines have done so far, and what is known of where it goes.
struct Lowering {
  const analysis::Recipe& recipe;
  const analysis::Drink* drink = nullptr;
  const analysis::Stock* prep = nullptr;
  std::string name;  ///< the drink's, for findings
  BuiltProgram result;
  bool frees_fat = false;  ///< blended or heated somewhere: fat of nuts and the like is ground out or melts
  /// A whole fruit gives its juice, and the rest of it is left behind: not where it is blended in, dried, or
  /// stays.
  bool squeezes = false;
  bool frees_juice = false;  ///< muddled or blended somewhere: solids give what is in them
  bool built = false, strained = false, dumped = false;
  /// Something in it is hot, or makes it so.
  bool gets_hot = false;
  /// Water is poured into the house bottle by an amount line: the method's ice is not used.
  bool water_is_in = false;
  units::Millilitres glass_holds{unnamed_glass_ml};
  units::Millilitres line{0};
  units::Millilitres ice_below{0};
  /// What one part comes to, once it is asked for.
  std::optional<units::Millilitres> part = {};
  /// What is shaken with in the mixing vessel, once it is.
  analysis::IceUse shaker_ice = {};
  /// Something fizzy is in it by now.
  bool holds_fizz = false;
  /// Ice is blended into the drink.
  bool blends_ice = false;

  /// The first line that puts ice into the glass (`add ice`, once the drink is there), and where it stands in
  /// the order.
  const analysis::Step* adds_ice = nullptr;
  std::size_t adds_ice_index = 0;
  /// Ice put into the mixing vessel by a line of its own: what the next shake or stir works with.
  std::optional<analysis::IceUse> mixing_ice = std::nullopt;

  Program& program() { return result.program; }

  /// Hot, with no ice named and no line that moves it: it is stirred in its glass with a spoon.
  bool is_stirred_hot() const;

  /// The glass's ice comes by a line of its own, after this step.
  bool ice_comes_later(std::size_t step) const;
};

}  // namespace gill::model
