#include <fmt/format.h>

#include "base/text.h"
#include "cli/description.h"

namespace gill::cli {
namespace {

constexpr std::string_view zsh_helpers = R"zsh(#compdef gill
# Made by `gill completions zsh`.
_gill_names() {
  local house=. i
  for ((i = 2; i < CURRENT; i++)); do
    if [[ ${words[i - 1]} == --house || ( ${words[i - 1]} != --* && ( -d ${(Q)words[i]} || ${words[i]} == *.gill ) ) ]]; then
      house=${(Q)words[i]}
    fi
  done
  local -a names
  names=(${(f)"$(gill dump names $house 2>/dev/null | sed -nE "s/^($1) (.*) \([^()]*:[0-9]+\).*\$/\2/p")"})
  compadd -M 'm:{[:lower:][:upper:]}={[:upper:][:lower:]}' -a names
}

_gill_houses() { _files -g '*.gill' }

)zsh";

/// Words inside single quotes of a specification, where brackets, colons and quotes mean something.
std::string zsh_about(std::string_view text) {
  std::string words;
  for (char c : text) {
    if (c == '\'') {
      words += "'\\''";
      continue;
    }
    if (c == '[' || c == ']' || c == ':' || c == '\\') words += '\\';
    words += c;
  }
  return words;
}

/// The action behind the message: what completes a value.
std::string zsh_values(const Argument& argument) {
  switch (argument.words) {
    case Words::none:
    case Words::free:
      return " ";
    case Words::choices:
      return "(" + base::join(argument.choices, " ") + ")";
    case Words::house:
      return "_gill_houses";
    case Words::file:
      return "_files";
    case Words::recipe:
      return "{_gill_names \"drink|prep\"}";
    case Words::drink:
      return "{_gill_names drink}";
    case Words::menu:
      return "{_gill_names menu}";
  }
  return {};
}

std::string zsh_option(const Argument& option) {
  std::string repeat = option.repeats ? "*" : "";
  std::string about = zsh_about(option.about);
  if (option.words == Words::none) return fmt::format("'{}{}[{}]'", repeat, option.name, about);
  return fmt::format("'{}{}=[{}]:{}:{}'", repeat, option.name, about, option.name.substr(2),
                     zsh_values(option));
}

std::string zsh_place(const Argument& place) {
  return fmt::format("'{}:{}:{}'", place.repeats ? "*" : "1", zsh_about(place.name), zsh_values(place));
}

}  // namespace

std::string zsh_completions(const std::vector<CommandWords>& commands) {
  std::string list, cases;
  for (const auto& command : commands) {
    list += fmt::format("      '{}:{}'\n", command.name, zsh_about(command.about));
    cases += fmt::format("    {})\n      _arguments", command.name);
    for (const auto& option : command.options) cases += " \\\n        " + zsh_option(option);
    // A second place of its own stands behind the first.
    for (std::size_t i = 0; i < command.places.size(); ++i) {
      auto place = zsh_place(command.places[i]);
      if (i > 0 && place[1] == '1') place[1] = static_cast<char>('1' + i);
      cases += " \\\n        " + place;
    }
    cases += " ;;\n";
  }
  return fmt::format(
      "{}_gill() {{\n  if (( CURRENT == 2 )); then\n    local -a commands\n    commands=(\n{}    )\n"
      "    _describe command commands\n    return\n  fi\n  local command=$words[2]\n"
      "  shift words\n  (( CURRENT-- ))\n  case $command in\n{}  esac\n}}\n\n_gill \"$@\"\n",
      zsh_helpers, list, cases);
}

}  // namespace gill::cli
