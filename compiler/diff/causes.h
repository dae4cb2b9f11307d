#pragma once
#include <string>
#include <vector>

#include "diff/matching.h"
#include "diff/sheet.h"

namespace gill::diff {

/// Something that was changed and may reach drinks and preps.
struct Cause {
  std::string name;
  /// Of a drink that it reaches: whether it stands there in any case, or only where figures differ, or only
  /// where the cost or the pour cost does.
  enum class Shows : std::uint8_t { always, with_figures, with_cost } shows = Shows::always;
};

/// Which causes reach which stock and which drinks, on one side; by index of its tables.
struct Reached {
  std::vector<std::vector<std::size_t>> stock, drinks;
};

/// Follows what was changed through preps to any depth, and from a fruit to the juice that is bought as that
/// fruit.
class CauseFinder {
 public:
  explicit CauseFinder(const Snapshot& snapshot);

  /// The cause is this stock: everything made of it is reached, itself not.
  void add_stock(std::size_t cause, std::size_t stock);
  /// The cause is a unit: what is measured with it, and everything made of that.
  void add_unit(std::size_t cause, units::UnitId unit);
  void add_glass(std::size_t cause, analysis::GlassId glass);
  void add_ice(std::size_t cause, analysis::IceId ice);
  /// A line of the house, by its keyword: the freezer reaches what is frozen, a rate what is paid in that
  /// money, the room and the currency everything.
  void add_house_line(std::size_t cause, const std::string& keyword);

  const Reached& reached() const { return reached_; }

 private:
  template <typename Uses>
  void add_where(std::size_t cause, Uses uses);
  void spread(std::size_t cause, std::vector<std::size_t> stock, bool count_them);
  std::vector<std::size_t> bought_abroad() const;
  std::vector<bool> priced_abroad() const;

  const Snapshot& snapshot_;
  std::vector<std::vector<std::size_t>> preps_of_, drinks_of_;
  Reached reached_;
};

}  // namespace gill::diff
