#include "base/least_squares.h"

#include <cmath>

namespace gill::base {

namespace {

using Matrix = std::vector<std::vector<double>>;

// A column this small beside its own length says nothing that the columns before it do not say.
constexpr double smallest_pivot = 1e-12;

/// The matrix by columns, each divided by its length.
struct Columns {
  Matrix columns;
  std::vector<double> lengths;
};

std::optional<Columns> columns_of(const Matrix& matrix, std::size_t count) {
  Columns made{Matrix(count, std::vector<double>(matrix.size())), std::vector<double>(count, 0)};
  for (std::size_t j = 0; j < count; ++j) {
    for (std::size_t i = 0; i < matrix.size(); ++i) {
      made.columns[j][i] = matrix[i][j];
      made.lengths[j] = std::hypot(made.lengths[j], matrix[i][j]);
    }
    if (!(made.lengths[j] > 0) || !std::isfinite(made.lengths[j])) return std::nullopt;
    for (double& value : made.columns[j]) value /= made.lengths[j];
  }
  return made;
}

/// Reflects every column behind `step`, and the values, so that the column `step` has nothing below its
/// place. False where nothing is left of it.
bool reflect(Matrix& columns, std::vector<double>& values, std::size_t step) {
  auto& column = columns[step];
  double length = 0;
  for (std::size_t i = step; i < column.size(); ++i) length = std::hypot(length, column[i]);
  if (!(length > smallest_pivot)) return false;
  if (column[step] > 0) length = -length;
  std::vector<double> mirror(column.begin() + static_cast<std::ptrdiff_t>(step), column.end());
  mirror[0] -= length;
  double square = 0;
  for (double value : mirror) square += value * value;
  auto apply = [&](std::vector<double>& target) {
    double along = 0;
    for (std::size_t i = 0; i < mirror.size(); ++i) along += mirror[i] * target[step + i];
    for (std::size_t i = 0; i < mirror.size(); ++i) target[step + i] -= 2 * along / square * mirror[i];
  };
  for (std::size_t j = step; j < columns.size(); ++j) apply(columns[j]);
  apply(values);
  return true;
}

/// The unknowns of R · unknowns = turned, from below; r[j][i] is row i of column j.
std::vector<double> solved(const Matrix& r, const std::vector<double>& turned) {
  std::vector<double> unknowns(r.size(), 0);
  for (std::size_t i = r.size(); i-- > 0;) {
    double sum = turned[i];
    for (std::size_t j = i + 1; j < r.size(); ++j) sum -= r[j][i] * unknowns[j];
    unknowns[i] = sum / r[i][i];
  }
  return unknowns;
}

/// (Rᵀ R)⁻¹ of the columns as long as they were, from the inverse of R, column by column.
Matrix inverse_of_square(const Matrix& r, const std::vector<double>& lengths) {
  const std::size_t count = r.size();
  Matrix inverse(count, std::vector<double>(count, 0));
  for (std::size_t k = 0; k < count; ++k)
    for (std::size_t i = k + 1; i-- > 0;) {
      double sum = i == k ? 1 : 0;
      for (std::size_t j = i + 1; j <= k; ++j) sum -= r[j][i] * inverse[j][k];
      inverse[i][k] = sum / r[i][i];
    }
  Matrix square(count, std::vector<double>(count, 0));
  for (std::size_t i = 0; i < count; ++i)
    for (std::size_t j = 0; j < count; ++j) {
      double sum = 0;
      for (std::size_t k = 0; k < count; ++k) sum += inverse[i][k] * inverse[j][k];
      square[i][j] = sum / (lengths[i] * lengths[j]);
    }
  return square;
}

/// What the fit leaves of each value, and how much each value pulls it.
void add_residuals(LeastSquares& fit, const Matrix& matrix, const std::vector<double>& values) {
  const std::size_t count = fit.unknowns.size();
  for (std::size_t i = 0; i < matrix.size(); ++i) {
    double residual = values[i], leverage = 0;
    for (std::size_t j = 0; j < count; ++j) {
      residual -= matrix[i][j] * fit.unknowns[j];
      for (std::size_t k = 0; k < count; ++k) leverage += matrix[i][j] * fit.inverse[j][k] * matrix[i][k];
    }
    fit.residuals.push_back(residual);
    fit.leverages.push_back(leverage);
    fit.residual_square += residual * residual;
  }
}

}  // namespace

std::optional<LeastSquares> least_squares(const Matrix& matrix, const std::vector<double>& values) {
  if (matrix.empty() || matrix.size() != values.size()) return std::nullopt;
  const std::size_t rows = matrix.size(), count = matrix.front().size();
  if (count == 0 || rows < count) return std::nullopt;
  for (double value : values)
    if (!std::isfinite(value)) return std::nullopt;
  auto scaled = columns_of(matrix, count);
  if (!scaled) return std::nullopt;
  Matrix& r = scaled->columns;
  std::vector<double> turned = values;
  for (std::size_t step = 0; step < count; ++step)
    if (!reflect(r, turned, step)) return std::nullopt;

  LeastSquares fit;
  fit.unknowns = solved(r, turned);
  fit.inverse = inverse_of_square(r, scaled->lengths);
  for (std::size_t j = 0; j < count; ++j) fit.unknowns[j] /= scaled->lengths[j];
  add_residuals(fit, matrix, values);
  return fit;
}

}  // namespace gill::base
