#include <fmt/format.h>

#include "base/text.h"
#include "cli/description.h"

namespace gill::cli {
namespace {

/// Text as the macros take it: a backslash, a hyphen that is typed, and what begins a request.
std::string escaped(std::string_view text) {
  std::string words;
  bool begins_line = true;
  for (char c : text) {
    if (begins_line && (c == '.' || c == '\'')) words += "\\&";
    begins_line = c == '\n';
    if (c == '\\')
      words += "\\e";
    else if (c == '-')
      words += "\\-";
    else
      words += c;
  }
  return words;
}

/// What stands in backquotes is bold.
std::string with_bold(std::string_view text) {
  std::string words;
  bool bold = false;
  for (char c : escaped(text)) {
    if (c != '`') {
      words += c;
      continue;
    }
    bold = !bold;
    words += bold ? "\\fB" : "\\fR";
  }
  return words;
}

/// What stands for the value, in italics; empty for a switch.
std::string value_of(const Argument& argument) {
  if (argument.words == Words::none) return {};
  std::string words =
      argument.words == Words::choices ? base::join(argument.choices, "|") : argument.name.substr(2);
  return fmt::format("\\fI{}\\fR", escaped(words));
}

std::string argument_entry(const Argument& argument) {
  std::string entry = ".TP\n";
  bool is_place = !argument.name.starts_with("--");
  if (is_place)
    entry += fmt::format("\\fI{}\\fR", escaped(argument.name));
  else if (auto value = value_of(argument); value.empty())
    entry += fmt::format("\\fB{}\\fR", escaped(argument.name));
  else
    entry += fmt::format("\\fB{}\\fR {}", escaped(argument.name), value);
  if (argument.repeats) entry += " ...";
  entry += "\n" + with_bold(argument.about);
  if (!argument.usual.empty()) entry += fmt::format(" (left out: {})", with_bold(argument.usual));
  return entry + ".\n";
}

std::string command_section(const CommandWords& command) {
  std::string text = fmt::format(".SS gill {}\n{}.\n", command.name, with_bold(command.about));
  for (const auto& place : command.places) text += argument_entry(place);
  for (const auto& option : command.options)
    if (option.name != "--help") text += argument_entry(option);
  std::string more = command.more;
  while (more.ends_with('\n')) more.pop_back();
  return text + fmt::format(".PP\n.nf\n{}\n.fi\n", escaped(more));
}

constexpr std::string_view manual_end =
    ".SH EXIT STATUS\n"
    ".TP\n0\nNothing is wrong.\n"
    ".TP\n1\nThere are errors in the specs, or what was asked cannot be met.\n"
    ".TP\n2\nThe command could not do its work.\n"
    ".SH ENVIRONMENT\n"
    ".TP\nNO_COLOR\nWhere it is set, nothing is coloured.\n"
    ".TP\nSOURCE_DATE_EPOCH\nThe second whose day is printed where a card carries one.\n"
    ".TP\nXDG_CACHE_HOME\nWhere an editor's server lays what the library declares, to be read.\n"
    ".SH SEE ALSO\n"
    "\\fBgill guide\\fR, the language and the work, page by page; \\fBgill why\\fR, every rule.\n";

}  // namespace

std::string manual_page(const std::vector<CommandWords>& commands, const std::string& version) {
  std::string text = fmt::format(".TH GILL 1 \"\" \"gill {}\" \"Bar specifications\"\n", version);
  text +=
      ".SH NAME\ngill \\- compiles plain\\-text bar specifications\n.SH SYNOPSIS\n"
      "\\fBgill\\fR \\fICOMMAND\\fR [\\fIOPTION\\fR]... [\\fIARGUMENT\\fR]...\n.SH DESCRIPTION\n"
      "Checked numbers and a staff book out of text. A house is a folder of \\fI.gill\\fR files, or one "
      "file.\n"
      ".SH COMMANDS\nEach takes \\fB\\-\\-help\\fR.\n";
  for (const auto& command : commands) text += command_section(command);
  return text + std::string(manual_end);
}

}  // namespace gill::cli
