#include <fmt/format.h>

#include <filesystem>
#include <set>

#include "cli/command.h"
#include "diagnostics/render.h"
#include "diagnostics/sarif.h"
#include "driver/fix.h"
#include "lint/pages.h"

namespace gill::cli {
namespace {

struct CheckOptions {
  std::string house = ".";
  std::string form = "text";
  bool strict = false;
  bool fix = false;
};

std::string counted(std::size_t n, std::string_view singular, std::string_view plural) {
  return fmt::format("{} {}", n, n == 1 ? singular : plural);
}

/// What was read: a check with nothing to say says this and no more.
std::string what_was_read(const driver::Compilation& house) {
  std::size_t drinks = 0, preps = 0, ingredients = 0;
  for (const auto& drink : house.specs.drinks) drinks += drink.head.from_library ? 0 : 1;
  for (const auto& stock : house.specs.stock)
    if (!stock.head.from_library) ++(stock.is_prep ? preps : ingredients);
  return fmt::format("Read {}, {} and {} in {}.\n", counted(drinks, "drink", "drinks"),
                     counted(preps, "prep", "preps"), counted(ingredients, "ingredient", "ingredients"),
                     counted(house.house_file_count, "file", "files"));
}

std::string totals(const driver::Compilation& house) {
  std::size_t counts[static_cast<std::size_t>(diagnostics::Severity::note) + 1] = {};
  for (const auto& finding : house.findings) ++counts[static_cast<std::size_t>(finding.severity)];
  return fmt::format("{}, {}, {}.\n", counted(counts[0], "error", "errors"),
                     counted(counts[1], "warning", "warnings"), counted(counts[2], "note", "notes"));
}

/// The folder that the findings' paths start from: the house, or what holds it where it is one file.
std::string base_folder(const std::string& house) {
  std::error_code error;
  if (std::filesystem::is_directory(house, error)) return house;
  return std::filesystem::path(house).parent_path().string();
}

/// Puts the corrected files in place and tells what was done; false when one could not be written.
bool write_corrections(const driver::FixedHouse& fixed, const std::string& house) {
  std::set<std::string> changed;
  for (const auto& correction : fixed.corrections) changed.insert(correction.path);
  for (const auto& file : fixed.files.files) {
    if (!changed.count(file.path)) continue;
    if (auto failure = driver::replace_file(driver::path_on_disk(house, file.path), file.text))
      return refuse(failure->message), false;
  }
  for (const auto& correction : fixed.corrections)
    fmt::print(stderr, "{}:{}: corrected: `{}` is now `{}` [{}]\n", correction.path, correction.line,
               correction.old_text, correction.new_text, diagnostics::info(correction.rule).name);
  if (!changed.empty())
    fmt::print(stderr, "Corrected {} in {}.\n", counted(fixed.corrections.size(), "place", "places"),
               counted(changed.size(), "file", "files"));
  return true;
}

/// The house as it is, or with its safe corrections in the files; nothing when the command cannot go on.
std::unique_ptr<driver::Compilation> read(const CheckOptions& options) {
  if (!options.fix) return compile_house_for_findings(options.house);
  driver::DiskAccess disk;
  auto files = disk.read_house(options.house, {});
  if (auto* failure = std::get_if<driver::FileError>(&files)) return refuse(failure->message), nullptr;
  auto fixed = driver::apply_safe_fixes(std::get<driver::HouseFiles>(std::move(files)));
  if (!write_corrections(fixed, options.house)) return nullptr;
  return std::move(fixed.compiled);
}

std::string render(const driver::Compilation& house, const CheckOptions& options) {
  if (options.form == "json") return diagnostics::render_json(house.findings, house.sources);
  if (options.form == "sarif")
    return diagnostics::render_sarif(house.findings, house.sources,
                                     {GILL_VERSION, base_folder(options.house), lint::page_of});
  std::string text = diagnostics::render_text(house.findings, house.sources, colour_on_output());
  text += what_was_read(house);
  if (!house.findings.empty()) text += totals(house);
  return text;
}

int run_check(const CheckOptions& options) {
  auto house = read(options);
  if (!house) return cannot_work;
  bool fails = house->has_errors();
  if (options.strict)
    for (const auto& finding : house->findings)
      fails = fails || finding.severity == diagnostics::Severity::warning;
  return print(render(*house, options), fails ? errors_in_specs : done);
}

}  // namespace

void add_check(CLI::App& app, int& status) {
  auto options = std::make_shared<CheckOptions>();
  auto* command = app.add_subcommand("check", "Reads, types, simulates and lints a house; prints findings");
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  command->add_option("--as", options->form, "The form of the findings")
      ->check(CLI::IsMember({"text", "json", "sarif"}))
      ->capture_default_str();
  command->add_flag("--strict", options->strict, "Warnings fail too");
  command->add_flag("--fix", options->fix,
                    "Puts the corrections that can mean only one thing into the files");
  show_examples(*command, {{"gill check specs", "says what is wrong in the house in `specs`"},
                           {"gill check specs --strict", "the same, and warnings fail too"},
                           {"gill check specs --as sarif >findings.sarif",
                            "for a forge that shows findings beside the lines"}});
  command->callback([options, &status] { status = run_check(*options); });
}

}  // namespace gill::cli
