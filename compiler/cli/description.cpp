#include "cli/description.h"

#include <algorithm>
#include <string_view>

#include "diagnostics/diagnostic.h"
#include "guide/guide.h"

namespace gill::cli {
namespace {

/// What the value of an argument names, where it is no list; what stands in no row is free.
struct NamedWords {
  std::string_view command, name;
  Words words;
};
constexpr std::string_view any_command;
// The command's own row stands before that of all.
constexpr NamedWords named_words[] = {
    {"labels", "--made", Words::free},       {"prep", "--from", Words::free},
    {"stock", "--from", Words::free},        {"labels", "--only", Words::recipe},
    {"facts", "--only", Words::recipe},      {"tune", "NAME", Words::drink},
    {any_command, "HOUSE", Words::house},    {any_command, "--house", Words::house},
    {any_command, "OLD NEW", Words::house},  {any_command, "FILE", Words::house},
    {any_command, "DIR", Words::file},       {any_command, "--out", Words::file},
    {any_command, "--from", Words::file},    {any_command, "--bookings", Words::file},
    {any_command, "--on-hand", Words::file}, {any_command, "--count", Words::file},
    {any_command, "--opening", Words::file}, {any_command, "--received", Words::file},
    {any_command, "--sales", Words::file},   {any_command, "--made", Words::file},
    {any_command, "--waste", Words::file},   {any_command, "--staff", Words::file},
    {any_command, "--prices", Words::file},  {any_command, "NAME", Words::recipe},
    {any_command, "--only", Words::drink},   {any_command, "--menu", Words::menu},
};

std::vector<std::string> rule_words() {
  std::vector<std::string> words;
  for (auto rule : diagnostics::all_rules()) words.emplace_back(diagnostics::info(rule).name);
  return words;
}

std::vector<std::string> topic_words() {
  std::vector<std::string> words;
  for (const auto& topic : guide::topics()) words.push_back(topic.name);
  return words;
}

/// The names of the rules and of the guide's pages; else the list that an option is held to, as its type's
/// name tells it: `TEXT:{html,pdf}`.
std::vector<std::string> choices_of(const std::string& argument, const CLI::Option& option) {
  if (argument == "RULE") return rule_words();
  if (argument == "TOPIC") return topic_words();
  std::string type = option.get_type_name();
  auto begin = type.find('{'), end = type.find('}');
  if (begin == std::string::npos || end == std::string::npos) return {};
  std::vector<std::string> choices;
  while (begin < end) {
    auto next = std::min(type.find(',', begin + 1), end);
    choices.push_back(type.substr(begin + 1, next - begin - 1));
    begin = next;
  }
  return choices;
}

Words words_of(std::string_view command, const Argument& argument, const CLI::Option& option) {
  if (option.get_items_expected_max() == 0) return Words::none;
  if (!argument.choices.empty()) return Words::choices;
  for (const auto& row : named_words)
    if (row.name == argument.name && (row.command == command || row.command.empty())) return row.words;
  return Words::free;
}

Argument argument_of(std::string_view command, const CLI::Option& option) {
  Argument argument;
  argument.name = option.get_positional() ? option.get_name(true) : "--" + option.get_lnames().front();
  argument.about = option.get_description();
  argument.choices = choices_of(argument.name, option);
  argument.usual = option.get_default_str();
  argument.repeats = option.get_items_expected_max() > 1;
  argument.words = words_of(command, argument, option);
  return argument;
}

}  // namespace

std::vector<CommandWords> describe(const CLI::App& app) {
  std::vector<CommandWords> commands;
  for (const auto* command : app.get_subcommands([](const CLI::App*) { return true; })) {
    CommandWords words{command->get_name(), command->get_description(), command->get_footer(), {}, {}};
    for (const auto* option : command->get_options()) {
      auto argument = argument_of(words.name, *option);
      (option->get_positional() ? words.places : words.options).push_back(std::move(argument));
    }
    commands.push_back(std::move(words));
  }
  return commands;
}

}  // namespace gill::cli
