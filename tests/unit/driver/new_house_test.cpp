#include "importer/new_house.h"

#include <catch2/catch.hpp>

#include "driver/compile.h"

using namespace gill;

TEST_CASE("the house to start from has nothing to find fault with", "[new]") {
  driver::HouseFiles files;
  files.name = "new";
  for (const auto& file : importer::new_house_files())
    files.files.push_back({std::string(file.path), std::string(file.text)});
  REQUIRE(files.files.size() >= 4);
  auto house = driver::compile(files);
  for (const auto& finding : house->findings) UNSCOPED_INFO(finding.message);
  CHECK(house->findings.empty());
}
