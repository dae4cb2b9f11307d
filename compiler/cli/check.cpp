#include <fmt/format.h>

#include "cli/command.h"
#include "diagnostics/render.h"

namespace gill::cli {
namespace {

struct Options {
  std::string house = ".";
  std::string form = "text";
  bool strict = false;
};

std::string counted(std::size_t n, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

/// What was read: a check with nothing to say says this and no more.
std::string what_was_read(const driver::Compilation& house) {
  std::size_t drinks = 0, preps = 0, ingredients = 0;
  for (const auto& drink : house.specs.drinks) drinks += drink.head.from_library ? 0 : 1;
  for (const auto& stock : house.specs.stock)
    if (!stock.head.from_library) ++(stock.is_prep ? preps : ingredients);
  return fmt::format("Read {}, {} and {} in {}.\n", counted(drinks, "drink", "drinks"), counted(preps, "prep", "preps"),
                     counted(ingredients, "ingredient", "ingredients"), counted(house.house_file_count, "file", "files"));
}

std::string totals(const driver::Compilation& house) {
  std::size_t counts[3] = {0, 0, 0};
  for (const auto& finding : house.findings) ++counts[static_cast<std::size_t>(finding.severity)];
  return fmt::format("{}, {}, {}.\n", counted(counts[0], "error", "errors"), counted(counts[1], "warning", "warnings"),
                     counted(counts[2], "note", "notes"));
}

int run(const Options& options) {
  auto house = compile_house(options.house);
  if (!house) return cannot_work;
  bool fails = house->has_errors();
  if (options.strict)
    for (const auto& finding : house->findings) fails = fails || finding.severity == diagnostics::Severity::warning;
  int status = fails ? errors_in_specs : done;
  if (options.form == "json") return print(diagnostics::render_json(house->findings, house->sources), status);
  std::string text = diagnostics::render_text(house->findings, house->sources, colour_on_output());
  text += what_was_read(*house);
  if (!house->findings.empty()) text += totals(*house);
  return print(text, status);
}

}  // namespace

void add_check(CLI::App& app, int& status) {
  auto options = std::make_shared<Options>();
  auto* command = app.add_subcommand("check", "Reads, types, simulates and lints a house; prints findings");
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  command->add_option("--as", options->form, "The form of the findings")->check(CLI::IsMember({"text", "json"}))->capture_default_str();
  command->add_flag("--strict", options->strict, "Warnings fail too");
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace gill::cli
