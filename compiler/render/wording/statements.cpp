#include "render/wording/statements.h"

#include <fmt/format.h>

#include "base/text.h"

namespace gill::render::wording {

namespace {

/// The ingredients by which it comes.
std::string ways(const model::Statement& statement, const analysis::Specs& specs) {
  std::vector<std::string> names;
  for (auto id : statement.via) names.push_back(specs[id].head.name);
  return base::join_with_and(names);
}

}  // namespace

std::string_view code_of(model::Statement::Kind kind) {
  switch (kind) {
    case model::Statement::Kind::much_caffeine:
      return "much-caffeine";
    case model::Statement::Kind::caffeine_added:
      return "caffeine";
    case model::Statement::Kind::quinine:
      return "quinine";
    case model::Statement::Kind::sulphites:
      return "sulphites";
  }
  return {};
}

std::string words_of(const model::Statement& statement, const analysis::Specs& specs) {
  switch (statement.kind) {
    // The sentence of Regulation (EU) No 1169/2011, Annex III, 4.1, from memory, with its mg in 100 ml.
    case model::Statement::Kind::much_caffeine:
      return fmt::format(
          "High caffeine content. Not recommended for children or pregnant or breast-feeding women (about "
          "{:.0f} "
          "mg/100 ml).",
          statement.mg_per_l / 10);
    case model::Statement::Kind::caffeine_added:
      return fmt::format("Contains caffeine ({}).", ways(statement, specs));
    case model::Statement::Kind::quinine:
      return fmt::format("Contains quinine ({}).", ways(statement, specs));
    case model::Statement::Kind::sulphites:
      return fmt::format("Contains sulphites, about {:.0f} mg/l ({}).", statement.mg_per_l,
                         ways(statement, specs));
  }
  return {};
}

std::vector<std::string> statement_lines(const std::vector<model::Statement>& statements,
                                         const analysis::Specs& specs) {
  std::vector<std::string> lines;
  for (const auto& statement : statements)
    if (statement.kind != model::Statement::Kind::sulphites) lines.push_back(words_of(statement, specs));
  return lines;
}

}  // namespace gill::render::wording
