#pragma once
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "costing/costing.h"
#include "model/keeping.h"
#include "model/physics/components.h"

/// A drink or a prep made for many at once.
namespace gill::batch {

using namespace costing;

/// How much is asked for. One of serves and volume; with a bottle size alone, one bottle full.
struct BatchRequest {
  std::optional<double> serves, volume_ml, bottle_ml;
  /// The melt that ice would bring is put in as water.
  bool diluted = false;
  /// The batch is used up within so many hours: fresh juice that lasts as long goes in.
  std::optional<double> within_h;
};

/// So much of one thing, as far as each measure is known.
struct BatchIngredient {
  analysis::Use use;
  std::string name;
  std::optional<double> volume_ml, mass_g, count;
  /// Its line says what it weighs: so it is told.
  bool is_weighed = false;
};

/// What is added at service, and why it is not in the batch. Amounts are a serve's, also of a bowl.
struct LeftOut {
  BatchIngredient what;
  std::string why;
  /// `3 drops`: as the spec says it where its measure is a loose one, which no jigger pours.
  std::string written = {};
};

/// A batch, evaluated and unrounded. Volumes and strength at 20 °C.
struct Batch {
  std::string name;
  bool is_prep = false;
  /// Nothing for a prep.
  std::optional<double> serves;
  model::Masses masses;
  double volume_ml = 0, mass_g = 0, abv_percent = 0, sugar_g_per_100ml = 0, acid_g_per_100ml = 0;
  double water_ml = 0;
  /// What the ice of the written method adds to the batch's serves, ml: the water that `diluted` puts in.
  double melt_ml = 0;
  double ml_a_serve = 0;
  /// Of a drink: its strength as the written method serves it.
  std::optional<double> served_abv_percent;
  std::vector<BatchIngredient> ingredients;
  std::vector<LeftOut> left_out;
  /// Serves for which the drink is made at once: a bowl's garnish is for the bowl.
  double serves_at_once = 1;
  std::vector<model::BottleSplit> bottles;
  double freezes_at_c = 0;
  std::optional<double> keeps_days;
  std::optional<analysis::Storage> storage;
  /// Of a prep: false where no `keeps` says it, and the days are those of its shortest-lived part.
  bool is_keeping_stated = true;
  model::Allergens allergens;
  /// Cautions of the drink or prep, as a label says them (`document::Cautions::on_label`); empty for none.
  std::string take_care;

  /// What is in it.
  std::vector<analysis::StockId> held() const;
  /// Of a prep with a largest batch: in how many goes it is made.
  int goes = 1;
  std::vector<std::string> notes;
};

/// Works a batch out: what belongs in it, scaled. A full sentence where it cannot be.
std::variant<Batch, std::string> make_batch(const House& house, DrinkId drink, const BatchRequest& request);
/// A prep by its yield: what goes in for so much of it. A prep has serves only where it makes a count of
/// pieces.
std::variant<Batch, std::string> make_batch(const House& house, StockId prep, const BatchRequest& request);

/// Milk, cream and the like as they are bought, which a mix keeps no longer than.
bool is_dairy(const analysis::Stock& stock);

/// How long a mix keeps at the most, cold and closed, days, whatever its parts do: by its strength, and no
/// longer than water or milk in it allow. One answer for a batch and for the plan's house bottles. Common
/// practice, no source; the mixes below 15 % as the FDA Food Code dates what is cut or mixed (3-501.17: seven
/// days, the first counted), held shorter.
double max_days_of_mix(double abv_percent, bool is_diluted, bool holds_dairy);

}  // namespace gill::batch
