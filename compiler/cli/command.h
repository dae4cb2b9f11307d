#pragma once
#include <CLI/CLI.hpp>
#include <initializer_list>
#include <memory>
#include <string>
#include <string_view>

#include "driver/compile.h"

namespace gill::cli {

/// Exit statuses, fixed: nothing wrong; errors in the specs, or what was asked cannot be met; the command
/// could not do its work.
enum ExitStatus : int { done = 0, errors_in_specs = 1, not_met = 1, cannot_work = 2 };

/// Adds one command to the program; its callback leaves the exit status in `status`.
using AddCommand = void (*)(CLI::App& app, int& status);

void add_check(CLI::App& app, int& status);
void add_facts(CLI::App& app, int& status);
void add_book(CLI::App& app, int& status);
void add_cards(CLI::App& app, int& status);
void add_labels(CLI::App& app, int& status);
void add_batch(CLI::App& app, int& status);
void add_tune(CLI::App& app, int& status);
void add_diff(CLI::App& app, int& status);
void add_prep(CLI::App& app, int& status);
void add_stock(CLI::App& app, int& status);
void add_calibrate(CLI::App& app, int& status);
void add_cost(CLI::App& app, int& status);
void add_menu(CLI::App& app, int& status);
void add_watch(CLI::App& app, int& status);
void add_new(CLI::App& app, int& status);
void add_why(CLI::App& app, int& status);
void add_guide(CLI::App& app, int& status);
void add_tidy(CLI::App& app, int& status);
void add_lsp(CLI::App& app, int& status);
void add_dump(CLI::App& app, int& status);
void add_completions(CLI::App& app, int& status);

/// A line that somebody may type, and what it does.
struct Example {
  std::string_view line, about;
};
/// Writes them below the command's options, and what else is to be said below them. Tests run every one.
void show_examples(CLI::App& command, std::initializer_list<Example> examples, std::string_view more = {});

/// Reads and compiles a house for its findings alone; on failure as `compile_house`.
std::unique_ptr<driver::Compilation> compile_house_for_findings(const std::string& path);

/// Reads and compiles a house; on failure says why on standard error and gives nothing (exit status 2).
std::unique_ptr<driver::Compilation> compile_house(const std::string& path,
                                                   const std::string& skipped_folder = {});

/// True when standard output is a terminal and NO_COLOR is not set.
bool colour_on_output();

/// Columns to write prose in: the terminal's, within what reads well; 80 where there is none.
std::size_t output_width();

/// Writes a result to standard output; exit status 2 with a message when it cannot be written.
int print(const std::string& text, int status);

/// Says on standard error that the command cannot go on; always `cannot_work`.
int refuse(const std::string& message);

/// Tells on standard error of the errors in a house whose output was made all the same; the exit status.
int report_errors(const driver::Compilation& house);
/// The same of one file alone.
int report_errors_in(const driver::Compilation& house, std::string_view path);

}  // namespace gill::cli
