#pragma once
#include <vector>

#include "analysis/specs.h"
#include "model/facts.h"

/// Where raw egg goes, through preps of any depth.
namespace gill::model {

/// True where something was still in the vessel after the step.
bool holds(const TraceStep& step, analysis::StockId stock);

/// True where a line heats the egg through: what the spec orders, never what the simulation reckons.
bool is_egg_cooked(const std::vector<TraceStep>& trace, const analysis::Recipe& recipe,
                   analysis::StockId egg);

/// True where the part is raw egg, or a prep (to any depth) into which raw egg goes and is not cooked.
bool brings_raw_egg(const analysis::Specs& specs, const HouseFacts& facts, analysis::StockId part);

/// The first entry that brings raw egg which its own method does not cook; null where none does.
const Entry* raw_egg_in(const analysis::Specs& specs, const HouseFacts& facts,
                        const std::vector<Entry>& entries, const std::vector<TraceStep>& trace,
                        const analysis::Recipe& recipe);

}  // namespace gill::model
