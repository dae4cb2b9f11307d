#include "render/document/document.h"

namespace gill::render::document {

Run joined(const std::vector<Run>& runs, const std::string& separator) {
  Run all;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    if (i > 0) all.plain(separator);
    all.append(runs[i]);
  }
  return all;
}

std::string plain_text(const Run& run) {
  std::string text;
  for (const auto& part : run.parts) {
    if (const auto* number = std::get_if<Number>(&part)) {
      text += number->number + (number->unit.empty() ? "" : " " + number->unit);
      continue;
    }
    std::visit(
        [&](const auto& words) {
          if constexpr (requires { words.text; }) text += words.text;
        },
        part);
  }
  return text;
}

}  // namespace gill::render::document
