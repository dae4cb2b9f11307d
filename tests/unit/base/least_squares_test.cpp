#include "base/least_squares.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace gill::base;

namespace {

using NumberRows = std::vector<std::vector<double>>;

}  // namespace

TEST_CASE("a straight line fits as certified") {
  // NIST Statistical Reference Datasets, linear regression, Norris (National Institute of Standards and
  // Technology): y over x, the certified values below. The data are from memory; that every certified digit
  // comes out says that they are right.
  const double data[][2] = {
      {0.1, 0.2},     {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1},    {228.1, 226.5},
      {668.5, 666.3}, {998.5, 996.3}, {449.1, 448.6}, {778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4},
      {0.1, 0.6},     {778.1, 775.5}, {668.8, 666.9}, {339.3, 338.0}, {448.9, 447.5}, {10.8, 11.6},
      {557.7, 556.0}, {228.3, 228.1}, {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3},
      {0.6, 0.3},     {557.6, 556.8}, {339.3, 339.1}, {888.0, 887.2}, {998.5, 999.0}, {778.9, 779.0},
      {10.2, 11.1},   {117.6, 118.3}, {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9}, {0.2, 0.5}};
  NumberRows matrix;
  std::vector<double> values;
  for (const auto& [y, x] : data) {
    matrix.push_back({1, x});
    values.push_back(y);
  }
  auto fit = least_squares(matrix, values);
  REQUIRE(fit);
  CHECK(fit->unknowns[0] == Approx(-0.262323073774029).epsilon(1e-10));
  CHECK(fit->unknowns[1] == Approx(1.00211681802045).epsilon(1e-12));
  const double variance = fit->residual_square / 34;
  CHECK(std::sqrt(variance) == Approx(0.884796396144373).epsilon(1e-10));
  CHECK(std::sqrt(variance * fit->inverse[0][0]) == Approx(0.232818234301152).epsilon(1e-10));
  CHECK(std::sqrt(variance * fit->inverse[1][1]) == Approx(0.429796848199937e-3).epsilon(1e-10));
}

TEST_CASE("a polynomial of the tenth power is out of reach, and one of the fourth is exact") {
  // Columns that are nearly one another are refused or solved, never answered wrongly.
  for (int power : {4, 20}) {
    NumberRows matrix;
    std::vector<double> values;
    for (int i = 0; i < 40; ++i) {
      const double x = 1 + i / 40.0;
      std::vector<double> row;
      double sum = 0;
      for (int p = 0; p <= power; ++p) {
        row.push_back(std::pow(x, p));
        sum += row.back();
      }
      matrix.push_back(std::move(row));
      values.push_back(sum);
    }
    auto fit = least_squares(matrix, values);
    if (!fit) continue;
    CHECK(power == 4);
    for (double unknown : fit->unknowns) CHECK(unknown == Approx(1).epsilon(1e-6));
  }
}

TEST_CASE("leverages add up to the unknowns, and residuals stand square on every column") {
  const NumberRows matrix = {{1, 2, 0}, {1, 3, 1}, {1, 5, 0}, {1, 7, 4}, {1, 11, 2}, {1, 13, 1}};
  const std::vector<double> values = {1, 4, 2, 8, 5, 7};
  auto fit = least_squares(matrix, values);
  REQUIRE(fit);
  double leverage = 0;
  for (double share : fit->leverages) leverage += share;
  CHECK(leverage == Approx(3).epsilon(1e-12));
  for (std::size_t j = 0; j < 3; ++j) {
    double along = 0;
    for (std::size_t i = 0; i < matrix.size(); ++i) along += matrix[i][j] * fit->residuals[i];
    CHECK(std::abs(along) < 1e-10);
  }
}

TEST_CASE("what decides nothing is not answered") {
  CHECK(!least_squares({}, {}));
  CHECK(!least_squares({{1, 2}}, {3}));
  CHECK(!least_squares({{1, 2}, {2, 4}, {3, 6}}, {1, 2, 3}));
  CHECK(!least_squares({{0, 1}, {0, 2}}, {1, 2}));
  CHECK(!least_squares({{1}, {2}}, {1, std::numeric_limits<double>::quiet_NaN()}));
  CHECK(!least_squares({{1}, {std::numeric_limits<double>::infinity()}}, {1, 2}));
}
