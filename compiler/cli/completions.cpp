#include "cli/command.h"
#include "cli/description.h"

namespace gill::cli {

void add_completions(CLI::App& app, int& status) {
  auto shell = std::make_shared<std::string>();
  auto* command = app.add_subcommand(
      "completions", "Writes what a shell needs to complete commands, options, files and names");
  command->add_option("SHELL", *shell, "bash, zsh or fish")
      ->required()
      ->check(CLI::IsMember({"bash", "zsh", "fish"}));
  show_examples(*command,
                {{"gill completions bash >gill.bash", "for `source gill.bash` in `.bashrc`"},
                 {"gill completions zsh >_gill", "for a folder of `$fpath`"},
                 {"gill completions fish >gill.fish", "for `~/.config/fish/completions`"}},
                "`cmake --install` lays all three where the shells look.");
  command->callback([shell, &app, &status] {
    auto commands = describe(app);
    status = print(*shell == "bash"  ? bash_completions(commands)
                   : *shell == "zsh" ? zsh_completions(commands)
                                     : fish_completions(commands),
                   done);
  });
}

}  // namespace gill::cli
