#include "base/csv_reader.h"
#include "base/text.h"
#include "plan/prep_page.h"
#include "units/money.h"

namespace gill::plan {

std::string prep_csv(const PrepPlan& plan, const House& house) {
  base::CsvWriter csv({"list", "name", "station or supplier", "day", "need ml", "need g", "need count",
                       "make ml", "make g", "make count", "batches", "begin h", "ready h", "use by", "buy",
                       "code", "cost", "currency", "for"});
  auto measures = [&](const Product& product, double grams) {
    csv.number(product.ml_per_g ? std::optional<double>(grams * *product.ml_per_g) : std::nullopt, 2)
        .number(grams, 2);
    csv.number(product.pieces_per_g ? std::optional<double>(grams * *product.pieces_per_g) : std::nullopt, 2);
  };
  for (const auto& make : plan.makes) {
    const auto& product = plan.products[make.product];
    csv.text(product.making == Making::prep       ? "make"
             : product.making == Making::pressing ? "press"
                                                  : "house bottle")
        .text(product.name)
        .text(product.station);
    csv.text(day_text(make.made_day, plan));
    measures(product, make.need_g);
    measures(product, make.make_g);
    csv.number(static_cast<double>(make.make_g > 0 ? make.batches : 0), 0)
        .number(make.work.front().first, 2)
        .number(make.ready_h, 2);
    csv.text(product.keeps_known && !product.keeps_by_parts ? day_text(make.use_by_day, plan) : "not stated");
    csv.blank(5).end_row();
  }
  for (std::size_t day = 0; day < plan.stations.size(); ++day)
    for (const auto& station : plan.stations[day])
      for (const auto& line : station.lines) {
        csv.text("set up").text(line.name).text(station.station).text(day_text(static_cast<int>(day), plan));
        csv.number(line.ml, 2).number(line.grams > 0 ? std::optional<double>(line.grams) : std::nullopt, 2);
        csv.number(line.pieces > 0 ? std::optional<double>(line.pieces) : std::nullopt, 2);
        csv.blank(12).end_row();
      }
  for (std::size_t day = 0; day < plan.days.size(); ++day) {
    std::string when = day_text(static_cast<int>(day), plan);
    for (const auto& cut : plan.cuts[day]) {
      csv.text("cut").text(cut.name).text(cut.station).text(when).blank(2).number(cut.pieces, 0).blank(4);
      csv.number(cut.from_h, 2).number(cut.to_h, 2).blank(6);
      csv.end_row();
    }
    for (const auto& line : plan.ice[day]) {
      csv.text("ice").text(house.specs[line.ice].head.name).text("").text(when).blank(1);
      csv.number(line.grams, 0).number(line.pieces, 0).blank(12).end_row();
    }
  }
  for (const auto& line : plan.shopping) {
    auto need = [&] {
      csv.number(line.need_ml, 2)
          .number(line.need_g > 0 ? std::optional<double>(line.need_g) : std::nullopt, 2)
          .number(line.need_count, 2);
    };
    std::size_t rows = std::max<std::size_t>(1, line.packs.size());
    for (std::size_t i = 0; i < rows; ++i) {
      csv.text("buy").text(house.specs[line.stock].head.name).text(line.supplier).text("");
      need();
      csv.blank(7);
      if (i < line.packs.size())
        csv.text(std::to_string(line.packs[i].count) + " of " + line.packs[i].size)
            .text(line.packs[i].code)
            .number(line.packs[i].cost, units::cell_decimals(plan.currency));
      else
        csv.text(line.cost ? "none" : "no pack known")
            .text("")
            .number(line.cost, units::cell_decimals(plan.currency));
      csv.text(plan.currency).text(line.purpose).end_row();
    }
  }
  return csv.str();
}

}  // namespace gill::plan
