#include <fmt/format.h>

#include <algorithm>

#include "base/date.h"
#include "base/json.h"
#include "base/text.h"
#include "costing/words.h"
#include "plan/prep_plan.h"

namespace gill::plan {
namespace {

using base::Json;
using base::number_or_null;

Json times(const std::optional<double>& factor, double grams) {
  return factor ? Json(*factor * grams) : Json(nullptr);
}

/// Preps that go into an item and are made in this plan.
Json parts_of(const Product& product, const PrepPlan& plan, const House& house) {
  Json names = Json::array();
  for (const auto& part : product.ingredients) {
    bool made = std::any_of(plan.makes.begin(), plan.makes.end(), [&](const Make& make) {
      return plan.products[make.product].making == Making::prep &&
             plan.products[make.product].stock == part.use.stock && make.make_g > 0;
    });
    Json name = house.specs[part.use.stock].head.name;
    if (made && std::find(names.begin(), names.end(), name) == names.end()) names.push_back(std::move(name));
  }
  return names;
}

Json make_json(const Make& make, const Product& product) {
  Json work = Json::array();
  for (std::size_t i = 0; i < make.work.size(); ++i) {
    Json stage = {{"from_h", make.work[i].first}, {"to_h", make.work[i].second}};
    if (product.stages[i].wait_h > 0) stage["then"] = product.stages[i].wait_words;
    work.push_back(std::move(stage));
  }
  return {{"make_ml", times(product.ml_per_g, make.make_g)},
          {"make_g", make.make_g},
          {"make_count", times(product.pieces_per_g, make.make_g)},
          {"batches", make.make_g > 0 ? make.batches : 0},
          {"made_on_day", make.made_day},
          {"last_on_day", make.use_by_day},
          {"ready_h", make.ready_h},
          {"work", std::move(work)},
          {"more_hands", make.needs_more_hands}};
}

/// All makes of one item as one entry.
Json item_json(std::size_t index, const PrepPlan& plan, const House& house) {
  const Product& product = plan.products[index];
  double need_g = 0, make_g = 0, on_hand_g = 0, start_before_h = 0;
  int batches = 0;
  std::optional<std::chrono::sys_days> made;
  Json makes = Json::array();
  for (const auto& make : plan.makes) {
    if (make.product != index) continue;
    need_g += make.need_g;
    make_g += make.make_g;
    on_hand_g += make.on_hand_g;
    if (make.on_hand_made && (!made || *make.on_hand_made < *made)) made = make.on_hand_made;
    if (make.make_g <= 0) continue;
    batches += make.batches;
    start_before_h = std::max(start_before_h, make.start_before_h);
    makes.push_back(make_json(make, product));
  }
  Json entry = {{"name", product.name},
                {"need_ml", times(product.ml_per_g, need_g)},
                {"make_ml", times(product.ml_per_g, make_g)},
                {"need_g", need_g},
                {"make_g", make_g},
                {"need_count", times(product.pieces_per_g, need_g)},
                {"make_count", times(product.pieces_per_g, make_g)},
                {"batches", batches},
                {"after", parts_of(product, plan, house)},
                {"start_before_h", start_before_h},
                {"keeps_days", product.keeps_h       ? Json(*product.keeps_h / 24)
                               : product.keeps_known ? Json(product.keeps_days)
                                                     : Json(nullptr)},
                {"on_hand_ml", times(product.ml_per_g, on_hand_g)},
                {"on_hand_g", on_hand_g},
                {"on_hand_made", made ? Json(base::iso_date(*made)) : Json(nullptr)},
                {"par_g", product.par_g},
                {"station", product.station},
                {"makes", std::move(makes)}};
  if (product.making == Making::pressing) {
    entry["fruit"] = house.specs[product.fruit].head.name;
    entry["fruit_count"] = make_g / product.serve_g;
  }
  if (product.bottle_g) entry["bottles"] = make_g / *product.bottle_g;
  return entry;
}

Json items_json(Making making, const PrepPlan& plan, const House& house) {
  Json list = Json::array();
  std::size_t last = plan.products.size();
  for (const auto& make : plan.makes) {
    if (make.product == last || plan.products[make.product].making != making) continue;
    last = make.product;
    list.push_back(item_json(make.product, plan, house));
  }
  return list;
}

Json shopping_json(const PrepPlan& plan, const House& house) {
  Json list = Json::array();
  for (const auto& line : plan.shopping) {
    Json packs = Json::array();
    for (const auto& pack : line.packs)
      packs.push_back({{"size", pack.size},
                       {"count", pack.count},
                       {"cost", base::to_double(pack.cost)},
                       {"code", pack.code}});
    list.push_back({{"name", house.specs[line.stock].head.name},
                    {"need_ml", number_or_null(line.need_ml)},
                    {"need_g", line.need_g > 0 ? Json(line.need_g) : Json(nullptr)},
                    {"need_count", number_or_null(line.need_count)},
                    {"on_hand_g", line.on_hand_g},
                    {"packs", std::move(packs)},
                    {"cost", number_or_null(line.cost)},
                    {"supplier", line.supplier},
                    {"for", line.purpose}});
  }
  return list;
}

Json stations_json(const std::vector<StationDay>& stations) {
  Json list = Json::array();
  for (const auto& station : stations) {
    Json lines = Json::array();
    for (const auto& line : station.lines)
      lines.push_back({{"name", line.name},
                       {"ml", number_or_null(line.ml)},
                       {"g", line.grams > 0 ? Json(line.grams) : Json(nullptr)},
                       {"count", line.pieces > 0 ? Json(line.pieces) : Json(nullptr)},
                       {"pressed_today", line.is_pressed_today}});
    list.push_back({{"station", station.station}, {"lines", std::move(lines)}});
  }
  return list;
}

Json ice_json(const std::vector<IceLine>& lines, const House& house) {
  Json list = Json::array();
  for (const auto& line : lines)
    list.push_back({{"ice", house.specs[line.ice].head.name},
                    {"g", line.grams},
                    {"count", number_or_null(line.pieces)}});
  return list;
}

Json cuts_json(const std::vector<CutLine>& cuts, const House& house) {
  Json list = Json::array();
  for (const auto& cut : cuts)
    list.push_back({{"name", cut.name},
                    {"station", cut.station},
                    {"count", cut.pieces},
                    {"fruit", house.specs[cut.use.stock].head.name},
                    {"fruit_count", cut.fruit_count > 0 ? Json(cut.fruit_count) : Json(nullptr)},
                    {"from_h", cut.from_h},
                    {"to_h", cut.to_h},
                    {"more_hands", cut.needs_more_hands}});
  return list;
}

}  // namespace

std::string prep_json(const PrepPlan& plan, const House& house) {
  std::vector<std::string> menus;
  for (auto menu : plan.menus) menus.push_back(house.specs.menus[menu.index()].head.name);
  Json root = {{"format", "gill-prep"},
               {"version", 1},
               {"menu", base::join(menus, ", ")},
               {"days", plan.options.days}};
  root["drinks"] = Json::array();
  for (const auto& [drink, portions] : plan.serves)
    root["drinks"].push_back({{"name", house.specs[drink].head.name}, {"serves", portions}});
  root["preps"] = items_json(Making::prep, plan, house);
  root["house_bottles"] = items_json(Making::house_bottle, plan, house);
  root["pressed"] = items_json(Making::pressing, plan, house);
  root["shopping"] = shopping_json(plan, house);
  root["cost"] = {{"amount", base::to_double(plan.cost)}, {"currency", plan.currency}};
  root["starts_h"] = plan.starts_h;
  root["services"] = Json::array();
  for (std::size_t i = 0; i < plan.days.size(); ++i) {
    const auto& day = plan.days[i];
    double portions = portions_of(day.serves);
    root["services"].push_back({{"day", i},
                                {"date", day.date ? Json(base::iso_date(*day.date)) : Json(nullptr)},
                                {"weekday", weekday_name(day.weekday)},
                                {"opens_h", day.opens_h},
                                {"closed", day.is_closed},
                                {"portions", portions},
                                {"booked_portions", day.booked_portions},
                                {"stations", stations_json(plan.stations[i])},
                                {"ice", ice_json(plan.ice[i], house)},
                                {"cut", cuts_json(plan.cuts[i], house)}});
  }
  root["hands"] = Json::array();
  for (const auto& line : plan.hands)
    root["hands"].push_back({{"from_h", line.from_h}, {"to_h", line.to_h}, {"hands", line.hands}});
  root["notes"] = plan.notes;
  return base::json_text(std::move(root));
}

}  // namespace gill::plan
