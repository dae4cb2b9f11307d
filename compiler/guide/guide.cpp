#include "guide/guide.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "base/text.h"
#include "render/prose/terminal.h"

namespace gill::guide {
namespace {

constexpr std::string_view contents_path = "README.md";
constexpr std::string_view ending = ".md";

/// `- [Amounts and units](amounts.md): how much of what`; nothing for any other line.
std::optional<Topic> read_contents_line(std::string_view line) {
  constexpr std::string_view opening = "- [", middle = "](", closing = ".md): ";
  if (!line.starts_with(opening)) return std::nullopt;
  auto title_end = line.find(middle);
  auto name_end = line.find(closing, title_end == std::string_view::npos ? line.size() : title_end);
  if (title_end == std::string_view::npos || name_end == std::string_view::npos) return std::nullopt;
  Topic topic;
  topic.title = line.substr(opening.size(), title_end - opening.size());
  topic.name = line.substr(title_end + middle.size(), name_end - title_end - middle.size());
  topic.about = line.substr(name_end + closing.size());
  topic.text = base::text_of(guide_pages(), topic.name + std::string(ending));
  return topic;
}

std::vector<Topic> read_contents(std::string_view contents) {
  std::vector<Topic> found;
  for (std::size_t begin = 0; begin < contents.size();) {
    std::size_t end = std::min(contents.find('\n', begin), contents.size());
    if (auto topic = read_contents_line(contents.substr(begin, end - begin))) found.push_back(*topic);
    begin = end + 1;
  }
  return found;
}

std::string normalised(std::string_view typed) {
  std::string name = base::lower_ascii(base::trim(typed));
  std::replace(name.begin(), name.end(), ' ', '-');
  std::replace(name.begin(), name.end(), '_', '-');
  if (name.ends_with(ending)) name.resize(name.size() - ending.size());
  return name;
}

/// The words of a title that tell it from others.
std::vector<std::string> words_of(const std::string& title) {
  constexpr std::size_t min_letters = 4;
  std::vector<std::string> words;
  std::string word;
  for (char c : base::lower_ascii(title) + " ") {
    if (c >= 'a' && c <= 'z') {
      word += c;
    } else {
      if (word.size() >= min_letters) words.push_back(word);
      word.clear();
    }
  }
  return words;
}

}  // namespace

std::string with_pending_marked(std::string_view text) {
  constexpr std::string_view fence = "```", opening = "```gill",
                             note = "*This version does not read this yet:*\n\n";
  std::string marked;
  bool in_example = false;
  for (std::size_t begin = 0; begin < text.size();) {
    std::size_t end = std::min(text.find('\n', begin), text.size());
    auto line = text.substr(begin, end - begin);
    begin = end + 1;
    if (!in_example && line.starts_with(opening) && line.ends_with(" pending")) marked += note;
    if (line.starts_with(fence)) in_example = !in_example;
    marked.append(line).append("\n");
  }
  return marked;
}

const std::vector<Topic>& topics() {
  static const std::vector<Topic> all = read_contents(base::text_of(guide_pages(), contents_path));
  return all;
}

const Topic* find_topic(std::string_view typed) {
  std::string name = normalised(typed);
  const Topic* found = nullptr;
  for (const auto& topic : topics()) {
    if (topic.name == name) return &topic;
    auto words = words_of(topic.title);
    if (std::find(words.begin(), words.end(), name) == words.end()) continue;
    if (found) return nullptr;
    found = &topic;
  }
  return found;
}

std::vector<std::string> topics_like(std::string_view typed) {
  base::NearestWord nearest(normalised(typed));
  for (const auto& topic : topics()) {
    nearest.consider(topic.name, topic.name);
    for (const auto& word : words_of(topic.title)) nearest.consider(word, topic.name);
  }
  return nearest.best() ? std::vector<std::string>{*nearest.best()} : std::vector<std::string>{};
}

std::string list_of_topics() {
  std::size_t longest = 0;
  for (const auto& topic : topics()) longest = std::max(longest, topic.name.size());
  std::string out;
  for (const auto& topic : topics()) out += fmt::format("  {:<{}}  {}\n", topic.name, longest, topic.about);
  return out;
}

std::string topic_as_text(const Topic& topic, std::size_t width, bool styled) {
  render::prose::TerminalStyle style{width, styled, [](std::string_view url) {
                                       bool is_page = url.ends_with(ending);
                                       return is_page ? fmt::format("`gill guide {}`", normalised(url))
                                                      : std::string(url);
                                     }};
  return render::prose::to_terminal(with_pending_marked(topic.text), style);
}

}  // namespace gill::guide
