#include <signal.h>
#include <unistd.h>

#include "cli/command.h"
#include "language_server/server.h"

namespace gill::cli {
namespace {

constexpr std::string_view lsp_help =
    "An editor starts it by itself and speaks the Language Server Protocol 3.17 with it over standard input "
    "and\n"
    "output. Each file is judged with the house around it: the nearest folder upwards that declares one.";

int run_lsp() {
  // Who goes away without a word is met when the next answer is written.
  ::signal(SIGPIPE, SIG_IGN);
  return language_server::serve(STDIN_FILENO, STDOUT_FILENO, GILL_VERSION);
}

}  // namespace

void add_lsp(CLI::App& app, int& status) {
  auto* command = app.add_subcommand(
      "lsp", "Serves an editor: findings while you type, what the book says, names, layout, mends");
  command->add_flag("--stdio")->description(
      "Standard input and output, which is the only way; some editors say so");
  show_examples(*command, {{"gill lsp", "waits for an editor; `gill guide editor` says how to attach yours"}},
                lsp_help);
  command->callback([&status] { status = run_lsp(); });
}

}  // namespace gill::cli
