#pragma once

#include <catch2/catch.hpp>

#include <cstdlib>
#include <fstream>
#include <string>
#include <string_view>
#include <vector>

/// Reads the tables in tests/data: comma-separated, `#` lines name the source, the first other line names the
/// columns.
namespace gill::model::testing {

class PublishedTable {
 public:
  explicit PublishedTable(std::string_view file_name) {
    const std::string path = std::string(GILL_TEST_DATA) + "/" + std::string(file_name);
    std::ifstream file(path);
    for (std::string line; std::getline(file, line);) {
      if (line.empty() || line.front() == '#') continue;
      if (columns_.empty())
        columns_ = cells_of(line);
      else
        rows_.push_back(cells_of(line));
    }
    INFO(path);
    REQUIRE(!rows_.empty());
  }

  std::size_t size() const { return rows_.size(); }

  const std::string& text(std::size_t row, std::string_view column) const {
    for (std::size_t i = 0; i < columns_.size(); ++i)
      if (columns_[i] == column) return rows_.at(row).at(i);
    FAIL("no column " << column);
    return columns_.front();
  }
  bool has(std::size_t row, std::string_view column) const { return !text(row, column).empty(); }
  double number(std::size_t row, std::string_view column) const {
    return std::strtod(text(row, column).c_str(), nullptr);
  }

 private:
  static std::vector<std::string> cells_of(const std::string& line) {
    std::vector<std::string> cells(1);
    for (const char letter : line) {
      if (letter == ',')
        cells.emplace_back();
      else
        cells.back() += letter;
    }
    return cells;
  }

  std::vector<std::string> columns_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace gill::model::testing
