#include "lint/page_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "diagnostics/rule_group.h"

namespace gill::lint {
namespace {

constexpr std::string_view bold = "\x1b[1m", plain = "\x1b[0m";
constexpr std::size_t example_indent = 4;
constexpr std::size_t max_offers = 4;

/// Appends the words of a paragraph; every line after the first is set in by `hanging` columns. The first
/// begins at column `at`.
void append_wrapped(std::string& out, std::string_view paragraph, std::size_t width, std::size_t hanging,
                    std::size_t at = 0) {
  bool first = true;
  for (std::size_t begin = 0; begin < paragraph.size();) {
    std::size_t end = std::min(paragraph.find(' ', begin), paragraph.size());
    auto word = paragraph.substr(begin, end - begin);
    begin = end + 1;
    if (word.empty()) continue;
    std::size_t columns = base::display_width(word);
    if (!first && at + 1 + columns > width) {
      out += '\n';
      out.append(hanging, ' ');
      at = hanging;
    } else if (!first) {
      out += ' ';
      ++at;
    }
    out += word;
    at += columns;
    first = false;
  }
  out += '\n';
}

std::string normalised(std::string_view typed) {
  std::string name = base::lower_ascii(base::trim(typed));
  std::replace(name.begin(), name.end(), '_', '-');
  std::replace(name.begin(), name.end(), ' ', '-');
  if (name.starts_with('[')) name.erase(0, 1);
  if (name.ends_with(']')) name.pop_back();
  return name;
}

/// True when a word of the rule's name begins as a word of the other does: `eggs` and `raw-egg`.
bool share_a_word(std::string_view rule, std::string_view typed) {
  constexpr std::size_t min_letters = 3;
  auto words = [](std::string_view name) {
    std::vector<std::string_view> found;
    for (std::size_t begin = 0; begin <= name.size();) {
      std::size_t end = std::min(name.find('-', begin), name.size());
      found.push_back(name.substr(begin, end - begin));
      begin = end + 1;
    }
    return found;
  };
  for (auto a : words(rule))
    for (auto b : words(typed))
      if (a.size() >= min_letters && b.size() >= min_letters && (a.starts_with(b) || b.starts_with(a)))
        return true;
  return false;
}

}  // namespace

std::string page_as_text(std::string_view page, std::size_t width, bool styled) {
  std::string out;
  bool in_example = false;
  for (std::size_t begin = 0; begin < page.size();) {
    std::size_t end = std::min(page.find('\n', begin), page.size());
    auto line = page.substr(begin, end - begin);
    begin = end + 1;
    if (line.starts_with("```")) {
      in_example = !in_example;
    } else if (in_example) {
      out += line.empty() ? "\n" : fmt::format("{:{}}{}\n", "", example_indent, line);
    } else if (line.starts_with("# ")) {
      out += fmt::format("{}{}{}\n", styled ? bold : "", line.substr(2), styled ? plain : "");
    } else {
      append_wrapped(out, line, width, 0);
    }
  }
  return out;
}

std::string list_of_rules(std::size_t width) {
  std::size_t longest = 0;
  for (auto rule : diagnostics::all_rules()) longest = std::max(longest, diagnostics::info(rule).name.size());
  constexpr std::size_t severity_columns = 7;
  std::string out;
  for (auto group : diagnostics::all_groups) {
    out += fmt::format("{}{}\n", out.empty() ? "" : "\n", diagnostics::name_of(group));
    for (auto rule : diagnostics::all_rules()) {
      const auto& about = diagnostics::info(rule);
      if (about.group != group) continue;
      std::string head = fmt::format("  {:<{}}  {:<{}}  ", about.name, longest,
                                     diagnostics::name_of(about.severity), severity_columns);
      out += head;
      append_wrapped(out, about.summary, width, head.size(), head.size());
    }
  }
  return out;
}

std::optional<diagnostics::Rule> find_typed_rule(std::string_view typed) {
  return diagnostics::find_rule(normalised(typed));
}

std::vector<std::string> rules_like(std::string_view typed) {
  std::string name = normalised(typed);
  std::vector<std::string> offers;
  base::NearestWord nearest(name);
  for (auto rule : diagnostics::all_rules())
    nearest.consider(diagnostics::info(rule).name, diagnostics::info(rule).name);
  if (nearest.best()) offers.push_back(*nearest.best());
  for (auto rule : diagnostics::all_rules()) {
    std::string other(diagnostics::info(rule).name);
    bool known = std::find(offers.begin(), offers.end(), other) != offers.end();
    if (offers.size() < max_offers && !known && share_a_word(other, name)) offers.push_back(other);
  }
  return offers;
}

}  // namespace gill::lint
