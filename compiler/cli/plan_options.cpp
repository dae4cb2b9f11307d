#include "cli/plan_options.h"

#include <fmt/format.h>
#include <unistd.h>

#include <charconv>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "base/date.h"
#include "base/file_kind.h"
#include "cli/command.h"
#include "driver/read_file.h"
#include "print/page_pdf.h"
#include "render/html/page.h"
#include "render/markdown/page.h"
#include "render/terminal/page_text.h"

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

std::optional<double> read_clock(const std::string& text) {
  auto colon = text.find(':');
  auto hours = whole(std::string_view(text).substr(0, colon));
  auto minutes =
      colon == std::string::npos ? std::optional<int>(0) : whole(std::string_view(text).substr(colon + 1));
  if (!hours || !minutes || *hours > 24 || *minutes > 59) return std::nullopt;
  return *hours + *minutes / 60.0;
}

std::optional<std::chrono::sys_days> read_day_or_today(const std::string& text) {
  if (text.empty()) return std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now());
  auto day = base::read_iso_date(text);
  if (!day) refuse(fmt::format("`{}` is no day: write it as 2026-11-25", text));
  return day;
}

std::optional<std::string> read_whole_file(const std::string& path) {
  auto bytes = driver::read_file(path);
  if (auto* failure = std::get_if<driver::FileError>(&bytes)) return refuse(failure->message), std::nullopt;
  return std::get<std::string>(std::move(bytes));
}

std::optional<std::string> read_table_file(const std::string& path) {
  auto bytes = read_whole_file(path);
  if (!bytes) return std::nullopt;
  if (auto kind = base::no_text_kind(*bytes); !kind.empty())
    return refuse(fmt::format("`{}` is {}, no list in plain text: open it in the program that wrote it, save "
                              "it as CSV (.csv), and give that",
                              path, kind)),
           std::nullopt;
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
  // A device or a pipe is written to: nothing takes its place.
  if (auto there = std::filesystem::status(path, error);
      std::filesystem::exists(there) && !std::filesystem::is_regular_file(there)) {
    std::ofstream file(path, std::ios::binary);
    file << content;
    file.flush();
    return file ? status : refuse(fmt::format("`{}` cannot be written", path));
  }
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

int deliver_page(const std::string& path, std::string_view form, const render::document::Page& page,
                 const render::document::Frame& frame, int status) {
  if (form == "markdown") return deliver(path, render::markdown::to_markdown(page, frame).text, status);
  if (form == "html") return deliver(path, render::html::to_html_alone(page, frame), status);
  if (form == "pdf") return deliver_pdf(path, print::page_pdf(page, frame), status);
  return deliver(path, render::terminal::page_text(page, frame), status);
}

}  // namespace gill::cli
