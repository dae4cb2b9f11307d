// Any bytes are a file: parsing keeps every line, items stay inside their lines and follow each other.
#include <cstdint>
#include <cstdlib>

#include "support/front_end.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace gill;
  source::SourceSet sources;
  diagnostics::DiagnosticSink sink;
  auto id = sources.add("fuzz.gill", std::string(reinterpret_cast<const char*>(data), size), false);
  auto file = syntax::parse(id, sources, sink);

  const auto& text = sources[id].text;
  if (!text.empty() && file.lines.size() != sources[id].line_starts.size()) std::abort();
  for (const auto& line : file.lines) {
    if (line.begin > line.end || line.end > text.size() || line.tail < line.begin || line.tail > line.end)
      std::abort();
    std::uint32_t at = line.begin;
    for (std::uint32_t i = 0; i < line.token_count; ++i) {
      const auto& item = file.tokens[line.first_token + i];
      if (item.begin < at || item.end <= item.begin || item.end > line.end) std::abort();
      at = item.end;
    }
  }
  syntax::dump(file, sources);
  return 0;
}
