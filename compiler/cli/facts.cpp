#include <fmt/format.h>

#include "cli/command.h"
#include "render/facts_json.h"

namespace gill::cli {
namespace {

struct Options {
  std::string house = ".";
  std::string form = "text";
  std::string only;
};

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
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace gill::cli
