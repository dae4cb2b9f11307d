// Any bytes are a house: the stages up to the typed declarations end, and every finding has a place and
// words.
#include <cstdint>
#include <cstdlib>

#include "diagnostics/render.h"
#include "fuzz/pantry.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  auto house = gill::fuzzing::pantry();
  house.parse_files({{"fuzz.gill", gill::fuzzing::text_of(data, size)}}, false);
  house.run();
  for (const auto& finding : house.sink.all()) {
    auto place = house.sources[finding.span.file_id].place_of(finding.span);
    if (place.length == 0 || finding.message.empty() || finding.help.empty()) std::abort();
  }
  gill::diagnostics::render_text(house.sink.all(), house.sources, true);
  gill::analysis::dump(house.specs, house.units);
  return 0;
}
