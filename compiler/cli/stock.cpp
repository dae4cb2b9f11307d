#include <fmt/format.h>

#include <algorithm>

#include "base/date.h"
#include "cli/command.h"
#include "cli/plan_options.h"
#include "costing/words.h"
#include "stock/price_list.h"
#include "stock/stock_report.h"

namespace gill::cli {
namespace {

struct StockOptions {
  std::string house = ".";
  std::string form = "text";
  std::string out, count, opening, received, sales, made, waste, staff, prices, prices_name = "from a list",
                                                                                prices_from, day;
};

bool is_nothing(const stock::Counts& counts) { return counts.by_place.empty() && counts.bottled_g.empty(); }
bool is_nothing(const stock::Sales& sales) { return sales.portions.empty(); }
bool is_nothing(const stock::Waste& waste) { return is_nothing(waste.stock) && is_nothing(waste.drinks); }

/// Reads one of the CSV files that was asked for; false (told why) when it cannot be opened, or when nothing
/// of what stands in it could be read. `leaves_out` becomes true where a row of it is not counted.
template <typename Table, typename Read>
bool read_file(const std::string& path, std::optional<Table>& table, bool& leaves_out, Read read) {
  if (path.empty()) return true;
  auto bytes = read_table_file(path);
  if (!bytes) return false;
  table = read(*bytes);
  report_rows(path, table->problems);
  leaves_out |= !table->problems.empty();
  if (table->problems.empty() || !is_nothing(*table)) return true;
  refuse(fmt::format("nothing of `{}` could be read, so there is nothing to reckon with", path));
  return false;
}

/// A supplier's list as a price list in Gill, for a file of the house.
int write_prices(const StockOptions& options, const costing::House& house) {
  auto bytes = read_table_file(options.prices);
  if (!bytes) return cannot_work;
  std::optional<std::chrono::sys_days> from =
      std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now());
  if (!options.prices_from.empty()) from = base::read_iso_date(options.prices_from);
  if (!from) return refuse(base::not_a_date(options.prices_from));
  auto list = stock::read_price_list(*bytes, house, house.facts.currency);
  report_rows(options.prices, list.unused());
  // A list of which nothing can be used is no list.
  return deliver(options.out, stock::price_list_text(list, house, options.prices_name, *from),
                 list.prices.empty() ? errors_in_specs : done);
}

int run_stock(const StockOptions& options) {
  auto house = compile_house(options.house);
  if (!house) return cannot_work;
  auto input = house->book_input();
  if (!options.prices.empty()) return write_prices(options, input);
  std::optional<stock::Counts> count, opening, received, made;
  std::optional<stock::Sales> sales, staff;
  std::optional<stock::Waste> waste;
  bool leaves_out = false;
  auto counts = [&](const std::string& bytes) { return stock::read_counts(bytes, input); };
  if (!read_file(options.count, count, leaves_out, counts) ||
      !read_file(options.opening, opening, leaves_out, counts) ||
      !read_file(options.received, received, leaves_out, counts) ||
      !read_file(options.made, made, leaves_out, counts))
    return cannot_work;
  auto drinks = [&](const std::string& bytes) { return stock::read_sales(bytes, input); };
  if (!read_file(options.sales, sales, leaves_out, drinks) ||
      !read_file(options.staff, staff, leaves_out, drinks))
    return cannot_work;
  if (!read_file(options.waste, waste, leaves_out,
                 [&](const std::string& bytes) { return stock::read_waste(bytes, input); }))
    return cannot_work;
  if (!sales && (made || waste || staff))
    return refuse(
        "what was made, wasted and given to staff is set against the sales; give them with --sales");
  auto pointer = [](auto& table) { return table ? &*table : nullptr; };
  auto day = read_day_or_today(options.day);
  if (!day) return cannot_work;
  auto report = stock::stock_report(input,
                                    {pointer(count), pointer(opening), pointer(received), pointer(sales),
                                     pointer(made), pointer(waste), pointer(staff)},
                                    day, options.day);
  // A sum without some of its rows is not the sum.
  int status = leaves_out ? int{errors_in_specs} : int{done};
  status = std::max(status, report_errors(*house));
  if (options.form == "json") return deliver(options.out, stock::stock_json(report, input), status);
  if (options.form == "csv") return deliver(options.out, stock::stock_csv(report, input), status);
  return deliver_page(options.out, options.form, stock::stock_page(report, input), costing::desk_frame(input),
                      status);
}

}  // namespace

void add_stock(CLI::App& app, int& status) {
  auto options = std::make_shared<StockOptions>();
  auto* command = app.add_subcommand(
      "stock",
      "A count sheet and its value; the month's close: what sales should have used against what went; price "
      "lists into Gill");
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  command->add_option("--count", options->count, "A count, as CSV: name, amount, unit, place");
  command->add_option("--opening", options->opening, "The count before, as CSV");
  command->add_option("--received", options->received, "What came in since, as CSV");
  command->add_option("--sales", options->sales, "What was sold since, as CSV: drink, portions");
  command->add_option("--made", options->made, "Preps made since, as CSV: name, amount, unit");
  command->add_option("--waste", options->waste,
                      "What was thrown away since, as CSV: name (a drink, a prep or goods), amount, unit");
  command->add_option("--staff", options->staff, "What the staff drank, as CSV: drink, portions");
  command->add_option("--on", options->day,
                      "By the price lists that count on this day (2026-11-25); the newest ones without it");
  command->add_option("--prices", options->prices,
                      "A supplier's price list, as CSV: prints it as a Gill price list");
  command->add_option("--name", options->prices_name, "What the price list is called")->capture_default_str();
  command->add_option("--from", options->prices_from,
                      "From which day the price list counts; today without it");
  command->add_option("--as", options->form, "The form of the report")
      ->check(CLI::IsMember({"text", "markdown", "html", "pdf", "csv", "json"}))
      ->capture_default_str();
  command->add_option("--out", options->out, "The file to write to; standard output without it");
  show_examples(*command, {{"gill stock specs", "a sheet to count on"},
                           {"gill stock specs --opening monday.csv --count sunday.csv --sales till.csv",
                            "what should have been used, and what went"}});
  command->callback([options, &status] { status = run_stock(*options); });
}

}  // namespace gill::cli
