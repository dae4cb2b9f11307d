#pragma once
#include <map>
#include <vector>

#include "stock/stock_report.h"

/// What the house's drinks take of what it buys, and what that is worth.
namespace gill::stock {

/// The amount in every measure that is known of the stock.
StockAmount amount_of(StockId stock, double grams, double pieces, const Costing& costing);

/// Worth of one gram: what is bought at its price, unwasted; what is made at its cost.
std::optional<Exact> worth_of_a_gram(StockId stock, const Costing& costing);

/// Amounts by bought thing, with juice and peel as the fruit that they come from: a fruit gives both.
class BoughtAmounts {
 public:
  explicit BoughtAmounts(const Costing& costing);

  void add(const Parts& parts, double times);
  /// What a count holds, preps taken apart, so many times.
  void add(const Counts* counts, double times);
  /// What so many portions are made of.
  void add(const Sales* sales);
  /// Grams as bought; `with_waste` puts on what is trimmed away.
  double grams(StockId stock, bool with_waste) const;

 private:
  const Costing& costing_;
  std::vector<double> grams_;
  std::vector<std::map<StockId, double>> given_;
};

/// Fills in what the sales should have used, what went, and what is left unexplained.
void add_usage(StockReport& report, const Costing& costing, const StockInput& input);

/// Fills in the month's close: revenue, pour cost as it should be and as it was, and what became of the
/// preps.
void add_close(StockReport& report, const Costing& costing, const StockInput& input);

}  // namespace gill::stock
