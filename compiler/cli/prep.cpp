#include <fmt/format.h>

#include <cmath>

#include "base/date.h"
#include "base/text.h"
#include "cli/command.h"
#include "cli/plan_options.h"
#include "cli/print_options.h"
#include "costing/words.h"
#include "plan/prep_ics.h"
#include "plan/prep_labels.h"
#include "plan/prep_page.h"
#include "stock/counts.h"

namespace gill::cli {
namespace {

struct PrepOptions {
  std::string house = ".";
  std::string form = "text";
  std::string out;
  std::vector<std::string> menus;
  int days = 1;
  std::string from, opens = "17:00", closes = "00:00", on_hand;
  std::string bookings;
  std::string sheet{usual_label_sheet};
  std::vector<std::string> closed;
  double shift_h = 8;
  std::optional<int> hands;
  bool drafts = false;
};

/// Reads a weekday (`Mon`, `monday`) or a date into the days on which the bar is closed; false where it is
/// neither.
bool read_closed(const std::string& text, plan::ClosedDays& closed) {
  if (auto date = base::read_iso_date(text)) return closed.dates.insert(*date), true;
  std::string folded = base::fold_name(text);
  for (std::size_t day = 0; day < 7; ++day) {
    std::string name = base::fold_name(costing::weekday_name(day));
    if (folded.size() < 2 || !name.starts_with(folded)) continue;
    closed.weekdays.insert(day);
    return true;
  }
  return false;
}

bool read_bookings(const std::string& path, const costing::House& house, plan::PlanOptions& result,
                   bool& has_all_rows) {
  if (path.empty()) return true;
  auto bytes = read_table_file(path);
  if (!bytes) return false;
  auto booked = stock::read_bookings(*bytes, house, result.drafts);
  report_rows(path, booked.problems);
  has_all_rows = has_all_rows && booked.problems.empty();
  for (const auto& row : booked.rows) result.bookings.push_back({row.date, row.drink, row.portions});
  return true;
}

/// What the command line asks of the plan; says why on failure. `has_all_rows` turns false where a row of a
/// table is left out.
std::optional<plan::PlanOptions> read_options(const PrepOptions& options, const costing::House& house,
                                              bool& has_all_rows) {
  plan::PlanOptions result;
  result.days = options.days;
  result.shift_h = options.shift_h;
  result.drafts = options.drafts;
  for (const auto& name : options.menus) {
    auto menu = costing::find_menu(house, name);
    if (auto* failure = std::get_if<std::string>(&menu)) return refuse(*failure), std::nullopt;
    result.menus.push_back(std::get<analysis::MenuId>(menu));
  }
  if (!options.from.empty()) {
    result.from = base::read_iso_date(options.from);
    if (!result.from) return refuse(base::not_a_date(options.from)), std::nullopt;
  }
  auto opens = read_clock(options.opens), closes = read_clock(options.closes);
  if (!opens || !closes)
    return refuse("`--opens` and `--closes` take a time of day, as in 17:00"), std::nullopt;
  if (*opens == *closes)
    return refuse(fmt::format("service opens and closes at {}: give the time at which it ends, as in "
                              "`--closes 01:00`",
                              options.opens)),
           std::nullopt;
  result.opens_h = *opens;
  result.closes_h = *closes <= *opens ? *closes + 24 : *closes;
  result.hands = options.hands;
  for (const auto& text : options.closed)
    if (!read_closed(text, result.closed))
      return refuse(fmt::format("`{}` is no day; write a weekday, as in Mon, or a date, as in 2026-03-19",
                                text)),
             std::nullopt;
  if (result.closed.weekdays.size() == 7) return refuse("the bar is closed every day"), std::nullopt;
  if (!read_bookings(options.bookings, house, result, has_all_rows)) return std::nullopt;
  if (options.on_hand.empty()) return result;
  auto bytes = read_table_file(options.on_hand);
  if (!bytes) return std::nullopt;
  auto counts = stock::read_on_hand(*bytes, house);
  report_rows(options.on_hand, counts.problems);
  has_all_rows = has_all_rows && counts.problems.empty();
  result.on_hand_g = counts.grams;
  result.on_hand_pieces = counts.pieces;
  for (const auto& [stock, lots] : counts.made_g)
    for (const auto& [made, grams] : lots) result.on_hand_dated[stock].push_back({grams, made});
  result.bottles_on_hand_g = counts.bottled_g;
  for (const auto& [drink, lots] : counts.bottled_made_g)
    for (const auto& [made, grams] : lots) result.bottles_on_hand_dated[drink].push_back({grams, made});
  return result;
}

/// The labels of what is made, on the sheet that was asked for.
int deliver_labels(const PrepOptions& options, const plan::PrepPlan& plan, const driver::Compilation& house,
                   int status) {
  print::LabelOptions label_options;
  auto sheet = read_sheet(options.sheet);
  if (!sheet) return cannot_work;
  label_options.sheet = *sheet;
  auto input = house.book_input();
  render::document::BookIndex index(input, options.drafts);
  auto printed =
      print::print_labels(plan::prep_labels(plan, index), house.specs.house.head.name, label_options);
  if (printed)
    for (const auto& remark : printed->remarks) fmt::print(stderr, "gill: note: {}\n", remark);
  return deliver_pdf(options.out, printed ? std::optional(printed->pdf) : std::nullopt, status);
}

int run_prep(const PrepOptions& options) {
  auto house = compile_house(options.house);
  if (!house) return cannot_work;
  auto input = house->book_input();
  bool has_all_rows = true;
  auto plan_options = read_options(options, input, has_all_rows);
  if (!plan_options) return cannot_work;
  auto plan = plan::make_prep_plan(input, *plan_options);
  int status = report_errors(*house);
  if (!has_all_rows) status = std::max(status, int{errors_in_specs});
  if (options.form == "json") return deliver(options.out, plan::prep_json(plan, input), status);
  if (options.form == "csv") return deliver(options.out, plan::prep_csv(plan, input), status);
  if (options.form == "ics") {
    auto calendar = plan::prep_ics(plan, input);
    if (!calendar)
      return refuse("a calendar needs dates, and no menu says from when it runs; give one with --from");
    return deliver(options.out, *calendar, status);
  }
  if (options.form == "labels") return deliver_labels(options, plan, *house, status);
  return deliver_page(options.out, options.form, plan::prep_page(plan, input), costing::desk_frame(input),
                      status);
}

}  // namespace

void add_prep(CLI::App& app, int& status) {
  auto options = std::make_shared<PrepOptions>();
  auto* command = app.add_subcommand(
      "prep", "Plans the prep, the stations and the shopping for the sales that menus expect");
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  command
      ->add_option("--menu", options->menus,
                   "A menu to serve (may be given again); without it, those that run on the first day")
      ->take_all();
  command->add_option("--days", options->days, "How many days, closed ones among them")
      ->check(CLI::Range(1, 60))
      ->capture_default_str();
  command->add_option("--from", options->from,
                      "Date of the first service; without it, the first day of the newest menu");
  command->add_option("--opens", options->opens, "When service begins")->capture_default_str();
  command->add_option("--closes", options->closes, "When service ends")->capture_default_str();
  command->add_option("--shift", options->shift_h, "Hours before service at which the team comes in")
      ->check(CLI::Range(1.0, 16.0))
      ->capture_default_str();
  command->add_option("--hands", options->hands, "Pairs of hands that are in at once; the plan keeps to them")
      ->check(CLI::Range(1, 99));
  command
      ->add_option("--closed", options->closed,
                   "A day on which the bar is closed: a weekday or a date (may be given again)")
      ->take_all();
  command->add_option("--bookings", options->bookings,
                      "Portions beside what the menus expect, as CSV: date, drink, portions");
  command->add_option(
      "--on-hand", options->on_hand,
      "A count of the stock, as CSV: name, amount, unit, and made (a date) where it is known");
  command
      ->add_option("--sheet", options->sheet,
                   "With `--as labels`: size of a label, how many across and down, the gaps, the sheet")
      ->capture_default_str();
  command->add_flag("--drafts", options->drafts, "Drafts as well");
  command->add_option("--as", options->form, "The form of the plan")
      ->check(CLI::IsMember({"text", "markdown", "html", "pdf", "csv", "json", "ics", "labels"}))
      ->capture_default_str();
  command->add_option("--out", options->out, "The file to write to; standard output without it");
  show_examples(*command,
                {{"gill prep specs --menu \"Spring 2026\"", "what to make and to buy for its first day"},
                 {"gill prep specs --menu \"Spring 2026\" --days 3 --as pdf --out out/plan.pdf",
                  "three days, to hang up"}});
  command->callback([options, &status] { status = run_prep(*options); });
}

}  // namespace gill::cli
