#pragma once
#include <optional>
#include <string>

namespace gill::language_server {

/// Texts that the program carries inside, laid where any editor can open them: the standard library and the
/// pages of the rules, below the user's cache, not to be written to. A folder for each state of the texts,
/// made once.
class ReferenceFolder {
 public:
  /// The path of a file of the library (`stdlib/…`); nothing where nothing can be written.
  std::optional<std::string> file_of_library(const std::string& path);
  /// The path of a rule's page; nothing where it has none, or nothing can be written.
  std::optional<std::string> rule_page(const std::string& rule);
  /// The path in the library of a file that lies here; empty for any other.
  std::string path_in_library(const std::string& path);
  /// Writes a page that a person asked to see, and gives its path.
  std::optional<std::string> write_page(const std::string& name, const std::string& html);

 private:
  const std::optional<std::string>& folder();
  std::optional<std::optional<std::string>> folder_;
};

}  // namespace gill::language_server
