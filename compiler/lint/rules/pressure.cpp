#include <fmt/format.h>

#include "lint/rules.h"
#include "model/physics/gas.h"

namespace gill::lint {

namespace {

// More than soda water and sparkling wine hold, volumes. Common practice, no source.
constexpr double much_gas_vol = 5;

template <typename Case>
void check_pressure(const Case& build, Reporter& report) {
  for (const auto& trace : build.facts.trace) {
    if (trace.is_amount) continue;
    const auto& step = build.step(trace);
    std::string message;
    if (step.verb == analysis::Verb::carbonate) {
      double volumes = step.target ? step.target->number() : 0;
      double bar = model::carbonation_pressure_bar_gauge(
          volumes, model::gas_solvent(trace.after.masses, trace.after.temperature_c));
      message = fmt::format("under gas: {:.2g} volumes, about {:.1f} bar at {:.0f} C", volumes,
                            std::max(bar, 0.0), trace.after.temperature_c);
      if (volumes > much_gas_vol) message += ", more than soda water holds";
    } else if (step.verb == analysis::Verb::charge) {
      message = "a charged siphon is a pressure vessel";
    } else {
      continue;
    }
    report.add(build.span_of(trace), message,
               "Use a vessel rated for it with a working relief valve, cold liquid, and room above it; never "
               "glass that is not made for gas. Keep "
               "to the maker's fill and charges, and vent before opening. The maker's limits, your local "
               "code and a trained person decide "
               "(common practice, no source).");
    return;
  }
}

}  // namespace

void pressure(const DrinkCase& drink, Reporter& report) { check_pressure(drink, report); }
void pressure(const PrepCase& prep, Reporter& report) { check_pressure(prep, report); }

}  // namespace gill::lint
