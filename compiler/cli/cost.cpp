#include <fmt/format.h>

#include "cli/command.h"
#include "cli/plan_options.h"
#include "costing/cost_report.h"
#include "costing/words.h"

namespace gill::cli {
namespace {

struct CostOptions {
  std::string house = ".";
  std::string form = "text";
  std::string menu;
  std::string day;
  std::vector<std::string> rises;
};

/// `--if "rye whiskey" +15%` comes as two words and is one change; what is left over is the house, when that
/// was not named before.
void join_changes(CostOptions& options) {
  std::vector<std::string> joined;
  for (const auto& word : options.rises) {
    bool is_change = word.starts_with('+') || word.starts_with("−");
    if (is_change && !joined.empty() && !joined.back().ends_with('%'))
      joined.back() += " " + word;
    else if (!word.ends_with('%') && !joined.empty() && joined.back().ends_with('%') && options.house == ".")
      options.house = word;
    else
      joined.push_back(word);
  }
  options.rises = std::move(joined);
}

int run_cost(CostOptions options) {
  join_changes(options);
  auto house = compile_house(options.house);
  if (!house) return cannot_work;
  auto input = house->book_input();
  auto menu = costing::find_menu(input, options.menu);
  if (auto* failure = std::get_if<std::string>(&menu)) return refuse(*failure);
  std::vector<costing::PriceRise> rises;
  for (const auto& text : options.rises) {
    auto rise = costing::read_price_rise(input, text);
    if (auto* failure = std::get_if<std::string>(&rise)) return refuse(*failure);
    rises.push_back(std::get<costing::PriceRise>(rise));
  }
  auto day = read_day_or_today(options.day);
  if (!day) return cannot_work;
  auto report = costing::cost_report(input, std::get<analysis::MenuId>(menu), rises, day, options.day);
  int status = report_errors(*house);
  if (options.form == "json") return print(costing::cost_json(report, input), status);
  if (options.form == "csv") return print(costing::cost_csv(report, input), status);
  return print(costing::cost_text(report, input), status);
}

}  // namespace

void add_cost(CLI::App& app, int& status) {
  auto options = std::make_shared<CostOptions>();
  auto* command = app.add_subcommand(
      "cost", "Costs drinks, preps and menus, and the prices that meet the house's pour cost");
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  command->add_option(
      "--menu", options->menu,
      "Prices and drinks of this menu; without it, each drink's price on the menu that runs last");
  command
      ->add_option("--if", options->rises,
                   "What a change of a price does: \"rye whiskey +15%\" (may be given again)")
      ->take_all();
  command->add_option("--on", options->day,
                      "By the price lists that count on this day (2026-11-25); the newest ones without it");
  command->add_option("--as", options->form, "The form of the report")
      ->check(CLI::IsMember({"text", "csv", "json"}))
      ->capture_default_str();
  show_examples(*command, {{"gill cost specs --menu \"Spring 2026\"",
                            "what each drink costs, and its price by the pour cost"},
                           {"gill cost specs --if \"lemon +20%\"", "what a dearer lemon does"}});
  command->callback([options, &status] { status = run_cost(*options); });
}

}  // namespace gill::cli
