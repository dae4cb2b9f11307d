#pragma once
#include <set>
#include <string>
#include <string_view>

namespace gill::render::document {

/// A name as a plain file name: lower-case ASCII letters, digits and single dashes, Latin letters without
/// their marks, never a device name of Windows, at most 60 bytes. A name without any such letter gets a
/// number made from it.
std::string plain_file_name(std::string_view name);

/// The relative path from a page to the book's root: `../` for each folder that it stands in.
std::string path_to_root(std::string_view page_path);

/// Hands out file names that differ: a second taker of one gets `-2` behind it.
class PageNames {
 public:
  std::string take(std::string_view name);

 private:
  std::set<std::string> taken_;
};

}  // namespace gill::render::document
