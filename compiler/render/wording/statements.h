#pragma once
#include <string>
#include <vector>

#include "model/traces.h"

/// The sentences that a law asks for, in words. Whether one is due is the model's decision.
namespace gill::render::wording {

/// `Contains quinine (tonic water).` What is an allergen as well is among the allergens, and left out here.
std::vector<std::string> statement_lines(const std::vector<model::Statement>& statements,
                                         const analysis::Specs& specs);

/// The statement's name for programs: `quinine`.
std::string_view code_of(model::Statement::Kind kind);

/// `Contains quinine (tonic water).`
std::string words_of(const model::Statement& statement, const analysis::Specs& specs);

}  // namespace gill::render::wording
