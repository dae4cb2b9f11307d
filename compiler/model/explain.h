#pragma once
#include <cstdint>
#include <string>
#include <variant>

/// What the simulation did, as figures; the words are made of them only where somebody reads them.
namespace gill::model {

namespace reckoning {

/// A shake or a stir: the published fit, carried over to the case at hand.
struct Fitted {
  double fit_dilution = 0;  ///< added water over undiluted volume, with reference ice at the usual time
  double strength = 0;      ///< of the drink before, v/v
  bool strength_clamped = false;
  double balance_ratio = 1;  ///< ice balance of this case over that of the reference
  double time_share = 1;     ///< share of the usual melt that the time reaches
};

/// Any other way of chilling: the energy balance alone.
struct Balanced {
  double equilibrium_melt_g = 0;
  double equilibrium_c = 0;
  double time_share = 1;
};

/// The house measured its hands: they melt so many times the usual.
struct ByHands {
  double factor = 1;
};

/// Water that joins the drink, and how cold it gets.
struct Diluted {
  double water_g = 0;
  double end_c = 0;
  bool is_blended = false;  ///< all the ice counts, melted or not: it is drunk
  double film_g = 0;        ///< of the water, what clung to the ice and is in no figure of the method
};

/// Poured into a glass that is warmer or colder.
struct MetGlass {
  double glass_c = 20;
  double before_c = 0, after_c = 0;
};

/// The bottle holds the water already: the ice cools and adds nothing.
struct CooledOnly {
  double end_c = 0;
};

/// Something stays behind and keeps liquid with it.
struct HeldBack {
  enum class What : std::uint8_t { solids, fat, removed, curd };
  What what = What::solids;
  double left_g = 0;
  double liquid_g = 0;
};

/// Alcohol that goes off in the open.
struct BoiledOff {
  double lost_g = 0, of_g = 0;
  double heated_to_c = 0;
};

/// The gas asked for and what holds it, bar over the air's pressure.
struct Carbonated {
  double volumes = 0;
  double pressure_bar = 0, drink_c = 20;
  double fridge_pressure_bar = 0, fridge_c = 4;
};

/// Boiled down.
struct Reduced {};

}  // namespace reckoning

/// One thing that was reckoned in a step.
using Reckoning = std::variant<reckoning::Fitted, reckoning::Balanced, reckoning::ByHands, reckoning::Diluted,
                               reckoning::MetGlass, reckoning::CooledOnly, reckoning::HeldBack,
                               reckoning::BoiledOff, reckoning::Carbonated, reckoning::Reduced>;

/// One sentence with the method, its figures and where they come from, for `--work`.
std::string explain(const Reckoning& reckoning);

}  // namespace gill::model
