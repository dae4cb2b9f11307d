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

}  // namespace gill::render::document
