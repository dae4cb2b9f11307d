#pragma once
#include <string_view>
#include <vector>

namespace gill::importer {

/// One file of the small invented house that `gill new` makes.
struct NewHouseFile {
  std::string_view path;
  std::string_view text;
};

/// Its files, in the order of their paths.
const std::vector<NewHouseFile>& new_house_files();

}  // namespace gill::importer
