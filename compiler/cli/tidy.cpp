#include <fmt/format.h>

#include "cli/command.h"
#include "driver/read_file.h"
#include "driver/tidy_files.h"
#include "driver/unified_diff.h"

namespace gill::cli {
namespace {

constexpr std::string_view tidy_help =
    "What a file means stays what it is: the house is compiled again with the new text, and its figures,\n"
    "allergens and findings are held against the old ones. A line that cannot be read stays as it is.";

struct TidyOptions {
  std::vector<std::string> files;
  bool check = false;
  bool diff = false;
};

std::string some(std::size_t n, std::string_view singular, std::string_view plural) {
  return fmt::format("{} {}", n, n == 1 ? singular : plural);
}

void tell_what_stays(const driver::TidiedFiles& tidied) {
  if (tidied.unread_lines > 0)
    fmt::print(stderr, "{} cannot be read and {} as written; `gill check` says why.\n",
               some(tidied.unread_lines, "line", "lines"), tidied.unread_lines == 1 ? "stays" : "stay");
  if (tidied.kept > 0)
    fmt::print(stderr, "{} {} words: in others {} would say something else.\n",
               some(tidied.kept, "declaration", "declarations"),
               tidied.kept == 1 ? "keeps its" : "keep their", tidied.kept == 1 ? "it" : "they");
}

int tidy_standard_input(const TidyOptions& options) {
  auto text = driver::read_file("/dev/stdin");
  if (std::get_if<driver::FileError>(&text)) return refuse("standard input cannot be read");
  auto tidied = driver::tidy_text("standard input", std::get<std::string>(std::move(text)));
  tell_what_stays(tidied);
  const auto& file = tidied.files.front();
  int status = options.check && file.changes() ? not_met : done;
  if (options.diff) return print(driver::unified_diff("standard-input", file.before, file.after), status);
  return options.check ? status : print(file.after, status);
}

/// Shows the changes and leaves the files as they are.
int show(const driver::TidiedFiles& tidied, const TidyOptions& options) {
  std::string text;
  std::size_t changes = 0;
  for (const auto& file : tidied.files) {
    if (!file.changes()) continue;
    ++changes;
    text += options.diff ? driver::unified_diff(file.path, file.before, file.after) : file.path + "\n";
  }
  int status = print(text, options.check && changes > 0 ? not_met : done);
  fmt::print(stderr, "Read {}; {} would change.\n", some(tidied.files.size(), "file", "files"), changes);
  return status;
}

int write(const driver::TidiedFiles& tidied) {
  std::size_t changed = 0;
  int status = done;
  for (const auto& file : tidied.files) {
    if (!file.changes()) continue;
    if (auto failure = driver::write_tidied(file)) {
      status = refuse(failure->message);
      continue;
    }
    ++changed;
    fmt::print(stderr, "{}: tidied\n", file.path);
  }
  fmt::print(stderr, "Read {}; changed {}.\n", some(tidied.files.size(), "file", "files"), changed);
  return status;
}

int run_tidy(const TidyOptions& options) {
  if (options.files.size() == 1 && options.files[0] == "-") return tidy_standard_input(options);
  for (const auto& file : options.files)
    if (file == "-") return refuse("`-` is standard input, and stands alone");
  auto tidied = driver::tidy_files(options.files.empty() ? std::vector<std::string>{"."} : options.files);
  if (auto* failure = std::get_if<driver::FileError>(&tidied)) return refuse(failure->message);
  const auto& files = std::get<driver::TidiedFiles>(tidied);
  tell_what_stays(files);
  return options.check || options.diff ? show(files, options) : write(files);
}

}  // namespace

void add_tidy(CLI::App& app, int& status) {
  auto options = std::make_shared<TidyOptions>();
  auto* command = app.add_subcommand(
      "tidy", "Lays out spec files: columns, spaces, units and the trade's forms in one spelling");
  command->add_option(
      "FILE", options->files,
      "Files or folders; all of the house in this folder when left out; `-` is standard input");
  command->add_flag("--check", options->check,
                    "Changes nothing; says which files would change (exit status 1)");
  command->add_flag("--diff", options->diff, "Changes nothing; shows the changes as a unified diff");
  show_examples(*command,
                {{"gill tidy", "all files of the house in this folder"},
                 {"gill tidy specs/drinks", "all files below a folder"},
                 {"gill tidy specs/drinks/long.gill --diff", "shows what would change, and changes nothing"},
                 {"gill tidy specs --check", "says which files would change; exit status 1 when any would"},
                 {"gill tidy - <specs/house.gill", "from standard input to standard output"}},
                tidy_help);
  command->callback([options, &status] { status = run_tidy(*options); });
}

}  // namespace gill::cli
