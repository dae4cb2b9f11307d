#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "base/csv_reader.h"

/// What the commands of the plan share.
namespace gill::cli {

/// `2026-03-19`; nothing when the text is no date.
std::optional<std::chrono::sys_days> read_date(const std::string& text);
/// `17:30` as hours since midnight; nothing when the text is no time of day.
std::optional<double> read_clock(const std::string& text);
/// A file's bytes; says why on standard error when it cannot be read.
std::optional<std::string> read_whole_file(const std::string& path);
/// Tells on standard error of rows that could not be read.
void report_rows(const std::string& path, const std::vector<base::RowProblem>& problems);
/// Writes a result to a file, whole or not at all, or to standard output where `path` is empty or `-`; the
/// exit status.
int deliver(const std::string& path, const std::string& content, int status);

/// Writes what was printed (PDF), never to a terminal; refuses where nothing could be drawn.
int deliver_pdf(const std::string& path, const std::optional<std::string>& pdf, int status);

}  // namespace gill::cli
