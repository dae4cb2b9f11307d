#pragma once
#include <algorithm>
#include <random>
#include <string>
#include <vector>

#include "driver/file_access.h"

/// Edits of chance, as people make them while they type, for tests and benchmarks of what is kept between
/// them.
namespace gill::testing {

/// Changes a house by one edit of chance at a time. The same seed makes the same edits on every machine.
class RandomEdits {
 public:
  RandomEdits(driver::HouseFiles house, unsigned seed)
      : house_(std::move(house)), last_(house_), first_(house_), chance_(seed) {}

  const driver::HouseFiles& house() const { return house_; }
  /// What the last edit was, in a word.
  const std::string& last_edit() const { return last_edit_; }

  void edit() {
    auto before = house_;
    constexpr std::size_t kinds = 20;
    do {
      edit(below(kinds));
    } while (last_edit_.empty());
    last_ = std::move(before);
  }

  /// Back to where all was well.
  void restore() { house_ = last_ = first_; }

  /// A whole number from 0 to `end`, without it. (`std::uniform_int_distribution` differs between libraries.)
  std::size_t below(std::size_t end) { return end == 0 ? 0 : chance_() % end; }

 private:
  using Lines = std::vector<std::string>;

  void edit(std::size_t kind) {
    last_edit_.clear();
    auto& file = house_.files[below(house_.files.size())];
    auto lines = lines_of(file.text);
    if (lines.empty()) return;
    auto& line = lines[below(lines.size())];
    switch (kind) {
      case 0:
        return undo();
      case 1:
        return mend();
      case 2:
        return move_declaration();
      case 3:
        return split_file();
      case 4:
        return delete_file();
      case 5:
        return rename_everywhere();
      case 6:
        change_number(line);
        break;
      case 7:
        change_number(line);
        break;
      case 8:
        misspell(line);
        break;
      case 9:
        line += "  # tasted again";
        said("comment");
        break;
      case 10:
        line.insert(0, "# a remark\n\n");
        said("comment line");
        break;
      case 11:
        lines.erase(lines.begin() + index_of(lines, line));
        said("line deleted");
        break;
      case 12:
        line += "\n" + line;
        said("line twice");
        break;
      case 13:
        std::swap(line, lines[below(lines.size())]);
        said("lines swapped");
        break;
      case 14:
        add_alias(lines);
        break;
      case 15:
        rename_header(lines);
        break;
      case 16:
        delete_declaration(lines);
        break;
      case 17:
        take_name(line);
        break;
      case 18:
        copy_declaration(lines);
        break;
      default:
        change_house();
        return;
    }
    file.text = joined(lines);
  }

  void said(const char* what) { last_edit_ = what; }
  static std::ptrdiff_t index_of(const Lines& lines, const std::string& line) { return &line - lines.data(); }

  static Lines lines_of(const std::string& text) {
    Lines lines;
    for (std::size_t at = 0; at < text.size();) {
      auto end = std::min(text.find('\n', at), text.size());
      lines.push_back(text.substr(at, end - at));
      at = end + 1;
    }
    return lines;
  }
  static std::string joined(const Lines& lines) {
    std::string text;
    for (const auto& line : lines) text += line + "\n";
    return text;
  }
  static bool is_header(const std::string& line) { return !line.empty() && line[0] >= 'a' && line[0] <= 'z'; }
  static std::string name_in(const std::string& header) {
    auto begin = header.find(' ');
    if (begin == std::string::npos) return {};
    auto end = std::min({header.find(" like "), header.find(" ="), header.find("  #"), header.size()});
    return end <= begin + 1 ? std::string() : header.substr(begin + 1, end - begin - 1);
  }

  /// The header of a declaration of chance; the end where there is none.
  std::size_t some_header(const Lines& lines) {
    std::size_t start = below(lines.size());
    for (std::size_t i = 0; i < lines.size(); ++i)
      if (std::size_t at = (start + i) % lines.size(); is_header(lines[at])) return at;
    return lines.size();
  }
  static std::size_t end_of(const Lines& lines, std::size_t header) {
    std::size_t end = header + 1;
    while (end < lines.size() && !is_header(lines[end])) ++end;
    return end;
  }

  void undo() { house_ = last_, said("undo"); }
  /// Back to where all was well.
  void mend() {
    if (below(3) == 0) house_ = first_, said("mended");
  }
  void change_number(std::string& line) {
    auto at = line.find_first_of("0123456789");
    if (at == std::string::npos) return;
    auto end = line.find_first_not_of("0123456789.", at);
    line.replace(at, std::min(end, line.size()) - at, std::to_string(1 + below(90)));
    said("number");
  }
  void misspell(std::string& line) {
    if (line.size() < 2) return;
    line.insert(1 + below(line.size() - 1), 1, static_cast<char>('a' + below(26)));
    said("letter");
  }
  void add_alias(Lines& lines) {
    auto header = some_header(lines);
    if (header == lines.size()) return;
    static const char* names[] = {"lemom juice", "rye",    "house gin", "lime",
                                  "nothing yet", "Keeper", "syrup"};
    lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(header) + 1,
                 std::string("  aka ") + names[below(std::size(names))]);
    said("aka");
  }
  void rename_header(Lines& lines) {
    auto header = some_header(lines);
    if (header == lines.size() || name_in(lines[header]).empty()) return;
    auto name = name_in(lines[header]);
    lines[header].replace(lines[header].find(' ') + 1, name.size(), name + " " + std::to_string(below(3)));
    said("renamed");
  }
  void delete_declaration(Lines& lines) {
    auto header = some_header(lines);
    if (header == lines.size()) return;
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(header),
                lines.begin() + static_cast<std::ptrdiff_t>(end_of(lines, header)));
    said("declaration deleted");
  }
  void copy_declaration(Lines& lines) {
    auto header = some_header(lines);
    if (header == lines.size() || name_in(lines[header]).empty()) return;
    Lines copy(lines.begin() + static_cast<std::ptrdiff_t>(header),
               lines.begin() + static_cast<std::ptrdiff_t>(end_of(lines, header)));
    auto name = name_in(copy[0]);
    if (below(4) != 0) copy[0].replace(copy[0].find(' ') + 1, name.size(), name + " again");
    if (below(3) == 0) copy.resize(1), copy[0] += " like " + name;
    lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(some_header(lines)), copy.begin(), copy.end());
    said("declaration copied");
  }
  /// Another thing of the house, or of the library, in the place of a line's last words.
  void take_name(std::string& line) {
    auto last = line.find_last_of(' ');
    if (is_header(line) || last == std::string::npos || last + 1 == line.size()) return;
    static const char* names[] = {"lemon juice",    "lime juice", "simple syrup",
                                  "London dry gin", "egg white",  "water"};
    std::string name = names[below(std::size(names))];
    if (below(2) == 0) {
      auto others = lines_of(house_.files[below(house_.files.size())].text);
      if (others.empty()) return;
      auto header = some_header(others);
      if (header < others.size() && !name_in(others[header]).empty()) name = name_in(others[header]);
    }
    line.replace(last + 1, std::string::npos, name);
    said("another name");
  }
  void move_declaration() {
    auto& from = house_.files[below(house_.files.size())];
    auto& to = house_.files[below(house_.files.size())];
    auto lines = lines_of(from.text);
    auto header = lines.empty() ? 0 : some_header(lines);
    if (lines.empty() || header == lines.size()) return;
    Lines moved(lines.begin() + static_cast<std::ptrdiff_t>(header),
                lines.begin() + static_cast<std::ptrdiff_t>(end_of(lines, header)));
    delete_declaration_at(lines, header);
    from.text = joined(lines);
    to.text = below(2) == 0 ? to.text + joined(moved) : joined(moved) + to.text;
    said("declaration moved");
  }
  static void delete_declaration_at(Lines& lines, std::size_t header) {
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(header),
                lines.begin() + static_cast<std::ptrdiff_t>(end_of(lines, header)));
  }
  void split_file() {
    auto& file = house_.files[below(house_.files.size())];
    auto lines = lines_of(file.text);
    auto header = lines.empty() ? 0 : some_header(lines);
    if (lines.empty() || header == lines.size()) return;
    Lines rest(lines.begin() + static_cast<std::ptrdiff_t>(header), lines.end());
    lines.resize(header);
    file.text = joined(lines);
    house_.files.push_back({"split" + std::to_string(below(1000)) + ".gill", joined(rest)});
    sort_files();
    said("file split");
  }
  void delete_file() {
    if (house_.files.size() < 2 || below(4) != 0) return;
    house_.files.erase(house_.files.begin() + static_cast<std::ptrdiff_t>(below(house_.files.size())));
    said("file deleted");
  }
  void sort_files() {
    std::sort(house_.files.begin(), house_.files.end(),
              [](const auto& a, const auto& b) { return a.path < b.path; });
    auto same = [](const auto& a, const auto& b) { return a.path == b.path; };
    house_.files.erase(std::unique(house_.files.begin(), house_.files.end(), same), house_.files.end());
  }
  void rename_everywhere() {
    auto lines = lines_of(house_.files[below(house_.files.size())].text);
    auto header = lines.empty() ? 0 : some_header(lines);
    if (lines.empty() || header == lines.size()) return;
    auto name = name_in(lines[header]);
    if (name.size() < 4) return;
    for (auto& file : house_.files)
      for (auto at = file.text.find(name); at != std::string::npos;
           at = file.text.find(name, at + name.size() + 2))
        file.text.insert(at + name.size(), " B");
    said("renamed everywhere");
  }
  void change_house() {
    if (below(4) != 0) return;
    for (auto& file : house_.files) {
      auto at = file.text.find("\nhouse ");
      if (file.text.starts_with("house ")) at = 0;
      if (at == std::string::npos) continue;
      auto end = std::min(file.text.find('\n', at + 1), file.text.size());
      static const char* settings[] = {"\n  ounce 28 ml", "\n  currency USD", "\n  room 24 C",
                                       "\n  strongest 30 g"};
      file.text.insert(end, settings[below(std::size(settings))]);
      return said("house setting");
    }
  }

  driver::HouseFiles house_, last_, first_;
  std::mt19937 chance_;
  std::string last_edit_;
};

}  // namespace gill::testing
