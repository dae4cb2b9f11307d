// `gill tidy` in files: which house a file is judged with, what steps back, what is written.
#include <sys/stat.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "driver/tidy_files.h"
#include "driver/unified_diff.h"
#include "support/front_end.h"

using namespace gill;
namespace fs = std::filesystem;

namespace {

/// A folder that is gone at the end of a test.
class Folder {
 public:
  Folder() {
    static int made = 0;
    path_ = fs::temp_directory_path() /
            ("gill_tidy_" + std::to_string(::getpid()) + "_" + std::to_string(made++));
    fs::create_directories(path_);
  }
  ~Folder() { fs::remove_all(path_); }
  std::string add(const std::string& name, const std::string& text) const {
    fs::create_directories((path_ / name).parent_path());
    std::ofstream(path_ / name, std::ios::binary) << text;
    return (path_ / name).string();
  }
  std::string operator/(const std::string& name) const { return (path_ / name).string(); }

 private:
  fs::path path_;
};

driver::TidiedFiles tidied_files(const std::vector<std::string>& paths) {
  auto result = driver::tidy_files(paths);
  if (auto* failure = std::get_if<driver::FileError>(&result)) FAIL(failure->message);
  return std::get<driver::TidiedFiles>(std::move(result));
}

std::string tidied_text(const std::string& text) {
  return driver::tidy_text("a.gill", text).files.at(0).after;
}

}  // namespace

TEST_CASE("the demo house is tidy", "[tidy]") {
  auto files = tidied_files({GILL_SOURCE_DIR "/specs"}).files;
  CHECK(files.size() > 15);
  for (const auto& file : files) CHECK(driver::unified_diff(file.path, file.before, file.after) == "");
}

TEST_CASE("a new house is tidy", "[tidy]") {
  for (const auto& file : tidied_files({GILL_SOURCE_DIR "/compiler/importer/new_house"}).files)
    CHECK(driver::unified_diff(file.path, file.before, file.after) == "");
}

TEST_CASE("a file is judged with the house around it", "[tidy]") {
  Folder folder;
  folder.add("bar/house.gill", "house H\n  ounce us oz\nunit thimble = 7 ml\n");
  auto drink = folder.add("bar/drinks/a.gill", "drink A\n  2 thimble lemon juice\n");
  auto files = tidied_files({drink}).files;
  REQUIRE(files.size() == 1);
  CHECK(files[0].path == drink);
  CHECK(files[0].after == "drink A\n  2 thimbles     lemon juice\n");
  // Alone nobody knows a thimble.
  CHECK(tidied_text("drink A\n  2 thimble lemon juice\n") == "drink A\n  2 thimble lemon juice\n");
}

TEST_CASE("files that are named twice are told once, folders bring all of theirs", "[tidy]") {
  Folder folder;
  folder.add("deep/down/c.gill", "drink C\n 60 ml London dry gin\n");
  auto a = folder.add("a.gill", "drink A\n 60 ml London dry gin\n");
  folder.add("sub/b.gill", "drink B\n 60 ml London dry gin\n");
  CHECK(tidied_files({a, a, folder / ""}).files.size() == 3);
}

TEST_CASE("where a folder declares several houses each file is judged alone", "[tidy]") {
  Folder folder;
  folder.add("a.gill", "house A\n  ounce us oz\ndrink Sour\n 1oz lemon juice\n");
  folder.add("b.gill", "house B\n  room 20C\ndrink Sour\n 1oz lime juice\n");
  for (const auto& file : tidied_files({folder / ""}).files) {
    CHECK_THAT(file.after, Catch::Contains("  1 oz           l"));
    CHECK_THAT(file.after, Catch::StartsWith("house "));
  }
}

TEST_CASE("what cannot be opened is named", "[tidy]") {
  Folder folder;
  auto missing = driver::tidy_files({folder / "none.gill"});
  REQUIRE(std::holds_alternative<driver::FileError>(missing));
  CHECK_THAT(std::get<driver::FileError>(missing).message, Catch::Contains("none.gill"));
}

TEST_CASE("a file is written in one step: a link stays one, and its permissions stay", "[tidy]") {
  Folder folder;
  auto real = folder.add("real/a.gill", "drink A\n 60ml London dry gin\n");
  fs::permissions(real, fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read);
  fs::create_symlink(real, folder / "link.gill");
  auto files = tidied_files({folder / "link.gill"}).files;
  REQUIRE(files.size() == 1);
  REQUIRE_FALSE(driver::write_tidied(files[0]));
  CHECK(fs::is_symlink(folder / "link.gill"));
  CHECK(testing::read_file(real) == "drink A\n  60 ml          London dry gin\n");
  CHECK((fs::status(real).permissions() & fs::perms::all) ==
        (fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read));
}

TEST_CASE("a link to a file of the same house is read once, as that file", "[tidy]") {
  Folder folder;
  folder.add("house.gill", "house H\n");
  auto real = folder.add("real/a.gill", "drink A\n  60 ml London dry gin\n");
  fs::create_symlink(real, folder / "link.gill");
  auto hidden = folder.add(".kept/b.gill", "drink B\n  60 ml London dry gin\n");
  fs::create_symlink(hidden, folder / "b.gill");
  auto house = driver::DiskAccess().read_house(folder / "", {});
  REQUIRE(std::holds_alternative<driver::HouseFiles>(house));
  std::vector<std::string> texts;
  for (const auto& file : std::get<driver::HouseFiles>(house).files) texts.push_back(file.text.substr(0, 7));
  std::sort(texts.begin(), texts.end());
  CHECK(texts == std::vector<std::string>{"drink A", "drink B", "house H"});
}

TEST_CASE("what is no spec in a house is named and not read: a pipe, a link to another file", "[driver]") {
  Folder folder;
  folder.add("house/house.gill", "house H\n");
  auto trouble = [&] {
    auto house = driver::DiskAccess().read_house(folder / "house", {});
    const auto* failure = std::get_if<driver::FileError>(&house);
    return failure ? failure->message : std::string();
  };
  auto secret = folder.add("secret.txt", "words of somebody else\n");
  fs::create_symlink(secret, folder / "house/a.gill");
  CHECK_THAT(trouble(), Catch::Contains("a.gill is a link to") && Catch::Contains("which is no .gill file"));
  fs::remove(folder / "house/a.gill");
  auto elsewhere = folder.add("shared.gill", "drink A\n  60 ml London dry gin\n");
  fs::create_symlink(elsewhere, folder / "house/a.gill");
  CHECK(trouble().empty());
  REQUIRE(::mkfifo((folder / "house/p.gill").c_str(), 0600) == 0);
  CHECK_THAT(trouble(), Catch::Contains("p.gill is no file"));
}

TEST_CASE("a file that changed or went while it was read is left", "[tidy]") {
  Folder folder;
  auto a = folder.add("a.gill", "drink A\n 60ml London dry gin\n");
  auto files = tidied_files({a}).files;
  folder.add("a.gill", "drink B\n");
  auto failure = driver::write_tidied(files[0]);
  REQUIRE(failure);
  CHECK_THAT(failure->message, Catch::Contains("was changed while it was read"));
  CHECK(testing::read_file(a) == "drink B\n");
  fs::remove(a);
  CHECK(driver::write_tidied(files[0]));
  CHECK_FALSE(fs::exists(a));
}

TEST_CASE("a byte-order mark stays, and so does an empty file", "[tidy]") {
  CHECK(tidied_text("\xef\xbb\xbf"
                    "drink A\r\n 60ml London dry gin\r\n") ==
        "\xef\xbb\xbf"
        "drink A\r\n  60 ml          London dry gin\r\n");
  CHECK(tidied_text("") == "");
}

TEST_CASE("where other words would say something else a declaration keeps its own", "[tidy]") {
  // The house calls a thing so: the amount counts it.
  std::string own = "ingredient cups of cheer\n  kind      fruit\n  each      10 g\n\n";
  CHECK(tidied_text(own + "drink A\n  2 cups of cheer\n") ==
        own + "drink A\n  2              cups of cheer\n");
}

TEST_CASE("a long file is tidied in the time that it takes to compile", "[tidy]") {
  std::string text, line(100000, 'x');
  for (int i = 0; i < 500; ++i)
    text += "drink D" + std::to_string(i) +
            "\n 60ml London dry gin\n shake 12 s and strain into a coupe\n no garnish\n";
  text += "drink Long\n  do " + line + "\n  guest " + line + "\n  60 ml " + line + "\n";
  auto once = tidied_text(text);
  CHECK_THAT(once, Catch::Contains("drink D499\n  glass          coupe\n  60 ml          London dry gin\n"));
}
