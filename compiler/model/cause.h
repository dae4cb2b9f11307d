#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "analysis/specs.h"
#include "model/physics/composition.h"

/// What nobody knows exactly, by what makes it so: one cause moves everything that it reaches together, the
/// juice in a cordial and in the drink beside it, and every pour of one jigger.
namespace gill::model {

struct Cause {
  enum class Kind : std::uint8_t {
    strength,  ///< what `stock` is labelled, by volume
    sugar,     ///< of `stock`, from lot to lot
    acid,      ///< of `stock`, from day to day: its acids rise and fall together
    amount,    ///< of `stock` in the recipe of `in`: a loose unit, a piece, a line with its own `±`
    jigger,    ///< every pour by measure
    top,       ///< what is topped up to a line by eye
    melt,      ///< water that ice gives up, from hand to hand
    hold,      ///< liquid that what is strained off keeps, in the recipe of `in`
    room,      ///< its temperature, and what stands in it
    ice,       ///< its temperature
  };
  Kind kind = Kind::amount;
  analysis::StockId stock;
  symbols::DeclarationId in;

  bool operator==(const Cause&) const = default;
};

/// True for what hands and the room do, false for what is written: labels, juices, loose units.
constexpr bool is_of_hands(Cause::Kind kind) noexcept {
  switch (kind) {
    case Cause::Kind::strength:
    case Cause::Kind::sugar:
    case Cause::Kind::acid:
    case Cause::Kind::amount:
      return false;
    case Cause::Kind::jigger:
    case Cause::Kind::top:
    case Cause::Kind::melt:
    case Cause::Kind::hold:
    case Cause::Kind::room:
    case Cause::Kind::ice:
      return true;
  }
  return false;
}

/// In words: `the acidity of lemon juice`, `the pours`. Two houses call a cause that they share the same.
std::string words_of(const Cause& cause, const analysis::Specs& specs);

/// How far it lies to either side, in words: `± 0.3 % abv`, `± 15 %`, `± 2 C`. `width` is a share of what is
/// there, but for a strength (v/v) and a temperature (K).
std::string width_text(const Cause& cause, double width);

/// Moves what is declared of a stock by its strength, its sugar or its acids, as far as `width` says, down
/// where it is negative. Other causes are in no declared term.
void move_declared(DeclaredTerms& terms, Cause::Kind kind, double width);

/// What a stock is made of with one cause moved by its width, up and down.
struct StockMove {
  Cause cause;
  double width = 0;
  Composition up, down;
};

/// The moves of a stock, each cause once.
using StockMoves = std::vector<StockMove>;

}  // namespace gill::model
