#include "driver/git_caller.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string_view>

namespace gill::driver {
namespace {

/// Between git and a program that it calls stand a shell or two.
constexpr int max_callers = 6;

/// Options whose value is a word of its own.
bool takes_word(std::string_view option) {
  static constexpr std::string_view options[] = {
      "-C", "-c",          "--git-dir", "--work-tree",          "--namespace",   "-S", "-G", "-O", "--output",
      "-l", "--exec-path", "-U",        "--inter-hunk-context", "--super-prefix"};
  return std::find(std::begin(options), std::end(options), option) != std::end(options);
}

/// Takes `A..B` and `A...B` apart; false for any other word.
bool add_range(const std::string& word, AskedOfGit& asked) {
  auto dots = word.find("..");
  if (dots == std::string::npos) return false;
  asked.from_merge_base = word.compare(dots, 3, "...") == 0;
  auto or_head = [](const std::string& name) { return name.empty() ? std::string("HEAD") : name; };
  asked.revisions.push_back(or_head(word.substr(0, dots)));
  asked.revisions.push_back(or_head(word.substr(dots + (asked.from_merge_base ? 3 : 2))));
  return true;
}

std::vector<std::string> words_of_process(pid_t process) {
  std::ifstream file(fmt::format("/proc/{}/cmdline", process), std::ios::binary);
  std::vector<std::string> words;
  for (std::string word; std::getline(file, word, '\0');) words.push_back(std::move(word));
  return words;
}

/// The process that began another; 0 where that is not shown.
pid_t caller_of(pid_t process) {
  std::ifstream file(fmt::format("/proc/{}/stat", process), std::ios::binary);
  std::string stat((std::istreambuf_iterator<char>(file)), {});
  // Behind the name in brackets, which may hold anything: the state, then the caller.
  auto end = stat.rfind(')');
  if (end == std::string::npos) return 0;
  std::istringstream rest(stat.substr(end + 1));
  std::string state;
  pid_t caller = 0;
  rest >> state >> caller;
  return caller;
}

}  // namespace

std::optional<AskedOfGit> read_git_command(const std::vector<std::string>& words) {
  std::size_t at = 1;
  while (at < words.size() && words[at].starts_with('-')) at += takes_word(words[at]) ? 2 : 1;
  if (at >= words.size() || words[at] != "diff") return std::nullopt;
  AskedOfGit asked;
  for (++at; at < words.size() && words[at] != "--"; ++at) {
    const auto& word = words[at];
    asked.is_cached |= word == "--cached" || word == "--staged";
    asked.is_beside_repository |= word == "--no-index";
    asked.from_merge_base |= word == "--merge-base";
    constexpr std::string_view relative = "--relative=";
    if (word.starts_with(relative)) asked.relative_to = word.substr(relative.size());
    if (word.starts_with('-')) {
      if (takes_word(word)) ++at;
    } else if (asked.revisions.size() < 2 && !add_range(word, asked)) {
      asked.revisions.push_back(word);
    }
  }
  return asked;
}

std::optional<AskedOfGit> asked_of_git() {
  pid_t process = getppid();
  for (int i = 0; i < max_callers && process > 1; ++i, process = caller_of(process)) {
    auto words = words_of_process(process);
    if (!words.empty() && std::filesystem::path(words[0]).filename() == "git") return read_git_command(words);
  }
  return std::nullopt;
}

}  // namespace gill::driver
