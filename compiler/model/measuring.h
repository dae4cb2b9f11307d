#pragma once
#include <optional>
#include <string>

#include "model/facts.h"

namespace gill::model {

/// The number of a measure, for a fact or a sum that has its unit in its name.
template <typename Kind>
std::optional<double> number_of(const std::optional<units::Measure<Kind>>& measure) {
  return measure ? std::optional(measure->value) : std::nullopt;
}

/// The line of a fruit that tells what juice it gives; null where it gives none.
const analysis::Gives* juice_of(const analysis::Stock& fruit);

/// Turns volume, mass and count of one thing into each other, through its density and its `each`. Refuses
/// with the fact that is missing and where to put it.
class Measuring {
 public:
  Measuring(const analysis::Specs& specs, const units::UnitTable& units, const std::vector<StockFacts>& stock,
            diagnostics::DiagnosticSink& sink)
      : specs_(specs), units_(units), stock_(stock), sink_(sink) {}

  /// Grams of a quantity of something; reports `no-density`, `ounce-of-solid`, `unknown-unit` or `wrong-kind`
  /// at `span` and gives nothing when it cannot be known. Parts are not turned here.
  std::optional<units::Grams> grams(const analysis::Use& use, const units::Quantity& quantity,
                                    source::Span span, const std::string& drink) const;
  /// The same without a report.
  std::optional<units::Grams> grams_silently(const analysis::Use& use, const units::Quantity& quantity) const;
  /// Millilitres of so many grams; nothing where no density is known (solids).
  std::optional<units::Millilitres> millilitres(analysis::StockId stock, units::Grams grams) const;
  /// Grams of one piece, by its item word or whole; nothing where nobody says.
  std::optional<units::Grams> grams_each(const analysis::Use& use) const;
  /// What lies on a drink where its line says no amount: a pinch of what is grated, ground or strewn, which
  /// is what has a pinch and comes in no pieces, or in shavings; else the thing as it is named. Common
  /// practice, no source.
  analysis::Use laid_as(const analysis::Use& use) const;
  /// The relative tolerance of a quantity: its own, its unit's, else its piece's.
  double relative_tolerance(const analysis::Use& use, const units::Quantity& quantity) const;

  /// Checks `A = B`: both measures of one thing must agree. Reports `unequal-measures`.
  void check_equal(const analysis::Use& use, const units::Quantity& first, const units::Quantity& second,
                   const std::string& drink) const;

  bool is_liquid(analysis::StockId stock) const;

 private:
  /// Grams of a millilitre; nothing of solids whose density nobody declares.
  std::optional<units::Density> density(analysis::StockId stock) const;

  const analysis::Specs& specs_;
  const units::UnitTable& units_;
  const std::vector<StockFacts>& stock_;
  diagnostics::DiagnosticSink& sink_;
};

}  // namespace gill::model
