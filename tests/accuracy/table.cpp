#include "accuracy/table.h"

#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <limits>

#include "base/text.h"

namespace gill::accuracy {
namespace {

// A figure that should be met to the last bit may still be a few bits off.
constexpr double rounding = 1e-12;

}  // namespace

double Tolerance::allowed(double expected) const { return std::max(amount, share * std::abs(expected)); }

double Table::Row::difference() const {
  if (got < low) return got - low;
  if (got > high) return got - high;
  return got - got;  // 0, and still not a number where there is none
}

bool Table::Row::holds() const { return std::abs(difference()) <= allowed + rounding * std::abs(got); }

double Table::Row::used() const {
  const double off = std::abs(difference());
  if (std::isnan(off)) return std::numeric_limits<double>::infinity();
  return allowed > 0 ? off / allowed : holds() ? 0 : std::numeric_limits<double>::infinity();
}

Table::Table(Heading heading, Tolerance tolerance) : heading_(heading), tolerance_(tolerance) {}

Table::~Table() {
  if (!checked_ && std::uncaught_exceptions() == 0)
    FAIL_CHECK("the table " << heading_.name << " was never checked");
}

void Table::add(std::string label, double expected, double got, Tolerance tolerance) {
  rows_.push_back({std::move(label), expected, expected, got, tolerance.allowed(expected), {}});
}

void Table::add_range(std::string label, double low, double high, double got) {
  rows_.push_back({std::move(label), low, high, got, tolerance_.allowed(std::isinf(high) ? low : high), {}});
}

void Table::add_outside(std::string label, double low, double high, double got, Tolerance tolerance,
                        std::string reason) {
  REQUIRE(!reason.empty());
  rows_.push_back({std::move(label), low, high, got, tolerance.allowed(std::isinf(high) ? low : high),
                   std::move(reason)});
}

void Table::check() {
  checked_ = true;
  REQUIRE(!rows_.empty());
  print();
  write_summary();
  for (const Row& row : rows_) {
    INFO(heading_.source << ": " << row.label << ": expected " << expected_of(row) << ", got "
                         << number(row.got) << " " << heading_.unit << ", allowed " << row.allowed);
    CHECK(row.holds() == row.why_outside.empty());
  }
}

const Table::Row& Table::nearest_to_its_tolerance() const {
  return *std::max_element(rows_.begin(), rows_.end(),
                           [](const Row& left, const Row& right) { return left.used() < right.used(); });
}

std::size_t Table::rows_outside() const {
  return static_cast<std::size_t>(
      std::count_if(rows_.begin(), rows_.end(), [](const Row& row) { return !row.holds(); }));
}

/// With as many decimals as show a tenth of the tolerance; to all digits where that is a tiny share.
std::string Table::number(double value) const {
  if (tolerance_.amount <= 0)
    return tolerance_.share < 1e-6 ? fmt::format("{:.13g}", value) : fmt::format("{:.4g}", value);
  const int decimals = std::clamp(1 - static_cast<int>(std::floor(std::log10(tolerance_.amount))), 0, 9);
  return fmt::format("{:.{}f}", value, decimals);
}

std::string Table::expected_of(const Row& row) const {
  if (row.low == row.high) return number(row.low);
  return number(row.low) + ".." + (std::isinf(row.high) ? "" : number(row.high));
}

void Table::print() const {
  std::size_t width = 0;
  for (const Row& row : rows_) width = std::max(width, base::display_width(row.label));
  std::cout << fmt::format("\n{}\n{}, {}\n", heading_.source, heading_.compared, heading_.unit);
  std::cout << fmt::format("  {:<{}}  {:>18}  {:>18}  {:>12}  {:>12}\n", "", width, "expected", "got",
                           "difference", "allowed");
  for (const Row& row : rows_)
    std::cout << fmt::format("  {:<{}}  {:>18}  {:>18}  {:>12.3g}  {:>12.3g}{}\n", row.label, width,
                             expected_of(row), number(row.got), row.difference(), row.allowed,
                             row.holds()               ? ""
                             : row.why_outside.empty() ? "  OUTSIDE"
                                                       : "  outside: " + row.why_outside);
  std::cout << std::flush;
}

void Table::write_summary() const {
  const std::filesystem::path folder = GILL_ACCURACY_SUMMARY;
  std::filesystem::create_directories(folder);
  std::ofstream file(folder / (std::string(heading_.name) + ".summary"));
  const Row& nearest = nearest_to_its_tolerance();
  file << fmt::format("| {:<75} | {:<51} | {:>4} | {:>10.2g} | {:>8.2g} | {:<10} | {:>7} |\n",
                      heading_.source, heading_.compared, rows_.size(), std::abs(nearest.difference()),
                      nearest.allowed, heading_.unit, rows_outside());
  file.close();
  INFO("writing " << folder);
  CHECK(file.good());
}

}  // namespace gill::accuracy
