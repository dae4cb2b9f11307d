#include "cli/command.h"
#include "plan/prep_plan.h"
#include "plan/words.h"

namespace gill::cli {
namespace {

struct Options {
  std::string house = ".";
  std::string form = "text";
  std::string out;
  std::vector<std::string> menus;
  int days = 1;
  std::string from, opens = "17:00", closes = "00:00", on_hand;
  double shift_h = 8;
  bool drafts = false;
};

int run(const Options& options) {
  auto house = compile_house(options.house);
  if (!house) return cannot_work;
  auto findings = house->findings;
  findings.insert(findings.end(), house->quieted.begin(), house->quieted.end());
  plan::House input{house->specs, house->facts, house->units, house->names, house->sources, findings};
  plan::PlanOptions plan_options;
  plan_options.days = options.days;
  auto plan = plan::make_prep_plan(input, plan_options);
  int status = report_errors(*house);
  if (options.form == "json") return print(plan::prep_json(plan, input), status);
  return print("", status);
}

}  // namespace

void add_prep(CLI::App& app, int& status) {
  auto options = std::make_shared<Options>();
  auto* command = app.add_subcommand("prep", "Plans the prep, the stations and the shopping for the sales that menus expect");
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  command->add_option("--menu", options->menus, "A menu to serve (may be given again); without it, those that run on the first day")->take_all();
  command->add_option("--days", options->days, "How many services")->check(CLI::Range(1, 60))->capture_default_str();
  command->add_option("--as", options->form, "The form of the plan")->check(CLI::IsMember({"text", "markdown", "html", "pdf", "csv", "json"}))->capture_default_str();
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace gill::cli
