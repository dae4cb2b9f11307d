#pragma once
#include <map>

#include "model/measuring.h"
#include "model/money.h"

/// What things cost. Prices and rates are exact fractions; what physics brings in (grams) is read as the
/// decimal that prints it, so that no binary rounding reaches a sum of money.
namespace gill::model {

/// One way to buy something.
struct Offer {
  const analysis::Buy* buy = nullptr;
  /// What all its packs cost together, in the house's currency.
  Exact price;
  /// What all its packs hold together, waste not taken off.
  double grams = 0;
  /// Of what nobody weighs: how many pieces they hold together.
  double pieces = 0;
  /// From the line itself, else from the `buy` line of the same pack.
  std::string supplier, code;
};

/// The fruit that gives a juice or a peel, and how much of it comes from one.
struct GivenBy {
  analysis::StockId fruit;
  const analysis::Gives* gives = nullptr;
};

/// From when a price list counts, as ISO 8601 or as much of it as is known: its `from`, else the year with
/// the month, season or date in its name, else just after what it is `like`. Empty where nothing says. Of two
/// lists the one with the greater is the newer.
std::string date_of(const analysis::PriceList& list, const analysis::Specs& specs);

/// True where dates, or one starting from the other by `like`, say which of two price lists is the newer.
bool is_order_known(const analysis::PriceList& a, const analysis::PriceList& b, const analysis::Specs& specs);

/// What the stock costs: from the latest price list that names it, else from its `buy` lines, waste counted;
/// of several packs the one that is cheapest by weight; juice from the fruit that gives it. Money of another
/// currency counts by the house's `rate`, or not at all.
class Prices {
 public:
  /// `on` is a day (ISO 8601): of what an earlier list names, a list that counts from a later day says
  /// nothing yet. Without it the newest list of all counts.
  Prices(const analysis::Specs& specs, const Measuring& measuring, const std::string& on = {});

  /// The house's currency: its own line, else that of its first price.
  const std::string& currency() const { return currency_; }
  /// Cost of one gram of something bought; nothing where no price is known.
  std::optional<Exact> exact_per_gram(analysis::StockId stock) const;
  /// Every way to buy it whose currency and weight are known, cheapest by weight first.
  std::vector<Offer> offers(analysis::StockId stock) const;
  /// The same for pieces that nobody weighs and that are sold by the piece (`buy 50 for 9 EUR`), cheapest by
  /// the piece first.
  std::vector<Offer> piece_offers(const analysis::Use& use) const;
  /// Cost of one such piece; nothing where it is not sold by the piece.
  std::optional<Exact> exact_per_piece(const analysis::Use& use) const;
  /// True for what is pressed or peeled from a fruit and priced by it.
  bool is_given(analysis::StockId stock) const {
    return given_by_[stock.index()].fruit.valid() && offers(stock).empty();
  }
  /// The price list that says what it costs; null where its own `buy` lines do, or nothing does.
  const analysis::PriceList* list_of(analysis::StockId stock) const { return list_of_[stock.index()]; }
  /// Lines that give no offer because no rate turns their currency into the house's.
  std::vector<const analysis::Buy*> without_rate(analysis::StockId stock) const;
  /// The fruit that it comes from; `fruit` is invalid where nothing gives it.
  const GivenBy& given_by(analysis::StockId stock) const { return given_by_[stock.index()]; }
  /// Water from the tap: it costs nothing that a bar reckons.
  bool is_free(analysis::StockId stock) const;
  /// Money in the house's currency; nothing without a stated rate.
  std::optional<Exact> in_house_currency(const units::Money& money) const;
  /// Every offer of it costs so many times as much from here on.
  void raise(analysis::StockId stock, const Exact& factor);

 private:
  std::optional<Offer> offer(const analysis::Use& use, const analysis::Buy& buy) const;
  std::optional<Offer> money_of(const analysis::Use& use, const analysis::Buy& buy) const;
  /// The lines that say what it costs: those of the latest price list that names it, else its own.
  std::vector<std::pair<analysis::Use, const analysis::Buy*>> buy_lines(analysis::StockId stock) const;
  std::optional<Exact> bought_per_gram(analysis::StockId stock) const;
  Exact factor(analysis::StockId stock) const;

  const analysis::Specs& specs_;
  const Measuring& measuring_;
  std::string currency_;
  /// By stock: the lines of the latest price list that names it.
  std::vector<std::vector<const analysis::Price*>> latest_;
  std::vector<const analysis::PriceList*> list_of_;
  std::vector<GivenBy> given_by_;
  std::map<analysis::StockId, Exact> raised_;
};

/// The line by which a fruit gives its peel; null where it gives none.
const analysis::Gives* given_peel(const analysis::Stock& fruit, const analysis::Specs& specs);
/// What a piece that leaves the fruit to be pressed is cut of: the peel that the fruit gives; invalid for any
/// other use, and for a fruit that gives none.
analysis::StockId peel_of(const analysis::Use& use, const analysis::Specs& specs,
                          const units::UnitTable& units);
/// True for a twist, a peel, a strip and the like of a fruit that gives peel.
inline bool is_peel(const analysis::Use& use, const analysis::Specs& specs, const units::UnitTable& units) {
  return peel_of(use, specs, units).valid();
}
/// What a use is bought, counted and paid as: a twist as so much of the peel that its fruit gives, whatever
/// the piece is called; else the thing itself.
analysis::StockId bought_as(const analysis::Use& use, const analysis::Specs& specs,
                            const units::UnitTable& units, const Prices& prices);

/// For each entry of one recipe: true where it costs nothing more, because it comes with a fruit that another
/// entry pays for. What one recipe takes of a fruit comes from the same one (its juice and its peel, the
/// white and the yolk of an egg): what needs the most of them pays.
std::vector<bool> come_with_fruit(const std::vector<Entry>& entries, const analysis::Specs& specs,
                                  const units::UnitTable& units, const Prices& prices,
                                  const Measuring& measuring);

/// True for what lies on or beside a drink and nobody weighs: where it is not sold by the piece either, the
/// cost of the drink is told without it.
inline bool is_unweighed_garnish(const Entry& entry) {
  return !entry.mass_g && (entry.role == Role::garnish || entry.role == Role::side);
}

}  // namespace gill::model
