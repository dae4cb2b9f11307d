#include "plan/prep_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "base/text.h"
#include "costing/words.h"
#include "model/keeping.h"
#include "render/document/shared_parts.h"
#include "render/wording/allergen_words.h"
#include "render/wording/numbers.h"
#include "units/money.h"

namespace gill::plan {

using namespace render::document;
using render::wording::trimmed;

namespace {

Cell cell(std::string text) { return Cell{Run(std::move(text)), {}, 1, false}; }
Cell header_cell(std::string text) {
  Cell made = cell(std::move(text));
  made.is_header = true;
  return made;
}
Cell tick() { return cell(std::string(tick_box)); }

/// What the hand does with the fruit, and what has been done.
struct PressingWords {
  std::string_view verb, done;
};
PressingWords pressing_words(const Product& product, const House& house) {
  if (house.specs[product.fruit].kind == analysis::StockKind::egg) return {"Separate", "separated"};
  return product.ml_per_g ? PressingWords{"Press", "pressed"} : PressingWords{"Peel", "peeled"};
}

double fruit_of(const Make& make, const Product& product) {
  return std::ceil(make.make_g / product.serve_g - 1e-9);
}

/// How many of its eggs are separated already when it is begun: the yolk's are the white's.
double separated_before(const Make& make, const PrepPlan& plan, const House& house) {
  const auto& product = plan.products[make.product];
  if (house.specs[product.fruit].kind != analysis::StockKind::egg) return 0;
  double eggs = 0;
  for (const auto& other : plan.makes) {
    const auto& of = plan.products[other.product];
    if (of.making != Making::pressing || of.fruit != product.fruit || other.product == make.product ||
        other.made_day != make.made_day || other.make_g <= 0 || other.work.empty() || make.work.empty())
      continue;
    if (std::pair(other.work[0].first, other.product) < std::pair(make.work[0].first, make.product))
      eggs = std::max(eggs, fruit_of(other, of));
  }
  return eggs;
}

/// `5 × whole egg and the 6 that are separated already`.
std::string eggs_in_words(double eggs, double separated, const std::string& name) {
  auto whole = fmt::format("{} × {}", trimmed(eggs - separated, 0), name);
  if (separated <= 0) return whole;
  if (separated >= eggs)
    return fmt::format("{} × {} of those that are separated already", trimmed(eggs, 0), name);
  return fmt::format("{} and the {} that are separated already", whole, trimmed(separated, 0));
}

std::string make_words(const Make& make, const PrepPlan& plan, const House& house) {
  const auto& product = plan.products[make.product];
  std::string amount = amount_of_product(product, make.make_g);
  switch (product.making) {
    case Making::pressing: {
      const double fruit = fruit_of(make, product), separated = separated_before(make, plan, house);
      const std::string peeled = make.peeled_before > 0
                                     ? fmt::format(", first the {} peeled the day before",
                                                   trimmed(std::ceil(make.peeled_before - 1e-9), 0))
                                     : "";
      return fmt::format("{} {}{} from {}{}", amount, product.pieces_per_g ? "× " : "", product.name,
                         eggs_in_words(fruit, separated, house.specs[product.fruit].head.name), peeled);
    }
    case Making::house_bottle:
      return fmt::format("{} {}, house bottle", amount, product.name);
    case Making::prep:
      break;
  }
  double recipes = make.make_g / product.recipe_g;
  std::string times = std::abs(recipes - 1) < 1e-6 ? "the recipe as written"
                                                   : fmt::format("{} × the recipe", trimmed(recipes, 2));
  // Without a `batch` line a batch is the recipe.
  bool in_batches = make.batches > 1 && product.largest_g > 0;
  return fmt::format("{} {} ({}{})", amount, product.name, times,
                     in_batches ? fmt::format(", in {} batches", make.batches) : "");
}

std::vector<WorkLine> make_lines(const PrepPlan& plan, const House& house) {
  std::vector<WorkLine> lines;
  for (const auto& make : plan.makes) {
    if (make.make_g <= 0) continue;
    const auto& product = plan.products[make.product];
    std::string what = make_words(make, plan, house);
    for (std::size_t i = 0; i < make.work.size(); ++i) {
      const auto& [from, to] = make.work[i];
      std::string words;
      bool first = i == 0, last = i + 1 == make.work.size();
      if (product.making == Making::pressing)
        words = fmt::format("{} {}", pressing_words(product, house).verb, what);
      else if (first)
        words = (last ? "Make " : "Begin ") + what;
      else
        words = fmt::format("{} {} {}", last ? "Finish" : "Go on with",
                            amount_of_product(product, make.make_g), product.name);
      if (product.stages[i].wait_h > 0) {
        double until = last ? make.ready_h : make.work[i + 1].first;
        int day = calendar_day(until, plan.options);
        words += fmt::format(
            "; {}{}", product.stages[i].wait_words,
            last ? fmt::format(", ready {}{}",
                               // The line stands under the day on which it begins.
                               day != calendar_day(from, plan.options) ? day_text(day, plan) + " " : "",
                               clock_text(until, plan))
                 : "");
      }
      lines.push_back(
          {from, to, station_text(product.station), words + (make.needs_more_hands ? " (more hands)" : "")});
    }
  }
  return lines;
}

std::string cut_words(const CutLine& cut, const House& house) {
  std::string words = fmt::format("{} × {}", trimmed(cut.pieces, 0), cut.name);
  const auto& fruit = house.specs[cut.use.stock].head.name;
  if (cut.fruit_count > 0)
    words += fmt::format(" from {} × {}{}", trimmed(cut.fruit_count, 0), fruit,
                         cut.fruit_share > cut.fruit_count + 1e-6 ? " and what is left of one" : "");
  else if (cut.fruit_share > 0)
    words += fmt::format(" from the {} that is cut already", fruit);
  return words;
}

}  // namespace

std::vector<WorkLine> work_lines(const PrepPlan& plan, const House& house) {
  auto lines = make_lines(plan, house);
  for (const auto& day : plan.cuts)
    for (const auto& cut : day)
      lines.push_back({cut.from_h, cut.to_h, station_text(cut.station),
                       "Cut " + cut_words(cut, house) + (cut.needs_more_hands ? " (more hands)" : "")});
  for (const auto& day : plan.days) {
    if (day.is_closed) continue;
    double portions = portions_of(day.serves);
    WorkLine service{day.opens_h, day.opens_h + plan.options.closes_h - plan.options.opens_h, "",
                     fmt::format("Service: {} portions", trimmed(portions, 1))};
    if (day.booked_portions > 0)
      service.words += fmt::format(", {} of them booked", trimmed(day.booked_portions, 1));
    service.is_service = true;
    lines.push_back(std::move(service));
  }
  std::stable_sort(lines.begin(), lines.end(), [](const WorkLine& a, const WorkLine& b) {
    return std::tuple(a.from_h, a.is_service) < std::tuple(b.from_h, b.is_service);
  });
  return lines;
}

namespace {

/// Day by day, as the calendar has them: what is done past midnight stands under the next.
Section work_section(const PrepPlan& plan, const House& house) {
  Section section{"work", Run("Work, hour by hour"), {}};
  auto lines = work_lines(plan, house);
  int first = lines.empty() ? 0 : std::min(0, calendar_day(lines.front().from_h, plan.options));
  int last = lines.empty() ? plan.options.days - 1
                           : std::max(plan.options.days - 1, calendar_day(lines.back().from_h, plan.options));
  std::size_t at = 0;
  for (int day = first; day <= last; ++day) {
    Table table;
    table.caption = day_text(day, plan);
    bool is_closed =
        day >= 0 && day < plan.options.days && plan.days[static_cast<std::size_t>(day)].is_closed;
    if (is_closed) table.caption += ", closed";
    table.columns = {{"", Align::start},
                     {"from", Align::end},
                     {"to", Align::end},
                     {"station", Align::start},
                     {"what", Align::start}};
    for (; at < lines.size() && calendar_day(lines[at].from_h, plan.options) <= day; ++at) {
      const auto& line = lines[at];
      table.rows.push_back({line.is_service ? cell("") : tick(), cell(clock_text(line.from_h, plan)),
                            cell(clock_text(line.to_h, plan)), cell(line.station), cell(line.words)});
    }
    if (is_closed && table.rows.empty())
      table.rows.push_back({cell(""), cell(""), cell(""), cell(""), cell("Nobody is in.")});
    if (!table.rows.empty()) section.blocks.emplace_back(std::move(table));
  }
  return section;
}

/// How many are at work at once, hours of the same number made one line.
Section hands_section(const PrepPlan& plan) {
  Section section{"hands", Run("Hands at work"), {}};
  Table table;
  table.columns = {{"day", Align::start}, {"from", Align::end}, {"to", Align::end}, {"hands", Align::end}};
  for (std::size_t i = 0; i < plan.hands.size();) {
    auto line = plan.hands[i++];
    int day = calendar_day(line.from_h, plan.options);
    while (i < plan.hands.size() && plan.hands[i].hands == line.hands &&
           plan.hands[i].from_h < line.to_h + 1e-6 && calendar_day(plan.hands[i].from_h, plan.options) == day)
      line.to_h = plan.hands[i++].to_h;
    table.rows.push_back({header_cell(day_text(day, plan)), cell(clock_text(line.from_h, plan)),
                          cell(clock_text(line.to_h, plan)), cell(std::to_string(line.hands))});
  }
  if (!table.rows.empty()) section.blocks.emplace_back(std::move(table));
  return section;
}

std::string ice_amount(const IceLine& line) {
  std::string weight = amount_text(std::nullopt, line.grams, 0);
  if (!line.pieces) return weight;
  return fmt::format("{} {}, {}", trimmed(*line.pieces, 0), *line.pieces == 1 ? "piece" : "pieces", weight);
}

/// What each service takes of ice, by kind.
Section ice_section(const PrepPlan& plan, const House& house) {
  Section section{"ice", Run("Ice"), {}};
  Table table;
  table.columns = {
      {"", Align::start}, {"day", Align::start}, {"ice", Align::start}, {"for the day", Align::end}};
  for (std::size_t day = 0; day < plan.ice.size(); ++day)
    for (const auto& line : plan.ice[day])
      table.rows.push_back({tick(), header_cell(day_text(static_cast<int>(day), plan)),
                            cell(house.specs[line.ice].head.name), cell(ice_amount(line))});
  if (table.rows.empty()) return section;
  section.blocks.emplace_back(std::move(table));
  section.blocks.emplace_back(
      Paragraph{Run("What goes into tins and glasses. What melts in the well comes on top."), Tone::small});
  return section;
}

std::string bottles_text(const Product& product, double grams) {
  if (!product.bottle_g || *product.bottle_g <= 0) return {};
  double ml = *product.bottle_g * product.ml_per_g.value_or(0);
  int count = model::split_into_bottles(grams, *product.bottle_g).count;
  std::string size = !product.bottle_words.empty() ? product.bottle_words
                     : ml > 0                      ? amount_text(ml, 0, 0)
                                                   : "bottle";
  return fmt::format("{} × {}", count, size);
}

/// When what is on hand was made, where somebody dated it: on one day, or between two.
std::string made_text(const Make& make) {
  if (!make.on_hand_made) return {};
  std::string text = ", made " + date_text(*make.on_hand_made);
  if (make.on_hand_made_last > make.on_hand_made) text += " to " + date_text(*make.on_hand_made_last);
  return text;
}

Section make_section(const PrepPlan& plan) {
  Section section{"make", Run("What to make"), {}};
  Table table;
  table.columns = {{"", Align::start},      {"what", Align::start},   {"needed", Align::end},
                   {"on hand", Align::end}, {"make", Align::end},     {"bottles", Align::end},
                   {"ready", Align::start}, {"use by", Align::start}, {"station", Align::start}};
  table.is_wide = true;
  for (const auto& make : plan.makes) {
    const auto& product = plan.products[make.product];
    if (product.making == Making::pressing) continue;
    std::string name =
        product.making == Making::house_bottle ? product.name + ", house bottle" : product.name;
    bool any = make.make_g > 0;
    table.rows.push_back(
        {any ? tick() : cell(""), header_cell(name), cell(amount_of_product(product, make.need_g)),
         cell(make.on_hand_g > 0 ? amount_of_product(product, make.on_hand_g) + made_text(make) : ""),
         cell(any ? amount_of_product(product, make.make_g) : "none"),
         cell(any ? bottles_text(product, make.make_g) : ""),
         cell(any ? day_text(calendar_day(make.ready_h, plan.options), plan) : ""),
         cell(any ? (product.keeps_known && !product.keeps_by_parts ? day_text(make.use_by_day, plan)
                                                                    : "not stated")
                  : ""),
         cell(station_text(product.station))});
  }
  if (!table.rows.empty()) section.blocks.emplace_back(std::move(table));
  return section;
}

std::string station_amount(const StationLine& line) {
  if (line.is_rim) return trimmed(line.pieces, 0) + (line.pieces > 1 ? " glasses" : " glass");
  const bool by_piece = line.is_garnish || line.is_counted;
  return amount_text(by_piece ? std::nullopt : line.ml, line.grams, line.pieces);
}

std::string station_remark(const StationLine& line, const PrepPlan& plan, const House& house) {
  if (line.is_pressed_today)
    return fmt::format("{} today, for today", pressing_words(plan.products[*line.product], house).done);
  return line.is_rim ? "for the rim" : line.is_garnish ? "garnish" : "";
}

Section stations_section(const PrepPlan& plan, const House& house) {
  Section section{"stations", Run("What each station sets up"), {}};
  for (std::size_t day = 0; day < plan.stations.size(); ++day) {
    for (const auto& station : plan.stations[day]) {
      Table table;
      table.caption =
          fmt::format("{}, {}", day_text(static_cast<int>(day), plan), station_text(station.station));
      table.columns = {
          {"", Align::start}, {"what", Align::start}, {"for the day", Align::end}, {"", Align::start}};
      for (const auto& line : station.lines)
        table.rows.push_back({tick(), header_cell(line.name), cell(station_amount(line)),
                              cell(station_remark(line, plan, house))});
      section.blocks.emplace_back(std::move(table));
    }
  }
  return section;
}

std::string need_text(const ShoppingLine& line) {
  // In what it is sold by: nobody buys honey by the millilitre.
  if (line.sold_by == units::Kind::mass) return amount_text(std::nullopt, line.need_as_sold, 0);
  if (line.sold_by == units::Kind::count) return trimmed(std::ceil(line.need_as_sold - 1e-9), 0);
  if (line.need_ml) return amount_text(line.need_ml, 0, 0);
  if (line.need_count) return trimmed(std::ceil(*line.need_count - 1e-9), 0);
  return amount_text(std::nullopt, line.need_g, line.need_pieces);
}

/// What of the need is there, in the measure of the need.
std::string on_hand_text(const ShoppingLine& line) {
  if (line.need_g > 0 && line.on_hand_g > 0) {
    double share = line.on_hand_g / line.need_g;
    if (line.sold_by == units::Kind::mass) return amount_text(std::nullopt, line.need_as_sold * share, 0);
    if (line.sold_by == units::Kind::count) return trimmed(line.need_as_sold * share, 1);
    if (line.need_ml) return amount_text(*line.need_ml * share, 0, 0);
    if (line.need_count) return trimmed(*line.need_count * share, 1);
    return amount_text(std::nullopt, line.on_hand_g, 0);
  }
  return line.need_g <= 0 && line.on_hand_pieces > 0 ? trimmed(line.on_hand_pieces, 0) : "";
}

Section shopping_section(const PrepPlan& plan, const House& house) {
  Section section{"shopping", Run("Shopping"), {}};
  std::size_t at = 0;
  while (at < plan.shopping.size()) {
    const std::string& supplier = plan.shopping[at].supplier;
    Table table;
    table.caption = supplier.empty() ? "No supplier stated" : supplier;
    table.columns = {{"", Align::start},      {"what", Align::start}, {"needed", Align::end},
                     {"on hand", Align::end}, {"buy", Align::end},    {"code", Align::start},
                     {"cost", Align::end},    {"for", Align::start}};
    table.is_wide = true;
    Exact total = 0;
    for (; at < plan.shopping.size() && plan.shopping[at].supplier == supplier; ++at) {
      const auto& line = plan.shopping[at];
      std::vector<std::string> packs, codes;
      for (const auto& pack : line.packs) {
        packs.push_back(fmt::format("{} of {}", pack.count, pack.size));
        if (!pack.code.empty()) codes.push_back(pack.code);
      }
      if (line.cost) total += *line.cost;
      std::string buy = !packs.empty() ? base::join(packs, " + ") : line.cost ? "none" : "no pack known";
      table.rows.push_back({tick(), header_cell(house.specs[line.stock].head.name), cell(need_text(line)),
                            cell(on_hand_text(line)), cell(buy), cell(base::join(codes, ", ")),
                            cell(line.cost ? units::money_text({*line.cost, plan.currency}) : "—"),
                            cell(line.purpose)});
    }
    table.rows.push_back({cell(""), cell("together"), cell(""), cell(""), cell(""), cell(""),
                          cell(units::money_text({total, plan.currency})), cell("")});
    section.blocks.emplace_back(std::move(table));
  }
  if (!plan.shopping.empty())
    section.blocks.emplace_back(Paragraph{
        Run("All together ").strong(units::money_text({plan.cost, plan.currency})).plain(", without tax."),
        Tone::normal});
  return section;
}

/// Allergens and cautions of what is made: they print whatever was suppressed.
Section care_section(const PrepPlan& plan, const House& house) {
  Section section{"care", Run("Allergens and cautions of what is made"), {}};
  BookIndex index(house, true);
  std::vector<StockId> reported;
  for (const auto& make : plan.makes) {
    const auto& product = plan.products[make.product];
    if (product.making != Making::prep || make.make_g <= 0 ||
        std::find(reported.begin(), reported.end(), product.stock) != reported.end())
      continue;
    reported.push_back(product.stock);
    const auto& facts = house.facts[product.stock];
    bool known = facts.allergens.known;
    Section part{"care-" + std::to_string(reported.size()), Run(product.name), {}};
    part.blocks.emplace_back(
        Paragraph{Run("Allergens: ").append(allergens_in_brief(facts.allergens, known)), Tone::normal});
    auto cautions = cautions_of(index, product.stock).notice;
    if (!cautions.blocks.empty()) part.blocks.emplace_back(std::move(cautions));
    section.blocks.emplace_back(std::move(part));
  }
  if (!section.blocks.empty()) {
    section.blocks.emplace_back(Paragraph{Run(render::wording::shared_equipment_line), Tone::small});
    section.blocks.emplace_back(Paragraph{Run(render::wording::local_code_line), Tone::small});
  }
  return section;
}

std::string day_span(const PrepPlan& plan) {
  std::string first = day_text(0, plan);
  return plan.options.days == 1 ? first
                                : fmt::format("{} to {}", first, day_text(plan.options.days - 1, plan));
}

}  // namespace

std::string amount_of_product(const Product& product, double grams) {
  if (product.pieces_per_g) return amount_text(std::nullopt, 0, grams * *product.pieces_per_g);
  return amount_text(product.ml_per_g ? std::optional<double>(grams * *product.ml_per_g) : std::nullopt,
                     grams, 0);
}

std::string station_text(const std::string& station) { return station.empty() ? "bar" : station; }

std::string date_text(std::chrono::sys_days date) {
  static constexpr std::string_view months[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  std::chrono::year_month_day parts{date};
  return fmt::format("{} {} {}", weekday_name(std::chrono::weekday(date).iso_encoding() - 1).substr(0, 3),
                     static_cast<unsigned>(parts.day()), months[static_cast<unsigned>(parts.month()) - 1]);
}

std::string day_text(int day, const PrepPlan& plan) {
  if (plan.days.empty()) return fmt::format("day {}", day + 1);
  const auto& first = plan.days.front();
  if (!first.date) {
    auto weekday = static_cast<std::size_t>((static_cast<int>(first.weekday) + day % 7 + 7) % 7);
    return fmt::format("{} (day {})", weekday_name(weekday).substr(0, 3), day >= 0 ? day + 1 : day);
  }
  return date_text(*first.date + std::chrono::days(day));
}

std::string clock_text(double hour, const PrepPlan& plan) {
  double of_day = std::fmod(plan.options.opens_h + hour, 24.0);
  if (of_day < 0) of_day += 24;
  int minutes = static_cast<int>(std::lround(of_day * 60)) % (24 * 60);
  return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
}

Page prep_page(const PrepPlan& plan, const House& house) {
  Page page;
  page.path = "prep";
  page.kind = "plan";
  std::vector<std::string> menus;
  for (auto menu : plan.menus) menus.push_back(house.specs.menus[menu.index()].head.name);
  page.title = menus.empty() ? "Prep" : "Prep for " + base::join_with_and(menus);
  double portions = portions_of(plan.serves);
  page.subtitle = Run(fmt::format("{}, {}: {} portions, service from {} to {}", house.specs.house.head.name,
                                  day_span(plan), trimmed(portions, 1), clock_text(0, plan),
                                  clock_text(plan.options.closes_h - plan.options.opens_h, plan)));
  auto add = [&](Section section) {
    if (!section.blocks.empty()) page.blocks.emplace_back(std::move(section));
  };
  add(work_section(plan, house));
  add(hands_section(plan));
  add(make_section(plan));
  add(stations_section(plan, house));
  add(ice_section(plan, house));
  add(shopping_section(plan, house));
  add(care_section(plan, house));
  if (!plan.notes.empty()) {
    List list;
    for (const auto& note : plan.notes) list.items.push_back({Run(note), {}});
    Section notes{"notes", Run("Notes"), {}};
    notes.blocks.emplace_back(std::move(list));
    page.blocks.emplace_back(std::move(notes));
  }
  return page;
}

}  // namespace gill::plan
