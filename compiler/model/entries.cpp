#include "model/entries.h"

namespace gill::model {

StrongestPart strongest_part(const std::vector<Entry>& entries, const HouseFacts& facts) {
  StrongestPart strongest;
  for (const auto& entry : entries) {
    if (is_laid_on(entry.role) || entry.optional || !entry.mass_g) continue;
    const Masses& per_gram = facts[entry.use.stock].composition.per_gram;
    const double ethanol_g = *entry.mass_g * per_gram[Component::ethanol];
    if (ethanol_g > strongest.ethanol_g) strongest = {&entry, ethanol_g};
  }
  return strongest;
}

}  // namespace gill::model
