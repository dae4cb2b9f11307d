#pragma once
#include <string>
#include <vector>

/// Programs of the distribution that tests ask for figures.
namespace gill::accuracy {

/// Runs a line of shell and gives the lines it prints; fails the test when it cannot be run or ends with an
/// error.
std::vector<std::string> lines_of(const std::string& command);

/// The same, each line as a number.
std::vector<double> numbers_of(const std::string& command);

/// The text as one word of the shell.
std::string shell_word(const std::string& text);

}  // namespace gill::accuracy
