#include "base/csv_writer.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace gill::base {
namespace {

/// What makes a formula of a cell, the wide forms of the signs too (OWASP, CSV Injection, from memory).
bool is_formula(std::string_view words) {
  static constexpr std::array<std::string_view, 11> signs = {"=",  "+",  "-",  "@",  "\t", "\r",
                                                             "\n", "＝", "＋", "－", "＠"};
  for (auto sign : signs)
    if (words.starts_with(sign)) return true;
  return false;
}

}  // namespace

CsvWriter::CsvWriter(const std::vector<std::string_view>& header) {
  for (auto title : header) text(title);
  end_row();
}

void CsvWriter::cell(std::string_view words) {
  if (!at_row_start_) out_ += ',';
  at_row_start_ = false;
  // A semicolon parts cells where the comma marks decimals: what holds one is quoted as well.
  if (words.find_first_of(",;\"\n\r\t") == std::string_view::npos) {
    out_ += words;
    return;
  }
  out_ += '"';
  for (char c : words) {
    if (c == '"') out_ += '"';
    out_ += c;
  }
  out_ += '"';
}

CsvWriter& CsvWriter::text(std::string_view words) {
  cell(is_formula(words) ? "'" + std::string(words) : std::string(words));
  return *this;
}

CsvWriter& CsvWriter::number(const std::optional<Exact>& value, unsigned places) {
  cell(value ? to_decimal(*value, places) : "");
  return *this;
}

CsvWriter& CsvWriter::number(std::optional<double> value, unsigned places) {
  if (!value || !std::isfinite(*value)) return blank();
  std::string digits = fmt::format("{:.{}f}", *value, places);
  if (digits.find('.') != std::string::npos) {
    while (digits.back() == '0') digits.pop_back();
    if (digits.back() == '.') digits.pop_back();
  }
  cell(digits == "-0" ? "0" : digits);
  return *this;
}

CsvWriter& CsvWriter::unrounded(std::optional<double> value) {
  if (!value || !std::isfinite(*value)) return blank();
  cell(fmt::format("{}", *value == 0 ? 0.0 : *value));
  return *this;
}

CsvWriter& CsvWriter::blank(int cells) {
  for (int i = 0; i < cells; ++i) cell("");
  return *this;
}

CsvWriter& CsvWriter::end_row() {
  out_ += "\r\n";
  at_row_start_ = true;
  return *this;
}

}  // namespace gill::base
