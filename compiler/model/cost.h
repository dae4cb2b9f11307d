#pragma once
#include "model/measuring.h"

namespace gill::model {

/// What the stock costs: from the latest price list that names it, else the cheapest `buy`, waste counted; juice from
/// the fruit that gives it. Money of another currency counts by the house's `rate`, or not at all.
class Prices {
 public:
  Prices(const spec::Specs& specs, const Measuring& measuring);

  /// The house's currency: its own line, else that of its first price.
  const std::string& currency() const { return currency_; }
  /// Cost of one gram of something bought; nothing where no price is known.
  std::optional<double> per_gram(spec::StockId stock) const;

 private:
  std::optional<double> offer_per_gram(const spec::Use& use, const spec::Buy& buy) const;
  std::optional<double> bought_per_gram(spec::StockId stock) const;
  std::optional<double> in_house_currency(const units::Money& money) const;

  const spec::Specs& specs_;
  const Measuring& measuring_;
  std::string currency_;
  /// By stock: the line of the latest price list, if one names it.
  std::vector<const spec::Price*> latest_;
  /// By stock: the fruit that gives it, and how much.
  std::vector<std::pair<spec::StockId, const spec::Gives*>> given_by_;
};

}  // namespace gill::model
