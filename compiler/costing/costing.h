#pragma once
#include <optional>
#include <vector>

#include "model/cost.h"
#include "render/book/book.h"

/// What a house makes, buys and earns: costs, the prep plan, the count, and old specs turned into Gill.
namespace gill::costing {

using analysis::DrinkId;
using analysis::StockId;
using model::Exact;

/// What a plan or a cost is made of: the house with its findings, as the book takes it.
using House = render::BookInput;

/// So many grams of something bought.
struct Part {
  StockId stock;
  double grams = 0;
  /// Those that are paid for: peel comes with the fruit whose juice pays for it, and the other way round.
  double paid_g = 0;
};

/// Pieces of something that nobody weighs and that is sold by the piece.
struct Pieces {
  analysis::Use use;
  double count = 0;
};

/// What something is made of once every prep is taken apart, each bought thing once, in the order of the
/// stock.
struct Parts {
  std::vector<Part> bought;
  std::vector<Pieces> pieces;
  /// Things in it whose weight nobody knows, so that they cannot be counted.
  std::vector<StockId> unweighed;
  /// Garnishes of which that is true: a cost is told without them.
  std::vector<StockId> unweighed_garnish;
};

/// Takes drinks and preps apart and prices them. Grams come from the model; from there on money is exact.
class Costing {
 public:
  /// By the prices of the day `on` (ISO 8601), else by the newest (see `model::Prices`).
  explicit Costing(const House& house, const std::string& on = {});

  const House& house() const { return house_; }
  const model::Prices& prices() const { return prices_; }
  const model::Measuring& measuring() const { return measuring_; }
  /// What a serve of a drink is made of; what is optional is left out.
  Parts parts(DrinkId drink) const;
  /// What one gram of a prep, or of a bought thing, is made of.
  const Parts& parts_of_a_gram(StockId stock) const { return per_gram_[stock.index()]; }

  /// Every offer of something bought costs so many times as much from here on.
  void raise(StockId stock, const Exact& factor);
  /// What one gram of something bought costs; nothing where no price is known.
  const std::optional<Exact>& per_gram(StockId bought) const;
  /// What the parts cost together, to the last decimal; nothing while a weight or a price is missing.
  std::optional<Exact> cost(const Parts& parts) const;
  /// What some pieces of something that nobody weighs cost; nothing where it is not sold by the piece.
  std::optional<Exact> cost(const Pieces& pieces) const;
  /// The parts that keep a cost from being known.
  std::vector<StockId> without_price(const Parts& parts) const;
  /// What a serve costs, to the billionth; nothing while a weight or a price is missing.
  std::optional<Exact> cost(DrinkId drink) const;
  /// What goes into the house bottle of a batched drink, for one serve of it, so many times.
  Parts parts_of_bottle(DrinkId drink, double times) const;
  /// The cost of one gram of a prep or of a bought thing; nothing as above.
  std::optional<Exact> cost_of_a_gram(StockId stock) const { return cost(parts_of_a_gram(stock)); }

 private:
  void take_apart();
  Parts sum(const std::vector<model::Entry>& entries, double scale) const;

  const House& house_;
  mutable diagnostics::DiagnosticSink silent_;
  model::Measuring measuring_;
  model::Prices prices_;
  /// True where prices are others than the model's: of a day, or moved by `raise`.
  bool is_repriced_ = false;
  std::vector<Parts> per_gram_;
  mutable std::vector<std::optional<std::optional<Exact>>> price_of_a_gram_;
  mutable std::vector<Part> working_;  ///< working space of `sum`, by stock
};

/// Preps of which the entries name each, after their parts; preps in a circle are left out.
std::vector<StockId> preps_after_parts(const House& house);

}  // namespace gill::costing
