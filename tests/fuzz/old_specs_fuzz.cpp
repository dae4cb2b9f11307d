// Any bytes are old specs, as plain lines or as JSON-LD: what comes out is a text that the parser keeps line
// by line.
#include <cstdint>
#include <cstdlib>

#include "fuzz/pantry.h"
#include "importer/import_specs.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace gill;
  auto errors_in = [](const std::string& text) {
    auto house = fuzzing::pantry();
    house.parse_files({{"brought.gill", text}}, false);
    house.run();
    std::vector<base::RowProblem> errors;
    for (const auto& finding : house.sink.all())
      if (finding.severity == diagnostics::Severity::error)
        errors.push_back({house.sources[finding.span.file_id].place_of(finding.span).line, finding.message});
    return errors;
  };
  auto brought =
      importer::import_specs(fuzzing::text_of(data, size), "old.txt", fuzzing::evaluated_pantry(), errors_in);
  fuzzing::require_utf8(brought.text);
  for (const auto& finding : brought.findings)
    if (finding.message.empty()) std::abort();
  // Lines in error have become comments.
  if (!errors_in(brought.text).empty()) std::abort();
  return 0;
}
