// Any bytes are a house: the stages up to the typed declarations end, and every finding has a place and
// words.
#include <cstdint>
#include <cstdlib>

#include "diagnostics/render.h"
#include "support/front_end.h"

namespace {

using gill::testing::FrontEnd;

/// The library's units and a few ingredients: enough for names to be found, little enough to be quick.
const FrontEnd& pantry() {
  static const FrontEnd parsed = [] {
    FrontEnd result;
    for (const char* folder : {"units", "ice", "families"})
      result.parse_files(gill::testing::library_texts(folder), true);
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

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  FrontEnd house = pantry();
  house.parse_files({{"fuzz.gill", std::string(reinterpret_cast<const char*>(data), size)}}, false);
  house.run();
  for (const auto& finding : house.sink.all()) {
    auto place = house.sources[finding.span.file_id].place_of(finding.span);
    if (place.length == 0 || finding.message.empty() || finding.help.empty()) std::abort();
  }
  gill::diagnostics::render_text(house.sink.all(), house.sources, true);
  gill::analysis::dump(house.specs, house.units);
  return 0;
}
