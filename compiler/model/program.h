#pragma once
#include <optional>
#include <vector>

#include "model/constants.h"
#include "model/facts.h"
#include "model/physics/dilution.h"

namespace gill::model {

/// What one stock brings to a recipe. Slots are numbered within one program.
struct Slot {
  analysis::StockId stock;
  Masses per_gram;
  double density_g_per_ml = 1;
  bool is_liquid = true;
  /// How far it raises a shaken drink, and with how much of it (g) it does so in full.
  double foam_rise = 0;
  double foam_rise_dry_last = 0;
  double foam_full_g = 15;
  bool holds_fat = false;
};

/// One act of a recipe with everything evaluated beforehand: names are gone, figures are in g, ml, s and °C.
struct Operation {
  enum class Code : std::uint8_t {
    add,        ///< `grams` of slot, at `temperature_c`
    fill,       ///< slot up to `target` ml (or g) in the vessel
    until,      ///< portions until the vessel's property is `target`
    top,        ///< slot up to `target` ml in the glass
    chill,      ///< with ice
    dry_shake,  ///< air, no ice
    to_glass,   ///< strain or dump
    to_tin,     ///< strain into a fresh vessel
    build,      ///< from here on the glass is the vessel
    heat,       ///< to `temperature_c`, for `time`, in the open
    set_temperature,
    carbonate,  ///< to `target` volumes
    strain,     ///< prep: leaves the solids behind
    press,      ///< prep: the same, and squeezes them out
    remove,     ///< prep: slot is taken out but for `share`
    clarify,    ///< prep: takes fat and protein
    reduce,     ///< to `target` ml (or by `share`)
    dehydrate,
    none,  ///< changes nothing in the simulation
  };
  Code code = Code::none;
  bool is_amount = true;
  /// Index in the recipe's amounts or steps.
  std::size_t index = 0;
  std::size_t slot = 0;
  /// Until: portions [first_portion, last_portion) of the program.
  std::size_t first_portion = 0, last_portion = 0;
  double grams = 0;
  double temperature_c = 20;
  double target = 0;
  /// The target is a mass (g), not a volume; of `until`: a mass fraction, not g in 100 ml.
  bool by_mass = false;
  analysis::UntilProperty until = analysis::UntilProperty::acid;
  ChillMethod method = ChillMethod::shake;
  double time = 0;
  bool time_assumed = false;
  /// Ice in g; below 0: `-grams` to 100 ml of drink. Of `build` and `to_glass`: what the drink is served on.
  double ice_g = 0;
  double ice_c = 0;
  double melt_rate = 1;
  double wet = 0;
  /// Chill with the glass's own ice.
  bool own_ice = false;
  /// Chill: the water is in the bottle already, so the ice only cools.
  bool water_is_in = false;
  double share = 0;
  bool keeps_ice = false;  ///< dump: the shaker's ice comes along
  /// Goes into the glass wherever the drink is: a rinse, a mist.
  bool into_glass = false;
  bool is_float = false;
};

struct PortionShare {
  std::size_t slot = 0;
  double share = 1;
};

/// A recipe ready to run, as often as its inputs are moved.
struct Program {
  std::vector<Slot> slots;
  std::vector<Operation> operations;
  std::vector<PortionShare> portions;
  double room_c = 20, fridge_c = 4;
  /// The serving ice when the drink is served without having been stirred on it.
  analysis::IceId served_ice;
  double served_ice_g = 0, served_ice_c = 0, served_melt_rate = 1;
  bool is_prep = false;
  /// A prep with a measured yield: losses are not estimated.
  bool yield_measured = false;
  bool valid = true;
};

/// Moves one input of a program: an amount by a factor, or the acid, sugar or strength of a slot.
struct Perturbation {
  enum class Kind : std::uint8_t { none, amount, slot } kind = Kind::none;
  std::size_t operation = 0;
  double factor = 1;
  std::size_t slot = 0;
  Masses per_gram;
  double density_g_per_ml = 1;
};

/// What came out of a run.
struct Outcome {
  Masses mixed;   ///< everything added, without melt
  Masses liquid;  ///< in the glass, or of a prep in its vessel
  double temperature_c = 20;
  double melt_g = 0;
  double foam_ml = 0;
  double ice_g = 0;  ///< ice in the glass
  bool reached_glass = false;
  /// Grams added by each operation that was solved or given.
  std::vector<double> added_g;
  /// Preps: grams of each slot still in the vessel.
  std::vector<double> slot_g;
  /// A solved amount that has no solution: which operation, and the nearest value that can be reached.
  struct Unsolved {
    std::size_t operation;
    double nearest;
  };
  std::vector<Unsolved> unsolved;
  /// What removal and straining were reckoned to hold back, g.
  double held_back_g = 0;
};

/// Runs programs. Holds its working space, so that repeated runs allocate nothing.
class Simulator {
 public:
  explicit Simulator(const Program& program) : program_(program) {}

  /// One run. `trace` receives every step with its states when it is given.
  const Outcome& run(const Perturbation& moved = {}, std::vector<TraceStep>* trace = nullptr);

  /// The drink of the last run after it has stood untouched on its ice for so long: an estimate.
  struct Later {
    Masses liquid;
    double temperature_c = 20;
    double ice_g = 0;
  };
  Later stood_for(double seconds) const;

 private:
  struct Vessel {
    Masses masses;
    double temperature_c = 20;
    double heat_capacity = 0;
    double ice_g = 0;
    double foam_rise = 0;
    bool dry_shaken = false;
  };

  void step(std::size_t i);
  void add(Vessel& vessel, std::size_t operation, std::size_t slot, double grams, double temperature_c);
  void fill(std::size_t i, const Operation& operation);
  void until(std::size_t i, const Operation& operation);
  void top(std::size_t i, const Operation& operation);
  void chill_with_ice(const Operation& operation);
  void aerate(bool closed_with_ice);
  void to_glass(const Operation& operation);
  void strain_solids(double held_by_solids = liquid_held_by_solids);
  void heat(const Operation& operation);
  void carbonate(const Operation& operation);
  void remove(const Operation& operation);
  void clarify();
  void reduce(const Operation& operation);
  void serve();
  Vessel& current() { return in_glass_ ? glass_ : mixing_; }
  const Masses& per_gram(std::size_t slot) const;
  double density(std::size_t slot) const;

  const Program& program_;
  const Perturbation* moved_ = nullptr;
  Vessel mixing_, glass_;
  bool in_glass_ = false;
  bool chilled_on_serving_ice_ = false;
  Outcome outcome_;
  std::vector<std::string>* explanation_ = nullptr;
};

}  // namespace gill::model
