#include <fmt/format.h>

#include <filesystem>

#include "cli/command.h"
#include "render/facts/explanation_text.h"
#include "render/facts/facts_json.h"

namespace gill::cli {
namespace {

struct FactsOptions {
  std::vector<std::string> words;
  std::string house;
  std::string form = "text";
  std::string only;
  bool work = false;
};

/// The work of the one that is named, else of every drink and prep of the house.
std::string explanation_of(render::FactsInput input) {
  if (!input.only.empty()) return render::explanation_text(input);
  std::string text;
  auto add = [&](const analysis::Head& head) {
    if (head.from_library) return;
    input.only = head.name;
    text += (text.empty() ? "" : "\n\n") + render::explanation_text(input);
  };
  for (const auto& drink : input.specs.drinks) add(drink.head);
  for (const auto& stock : input.specs.stock)
    if (stock.is_prep) add(stock.head);
  return text;
}

/// With `--work` a name may stand where the house does (`gill facts --work NAME --house DIR`): what is no
/// file or folder is one. False where the words cannot be told apart.
bool sort_words(FactsOptions& options) {
  for (const auto& word : options.words) {
    std::error_code unreadable;
    bool is_house = options.house.empty() && (!options.work || std::filesystem::exists(word, unreadable));
    if (is_house)
      options.house = word;
    else if (options.work && options.only.empty())
      options.only = word;
    else
      return false;
  }
  if (options.house.empty()) options.house = ".";
  return true;
}

int run_facts(FactsOptions options) {
  if (!sort_words(options)) return refuse("one house at a time; a name goes after `--only`");
  auto house = compile_house(options.house);
  if (!house) return cannot_work;
  render::FactsInput input{house->specs, house->facts,   house->units,
                           house->names, house->sources, options.only};
  if (!options.only.empty() && !render::facts_know(input, options.only)) {
    std::string near;
    for (auto space : {symbols::NameSpace::drink, symbols::NameSpace::stock})
      if (auto name = house->names.nearest(space, options.only); name && near.empty()) near = *name;
    return refuse(fmt::format("no drink, prep or ingredient is called `{}`{}", options.only,
                              near.empty() ? "" : fmt::format("; did you mean `{}`?", near)));
  }
  int status = report_errors(*house);
  if (options.work) return print(explanation_of(input), status);
  if (options.form == "json") return print(render::facts_json(input), status);
  if (options.form == "csv") return print(render::facts_csv(input), status);
  return print(render::facts_text(input), status);
}

}  // namespace

void add_facts(CLI::App& app, int& status) {
  auto options = std::make_shared<FactsOptions>();
  auto* command =
      app.add_subcommand("facts", "Tells what the compiler knows of every drink, prep and ingredient");
  command
      ->add_option("HOUSE", options->words, "A folder or a .gill file (default .); with --work also a name")
      ->expected(0, 2);
  command->add_option("--house", options->house, "The house, when a name stands in its place");
  command->add_option("--as", options->form, "The form of the facts")
      ->check(CLI::IsMember({"text", "json", "csv"}))
      ->capture_default_str();
  command->add_option("--only", options->only, "Only this drink, prep or ingredient");
  command->add_flag("--work", options->work,
                    "The computation, step by step, with the source of every number");
  show_examples(*command,
                {{"gill facts specs --only Fustian", "all that is known of one drink"},
                 {"gill facts Fustian --house specs --work", "how each of its figures was worked out"},
                 {"gill facts specs --as csv >facts.csv", "every drink and prep, for a spreadsheet"}});
  command->callback([options, &status] { status = run_facts(*options); });
}

}  // namespace gill::cli
