#include "plan/words.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"

namespace gill::plan {

double sells_on(const spec::MenuEntry& entry, std::size_t weekday) {
  return entry.sells_on[weekday].value_or(entry.sells.value_or(0));
}

double sells_in_a_week(const spec::MenuEntry& entry) {
  double portions = 0;
  for (std::size_t day = 0; day < 7; ++day) portions += sells_on(entry, day);
  return portions;
}

std::variant<spec::MenuId, std::string> find_menu(const House& house, std::string_view name) {
  if (base::trim(name).empty()) return spec::MenuId{};
  auto id = house.names.find(names::NameSpace::menu, name);
  if (id.valid()) return spec::MenuId{house.specs.index_of[id.index()]};
  std::vector<std::string> known;
  for (const auto& menu : house.specs.menus) known.push_back("`" + menu.head.name + "`");
  if (known.empty()) return fmt::format("There is no menu called `{}`: the house declares none.", name);
  return fmt::format("There is no menu called `{}`; the house has {}.", name, base::join_with_and(known));
}

std::string_view weekday_name(std::size_t weekday) {
  static constexpr std::string_view names[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                               "Friday", "Saturday", "Sunday"};
  return names[weekday % 7];
}

std::string name_key(const std::string& name) { return base::fold_name(name); }

std::string money_text(const Exact& amount, const std::string& currency) {
  std::string number = base::to_fixed(amount < 0 ? Exact(-amount) : amount, model::decimals_of(currency));
  return fmt::format("{}{}{}{}", amount < 0 ? "−" : "", number, currency.empty() ? "" : " ", currency);
}

std::string text_table(const std::vector<TextColumn>& columns,
                       const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths;
  for (const auto& column : columns) widths.push_back(base::display_width(column.title));
  for (const auto& row : rows)
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], base::display_width(row[i]));
  std::string text;
  auto add = [&](const std::vector<std::string>& cells) {
    std::string line;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      std::string space(widths[i] - base::display_width(cells[i]), ' ');
      line += (i > 0 ? "  " : "") + (columns[i].to_the_right ? space + cells[i] : cells[i] + space);
    }
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + "\n";
  };
  std::vector<std::string> titles;
  for (const auto& column : columns) titles.push_back(column.title);
  if (std::any_of(titles.begin(), titles.end(), [](const std::string& title) { return !title.empty(); }))
    add(titles);
  for (const auto& row : rows) add(row);
  return text;
}

std::string text_notes(const std::vector<std::string>& notes) {
  constexpr std::size_t widest = 100;
  std::string text;
  for (const auto& note : notes) {
    std::string line = "-";
    std::size_t at = 0;
    while (at < note.size()) {
      auto end = std::min(note.find(' ', at), note.size());
      std::string word = note.substr(at, end - at);
      if (base::display_width(line) + 1 + base::display_width(word) > widest) {
        text += line + "\n";
        line = " ";
      }
      line += " " + word;
      at = end + 1;
    }
    text += line + "\n";
  }
  return text;
}

std::string one_line(std::string_view text) {
  std::string safe;
  for (char c : text) safe += static_cast<unsigned char>(c) < 0x20 || c == 0x7F ? ' ' : c;
  while (auto bad = base::first_bad_byte(safe)) safe.replace(*bad, 1, "?");
  return base::collapse_space(safe);
}

std::string gill_name(std::string_view written) {
  std::string name = one_line(written);
  std::replace(name.begin(), name.end(), '"', '\'');
  bool plain = !name.empty() && !std::isdigit(static_cast<unsigned char>(name.front()));
  for (char c : name) {
    auto byte = static_cast<unsigned char>(c);
    plain = plain && (std::isalnum(byte) || byte >= 0x80 ||
                      std::string_view(" '-&./()").find(c) != std::string_view::npos);
  }
  std::string folded = " " + base::lower_ascii(name) + " ";
  for (std::string_view word : {" like ", " at ", " or ", " for ", " to ", " of "})
    plain = plain && folded.find(word) == std::string::npos;
  return plain ? name : "\"" + name + "\"";
}

}  // namespace gill::plan
