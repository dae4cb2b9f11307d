// Any bytes are tidied: white space alone changes nothing that is read and is put once, and whatever else
// changes, no comment, text or declaration is lost. (What the words mean afterwards is the driver's to hold.)
#include <cstdint>
#include <cstdio>
#include <cstdlib>

#include "fuzz/pantry.h"
#include "support/tidy_check.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace gill;
  std::string text = fuzzing::text_of(data, size);
  std::string broken = testing::broken_by_spacing(fuzzing::pantry(), text);
  for (auto extent : {tidy::Extent::terms, tidy::Extent::forms})
    if (broken.empty()) broken = testing::broken_by_spelling(fuzzing::pantry(), text, extent);
  if (broken.empty()) return 0;
  std::fprintf(stderr, "%s\n", broken.c_str());
  std::abort();
}
