#pragma once
#include <cstddef>
#include <optional>
#include <vector>

/// Least squares for the few unknowns of a calibration.
namespace gill::base {

/// What fits rows of `matrix · unknowns ≈ values` best.
struct LeastSquares {
  std::vector<double> unknowns;
  /// (Aᵀ A)⁻¹, row by row: times the variance of a row it is the unknowns' covariance.
  std::vector<std::vector<double>> inverse;
  /// `values − matrix · unknowns`, and each row's share of its own fit (the hat matrix's diagonal).
  std::vector<double> residuals, leverages;
  double residual_square = 0;
};

/// Solves by Householder's reflections, with columns scaled to one length. Nothing where there are fewer rows
/// than unknowns, where a column says nothing that the others do not say, or where a number is not finite.
/// Each row has as many numbers as there are unknowns.
std::optional<LeastSquares> least_squares(const std::vector<std::vector<double>>& matrix,
                                          const std::vector<double>& values);

}  // namespace gill::base
