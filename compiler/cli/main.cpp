#include <fmt/format.h>

#include <exception>

#include "base/text.h"
#include "cli/command.h"
#include "driver/editions.h"
#include "driver/large_pages.h"

namespace {

// Order of the help: the main line first.
constexpr gill::cli::AddCommand commands[] = {
    gill::cli::add_check,  gill::cli::add_facts, gill::cli::add_book,  gill::cli::add_cards,
    gill::cli::add_labels, gill::cli::add_batch, gill::cli::add_tune,  gill::cli::add_diff,
    gill::cli::add_prep,   gill::cli::add_stock, gill::cli::add_cost,  gill::cli::add_calibrate,
    gill::cli::add_menu,   gill::cli::add_watch, gill::cli::add_new,   gill::cli::add_tidy,
    gill::cli::add_lsp,    gill::cli::add_why,   gill::cli::add_guide, gill::cli::add_completions,
    gill::cli::add_dump};

/// `gill chek`: the first word is no command; the nearest one is offered.
bool refuse_unknown_command(const CLI::App& app, int argc, char** argv) {
  if (argc < 2 || argv[1][0] == '-') return false;
  gill::base::NearestWord nearest(argv[1]);
  for (const auto* command : app.get_subcommands([](const CLI::App*) { return true; })) {
    if (command->get_name() == argv[1]) return false;
    nearest.consider(command->get_name(), command->get_name());
  }
  gill::cli::refuse(fmt::format("there is no command `{}`; {}", argv[1],
                                nearest.best() ? fmt::format("did you mean `{}`?", *nearest.best())
                                               : std::string("`gill --help` lists them")));
  return true;
}

int run(int argc, char** argv) {
  int status = gill::cli::done;
  CLI::App app{"Gill compiles plain-text bar specifications: checked numbers and a staff book out of text.",
               "gill"};
  app.set_version_flag("--version", [] { return "gill " GILL_VERSION "\n" + gill::driver::editions_text(); });
  app.require_subcommand(1);
  for (auto add : commands) add(app, status);
  if (refuse_unknown_command(app, argc, argv)) return gill::cli::cannot_work;
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    bool asked = error.get_exit_code() == 0;
    int code = app.exit(error);
    return asked ? code : static_cast<int>(gill::cli::cannot_work);
  }
  return status;
}

}  // namespace

int main(int argc, char** argv) {
  gill::driver::prefer_large_pages();
  try {
    return run(argc, argv);
  } catch (const std::bad_alloc&) {
    return gill::cli::refuse("there is not enough memory for a house of this size");
  } catch (const std::exception& error) {
    return gill::cli::refuse(fmt::format("something went wrong that should not: {}", error.what()));
  }
}
