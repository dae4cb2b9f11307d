#include "driver/editions.h"

#include <fmt/format.h>

#include <sstream>

#include "base/fingerprint.h"
#include "driver/standard_library.h"

namespace gill::driver {
namespace {

std::uint64_t fingerprint_of_library() {
  base::Fingerprint fingerprint;
  for (const auto& file : standard_library()) {
    fingerprint.add(file.path);
    fingerprint.add(file.text);
  }
  return fingerprint.value();
}

/// How many goods, preps, glasses and families it declares: lines that begin one.
std::size_t declarations_of_library() {
  std::size_t count = 0;
  for (const auto& file : standard_library()) {
    std::istringstream lines{std::string(file.text)};
    for (std::string line; std::getline(lines, line);)
      count += line.empty() || line[0] == ' ' || line[0] == '#' || line[0] == '\r' ? 0U : 1U;
  }
  return count;
}

}  // namespace

std::string editions_text() {
  std::string text;
  for (const auto& file : edition_files()) {
    std::istringstream lines{std::string(file.text)};
    std::string edition;
    std::getline(lines, edition);
    text += fmt::format("standard library {}: {} declarations, fingerprint {:016x}\n", edition,
                        declarations_of_library(), fingerprint_of_library());
    for (std::string line; std::getline(lines, line);) text += "reckoned by " + line + "\n";
  }
  // Whoever prints it ends the line.
  text.pop_back();
  return text;
}

}  // namespace gill::driver
