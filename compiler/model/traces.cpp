#include "model/traces.h"

#include <algorithm>

#include "base/text.h"

namespace gill::model {

namespace {

/// True where the name holds the word: `Iced Tea`, `Coffee Flip`.
bool names(std::string_view name, std::string_view word) {
  std::string folded = " " + base::fold_name(name) + " ";
  std::replace_if(
      folded.begin(), folded.end(), [](char letter) { return letter == '-' || letter == '/'; }, ' ');
  return folded.find(" " + std::string(word) + " ") != std::string::npos;
}

}  // namespace

const std::optional<analysis::Quantity>& stated(const analysis::Stock& stock, TraceKind kind) {
  switch (kind) {
    case TraceKind::caffeine:
      return stock.caffeine;
    case TraceKind::quinine:
      return stock.quinine;
    case TraceKind::sulphites:
      return stock.sulphites;
  }
  return stock.caffeine;
}

std::vector<Statement> statements_of(const Traces& traces, std::string_view name,
                                     const analysis::Specs& specs) {
  std::vector<Statement> due;
  const Trace& caffeine = traces[index_of(TraceKind::caffeine)];
  std::vector<analysis::StockId> added;
  for (auto id : caffeine.via)
    if (specs[id].kind != analysis::StockKind::tea_coffee) added.push_back(id);
  const bool is_called_so = added.empty() && (names(name, "coffee") || names(name, "tea"));
  const double caffeine_mg = caffeine.mg_per_l.value_or(0);
  if (caffeine_mg > much_caffeine_from_mg_per_l && !is_called_so)
    due.push_back({Statement::Kind::much_caffeine, caffeine_mg, caffeine.via});
  if (!added.empty() && caffeine_mg > 0) due.push_back({Statement::Kind::caffeine_added, caffeine_mg, added});
  const Trace& quinine = traces[index_of(TraceKind::quinine)];
  if (quinine.mg_per_l.value_or(0) > 0)
    due.push_back({Statement::Kind::quinine, *quinine.mg_per_l, quinine.via});
  const Trace& sulphites = traces[index_of(TraceKind::sulphites)];
  if (sulphites.mg_per_l.value_or(0) > sulphites_from_mg_per_l)
    due.push_back({Statement::Kind::sulphites, *sulphites.mg_per_l, sulphites.via});
  return due;
}

}  // namespace gill::model
