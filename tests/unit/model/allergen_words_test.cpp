// The groups are those of Regulation (EU) No 1169/2011, Annex II.
#include "model/allergen_words.h"

#include <catch2/catch.hpp>

using namespace gill::model;

TEST_CASE("an allergen's code is told in its shortest plain word") {
  CHECK(allergen_short("nuts:hazelnut") == "hazelnut");
  CHECK(allergen_short("cereals:barley") == "barley");
  CHECK(allergen_short("egg") == "egg");
}

TEST_CASE("an allergen's code is told with the group that lists name it by") {
  CHECK(allergen_words("nuts:hazelnut") == "hazelnut (nut)");
  CHECK(allergen_words("cereals:barley") == "barley (cereal with gluten)");
  CHECK(allergen_words("egg") == "egg");
  CHECK(allergen_words(std::vector<std::string>{"egg", "nuts:almond"}) ==
        std::vector<std::string>{"egg", "almond (nut)"});
}

TEST_CASE("an allergen's code is written as a spec has it") {
  CHECK(allergen_as_written("nuts:almond") == "nuts: almond");
  CHECK(allergen_as_written("milk") == "milk");
}
