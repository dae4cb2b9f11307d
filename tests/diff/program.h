#pragma once
#include <filesystem>
#include <string>
#include <vector>

/// Runs the built program, and git, as a person does.
namespace gill::testing {

/// What a program wrote, and how it ended.
struct Ran {
  std::string output, errors;
  int status = -1;
};

/// Runs a program by its words in a folder. git is kept from the settings of whoever runs the tests.
Ran run(const std::filesystem::path& folder, const std::vector<std::string>& words);
/// The same for a line of shell.
Ran run_shell(const std::filesystem::path& folder, const std::string& line);
/// The built `gill`.
Ran run_gill(const std::filesystem::path& folder, std::vector<std::string> words);

/// A folder of its own that is gone again at the end.
class TemporaryFolder {
 public:
  TemporaryFolder();
  ~TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;

  const std::filesystem::path& path() const { return path_; }
  /// Writes a file below it, with the folders on the way.
  void write(const std::string& name, const std::string& text) const;
  std::string read(const std::string& name) const;

 private:
  std::filesystem::path path_;
};

}  // namespace gill::testing
