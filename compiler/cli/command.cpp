#include "cli/command.h"

#include <fmt/format.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>

#include "diagnostics/render.h"

namespace gill::cli {

bool colour_on_output() {
  const char* no_colour = std::getenv("NO_COLOR");
  return isatty(STDOUT_FILENO) && !(no_colour && *no_colour);
}

void show_examples(CLI::App& command, std::initializer_list<Example> examples, std::string_view more) {
  // A line that is longer stands alone, with what it does below it.
  constexpr std::size_t column = 40;
  std::string text = "Examples:\n";
  for (const auto& example : examples)
    text += example.line.size() + 2 <= column
                ? fmt::format("  {:<{}}{}\n", example.line, column, example.about)
                : fmt::format("  {}\n  {:{}}{}\n", example.line, "", column, example.about);
  if (!more.empty()) text += fmt::format("\n{}", more);
  command.footer(text);
}

int refuse(const std::string& message) {
  fmt::print(stderr, "gill: {}\n", message);
  return cannot_work;
}

std::size_t output_width() {
  constexpr std::size_t usual = 80, narrowest = 40, widest = 100;
  winsize size{};
  if (!isatty(STDOUT_FILENO) || ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0)
    return usual;
  return std::clamp<std::size_t>(size.ws_col, narrowest, widest);
}

int print(const std::string& text, int status) {
  bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  if (std::fflush(stdout) != 0 || !written) return refuse("standard output cannot be written to");
  return status;
}

namespace {

/// The files of a house; on failure says why and gives nothing.
std::optional<driver::HouseFiles> read_house(const std::string& path, const std::string& skipped_folder) {
  driver::DiskAccess disk;
  auto files = disk.read_house(path, skipped_folder);
  if (auto* failure = std::get_if<driver::FileError>(&files)) {
    refuse(failure->message);
    return std::nullopt;
  }
  return std::get<driver::HouseFiles>(std::move(files));
}

}  // namespace

std::unique_ptr<driver::Compilation> compile_house(const std::string& path,
                                                   const std::string& skipped_folder) {
  auto files = read_house(path, skipped_folder);
  return files ? driver::compile(*files) : nullptr;
}

std::unique_ptr<driver::Compilation> compile_house_for_findings(const std::string& path) {
  auto files = read_house(path, {});
  return files ? driver::compile_for_findings(*files) : nullptr;
}

int report_errors(const driver::Compilation& house) { return report_errors_in(house, {}); }

int report_errors_in(const driver::Compilation& house, std::string_view path) {
  std::vector<diagnostics::Diagnostic> errors;
  for (const auto& finding : house.findings)
    if (finding.severity == diagnostics::Severity::error &&
        (path.empty() || house.sources[house.sources.written(finding.span).file_id].path == path))
      errors.push_back(finding);
  if (errors.empty()) return done;
  fmt::print(stderr, "{}", diagnostics::render_text(errors, house.sources, false));
  return errors_in_specs;
}

}  // namespace gill::cli
