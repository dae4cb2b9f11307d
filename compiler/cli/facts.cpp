#include <fmt/format.h>

#include "cli/command.h"
#include "render/facts_json.h"
#include "render/work_text.h"

namespace gill::cli {
namespace {

struct Options {
  std::string house = ".";
  std::string form = "text";
  std::string only;
  bool work = false;
};

/// The work of the one that is named, else of every drink and prep of the house.
std::string work_of(render::FactsInput input) {
  if (!input.only.empty()) return render::work_text(input);
  std::string text;
  auto add = [&](const spec::Head& head) {
    if (head.from_library) return;
    input.only = head.name;
    text += (text.empty() ? "" : "\n\n") + render::work_text(input);
  };
  for (const auto& drink : input.specs.drinks) add(drink.head);
  for (const auto& stock : input.specs.stock)
    if (stock.is_prep) add(stock.head);
  return text;
}

int run(const Options& options) {
  auto house = compile_house(options.house);
  if (!house) return cannot_work;
  render::FactsInput input{house->specs, house->facts, house->units, house->names, house->sources, options.only};
  if (!options.only.empty() && !render::facts_know(input, options.only)) {
    std::string near;
    for (auto space : {names::NameSpace::drink, names::NameSpace::stock})
      if (auto name = house->names.nearest(space, options.only); name && near.empty()) near = *name;
    return refuse(fmt::format("no drink, prep or ingredient is called `{}`{}", options.only,
                              near.empty() ? "" : fmt::format("; did you mean `{}`?", near)));
  }
  int status = report_errors(*house);
  if (options.work) return print(work_of(input), status);
  if (options.form == "json") return print(render::facts_json(input), status);
  if (options.form == "csv") return print(render::facts_csv(input), status);
  return print(render::facts_text(input), status);
}

}  // namespace

void add_facts(CLI::App& app, int& status) {
  auto options = std::make_shared<Options>();
  auto* command = app.add_subcommand("facts", "Tells what the compiler knows of every drink, prep and ingredient");
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  command->add_option("--as", options->form, "The form of the facts")->check(CLI::IsMember({"text", "json", "csv"}))->capture_default_str();
  command->add_option("--only", options->only, "Only this drink, prep or ingredient");
  command->add_flag("--work", options->work, "The computation, step by step, with the source of every number");
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace gill::cli
