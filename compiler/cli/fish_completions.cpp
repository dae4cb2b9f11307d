#include <fmt/format.h>

#include "base/text.h"
#include "cli/description.h"

namespace gill::cli {
namespace {

constexpr std::string_view fish_helpers = R"fish(# Made by `gill completions fish`.
function __gill_names
    set -l words (commandline -opc)
    set -l house .
    for i in (seq 3 (count $words))
        set -l before $words[(math $i - 1)]
        if test "$before" = --house; or begin; not string match -q -- '--*' $before; and begin; test -d $words[$i]; or string match -q -- '*.gill' $words[$i]; end; end
            set house $words[$i]
        end
    end
    gill dump names $house 2>/dev/null | string replace -rf "^(?:$argv[1]) (.*) \([^()]*:[0-9]+\).*\$" '$1'
end

complete -c gill -f
)fish";

std::string fish_quoted(std::string_view text) {
  std::string words = "'";
  for (char c : text) {
    if (c == '\'' || c == '\\') words += '\\';
    words += c;
  }
  return words + "'";
}

/// The arguments of `complete` that complete a value.
std::string fish_values(const Argument& argument) {
  switch (argument.words) {
    case Words::none:
      return {};
    case Words::free:
      return " -x";
    case Words::choices:
      return " -x -a " + fish_quoted(base::join(argument.choices, " "));
    case Words::house:
      return " -x -a '(__fish_complete_suffix .gill)'";
    case Words::file:
      return " -r -F";
    case Words::recipe:
      return " -x -a '(__gill_names \"drink|prep\")'";
    case Words::drink:
      return " -x -a '(__gill_names drink)'";
    case Words::menu:
      return " -x -a '(__gill_names menu)'";
  }
  return {};
}

}  // namespace

std::string fish_completions(const std::vector<CommandWords>& commands) {
  std::string text(fish_helpers);
  text += "complete -c gill -n __fish_use_subcommand -l help -d 'Print this help message and exit'\n";
  text +=
      "complete -c gill -n __fish_use_subcommand -l version -d 'Display program version information and "
      "exit'\n";
  for (const auto& command : commands) {
    text += fmt::format("complete -c gill -n __fish_use_subcommand -a {} -d {}\n", command.name,
                        fish_quoted(command.about));
    std::string of_command =
        fmt::format("complete -c gill -n '__fish_seen_subcommand_from {}'", command.name);
    for (const auto& option : command.options)
      text += fmt::format("{} -l {}{} -d {}\n", of_command, option.name.substr(2), fish_values(option),
                          fish_quoted(option.about));
    if (!command.places.empty()) {
      auto values = fish_values(command.places.front());
      // What stands by its place is no option's value.
      if (auto at = values.find(" -x"); at != std::string::npos) values.erase(at, 3);
      if (auto at = values.find(" -r"); at != std::string::npos) values.erase(at, 3);
      if (!values.empty()) text += of_command + values + "\n";
    }
  }
  return text;
}

}  // namespace gill::cli
