#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv_reader.h"
#include "render/document/document.h"

/// What the commands of the plan share.
namespace gill::cli {

/// `17:30` as hours since midnight; nothing when the text is no time of day.
std::optional<double> read_clock(const std::string& text);
/// The day that `--on` gives, today where it is left out; says why on standard error when it is none.
std::optional<std::chrono::sys_days> read_day_or_today(const std::string& text);
/// A file's bytes; says why on standard error when it cannot be read.
std::optional<std::string> read_whole_file(const std::string& path);
/// The same of a list as CSV; what is no text is refused with what to do.
std::optional<std::string> read_table_file(const std::string& path);
/// Tells on standard error of rows that could not be read.
void report_rows(const std::string& path, const std::vector<base::RowProblem>& problems);
/// Writes a result to a file, whole or not at all, or to standard output where `path` is empty or `-`; the
/// exit status.
int deliver(const std::string& path, const std::string& content, int status);

/// Writes what was printed (PDF), never to a terminal; refuses where nothing could be drawn.
int deliver_pdf(const std::string& path, const std::optional<std::string>& pdf, int status);
/// Writes a page as `markdown`, `html`, `pdf` or (any other form) text for a terminal; the exit status.
int deliver_page(const std::string& path, std::string_view form, const render::document::Page& page,
                 const render::document::Frame& frame, int status);

}  // namespace gill::cli
