#include "fuzz/pantry.h"

#include <nlohmann/json.hpp>

namespace gill::fuzzing {

using testing::FrontEnd;

const FrontEnd& pantry() {
  static const FrontEnd parsed = [] {
    FrontEnd result;
    for (const char* folder : {"units", "ice", "families"})
      result.parse_files(testing::library_texts(folder), true);
    result.parse_files({{"pantry.gill",
                         "ingredient rye\n  kind spirit\n  strength 45 % abv\n"
                         "ingredient lemon juice\n  kind juice\n  acid 6 % w/v\n"
                         "ingredient lemon\n  kind fruit\n  each 120 g\n  gives 45 ml lemon juice\n"
                         "ingredient sugar cube\n  kind sweetener\n  each 4 g\n"
                         "ingredient mint\n  kind herb\n  each leaf 0.15 g\n"
                         "ingredient water\n  kind water\n"
                         "glass coupe\n  holds 180 ml\n  line 120..155 ml\n"}},
                       true);
    return result;
  }();
  return parsed;
}

const costing::House& evaluated_pantry() {
  struct Evaluated {
    FrontEnd read = pantry();
    model::HouseFacts facts;
    std::vector<diagnostics::Diagnostic> findings, suppressed;
    Evaluated() {
      read.run();
      facts = model::evaluate(read.specs, read.units, read.sink);
    }
  };
  static const Evaluated evaluated;
  static const costing::House house{evaluated.read.specs, evaluated.facts,        evaluated.read.units,
                                    evaluated.read.names, evaluated.read.sources, evaluated.findings,
                                    evaluated.suppressed};
  return house;
}

// The JSON library throws at the first byte that is none.
void require_utf8(const std::string& words) { (void)nlohmann::json(words).dump(); }

}  // namespace gill::fuzzing
