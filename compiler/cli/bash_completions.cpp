#include <fmt/format.h>

#include "base/text.h"
#include "cli/description.h"

namespace gill::cli {
namespace {

// Names are the house's that the line says, or the one in this folder. Readline quotes what needs it.
constexpr std::string_view bash_helpers = R"bash(# Made by `gill completions bash`.
_gill_house() {
  local i house=.
  for ((i = 2; i < COMP_CWORD; i++)); do
    if [[ ${COMP_WORDS[i - 1]} == --house || (${COMP_WORDS[i - 1]} != --* && (-d ${COMP_WORDS[i]} || ${COMP_WORDS[i]} == *.gill)) ]]; then
      house=${COMP_WORDS[i]}
    fi
  done
  printf '%s' "$house"
}

_gill_words() {
  local IFS=$'\n'
  COMPREPLY=($(compgen -W "$(printf '%s\n' "$@")" -- "$cur"))
}

_gill_names() {
  local name typed=${cur//[\\\"\']/}
  compopt -o filenames
  while IFS= read -r name; do
    [[ ${name,,} == "${typed,,}"* ]] && COMPREPLY+=("$name")
  done < <(gill dump names "$(_gill_house)" 2>/dev/null | sed -nE "s/^($1) (.*) \([^()]*:[0-9]+\).*\$/\2/p")
}

_gill_files() {
  local IFS=$'\n'
  compopt -o filenames
  COMPREPLY=($(compgen -f -- "$cur"))
}

_gill_houses() {
  local IFS=$'\n'
  compopt -o filenames
  COMPREPLY=($(compgen -d -- "$cur") $(compgen -f -X '!*.gill' -- "$cur"))
}

)bash";

std::string quoted_list(const std::vector<std::string>& words) {
  std::string text;
  for (const auto& word : words) text += fmt::format(" {}", word);
  return text;
}

/// What completes a value; empty where nothing does.
std::string bash_values(const Argument& argument) {
  switch (argument.words) {
    case Words::none:
    case Words::free:
      return {};
    case Words::choices:
      return "_gill_words" + quoted_list(argument.choices);
    case Words::house:
      return "_gill_houses";
    case Words::file:
      return "_gill_files";
    case Words::recipe:
      return "_gill_names 'drink|prep'";
    case Words::drink:
      return "_gill_names drink";
    case Words::menu:
      return "_gill_names menu";
  }
  return {};
}

}  // namespace

std::string bash_completions(const std::vector<CommandWords>& commands) {
  std::string names, values, places, switches;
  for (const auto& command : commands) {
    names += " " + command.name;
    std::vector<std::string> options;
    for (const auto& option : command.options) {
      options.push_back(option.name);
      if (option.words == Words::none) continue;
      auto completed = bash_values(option);
      values += fmt::format("    '{} {}') {} return ;;\n", command.name, option.name,
                            completed.empty() ? "" : completed + ";");
    }
    switches += fmt::format("    {}) _gill_words{} ;;\n", command.name, quoted_list(options));
    if (!command.places.empty())
      places += fmt::format("    {}) {} ;;\n", command.name, bash_values(command.places.front()));
  }
  return fmt::format(
      "{}_gill() {{\n  local cur=${{COMP_WORDS[COMP_CWORD]}}\n  COMPREPLY=()\n"
      "  if ((COMP_CWORD == 1)); then\n    _gill_words{} --help --version\n    return\n  fi\n"
      "  case \"${{COMP_WORDS[1]}} ${{COMP_WORDS[COMP_CWORD - 1]}}\" in\n{}  esac\n"
      "  if [[ $cur == -* ]]; then\n    case ${{COMP_WORDS[1]}} in\n{}    esac\n    return\n  fi\n"
      "  case ${{COMP_WORDS[1]}} in\n{}  esac\n}}\n\ncomplete -F _gill gill\n",
      bash_helpers, names, values, switches, places);
}

}  // namespace gill::cli
