#include "cli/plan_options.h"

#include <fmt/format.h>
#include <unistd.h>

#include <charconv>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "cli/command.h"

namespace gill::cli {
namespace {

std::optional<int> whole(std::string_view digits) {
  int number = 0;
  auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  if (error != std::errc() || end != digits.data() + digits.size() || digits.empty() || digits[0] == '-')
    return std::nullopt;
  return number;
}

}  // namespace

std::optional<std::chrono::sys_days> read_date(const std::string& text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  std::string_view view = text;
  auto year = whole(view.substr(0, 4)), month = whole(view.substr(5, 2)), day = whole(view.substr(8, 2));
  if (!year || !month || !day) return std::nullopt;
  std::chrono::year_month_day date{std::chrono::year(*year),
                                   std::chrono::month(static_cast<unsigned>(*month)),
                                   std::chrono::day(static_cast<unsigned>(*day))};
  if (!date.ok()) return std::nullopt;
  return std::chrono::sys_days(date);
}

std::optional<double> read_clock(const std::string& text) {
  auto colon = text.find(':');
  auto hours = whole(std::string_view(text).substr(0, colon));
  auto minutes =
      colon == std::string::npos ? std::optional<int>(0) : whole(std::string_view(text).substr(colon + 1));
  if (!hours || !minutes || *hours > 24 || *minutes > 59) return std::nullopt;
  return *hours + *minutes / 60.0;
}

std::optional<std::string> read_whole_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::error_code error;
  if (!file || std::filesystem::is_directory(path, error)) {
    refuse(fmt::format("`{}` cannot be opened", path));
    return std::nullopt;
  }
  std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  if (file.bad()) {
    refuse(fmt::format("`{}` cannot be read", path));
    return std::nullopt;
  }
  return bytes;
}

void report_rows(const std::string& path, const std::vector<base::RowProblem>& problems) {
  for (const auto& problem : problems) fmt::print(stderr, "{}:{}: {}\n", path, problem.line, problem.message);
}

int deliver(const std::string& path, const std::string& content, int status) {
  if (path.empty() || path == "-") return print(content, status);
  std::error_code error;
  auto folder = std::filesystem::path(path).parent_path();
  if (!folder.empty()) std::filesystem::create_directories(folder, error);
  // Beside it first, then in its place: whoever reads it finds the old one or the new one.
  std::string beside = fmt::format("{}.{}.new", path, getpid());
  {
    std::ofstream file(beside, std::ios::binary);
    file << content;
    file.flush();
    if (!file) {
      std::filesystem::remove(beside, error);
      return refuse(fmt::format("`{}` cannot be written", path));
    }
  }
  std::filesystem::rename(beside, path, error);
  if (error) {
    std::error_code ignored;
    std::filesystem::remove(beside, ignored);
    return refuse(fmt::format("`{}` cannot be written: {}", path, error.message()));
  }
  return status;
}

int deliver_pdf(const std::string& path, const std::optional<std::string>& pdf, int status) {
  if ((path.empty() || path == "-") && isatty(STDOUT_FILENO))
    return refuse("a PDF is no text for a terminal; name a file with `--out`");
  if (!pdf) return refuse("the PDF could not be drawn; is a face of type installed?");
  return deliver(path, *pdf, status);
}

}  // namespace gill::cli
