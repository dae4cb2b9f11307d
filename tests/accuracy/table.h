#pragma once
#include <string>
#include <string_view>
#include <vector>

/// Tables that hold what Gill works out against what an outside source says.
namespace gill::accuracy {

/// How far a figure may lie from the source's: by an amount, by a share of the source's figure, or by the
/// larger of the two.
struct Tolerance {
  double amount = 0;
  double share = 0;

  double allowed(double expected) const;
};
constexpr Tolerance within(double amount) { return {amount, 0}; }
constexpr Tolerance within_share(double share) { return {0, share}; }
constexpr Tolerance within_percent(double percent) { return {0, percent / 100}; }

/// What a table compares, in words.
struct Heading {
  /// Of the summary's file: lower case, no white space; tables of one test file share its name as their
  /// beginning.
  std::string_view name;
  /// Title and publisher, and whether the figures are from memory.
  std::string_view source;
  std::string_view compared;
  std::string_view unit;
};

/// Rows of expected and got. `check` prints them with their differences to standard output, holds each to its
/// tolerance and writes one line for the summary of the suite (a row of a Markdown table, see
/// summary_heading.md) to `NAME.summary` in the folder GILL_ACCURACY_SUMMARY. A table that was filled but
/// never checked fails its test.
class Table {
 public:
  Table(Heading heading, Tolerance tolerance);
  Table(const Table&) = delete;
  Table& operator=(const Table&) = delete;
  ~Table();

  void add(std::string label, double expected, double got) {
    add(std::move(label), expected, got, tolerance_);
  }
  /// A row with a tolerance of its own; the label should say why.
  void add(std::string label, double expected, double got, Tolerance tolerance);
  /// A row whose source gives a range (infinite where it is open): the difference is how far outside of it
  /// the figure lies.
  void add_range(std::string label, double low, double high, double got);
  /// A row that is known to lie outside of what its source gives, and why. It is printed with its reason,
  /// counted as outside, and held to lie there: one that has come inside belongs among the others.
  void add_outside(std::string label, double low, double high, double got, Tolerance tolerance,
                   std::string reason);
  void add_outside(std::string label, double low, double high, double got, std::string reason) {
    add_outside(std::move(label), low, high, got, tolerance_, std::move(reason));
  }

  void check();

 private:
  struct Row {
    std::string label;
    double low, high, got, allowed;
    std::string why_outside;  // empty where the row must hold
    double difference() const;
    bool holds() const;
    /// The difference as a share of what is allowed.
    double used() const;
  };

  const Row& nearest_to_its_tolerance() const;
  std::size_t rows_outside() const;
  std::string number(double value) const;
  std::string expected_of(const Row& row) const;
  void print() const;
  void write_summary() const;

  Heading heading_;
  Tolerance tolerance_;
  std::vector<Row> rows_;
  bool checked_ = false;
};

}  // namespace gill::accuracy
