#include <fmt/format.h>

#include <filesystem>

#include "cli/command.h"
#include "cli/plan_options.h"
#include "importer/import_specs.h"
#include "importer/new_house.h"

namespace gill::cli {
namespace {

namespace fs = std::filesystem;

struct NewOptions {
  std::string folder, from, out, numbers;
};

/// A house of one text, as the rest of the program would read it.
std::unique_ptr<driver::Compilation> compile_text(const std::string& text) {
  driver::HouseFiles files;
  files.name = "a new house";
  if (!text.empty()) files.files.push_back({"specs.gill", text});
  return driver::compile(files);
}

std::vector<base::RowProblem> errors_in(const std::string& text) {
  auto house = compile_text(text);
  std::vector<base::RowProblem> errors;
  for (const auto& finding : house->findings)
    if (finding.severity == diagnostics::Severity::error &&
        !house->sources[finding.span.file_id].from_library)
      errors.push_back({house->sources[finding.span.file_id].place_of(finding.span).line,
                        finding.help.empty() ? finding.message : finding.message + ". " + finding.help});
  return errors;
}

/// True when the folder is free to be filled; says why not.
bool is_free(const std::string& folder) {
  std::error_code error;
  if (!fs::exists(folder, error)) return true;
  if (fs::is_directory(folder, error) && fs::is_empty(folder, error)) return true;
  refuse(fmt::format("`{}` is there already and is not empty; name a folder that is not", folder));
  return false;
}

int write_new_file(const std::string& folder, const base::EmbeddedFile& file) {
  auto path = fs::path(folder) / file.path;
  int status = deliver(path.string(), std::string(file.text), done);
  std::error_code error;
  if (status == done && file.text.starts_with("#!"))
    fs::permissions(path, fs::perms::owner_exec | fs::perms::group_exec | fs::perms::others_exec,
                    fs::perm_options::add, error);
  if (error) return refuse(fmt::format("`{}` cannot be made a program: {}", path.string(), error.message()));
  return status;
}

int make_house(const std::string& folder) {
  if (!is_free(folder)) return cannot_work;
  for (const auto* files : {&importer::new_house_files(), &importer::new_repository_files()})
    for (const auto& file : *files)
      if (int status = write_new_file(folder, file); status != done) return status;
  return print(
      fmt::format("Made a small house in {0}. Look at it with `gill check {0}`, then change it line by "
                  "line.\nUnder git, `git config core.hooksPath .githooks` lets what is staged be checked "
                  "before each commit; `gill guide repository` tells the rest.\n",
                  folder),
      done);
}

int import_specs(const NewOptions& options) {
  auto bytes = read_whole_file(options.from);
  if (!bytes) return cannot_work;
  if (!options.folder.empty() && !is_free(options.folder)) return cannot_work;
  auto library = compile_text({});
  auto house = library->book_input();
  auto brought = importer::import_specs(*bytes, fs::path(options.from).filename().string(), house, errors_in,
                                        options.numbers);
  report_rows(options.from, brought.findings);
  if (brought.text.empty()) return cannot_work;
  std::string path =
      options.folder.empty() ? options.out : (fs::path(options.folder) / "specs.gill").string();
  int status = deliver(path, brought.text, done);
  if (status != done || path.empty()) return status;
  return print(fmt::format("Brought {} {} into {}, with {} to look at.\n", brought.drinks,
                           brought.drinks == 1 ? "drink" : "drinks", path, brought.findings.size()),
               done);
}

}  // namespace

void add_new(CLI::App& app, int& status) {
  auto options = std::make_shared<NewOptions>();
  auto* command =
      app.add_subcommand("new", "Makes a small house to start from, or turns old specs into Gill");
  command->add_option("DIR", options->folder, "The folder to make");
  command->add_option(
      "--from", options->from,
      "Old specs: schema.org Recipe objects (JSON-LD, or a page that holds them), or plain ingredient lines");
  command->add_option("--numbers", options->numbers, "What numbers without a unit mean in old specs")
      ->check(CLI::IsMember({"ml", "oz"}));
  command->add_option("--out", options->out,
                      "The file to write to with `--from`; standard output without it");
  show_examples(*command, {{"gill new my-bar", "a small house to change line by line"},
                           {"gill new my-bar-2 --from old-specs.txt",
                            "the same out of specs that are written already"}});
  command->callback([options, &status] {
    if (options->folder.empty() && options->from.empty())
      status = refuse("name a folder for the new house, or a file of old specs with `--from`");
    else
      status = options->from.empty() ? make_house(options->folder) : import_specs(*options);
  });
}

}  // namespace gill::cli
