#pragma once
#include <optional>
#include <variant>
#include <vector>

#include "model/constants.h"
#include "model/facts.h"
#include "model/hands.h"
#include "model/physics/dilution.h"
#include "units/measures.h"

namespace gill::model {

/// What one stock brings to a recipe. Slots are numbered within one program.
struct Slot {
  analysis::StockId stock;
  Masses per_gram;
  units::Density density{1};
  bool is_liquid = true;
  /// How far it raises a shaken drink, and with how much of it it does so in full.
  double foam_rise = 0;
  double foam_rise_dry_last = 0;
  units::Grams full_foam{15};
  bool holds_fat = false;
  /// A whole fruit that gives its juice: whose juice, and how much of a gram of the fruit that is.
  analysis::StockId juice;
  double juice_share = 0;
  /// Its fat stays in it and is strained off with it: olives, nuts, beans, neither ground nor melted.
  bool keeps_fat = false;
  /// Of a gram of fresh fruit: juice that stands in its cells, and flesh and skin that are wet already.
  double juice_in_cells = 0, wet_flesh = 0;
  /// A fat that is solid in the kitchen.
  bool sets_in_fridge = false;
};

/// The acts that recipes are lowered to: names are gone, every amount is evaluated, and each holds what it
/// alone needs.
namespace operation {

/// So much of a slot.
struct Add {
  std::size_t slot = 0;
  units::Grams amount;
  units::Celsius temperature;
  /// Weighed on the line: a denser lot of it weighs no more. Else it was poured, and it does.
  bool is_weighed = false;
  /// Goes into the glass wherever the drink is: a rinse, a mist.
  bool into_glass = false;
  bool is_float = false;
};

/// A slot up to a volume or a mass of the vessel.
struct Fill {
  std::size_t slot = 0;
  std::variant<units::Millilitres, units::Grams> target;
  units::Celsius temperature;
};

/// Portions [first, last) of the program, in their proportions, until a property of the vessel is reached.
struct Until {
  std::size_t first_portion = 0, last_portion = 0;
  analysis::UntilProperty property = analysis::UntilProperty::acid;
  std::variant<units::GramsInMillilitre, units::MassFraction, units::AlcoholByVolume> target;
  units::Celsius temperature;

  bool is_by_mass() const { return std::holds_alternative<units::MassFraction>(target); }
};

/// A slot up to a line of the glass.
struct Top {
  std::size_t slot = 0;
  units::Millilitres target;
  units::Celsius temperature;
};

/// The ice that lies in the glass already.
struct GlassIce {};
/// Ice by how much drink there is.
struct IcePer100Ml {
  units::Grams amount;
};

/// Chilled with ice.
struct Chill {
  ChillMethod method = ChillMethod::shake;
  /// Seconds, or passes where the method counts them (`counts_passes`).
  double time = 0;
  /// The time for which hands work, s, where no line says it.
  std::optional<double> assumed_time_s = {};
  std::variant<units::Grams, IcePer100Ml, GlassIce> ice;
  /// Which kind it is, where it is not the glass's.
  analysis::IceId kind = {};
  units::Celsius ice_temperature{0};
  double melt_rate = 1;
  /// Water on the ice at 0 °C, of its whole mass.
  double wet_share = 0;
  /// The water is in the bottle already, so the ice only cools.
  bool water_is_in = false;
};

/// Air, no ice.
struct DryShake {};
/// Strained off its ice into the glass, onto so much of the glass's own.
struct StrainToGlass {
  units::Grams glass_ice;
};
/// Tipped into the glass with its ice, of which the glass takes at most so much.
struct Dump {
  units::Grams max_ice;
};
/// Strained into a fresh vessel.
struct StrainToTin {};
/// From here on the glass is the vessel, with so much ice.
struct Build {
  units::Grams glass_ice;
};
/// Heated in the open.
struct Heat {
  units::Celsius to;
  units::Seconds time;
};
/// Brought to a temperature with nothing lost.
struct SetTemperature {
  units::Celsius to;
};
struct Carbonate {
  units::GasVolumes to;
};
/// Prep: leaves the solids behind; pressed, they keep less liquid.
struct Strain {
  bool is_pressed = false;
};
/// Prep: a slot is taken out but for a share of it.
struct Remove {
  std::size_t slot = 0;
  units::Share stays;
};
/// Prep: the cells of what is fresh are broken, and their juice is free.
struct BreakCells {};
/// Prep: takes the fat that swims on top.
struct Skim {};
/// Prep: takes fat and protein.
struct Clarify {};
/// Boiled down to a volume or a mass, or by a share of the volume.
struct Reduce {
  std::variant<units::Millilitres, units::Grams, units::Share> to;
};
struct Dehydrate {};
/// Changes nothing in the simulation.
struct Nothing {};

}  // namespace operation

/// One line of a recipe, lowered.
struct Operation {
  using Act =
      std::variant<operation::Nothing, operation::Add, operation::Fill, operation::Until, operation::Top,
                   operation::Chill, operation::DryShake, operation::StrainToGlass, operation::Dump,
                   operation::StrainToTin, operation::Build, operation::Heat, operation::SetTemperature,
                   operation::Carbonate, operation::Strain, operation::Remove, operation::BreakCells,
                   operation::Skim, operation::Clarify, operation::Reduce, operation::Dehydrate>;
  Act act;
  bool is_amount = true;
  /// Index in the recipe's amounts or steps.
  std::size_t index = 0;

  /// The act as that type; nothing where it is another.
  template <typename Type>
  const Type* as() const {
    return std::get_if<Type>(&act);
  }
};

struct PortionShare {
  std::size_t slot = 0;
  double share = 1;
};

/// A recipe lowered: ready to run, as often as its inputs are moved.
struct Program {
  std::vector<Slot> slots;
  std::vector<Operation> operations;
  std::vector<PortionShare> portions;
  units::Celsius room{20}, fridge{4};
  /// The ice in the glass, and how it melts while the drink is served without having been stirred on it.
  ServedIce served_on;
  units::Grams served_ice;
  units::Celsius served_ice_temperature{0};
  double served_melt_rate = 1;
  Hands hands;
  double served_wet_share = 0;
  /// The glass, as far as the drink touches it.
  double glass_j_per_k = 0;
  units::Celsius glass_temperature{20};
  /// No step moves it to the glass: it is mixed there.
  bool is_mixed_in_glass = false;
  bool is_prep = false;
  /// A prep with a measured yield: losses are not estimated.
  bool yield_measured = false;
  bool valid = true;
};

/// Moves inputs of a program.
struct Perturbation {
  /// By operation: what its amount, or the target of what is solved, is multiplied by; all by 1 where empty.
  std::vector<double> amounts;
  /// By slot: what it is made of in place of its own; nothing moves a slot without one, nor any where empty.
  std::vector<const Composition*> slots;
  /// What the melt of every chilling is multiplied by.
  double melt = 1;
  /// What what is strained off keeps is multiplied by.
  double hold = 1;
  /// Added to the temperature of the room, with all that stands in it, and of the ice, K.
  double room_k = 0, ice_k = 0;
};

/// What came out of a run.
struct Outcome {
  Masses mixed;   ///< everything added, without melt
  Masses liquid;  ///< in the glass, or of a prep in its vessel
  double temperature_c = 20;
  double melt_g = 0;
  double foam_ml = 0;
  double ice_g = 0;  ///< ice in the glass
  /// Grams of ice that each operation took from the well.
  std::vector<double> ice_taken_g;
  bool reached_glass = false;
  /// Grams added by each operation that was solved or given.
  std::vector<double> added_g;
  /// Preps: grams of each slot still in the vessel.
  std::vector<double> slot_g;
  /// Grams of each slot that went in, whatever was taken out again.
  std::vector<double> put_g;
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
    /// Enthalpy of the liquid (heat.h) and of the glass that it touches: what is poured together keeps it,
    /// the heat of mixing included.
    double enthalpy_j = 0;
    /// What the liquid's would be, had all of it been poured at 20 °C.
    double enthalpy_from_20_c_j = 0;
    double glass_j_per_k = 0;
    double ice_g = 0;
    /// The water on the ice is in the drink already.
    bool ice_is_drained = false;
    double foam_rise = 0;
    bool dry_shaken = false;
    /// While nothing was poured since it was set.
    std::optional<double> set_c;

    double temperature_c() const;
    /// The liquid as it is now, with its glass, at this temperature.
    void set_temperature(double celsius);
  };

  struct SameTemperature;

  /// Everything as before the first operation.
  void begin(const Perturbation& moved);
  void step(std::size_t i);
  /// The same, with what it was before and after.
  TraceStep traced_step(std::size_t i);
  VesselState state() const;
  // One for each act; `i` is its operation.
  void act(std::size_t i, const operation::Nothing& nothing);
  void act(std::size_t i, const operation::Add& add);
  void act(std::size_t i, const operation::Fill& fill);
  void act(std::size_t i, const operation::Until& until);
  void act(std::size_t i, const operation::Top& top);
  void act(std::size_t i, const operation::Chill& chill);
  void act(std::size_t i, const operation::DryShake& dry_shake);
  void act(std::size_t i, const operation::StrainToGlass& onto);
  void act(std::size_t i, const operation::Dump& dump);
  void act(std::size_t i, const operation::StrainToTin& to);
  void act(std::size_t i, const operation::Build& build);
  void act(std::size_t i, const operation::Heat& heat);
  void act(std::size_t i, const operation::SetTemperature& set);
  void act(std::size_t i, const operation::Carbonate& carbonate);
  void act(std::size_t i, const operation::Strain& through);
  void act(std::size_t i, const operation::Remove& remove);
  void act(std::size_t i, const operation::BreakCells& broken);
  void act(std::size_t i, const operation::Skim& skim);
  void act(std::size_t i, const operation::Clarify& clarify);
  void act(std::size_t i, const operation::Reduce& reduce);
  void act(std::size_t i, const operation::Dehydrate& dehydrate);

  void pour(Vessel& vessel, std::size_t operation, std::size_t slot, units::Grams amount,
            units::Celsius temperature);
  /// What it is worked with, g.
  static double ice_of(const operation::Chill& chilling, const Vessel& vessel);
  void record_chill(const operation::Chill& chilling, const Chilled& chilled, double strength_before,
                    double water_g);
  void aerate(bool closed_with_ice);
  void move_to_glass(units::Grams glass_ice);
  /// All that is in the mixing vessel, ice aside, meets what the glass holds and the glass itself.
  void pour_into_glass();
  void note_poured_into_glass(double celsius);
  /// `held_by_solids`: liquid that stays with their dry matter, g to g. Unless they are pressed, fresh fruit
  /// keeps what its cells hold, too, of the liquid that it stands in.
  void leave_solids(double held_by_solids, bool is_pressed);
  /// Takes a share of the fat that swims free.
  void take_fat(double share);
  /// Fat that neither solids nor an emulsion hold, g.
  double free_fat_g() const;
  /// Through a strainer: solids stay behind, and a share of the liquid; it stays as warm as it was.
  void strain(Vessel& vessel, double lost_share, bool is_pressed = false);
  /// Takes out the liquid that stays with what is left behind, `clinging_g` if there is as much: an estimate,
  /// which a measured yield replaces.
  void hold_back(reckoning::HeldBack::What what, double left_g, double clinging_g);
  void serve();
  void record(const Reckoning& reckoning);
  /// What ice gives as this house's hands have it, as they are moved.
  double melted(ChillMethod method, const Chilled& chilled, double ice_g) const;
  double moved_by(std::size_t operation) const;
  /// The room and what stands in it may be moved.
  units::Celsius at_room(units::Celsius temperature) const;
  /// So much ice, the water on it counted, against a vessel with what it holds.
  IceBath bath(double ice_g, double wet_share, units::Celsius ice_temperature, const Vessel& vessel) const;
  Vessel& current() { return in_glass_ ? glass_ : mixing_; }
  const Vessel& current() const { return in_glass_ ? glass_ : mixing_; }
  const Masses& per_gram(std::size_t slot) const;
  units::Density density(std::size_t slot) const;

  const Program& program_;
  const Perturbation* moved_ = nullptr;
  Vessel mixing_, glass_;
  bool in_glass_ = false;
  /// Of the fat in the mixing vessel, what solids keep in them.
  double fat_in_solids_g_ = 0;
  /// Of the fat, what sets in a fridge.
  double setting_fat_g_ = 0;
  /// What fresh fruit brought in its cells, unbroken and cooked soft, and its wet flesh.
  double juice_in_cells_g_ = 0, juice_in_cooked_cells_g_ = 0, wet_flesh_g_ = 0;
  bool chilled_on_serving_ice_ = false;
  Outcome outcome_;
  /// Where the figures of a step go while somebody asks for them.
  std::vector<Reckoning>* reckonings_ = nullptr;
  /// In this step.
  std::optional<double> poured_into_glass_c_;
};

}  // namespace gill::model
