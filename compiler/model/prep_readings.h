#pragma once
#include <vector>

#include "model/cause.h"
#include "model/facts.h"

/// What was measured of a prep (by a hydrometer, a refractometer, a meter, a titration), beside what was
/// worked out of its parts, and what it comes to with the readings in their place.
namespace gill::model {

/// The reading's word, as its line has it: `sugar`, `refractometer`.
std::string_view name_of(Reading::Of of);

/// Whether a line of the prep states a figure of what was made.
bool is_measured(const analysis::Stock& prep);

/// What was made, with the readings in place of what was worked out.
DeclaredTerms measured_terms(const analysis::Stock& prep, const Composition& made);

/// Each reading beside what was worked out, whose composition the facts still have.
std::vector<Reading> readings_of(const analysis::Stock& prep, const StockFacts& facts, const Shown& shown);

/// What was read is no longer moved by what went in, and lies as far off as its own line says; `made` is what
/// was worked out.
void add_measured_moves(const analysis::Stock& prep, analysis::StockId id, const Composition& made,
                        StockMoves& moves);

}  // namespace gill::model
