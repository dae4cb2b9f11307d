// Sides out of git, with real git building the repository, and `gill` as git's own way to show a change.
#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "diff/program.h"

using namespace gill::testing;
namespace fs = std::filesystem;
using Json = nlohmann::json;

namespace {

std::string drinks(const std::string& amount) {
  return "drink Candle\n  glass rocks\n  " + amount +
         " vodka\n  15 ml water\n  stir 30 s\n  strain\n  garnish none\n";
}

/// A repository of four commits of a house in a folder of it; the amounts are 40, 45, 50 and 55 ml.
class Repository {
 public:
  explicit Repository(const std::string& house = "bar") : house_(house) {
    git({"init", "-q", "-b", "main"});
    folder.write("readme.txt", "Not a spec.\n");
    commit("40 ml", "2026-01-10T12:00:00");
    commit("45 ml", "2026-03-01T12:00:00");
    git({"tag", "spring"});
    commit("50 ml", "2026-06-15T12:00:00");
    git({"tag", "-a", "summer", "-m", "the summer list"});
    git({"branch", "trial"});
    commit("55 ml", "2026-09-01T12:00:00");
  }

  void commit(const std::string& amount, const std::string& date) {
    folder.write(file(), drinks(amount));
    git({"add", "-A"});
    auto made = run_shell(folder.path(), "GIT_AUTHOR_DATE=" + date + " GIT_COMMITTER_DATE=" + date +
                                             " git commit -q -m '" + amount + "'");
    REQUIRE(made.status == 0);
  }

  Ran git(std::vector<std::string> words) const {
    words.insert(words.begin(), "git");
    auto ran = run(folder.path(), words);
    INFO(ran.errors);
    REQUIRE(ran.status == 0);
    return ran;
  }

  std::string file() const { return house_.empty() ? "drinks.gill" : house_ + "/drinks.gill"; }
  std::string house() const { return house_.empty() ? "." : house_; }

  TemporaryFolder folder;

 private:
  std::string house_;
};

/// Old and new amount of the vodka in `gill diff WORDS --as json`; empty when no drink differs.
std::string amounts(const fs::path& folder, std::vector<std::string> words) {
  words.insert(words.begin(), "diff");
  for (auto* word : {"--as", "json"}) words.emplace_back(word);
  auto ran = run_gill(folder, words);
  INFO(ran.errors);
  REQUIRE(ran.status == 0);
  auto json = Json::parse(ran.output);
  if (json["drinks"].empty()) return {};
  const auto& line = json["drinks"][0]["ingredients"][0];
  auto text = [](const Json& side) {
    return side.is_null() ? std::string("nothing") : side.get<std::string>();
  };
  return text(line["old"]) + " to " + text(line["new"]);
}

}  // namespace

TEST_CASE("revisions are read by every name that git has for them", "[diff][git]") {
  Repository repository;
  const auto& folder = repository.folder.path();
  auto head = repository.git({"rev-parse", "HEAD"}).output.substr(0, 40);
  auto at = [&](const std::string& old, const std::string& now) {
    return amounts(folder, {old, now, "--house", "bar"});
  };
  CHECK(at("HEAD~3", "HEAD") == "40 ml to 55 ml");
  CHECK(at("spring", "main") == "45 ml to 55 ml");
  CHECK(at("summer", "main") == "50 ml to 55 ml");
  CHECK(at("trial", "HEAD") == "50 ml to 55 ml");
  CHECK(at("trial^", head) == "45 ml to 55 ml");
  CHECK(at(head.substr(0, 10), "refs/tags/spring") == "55 ml to 45 ml");
  CHECK(at("HEAD", "HEAD").empty());
}

TEST_CASE("a date means the last commit of that day or before", "[diff][git]") {
  Repository repository;
  auto at = [&](const std::string& old, const std::string& now) {
    return amounts(repository.folder.path(), {old, now, "--house", "bar"});
  };
  CHECK(at("@{2026-06-01}", "HEAD") == "45 ml to 55 ml");
  CHECK(at("main@{2026-06-15}", "HEAD") == "50 ml to 55 ml");
  CHECK(at("@{2026-06-15 11:59}", "HEAD") == "45 ml to 55 ml");
  CHECK(at("@{2026-01-31}", "trial@{2026-12-31}") == "40 ml to 50 ml");
  auto early = run_gill(repository.folder.path(), {"diff", "@{2020-01-01}", "HEAD", "--house", "bar"});
  CHECK(early.status == 2);
  CHECK(early.errors.find("2026-01-10") != std::string::npos);
}

TEST_CASE("a side that is left out is the working tree", "[diff][git]") {
  Repository repository;
  const auto& folder = repository.folder.path();
  CHECK(amounts(folder, {"--house", "bar"}).empty());
  repository.folder.write("bar/drinks.gill", drinks("60 ml"));
  CHECK(amounts(folder, {"--house", "bar"}) == "55 ml to 60 ml");
  CHECK(amounts(folder, {"spring", "--house", "bar"}) == "45 ml to 60 ml");
  // From inside the house, with nothing said at all.
  CHECK(amounts(folder / "bar", {}) == "55 ml to 60 ml");
}

TEST_CASE("the house may be the whole repository, a folder of it at any depth, or one file", "[diff][git]") {
  Repository whole("");
  CHECK(amounts(whole.folder.path(), {"spring", "HEAD"}) == "45 ml to 55 ml");
  Repository deep("sites/north/bar");
  CHECK(amounts(deep.folder.path(), {"spring", "HEAD", "--house", "sites/north/bar"}) == "45 ml to 55 ml");
  CHECK(amounts(deep.folder.path() / "sites", {"spring", "HEAD", "--house", "north/bar"}) ==
        "45 ml to 55 ml");
  CHECK(amounts(deep.folder.path(), {"spring", "HEAD", "--house", "sites/north/bar/drinks.gill"}) ==
        "45 ml to 55 ml");
}

TEST_CASE("neither the working tree nor the index is touched", "[diff][git]") {
  Repository repository;
  const auto& folder = repository.folder.path();
  repository.folder.write("bar/drinks.gill", drinks("60 ml"));
  repository.folder.write("bar/new.gill", "# not added\n");
  repository.folder.write("bar/staged.gill", "# added\n");
  repository.git({"add", "bar/staged.gill"});
  auto status = repository.git({"status", "--porcelain"}).output;
  auto index = repository.folder.read(".git/index");
  auto written = fs::last_write_time(folder / ".git/index");
  auto listed = run_shell(folder, "find . -type f | sort | xargs cksum").output;
  CHECK(amounts(folder, {"spring", "HEAD", "--house", "bar"}) == "45 ml to 55 ml");
  CHECK(amounts(folder, {"HEAD~1", "--house", "bar"}) == "50 ml to 60 ml");
  CHECK(repository.folder.read(".git/index") == index);
  CHECK(fs::last_write_time(folder / ".git/index") == written);
  CHECK(run_shell(folder, "find . -type f | sort | xargs cksum").output == listed);
  CHECK(repository.git({"status", "--porcelain"}).output == status);
}

TEST_CASE("bare, shallow and detached repositories are read", "[diff][git]") {
  Repository repository;
  TemporaryFolder other;
  auto source = "file://" + repository.folder.path().string();
  REQUIRE(run(other.path(), {"git", "clone", "-q", "--bare", source, "bare.git"}).status == 0);
  CHECK(amounts(other.path() / "bare.git", {"spring:bar", "HEAD:bar"}) == "45 ml to 55 ml");
  CHECK(amounts(other.path() / "bare.git", {"spring", "HEAD", "--house", "bar"}) == "45 ml to 55 ml");
  // What lies beside a bare repository is no house around it.
  other.write("stray.gill", "house Stray\n");
  CHECK(amounts(other.path() / "bare.git", {"spring:bar", "HEAD:bar"}) == "45 ml to 55 ml");
  auto whole = run_gill(other.path() / "bare.git", {"diff", "spring", "HEAD"});
  INFO(whole.output);
  CHECK(whole.output.find("is a part of the house") == std::string::npos);
  CHECK(whole.output.find("55 ml") != std::string::npos);
  REQUIRE(run(other.path(), {"git", "clone", "-q", "--depth", "2", source, "shallow"}).status == 0);
  CHECK(amounts(other.path() / "shallow", {"HEAD~1", "HEAD", "--house", "bar"}) == "50 ml to 55 ml");
  auto before = run_gill(other.path() / "shallow", {"diff", "HEAD~3", "HEAD", "--house", "bar"});
  CHECK(before.status == 2);
  repository.git({"checkout", "-q", "--detach", "HEAD~1"});
  CHECK(amounts(repository.folder.path(), {"main", "HEAD", "--house", "bar"}) == "55 ml to 50 ml");
}

TEST_CASE("a worktree beside the clone is read as the clone is", "[diff][git]") {
  Repository repository;
  TemporaryFolder other;
  repository.git({"worktree", "add", "-q", (other.path() / "beside").string(), "trial"});
  CHECK(amounts(other.path() / "beside", {"spring", "HEAD", "--house", "bar"}) == "45 ml to 50 ml");
}

TEST_CASE("folders and files are sides, alone or with a revision", "[diff][git]") {
  Repository repository;
  const auto& folder = repository.folder.path();
  repository.folder.write("other/drinks.gill", drinks("30 ml"));
  CHECK(amounts(folder, {"bar", "other"}) == "55 ml to 30 ml");
  CHECK(amounts(folder, {"other/drinks.gill", "bar/drinks.gill"}) == "30 ml to 55 ml");
  CHECK(amounts(folder, {"spring", "other", "--house", "bar"}) == "45 ml to 30 ml");
}

TEST_CASE("an unknown side ends with the nearest names", "[diff][git]") {
  Repository repository;
  const auto& folder = repository.folder.path();
  auto refused = [&](std::vector<std::string> words) {
    words.insert(words.begin(), "diff");
    auto ran = run_gill(folder, words);
    CHECK(ran.status == 2);
    CHECK(ran.output.empty());
    return ran.errors;
  };
  auto has = [](const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
  };
  CHECK(has(refused({"sprung", "HEAD", "--house", "bar"}), "`spring`"));
  CHECK(has(refused({"trail", "HEAD", "--house", "bar"}), "`trial`"));
  CHECK(has(refused({"bear", "bar"}), "`bar`"));
  CHECK(has(refused({"HEAD~9", "HEAD", "--house", "bar"}), "3 commits"));
  CHECK(has(refused({"spring", "HEAD", "--house", "baar"}), "bar"));
  TemporaryFolder nowhere;
  nowhere.write("house/a.gill", drinks("40 ml"));
  auto ran = run_gill(nowhere.path(), {"diff", "main", "house", "--house", "house"});
  CHECK(ran.status == 2);
  CHECK(has(ran.errors, "no git repository"));
}

TEST_CASE("a revision from before the house is told as such", "[diff][git]") {
  TemporaryFolder folder;
  folder.write("readme.txt", "Soon.\n");
  REQUIRE(run_shell(folder.path(), "git init -q -b main && git add -A && git commit -q -m first").status ==
          0);
  folder.write("bar/drinks.gill", drinks("40 ml"));
  REQUIRE(run_shell(folder.path(), "git add -A && git commit -q -m second").status == 0);
  auto ran = run_gill(folder.path(), {"diff", "HEAD~1", "HEAD", "--house", "bar"});
  CHECK(ran.status == 2);
  CHECK(ran.errors.find("no .gill file at all") != std::string::npos);
}

TEST_CASE("a side with errors is compared as far as it is sound, and the exit status says so",
          "[diff][git]") {
  Repository repository;
  repository.folder.write("bar/drinks.gill", drinks("60 ml") + "drink Broken\n  45 furlongs vodka\n");
  auto ran = run_gill(repository.folder.path(), {"diff", "HEAD", "--house", "bar", "--as", "json"});
  CHECK(ran.status == 1);
  CHECK(ran.errors.find("drinks.gill:9") != std::string::npos);
  auto json = Json::parse(ran.output);
  bool told = false;
  for (const auto& drink : json["drinks"]) told = told || drink["name"] == "Candle";
  CHECK(told);
  // Differences alone are none.
  CHECK(run_gill(repository.folder.path(), {"diff", "spring", "HEAD", "--house", "bar"}).status == 0);
}

TEST_CASE("a result is written to a file as asked", "[diff][git]") {
  Repository repository;
  auto ran = run_gill(repository.folder.path(),
                      {"diff", "spring", "HEAD", "--house", "bar", "--as", "html", "--out", "changes.html"});
  CHECK(ran.status == 0);
  CHECK(ran.output.empty());
  CHECK(repository.folder.read("changes.html").starts_with("<!DOCTYPE html>"));
  CHECK(run_gill(repository.folder.path(),
                 {"diff", "spring", "HEAD", "--house", "bar", "--out", "no/such/folder.txt"})
            .status == 2);
}

// ---- the recipes of the README, word for word

TEST_CASE("git shows changes of a drink by the external diff of the README", "[diff][git]") {
  Repository repository;
  repository.folder.write(".gitattributes", "*.gill diff=gill\n");
  repository.git({"config", "diff.gill.command", std::string(GILL_PROGRAM) + " diff --house bar --as-git"});
  auto log = repository.git({"diff", "spring", "HEAD"}).output;
  CHECK(log.find("45 ml") != std::string::npos);
  CHECK(log.find("55 ml") != std::string::npos);
  CHECK(log.find("What changed") != std::string::npos);
  CHECK(log.find("@@") == std::string::npos);
  repository.folder.write("bar/drinks.gill", drinks("60 ml"));
  CHECK(repository.git({"diff"}).output.find("60 ml") != std::string::npos);
  // A new file, one that is gone, and one that has moved.
  repository.folder.write(
      "bar/long.gill",
      "drink Long\n  glass highball\n  45 ml vodka\n  build\n  top soda water\n  garnish none\n");
  repository.git({"add", "-A"});
  CHECK(repository.git({"diff", "--cached"}).output.find("Long") != std::string::npos);
  repository.git({"mv", "bar/drinks.gill", "bar/short.gill"});
  CHECK(repository.git({"diff", "--cached", "-M"}).status == 0);
  // A line diff is still to be had.
  CHECK(repository.git({"diff", "--no-ext-diff", "spring", "HEAD"}).output.find("@@") != std::string::npos);
}

TEST_CASE("git may tell paths from a folder on", "[diff][git]") {
  Repository repository;
  repository.folder.write(".git/info/attributes", "*.gill diff=gill\n");
  // From wherever git is called, the program is called at the top.
  repository.git({"config", "diff.gill.command", std::string(GILL_PROGRAM) + " diff --house bar --as-git"});
  auto holds_the_change = [](const std::string& output) {
    CHECK(output.find("45 ml") != std::string::npos);
    CHECK(output.find("55 ml") != std::string::npos);
  };
  holds_the_change(repository.git({"diff", "--relative=bar", "spring", "HEAD"}).output);
  holds_the_change(repository.git({"-C", "bar", "diff", "--relative", "spring", "HEAD"}).output);
  repository.git({"config", "diff.relative", "true"});
  holds_the_change(repository.git({"-C", "bar", "diff", "spring", "HEAD"}).output);
}

TEST_CASE("git may compare two files that lie beside each other", "[diff][git]") {
  Repository repository;
  repository.folder.write(".git/info/attributes", "*.gill diff=gill\n");
  repository.git({"config", "diff.gill.command", std::string(GILL_PROGRAM) + " diff --house bar --as-git"});
  repository.folder.write("one.gill", drinks("60 ml"));
  repository.folder.write("two.gill", drinks("70 ml"));
  // Git's own status says that there is a difference.
  auto shown = run_shell(repository.folder.path(), "git diff --no-index one.gill two.gill").output;
  INFO(shown);
  CHECK(shown.find("60 ml") != std::string::npos);
  CHECK(shown.find("70 ml") != std::string::npos);
  CHECK(shown.find("no two states") == std::string::npos);
}

TEST_CASE("git compares what a file says by the textconv of the README", "[diff][git]") {
  Repository repository;
  repository.folder.write(".gitattributes", "*.gill diff=gill\n");
  repository.folder.write("bar/stock.gill",
                          "ingredient barley spirit\n  kind spirit\n  strength 43 % abv\n  allergen none\n");
  repository.git({"config", "diff.gill.textconv", std::string(GILL_PROGRAM) + " diff --house bar --as-git"});
  auto shown = repository.git({"diff", "spring", "HEAD"}).output;
  INFO(shown);
  CHECK(shown.find("@@") != std::string::npos);
  CHECK(shown.find("-vodka") != std::string::npos);
  CHECK(shown.find("+vodka") != std::string::npos);
  // A figure hangs on the rest of a house that git does not name.
  CHECK(shown.find("% abv") == std::string::npos);
  // A file leans on the rest of its house.
  repository.folder.write("bar/drinks.gill",
                          drinks("60 ml").replace(drinks("60 ml").find("vodka"), 5, "barley spirit"));
  CHECK(repository.git({"diff"}).output.find("+barley spirit") != std::string::npos);
  // It works in `git log -p` and `git show` as well.
  CHECK(repository.git({"log", "-p", "-1"}).output.find("+vodka") != std::string::npos);
}

namespace {

/// A house of several files whose drink hangs on a syrup, a bottle and a price of other files; in the second
/// commit the syrup is richer, the lemon less, the bottle another, and the price, the menu and the tax are
/// new.
class Season {
 public:
  explicit Season(const std::string& git_setting = "command") {
    git({"init", "-q", "-b", "main"});
    write({"500 g white sugar", "25 ml", "reed gin", "21", "11", "19"});
    commit("2026-01-10T12:00:00");
    git({"tag", "winter"});
    write({"750 g white sugar", "22.5 ml", "osier gin", "24", "12.5", "20"});
    commit("2026-04-10T12:00:00");
    git({"tag", "spring"});
    git({"config", "diff.gill." + git_setting, std::string(GILL_PROGRAM) + " diff --house bar --as-git"});
    // Not committed: an older revision has no such file.
    folder.write(".git/info/attributes", "*.gill diff=gill\n");
  }

  struct Words {
    std::string sugar, lemon, gin, gin_price, menu_price, tax;
  };

  void write(const Words& words) {
    folder.write("bar/house.gill", "house Weir\n  currency EUR\n  tax " + words.tax + " % included\n");
    folder.write("bar/stock.gill",
                 "ingredient " + words.gin +
                     "\n  kind spirit\n  strength 43 % abv\n  allergen none\n  buy 700 ml for " +
                     words.gin_price + " EUR\n");
    folder.write("bar/syrups.gill",
                 "prep weir syrup\n  " + words.sugar + "\n  500 g water\n  dissolve\n  keeps 7 d chilled\n");
    folder.write("bar/drinks.gill",
                 "drink Osier Sour\n  glass coupe\n  50 ml " + words.gin + "\n  " + words.lemon +
                     " lemon juice\n  20 ml weir syrup\n  shake 12 s\n  strain\n  garnish none\n");
    folder.write(
        "bar/other.gill",
        "drink Weir Collins\n  glass highball\n  45 ml vodka\n  20 ml weir syrup\n  25 ml lemon juice\n"
        "  shake 8 s\n  strain\n  ice cubed\n  top 60 ml soda water\n  garnish none\n");
    folder.write("bar/menu.gill", "menu Evening\n  Osier Sour at " + words.menu_price + " EUR\n");
  }

  void commit(const std::string& date) {
    git({"add", "-A"});
    REQUIRE(run_shell(folder.path(), "GIT_AUTHOR_DATE=" + date + " GIT_COMMITTER_DATE=" + date +
                                         " git commit -q -m '" + date + "'")
                .status == 0);
  }

  Ran git(std::vector<std::string> words) const { return git_in(folder.path(), std::move(words)); }

  static Ran git_in(const fs::path& where, std::vector<std::string> words) {
    words.insert(words.begin(), "git");
    auto ran = run(where, words);
    INFO(ran.errors);
    REQUIRE(ran.status == 0);
    return ran;
  }

  TemporaryFolder folder;
};

/// The lines of a text that hold the words.
std::vector<std::string> lines_with(const std::string& text, const std::string& words) {
  std::vector<std::string> found;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);)
    if (line.find(words) != std::string::npos) found.push_back(line);
  return found;
}

/// What a change of the season must tell, whatever way git is asked: the sugar of both drinks up, since whole
/// houses are compared; each drink once, and nothing left out.
void check_season(const Season& season, const std::string& shown) {
  INFO(shown);
  auto whole = run_gill(season.folder.path(), {"diff", "winter", "spring", "--house", "bar"});
  REQUIRE(whole.status == 0);
  auto sugar = lines_with(whole.output, "sugar");
  REQUIRE(sugar.size() >= 2);
  for (const auto& line : sugar) CHECK(shown.find(line) != std::string::npos);
  CHECK(shown.find("Not compared") == std::string::npos);
  CHECK(shown.find("NOT COMPARED") == std::string::npos);
  for (const auto* words : {"osier gin", "Weir Collins", "weir syrup", "Evening", "tax"})
    CHECK(shown.find(words) != std::string::npos);
}

}  // namespace

TEST_CASE("git diff compares whole houses of the revisions that it is asked for", "[diff][git]") {
  Season season;
  check_season(season, season.git({"diff", "winter", "main"}).output);
  check_season(season, season.git({"show", "--ext-diff"}).output);
  check_season(season, season.git({"log", "-p", "--ext-diff", "-1"}).output);
  check_season(season, season.git({"diff", "HEAD~1"}).output);
  // From a folder of the house, a worktree, a shallow clone.
  check_season(season, Season::git_in(season.folder.path() / "bar", {"diff", "winter", "main"}).output);
  TemporaryFolder other;
  season.git({"worktree", "add", "-q", "--detach", (other.path() / "beside").string(), "main"});
  check_season(season, Season::git_in(other.path() / "beside", {"diff", "winter", "main"}).output);
  // A bare clone has neither index nor working tree.
  Season::git_in(other.path(), {"clone", "-q", "--bare", season.folder.path().string(), "bare.git"});
  auto bare = other.path() / "bare.git";
  Season::git_in(bare,
                 {"config", "diff.gill.command", std::string(GILL_PROGRAM) + " diff --house bar --as-git"});
  std::ofstream(bare / "info" / "attributes") << "*.gill diff=gill\n";
  check_season(season, Season::git_in(bare, {"diff", "winter", "main"}).output);
}

TEST_CASE("git diff compares the working tree with the index, and the index with the last commit",
          "[diff][git]") {
  Season season;
  season.git({"reset", "-q", "--soft", "winter"});
  check_season(season, season.git({"diff", "--cached"}).output);
  // The index as of winter, the working tree as of now.
  season.git({"reset", "-q", "winter"});
  check_season(season, season.git({"diff"}).output);
  // Half of it staged: the syrup alone differs between the two.
  season.git({"add", "-A"});
  season.folder.write(
      "bar/syrups.gill",
      "prep weir syrup\n  1 kg white sugar\n  500 g water\n  dissolve\n  keeps 7 d chilled\n");
  auto shown = season.git({"diff"}).output;
  INFO(shown);
  CHECK(shown.find("the index") != std::string::npos);
  CHECK(shown.find("the working tree") != std::string::npos);
  CHECK(shown.find("Osier Sour") != std::string::npos);
  CHECK(shown.find("lemon juice") == std::string::npos);
}

TEST_CASE("over all files of a git diff each change is told once", "[diff][git]") {
  Season season;
  auto shown = season.git({"diff", "winter", "main"}).output;
  INFO(shown);
  auto told = lines_with(shown, "lemon juice");
  CHECK(told.size() == 1);
  CHECK(lines_with(shown, "Menus").size() == 1);
}

TEST_CASE("a file that is renamed, new or gone is compared with its whole house", "[diff][git]") {
  Season season;
  season.git({"mv", "bar/syrups.gill", "bar/preps.gill"});
  season.folder.write(
      "bar/preps.gill",
      "prep weir syrup\n  1 kg white sugar\n  500 g water\n  dissolve\n  keeps 7 d chilled\n");
  season.git({"add", "-A"});
  auto shown = season.git({"diff", "--cached", "-M10%"}).output;
  INFO(shown);
  CHECK(shown.find("weir syrup") != std::string::npos);
  CHECK(shown.find("Osier Sour") != std::string::npos);
  CHECK(shown.find("gone") == std::string::npos);
  season.commit("2026-05-10T12:00:00");
  season.git({"rm", "-q", "bar/other.gill"});
  CHECK(season.git({"diff", "--cached"}).output.find("Weir Collins") != std::string::npos);
  // The very first commit has nothing before it.
  CHECK(season.git({"show", "--ext-diff", "winter"}).output.find("Weir Collins") != std::string::npos);
}

TEST_CASE("a file that is not merged yet is told as such, and git goes on", "[diff][git]") {
  Season season;
  season.git({"checkout", "-q", "-b", "other", "winter"});
  season.folder.write("bar/menu.gill", "menu Evening\n  Osier Sour at 13 EUR\n");
  season.commit("2026-04-11T12:00:00");
  CHECK(run(season.folder.path(), {"git", "merge", "-q", "main"}).status != 0);
  auto shown = season.git({"diff"}).output;
  INFO(shown);
  CHECK(shown.find("bar/menu.gill") != std::string::npos);
}

TEST_CASE("git show and git log tell prices, menus and lines of the house by the textconv", "[diff][git]") {
  Season season("textconv");
  for (const auto& shown : {season.git({"show"}).output, season.git({"log", "-p", "-1"}).output}) {
    INFO(shown);
    for (const auto* words :
         {"- tax: 19 %", "- tax: 20 %", "11.00 EUR", "12.50 EUR", "24.00 EUR", "22.5 ml", "750 g"})
      CHECK(shown.find(words) != std::string::npos);
  }
}

TEST_CASE("a merge request is told by what it brings since it left the main line", "[diff][git]") {
  Repository repository;
  repository.git({"checkout", "-q", "-b", "season", "spring"});
  repository.commit("47 ml", "2026-09-10T12:00:00");
  auto ran = run_shell(
      repository.folder.path(),
      std::string(GILL_PROGRAM) + " diff \"$(git merge-base main HEAD)\" HEAD --house bar --as markdown");
  CHECK(ran.status == 0);
  CHECK(ran.output.find("45 ml") != std::string::npos);
  CHECK(ran.output.find("47 ml") != std::string::npos);
  // What main did meanwhile is not this branch's.
  CHECK(ran.output.find("55 ml") == std::string::npos);
}

namespace {

/// Three commits: a drink and its prices; the rum's price; the drink's syrup.
struct PriceThenDrink {
  PriceThenDrink() {
    git({"init", "-q", "-b", "main"});
    git({"config", "diff.gill.command", std::string(GILL_PROGRAM) + " diff --house bar --as-git"});
    folder.write(".gitattributes", "*.gill diff=gill\n");
    folder.write("bar/drinks.gill", drink("10 ml"));
    commit("20 GBP", "one");
    commit("35 GBP", "two");
    folder.write("bar/drinks.gill", drink("15 ml"));
    commit("35 GBP", "three");
  }

  static std::string drink(const std::string& syrup) {
    return "drink Ash\n  glass rocks\n  50 ml aged rum\n  " + syrup +
           " dry vermouth\n  stir 20 s\n  strain\n  garnish none\n";
  }

  void commit(const std::string& price, const std::string& tag) {
    folder.write("bar/prices.gill", "house Weir\n  currency GBP\nprices p\n  aged rum 700 ml for " + price +
                                        "\n  dry vermouth 1 l for 8 GBP\n");
    git({"add", "-A"});
    git({"commit", "-q", "-m", tag});
    git({"tag", tag});
  }

  std::string git(std::vector<std::string> words) const { return git_in(folder.path(), std::move(words)); }
  static std::string git_in(const fs::path& where, std::vector<std::string> words) {
    words.insert(words.begin(), "git");
    auto ran = run(where, words);
    INFO(ran.errors);
    REQUIRE(ran.status == 0);
    return ran.output;
  }

  TemporaryFolder folder;
};

}  // namespace

TEST_CASE("git diff of one file compares the revisions that it was asked for, and no others that hold it",
          "[diff][git]") {
  PriceThenDrink repository;
  // 50 ml of 700 at 20 GBP is 1.43, at 35 GBP 2.50; 10 ml of vermouth at 8 GBP a litre is 0.08, 15 ml 0.12.
  for (const auto& words : std::vector<std::vector<std::string>>{
           {"diff", "one", "three", "--", "bar/drinks.gill"},
           {"diff", "one..three", "--", "bar/drinks.gill"},
           {"diff", "one", "--", "bar/drinks.gill"},
           {"--no-pager", "-c", "core.abbrev=10", "diff", "one", "HEAD", "--", "bar/drinks.gill"}}) {
    auto shown = repository.git(words);
    INFO(shown);
    CHECK(shown.find("1.51 GBP") != std::string::npos);
    CHECK(shown.find("2.62 GBP") != std::string::npos);
  }
  auto shown = repository.git({"diff", "two", "three", "--", "bar/drinks.gill"});
  INFO(shown);
  CHECK(shown.find("2.58 GBP") != std::string::npos);
  CHECK(shown.find("1.51 GBP") == std::string::npos);
}

TEST_CASE("a shallow clone is compared as far as it goes, and below that as from nothing", "[diff][git]") {
  PriceThenDrink repository;
  TemporaryFolder other;
  auto source = "file://" + repository.folder.path().string();
  for (const char* depth : {"1", "2"}) {
    auto clone = other.path() / (std::string("to ") + depth);
    PriceThenDrink::git_in(other.path(), {"clone", "-q", "--depth", depth, source, clone.string()});
    PriceThenDrink::git_in(
        clone, {"config", "diff.gill.command", std::string(GILL_PROGRAM) + " diff --house bar --as-git"});
    auto shown = PriceThenDrink::git_in(clone, {"show", "--ext-diff", "HEAD"});
    INFO(shown);
    CHECK(shown.find("no two states") == std::string::npos);
    CHECK(shown.find("Ash") != std::string::npos);
  }
  std::ofstream(other.path() / "to 2" / "bar" / "drinks.gill") << PriceThenDrink::drink("16 ml");
  auto shown = PriceThenDrink::git_in(other.path() / "to 2", {"diff", "HEAD~1"});
  INFO(shown);
  CHECK(shown.find("10 ml") != std::string::npos);
  CHECK(shown.find("16 ml") != std::string::npos);
}

TEST_CASE("a file beside the house is told as such, with its whole path", "[diff][git]") {
  PriceThenDrink repository;
  repository.folder.write("outside.gill", "drink Other\n  30 ml aged rum\n");
  repository.git({"add", "-A"});
  auto shown = repository.git({"diff", "--cached", "--", "outside.gill"});
  CHECK(shown == "outside.gill: outside of the house in `bar`, and no part of it.\n");
}

TEST_CASE("the folder of a house is moved, and what stood in the old one is compared all the same",
          "[diff][git]") {
  Repository repository;
  repository.folder.write(".gitattributes", "*.gill diff=gill\n");
  repository.git({"mv", "bar", "inn"});
  repository.folder.write("inn/drinks.gill", drinks("60 ml"));
  repository.git({"add", "-A"});
  repository.git({"commit", "-q", "-m", "moved"});
  const auto& folder = repository.folder.path();
  CHECK(amounts(folder, {"spring", "HEAD", "--house", "inn"}) == "45 ml to 60 ml");
  CHECK(amounts(folder, {"spring", "summer", "--house", "inn"}) == "45 ml to 50 ml");
  repository.git({"config", "diff.gill.command", std::string(GILL_PROGRAM) + " diff --house inn --as-git"});
  for (const auto& words : {std::vector<std::string>{"diff", "spring", "HEAD"},
                            std::vector<std::string>{"log", "-p", "--ext-diff", "--format=%s"}}) {
    auto shown = repository.git(words).output;
    INFO(shown);
    CHECK(shown.find("60 ml") != std::string::npos);
    CHECK(shown.find("outside of the house") == std::string::npos);
    CHECK(shown.find("has no `inn`") == std::string::npos);
  }
  // Another house, which stands there still, is not the one that moved.
  repository.folder.write("pub/drinks.gill", drinks("30 ml"));
  repository.git({"add", "-A"});
  repository.git({"commit", "-q", "-m", "a second house"});
  repository.folder.write("den/drinks.gill", drinks("20 ml"));
  auto asked = run_gill(folder, {"diff", "HEAD", "--house", "den"});
  CHECK(asked.status == 2);
  CHECK(asked.errors.find("has no `den`") != std::string::npos);
}

TEST_CASE("a file that is only renamed says the same by the textconv", "[diff][git]") {
  Repository repository;
  repository.folder.write(".gitattributes", "*.gill diff=gill\n");
  repository.git({"config", "diff.gill.textconv", std::string(GILL_PROGRAM) + " diff --house bar --as-git"});
  repository.git({"mv", "bar/drinks.gill", "bar/long.gill"});
  auto shown = repository.git({"diff", "--cached", "--no-renames"}).output;
  INFO(shown);
  CHECK(shown.find("What this file says") != std::string::npos);
  CHECK(repository.git({"diff", "--cached", "-M"}).output.find("@@") == std::string::npos);
  // A slip elsewhere in the house is not told beside the file.
  repository.git({"commit", "-q", "-m", "renamed"});
  repository.folder.write("bar/other.gill", "drink Other\n  20 mll vodka\n");
  auto ran = run_shell(repository.folder.path(), "git show 2>&1");
  INFO(ran.output);
  CHECK(ran.output.find("mll") == std::string::npos);
}

TEST_CASE("a merge is shown with each side in its own house, where one renamed the file", "[diff][git]") {
  Repository repository;
  repository.folder.write(".gitattributes", "*.gill diff=gill\n");
  repository.git({"config", "diff.gill.textconv", std::string(GILL_PROGRAM) + " diff --house bar --as-git"});
  repository.folder.write("bar/goods.gill", "ingredient Yard rye like rye whiskey\n  strength 46 % abv\n");
  repository.folder.write("bar/drinks.gill",
                          "drink Ember\n  glass rocks\n  45 ml cognac\n  20 ml Yard rye\n  stir 20 s\n");
  repository.git({"add", "-A"});
  repository.git({"commit", "-q", "-m", "both"});
  repository.git({"branch", "side"});
  repository.git({"mv", "bar/drinks.gill", "bar/all.gill"});
  repository.folder.write("bar/all.gill",
                          "drink Ember\n  glass rocks\n  45 ml cognac\n  25 ml Yard rye\n  stir 20 s\n");
  repository.git({"commit", "-q", "-a", "-m", "renamed"});
  repository.git({"checkout", "-q", "side"});
  repository.folder.write("bar/drinks.gill",
                          "drink Ember\n  glass rocks\n  50 ml cognac\n  20 ml Yard rye\n  stir 20 s\n");
  repository.git({"commit", "-q", "-a", "-m", "side"});
  repository.git({"checkout", "-q", "main"});
  // Both lines stand next to each other: a conflict.
  run(repository.folder.path(), {"git", "merge", "-q", "side"});
  auto open = run_shell(repository.folder.path(), "git diff 2>&1");
  INFO(open.output);
  CHECK(open.output.find("NOT COMPARED where git's marks of a merge stand") != std::string::npos);
  CHECK(open.output.find("Stir 20") == std::string::npos);
  CHECK(open.output.find("not worked out") == std::string::npos);
  repository.folder.write("bar/all.gill",
                          "drink Ember\n  glass rocks\n  50 ml cognac\n  25 ml Yard rye\n  stir 20 s\n");
  repository.git({"commit", "-q", "-a", "-m", "merged"});
  auto shown = run_shell(repository.folder.path(), "git show HEAD 2>&1");
  INFO(shown.output);
  CHECK(shown.output.find("no ingredient or prep is called") == std::string::npos);
  CHECK(shown.output.find("not worked out") == std::string::npos);
  CHECK(shown.output.find("50 ml") != std::string::npos);
}

TEST_CASE("a file in the midst of a merge says so", "[diff][git]") {
  TemporaryFolder folder;
  folder.write("bar/drinks.gill",
               "drink Other\n<<<<<<< HEAD\n  20 ml vodka\n=======\n  30 ml vodka\n>>>>>>> other\n");
  auto ran = run_gill(folder.path(), {"check", "bar"});
  INFO(ran.output);
  CHECK(ran.status == 1);
  CHECK(ran.output.find("git's mark of a merge") != std::string::npos);
  CHECK(ran.output.find("starts no declaration") == std::string::npos);
}

TEST_CASE("asked inside of a house's folder, the whole house is compared", "[diff][git]") {
  Repository repository;
  repository.folder.write("bar/house.gill", "house Bar\n  currency EUR\n");
  repository.git({"add", "-A"});
  repository.git({"commit", "-q", "-m", "a house"});
  repository.folder.write("bar/menus/list.gill", "menu List\n  Candle at 9 EUR\n");
  auto ran =
      run_shell(repository.folder.path(), "cd bar/menus && " + std::string(GILL_PROGRAM) + " diff HEAD 2>&1");
  INFO(ran.output);
  CHECK(ran.output.find("is a part of the house in") != std::string::npos);
  CHECK(ran.output.find("List: new") != std::string::npos);
  CHECK(ran.output.find("error") == std::string::npos);
}
