#include "accuracy/program.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cstdio>
#include <cstdlib>

namespace gill::accuracy {

std::vector<std::string> lines_of(const std::string& command) {
  std::FILE* pipe = popen(command.c_str(), "r");
  INFO(command);
  REQUIRE(pipe != nullptr);
  std::string text;
  std::array<char, 4096> buffer{};
  while (const std::size_t read = std::fread(buffer.data(), 1, buffer.size(), pipe))
    text.append(buffer.data(), read);
  const int status = pclose(pipe);
  INFO("it printed: " << text);
  REQUIRE(status == 0);
  std::vector<std::string> lines;
  for (std::size_t start = 0, end; start < text.size(); start = end + 1) {
    end = std::min(text.find('\n', start), text.size());
    lines.push_back(text.substr(start, end - start));
  }
  return lines;
}

std::vector<double> numbers_of(const std::string& command) {
  std::vector<double> numbers;
  for (const std::string& line : lines_of(command)) {
    char* end = nullptr;
    const double number = std::strtod(line.c_str(), &end);
    INFO(command << " printed: " << line);
    REQUIRE(end != line.c_str());
    numbers.push_back(number);
  }
  return numbers;
}

std::string shell_word(const std::string& text) {
  std::string word = "'";
  for (const char letter : text) word += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
  return word + "'";
}

}  // namespace gill::accuracy
