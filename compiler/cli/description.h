#pragma once
#include <CLI/CLI.hpp>
#include <string>
#include <vector>

/// The command line as plain values, read off the commands as they are declared: what the man page and the
/// shells' completions are written from.
namespace gill::cli {

/// What may stand in the place of an argument's value.
enum class Words : std::uint8_t {
  none,     ///< a switch takes no value
  free,     ///< a number, a date, words of one's own
  choices,  ///< one of a list
  house,    ///< a folder or a .gill file
  file,     ///< any file or folder
  recipe,   ///< a drink or a prep of the house
  drink,
  menu,
};

struct Argument {
  /// `--as`, or `HOUSE` for what stands by its place.
  std::string name;
  std::string about;
  Words words = Words::none;
  std::vector<std::string> choices;
  /// What is meant where it is left out; empty where nothing is.
  std::string usual;
  bool repeats = false;
};

struct CommandWords {
  std::string name, about;
  /// Examples, and what else stands below the options.
  std::string more;
  std::vector<Argument> options, places;
};

/// Every command in the order of the help.
std::vector<CommandWords> describe(const CLI::App& app);

/// The page of the manual, in the macros that `man` reads.
std::string manual_page(const std::vector<CommandWords>& commands, const std::string& version);

/// A script that completes the command line in that shell.
std::string bash_completions(const std::vector<CommandWords>& commands);
std::string zsh_completions(const std::vector<CommandWords>& commands);
std::string fish_completions(const std::vector<CommandWords>& commands);

}  // namespace gill::cli
