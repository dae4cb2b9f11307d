#pragma once
#include <functional>
#include <list>
#include <vector>

#include "model/cause.h"
#include "model/measuring.h"
#include "model/program_builder.h"

namespace gill::model {

/// One cause of a program's doubt, with all that it moves there.
struct UncertainInput {
  Cause cause;
  double width = 0;
  struct Slot {
    std::size_t slot;
    const Composition *up, *down;
  };
  std::vector<Slot> slots;
  struct Amount {
    std::size_t operation;
    double share;
  };
  std::vector<Amount> amounts;
};

/// The square of what a cause does to a figure: the mean of its way up and its way down.
constexpr double mean_square(double rise, double fall) noexcept { return (rise * rise + fall * fall) / 2; }

/// What the program's figures are unsure of: amounts by their own ± or their unit's, what its stocks are made
/// of by their moves; and of a drink what nobody writes, its pours, its melt, and the warmth of room and ice.
class UncertainInputs {
 public:
  using MovesOf = std::function<const StockMoves&(analysis::StockId)>;
  UncertainInputs(const BuiltProgram& built, const analysis::Recipe& recipe, const analysis::Head& head,
                  const Measuring& measuring, const std::vector<StockFacts>& stock, const MovesOf& moves_of,
                  bool with_hands = true);

  const std::vector<UncertainInput>& all() const { return inputs_; }

  /// The program's perturbation with one of them moved by its width, up or down; it lives until the next
  /// call.
  const Perturbation& moved(const UncertainInput& input, bool up);

 private:
  UncertainInput& input_of(const Cause& cause, double width);
  void add_amounts(const analysis::Recipe& recipe, const analysis::Head& head, const Measuring& measuring);
  void add_slots(const std::vector<StockFacts>& stock, const MovesOf& moves_of);
  void add_juice(std::size_t slot, const std::vector<StockFacts>& stock, const MovesOf& moves_of);
  void add_service();
  double melt_width() const;

  const Program& program_;
  /// Of a drink, pours, melt and the room as well.
  bool with_hands_;
  std::vector<UncertainInput> inputs_;
  /// What whole fruit is made of with its juice moved; a list, so that its parts stay where they are.
  std::list<Composition> fruit_;
  Perturbation moved_;
};

}  // namespace gill::model
