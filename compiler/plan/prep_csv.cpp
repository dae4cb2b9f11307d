#include "base/csv_writer.h"
#include "base/text.h"
#include "plan/prep_page.h"
#include "units/money.h"

namespace gill::plan {
namespace {

/// A plan's rows, list by list, in columns that all lists share.
class PlanSheet {
 public:
  PlanSheet(const PrepPlan& plan, const House& house) : plan_(plan), house_(house) {}

  std::string written() {
    for (const auto& make : plan_.makes) add_make(make);
    for (std::size_t day = 0; day < plan_.stations.size(); ++day)
      for (const auto& station : plan_.stations[day]) add_station(station, when(day));
    for (std::size_t day = 0; day < plan_.days.size(); ++day) {
      for (const auto& cut : plan_.cuts[day]) add_cut(cut, when(day));
      for (const auto& line : plan_.ice[day]) add_ice(line, when(day));
    }
    for (const auto& line : plan_.shopping) add_shopping(line);
    return csv_.str();
  }

 private:
  static std::optional<double> where_any(double amount) {
    return amount > 0 ? std::optional<double>(amount) : std::nullopt;
  }

  std::string when(std::size_t day) const { return day_text(static_cast<int>(day), plan_); }

  void add_measures(const Product& product, double grams) {
    auto by_gram = [&](const std::optional<double>& each) {
      return each ? std::optional<double>(grams * *each) : std::nullopt;
    };
    csv_.number(by_gram(product.ml_per_g), 2).number(grams, 2).number(by_gram(product.pieces_per_g), 2);
  }

  void add_make(const Make& make) {
    const auto& product = plan_.products[make.product];
    csv_.text(product.making == Making::prep       ? "make"
              : product.making == Making::pressing ? "press"
                                                   : "house bottle");
    csv_.text(product.name).text(product.station).text(day_text(make.made_day, plan_));
    add_measures(product, make.need_g);
    add_measures(product, make.make_g);
    csv_.number(static_cast<double>(make.make_g > 0 ? make.batches : 0), 0)
        .number(make.work.front().first, 2)
        .number(make.ready_h, 2);
    csv_.text(product.keeps_known && !product.keeps_by_parts ? day_text(make.use_by_day, plan_)
                                                             : "not stated");
    csv_.blank(5).end_row();
  }

  void add_station(const StationDay& station, const std::string& day) {
    for (const auto& line : station.lines) {
      csv_.text("set up").text(line.name).text(station.station).text(day);
      csv_.number(line.ml, 2).number(where_any(line.grams), 2).number(where_any(line.pieces), 2);
      csv_.blank(12).end_row();
    }
  }

  void add_cut(const CutLine& cut, const std::string& day) {
    csv_.text("cut").text(cut.name).text(cut.station).text(day).blank(2).number(cut.pieces, 0).blank(4);
    csv_.number(cut.from_h, 2).number(cut.to_h, 2).blank(6);
    csv_.end_row();
  }

  void add_ice(const IceLine& line, const std::string& day) {
    csv_.text("ice").text(house_.specs[line.ice].head.name).text("").text(day).blank(1);
    csv_.number(line.grams, 0).number(line.pieces, 0).blank(12).end_row();
  }

  /// A row a pack; one where none is bought.
  void add_shopping(const ShoppingLine& line) {
    const auto decimals = units::cell_decimals(plan_.currency);
    for (std::size_t i = 0; i < std::max<std::size_t>(1, line.packs.size()); ++i) {
      csv_.text("buy").text(house_.specs[line.stock].head.name).text(line.supplier).text("");
      csv_.number(line.need_ml, 2).number(where_any(line.need_g), 2).number(line.need_count, 2).blank(7);
      if (i < line.packs.size())
        csv_.text(std::to_string(line.packs[i].count) + " of " + line.packs[i].size)
            .text(line.packs[i].code)
            .number(line.packs[i].cost, decimals);
      else
        csv_.text(line.cost ? "none" : "no pack known").text("").number(line.cost, decimals);
      csv_.text(plan_.currency).text(line.purpose).end_row();
    }
  }

  const PrepPlan& plan_;
  const House& house_;
  base::CsvWriter csv_{{"list", "name", "station or supplier", "day", "need ml", "need g", "need count",
                        "make ml", "make g", "make count", "batches", "begin h", "ready h", "use by", "buy",
                        "code", "cost", "currency", "for"}};
};

}  // namespace

std::string prep_csv(const PrepPlan& plan, const House& house) { return PlanSheet(plan, house).written(); }

}  // namespace gill::plan
