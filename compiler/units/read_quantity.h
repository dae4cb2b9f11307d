#pragma once
#include <optional>

#include "units/unit_table.h"

namespace gill::units {

/// Reads quantities off a line, from an item on. Each function moves `at` past what it read; on failure it
/// has reported why and gives nothing.
class QuantityReader {
 public:
  /// `mistaken` becomes true when something was reported and read all the same, as what it plainly means
  /// (`22,5`).
  QuantityReader(const syntax::LineView& line, const UnitTable& units, diagnostics::DiagnosticSink& sink,
                 bool* mistaken = nullptr)
      : line_(line), units_(units), sink_(sink), mistaken_(mistaken) {}

  /// True when a quantity may begin at this token: a number, `..`, `about`, or what people write for a
  /// number.
  static bool begins_quantity(const syntax::LineView& line, std::size_t at);

  /// A number or range without its unit; nothing where none stands, reported as `bad-number` with the fix for
  /// near misses.
  std::optional<Quantity> read_number(std::size_t& at);

  /// A number or range with a unit or currency, and its tolerance. Without a unit the kind is `count`.
  /// Nothing where it is in error (reported).
  std::optional<Quantity> read(std::size_t& at);

  /// Puts a unit on a number that was read without one; reports nothing.
  void apply_unit(Quantity& quantity, UnitId unit) const;

  /// Reads `± NUMBER UNIT` or `± NUMBER %` when it stands here.
  bool read_tolerance(std::size_t& at, Quantity& quantity);

 private:
  std::optional<base::Exact> read_exact(std::size_t& at);
  std::optional<base::Exact> meant(std::size_t& at);
  bool read_upper_end(std::size_t& at, Quantity& lower);
  bool check_signs(std::size_t first, std::size_t end);
  void report_near_miss(std::size_t at);
  void offer(std::size_t at, std::string message, const std::string& number, bool safe);
  bool read_money(std::size_t& at, Quantity& quantity);

  const syntax::LineView line_;
  const UnitTable& units_;
  diagnostics::DiagnosticSink& sink_;
  bool* mistaken_;
};

/// True for an ISO 4217 code as written: three capitals.
bool is_currency_code(std::string_view word);

}  // namespace gill::units
