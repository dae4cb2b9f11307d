#pragma once
#include <array>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "analysis/specs.h"

/// What is in a liquid by the milligram and yet has a law of its own.
namespace gill::model {

enum class TraceKind : std::uint8_t { caffeine, quinine, sulphites };
inline constexpr std::array trace_kinds{TraceKind::caffeine, TraceKind::quinine, TraceKind::sulphites};
constexpr std::size_t index_of(TraceKind kind) noexcept { return static_cast<std::size_t>(kind); }

/// How much of it is there, as far as its parts say, and by which of them.
struct Trace {
  /// mg in a litre; nothing where no part says that it holds any.
  std::optional<double> mg_per_l;
  std::vector<analysis::StockId> via;
};
using Traces = std::array<Trace, trace_kinds.size()>;

/// Sulphites count from here, as SO2 in what is drunk. Regulation (EU) No 1169/2011, Annex II, 12.
inline constexpr double sulphites_from_mg_per_l = 10;
/// Much caffeine. Regulation (EU) No 1169/2011, Annex III, 4.1 (from memory).
inline constexpr double much_caffeine_from_mg_per_l = 150;

/// A sentence that a law asks for on labels, and that a guest wants to hear. The model decides whether it is
/// due; `render/wording/statements.h` words it.
struct Statement {
  enum class Kind : std::uint8_t {
    much_caffeine,   ///< Annex III, 4.1: above 150 mg/l; not of what is called coffee or tea and holds no
                     ///< other
    caffeine_added,  ///< Annex VII, part D: caffeine that no coffee or tea brings is named
    quinine,         ///< Annex VII, part D: quinine is named
    sulphites,       ///< Annex II, 12: above 10 mg/l
  };
  Kind kind = Kind::quinine;
  double mg_per_l = 0;
  std::vector<analysis::StockId> via;
};

/// What is due of a drink or a prep of that name.
std::vector<Statement> statements_of(const Traces& traces, std::string_view name,
                                     const analysis::Specs& specs);

/// The line of an ingredient that states it.
const std::optional<analysis::Quantity>& stated(const analysis::Stock& stock, TraceKind kind);

}  // namespace gill::model
