// What is no change: everything that says the same in another way.
#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <random>
#include <regex>
#include <sstream>

#include "diff/pair.h"

using namespace gill::testing;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::string in_lines(const std::vector<std::string>& lines) {
  std::string text;
  for (const auto& line : lines) text += line + "\n";
  return text;
}

bool is_text(const std::string& line) {
  auto first = line.find_first_not_of(" \t");
  return first != std::string::npos && line[first] == '|';
}

bool begins_declaration(const std::string& line) {
  return !line.empty() && line[0] != ' ' && line[0] != '\t' && line[0] != '#' && line[0] != '|' &&
         line[0] != '\r';
}

/// The declarations of a house, each with its lines.
std::vector<std::string> declarations_of(const Files& house) {
  std::vector<std::string> all;
  for (const auto& [path, text] : house) {
    bool begun = false;
    for (const auto& line : lines_of(text)) {
      if (begins_declaration(line)) {
        all.emplace_back();
        begun = true;
      }
      if (begun) all.back() += line + "\n";
    }
  }
  return all;
}

using Edit = std::function<std::string(const std::string& line)>;

Files each_line(const Files& house, const Edit& edit) {
  Files edited;
  for (const auto& [path, text] : house) {
    auto lines = lines_of(text);
    for (auto& line : lines) line = edit(line);
    edited[path] = in_lines(lines);
  }
  return edited;
}

/// Spaces, tabs, blank lines, comments, Windows line ends, upper-case keywords: wherever they may stand.
Files reformatted(const Files& house, std::mt19937& random) {
  auto chance = [&](unsigned one_in) { return random() % one_in == 0; };
  return each_line(house, [&](const std::string& line) {
    if (is_text(line) || line.find_first_not_of(" \t\r") == std::string::npos) return line;
    std::string edited = line;
    bool body = line[0] == ' ' || line[0] == '\t';
    if (body)
      edited =
          std::string(1 + random() % 7, chance(3) ? '\t' : ' ') + line.substr(line.find_first_not_of(" \t"));
    bool takes_comment = edited.find('#') == std::string::npos && edited.find('"') == std::string::npos &&
                         edited.find("colour") == std::string::npos && edited[0] != '#';
    if (takes_comment && chance(3)) edited += "   # tasted again";
    if (chance(6)) edited += "   ";
    if (chance(8)) edited = "# a line of its own\n\n" + edited;
    return edited + (chance(5) ? "\r" : "");
  });
}

Files shuffled_into_files(const Files& house, std::mt19937& random, std::size_t files) {
  auto all = declarations_of(house);
  std::shuffle(all.begin(), all.end(), random);
  Files split;
  for (std::size_t i = 0; i < all.size(); ++i)
    split["folder " + std::to_string(i % files % 3) + "/part" + std::to_string(i % files) + ".gill"] +=
        all[i] + "\n";
  return split;
}

/// `60 ml` as `6 cl`, `500 g` as `0.5 kg`, `30 s` as `0.5 min`: exact, by moving the point or by sixtieths.
Files in_other_units(const Files& house) {
  static const std::regex millilitres(R"(\b([0-9]+(\.[0-9]+)?) ml\b)"), grams(R"(\b([0-9]+(\.[0-9]+)?) g\b)"),
      hours(R"(\b([0-9]+(\.[0-9]+)?) h\b)");
  auto moved = [](const std::string& number, std::size_t places) {
    auto point = number.find('.');
    std::string digits = point == std::string::npos ? number : number.substr(0, point);
    std::string after = point == std::string::npos ? std::string() : number.substr(point + 1);
    if (digits.size() <= places) digits.insert(0, places + 1 - digits.size(), '0');
    return digits.substr(0, digits.size() - places) + "." + digits.substr(digits.size() - places) + after;
  };
  auto replace = [](std::string line, const std::regex& what, auto written) {
    std::string result;
    std::smatch match;
    while (std::regex_search(line, match, what)) {
      result += match.prefix().str() + written(match[1].str());
      line = match.suffix().str();
    }
    return result + line;
  };
  return each_line(house, [&](const std::string& line) {
    // A range has its unit once, at its end; `g/ml` is another kind.
    if (is_text(line) || line.find('/') != std::string::npos || line.find('"') != std::string::npos ||
        line.find("..") != std::string::npos)
      return line;
    auto edited = replace(line, millilitres, [&](const std::string& n) { return moved(n, 1) + " cl"; });
    edited = replace(edited, grams, [&](const std::string& n) { return moved(n, 3) + " kg"; });
    return replace(edited, hours, [&](const std::string& n) {
      return n.find('.') == std::string::npos ? std::to_string(60 * std::stoi(n)) + " min" : n + " h";
    });
  });
}

void check_no_change(const Files& house, const Files& other) {
  auto pair = compare(house, other);
  INFO(pair.text());
  REQUIRE_FALSE(pair.before->has_errors());
  CHECK(pair.before->has_errors() == pair.after->has_errors());
  CHECK(pair.changes.empty());
}

const std::vector<std::string> houses = {"specs", "tests/diff/two_seasons/spring",
                                         "tests/diff/two_seasons/autumn"};

const std::string base_house = R"(house Test
  ounce 30 ml
ingredient barley spirit
  kind spirit
  strength 40 % abv
  aka grain spirit, clear barley
  allergen none
drink Candle
  glass coupe
  60 ml barley spirit
  22.5 ml lemon juice
  15 ml simple syrup
  shake 12 s
  double strain
  garnish lemon twist
)";

}  // namespace

TEST_CASE("a house against itself has no change", "[diff]") {
  for (const auto& folder : houses) {
    INFO(folder);
    check_no_change(house_in(folder), house_in(folder));
  }
}

TEST_CASE("layout, comments and blank lines are no change", "[diff]") {
  std::mt19937 random(11);
  for (const auto& folder : houses) {
    INFO(folder);
    for (int round = 0; round < 3; ++round)
      check_no_change(house_in(folder), reformatted(house_in(folder), random));
  }
}

TEST_CASE("the order of declarations and the files they stand in are no change", "[diff]") {
  std::mt19937 random(12);
  for (const auto& folder : houses)
    for (std::size_t files : {std::size_t(1), std::size_t(4), std::size_t(1000)}) {
      INFO(folder << " in " << files << " files");
      check_no_change(house_in(folder), shuffled_into_files(house_in(folder), random, files));
    }
}

TEST_CASE("equal amounts in other units are no change", "[diff]") {
  for (const auto& folder : houses) {
    INFO(folder);
    auto house = house_in(folder), other = in_other_units(house);
    CHECK(house != other);
    check_no_change(house, other);
  }
}

TEST_CASE("all of it at once is no change", "[diff]") {
  std::mt19937 random(13);
  for (const auto& folder : houses) {
    INFO(folder);
    auto house = house_in(folder);
    check_no_change(house, reformatted(shuffled_into_files(in_other_units(house), random, 5), random));
  }
}

TEST_CASE("two ounces are sixty millilitres where the house's ounce is thirty", "[diff]") {
  CHECK(compare(base_house, with(base_house, "60 ml", "2 oz")).changes.empty());
  CHECK(compare(base_house, with(base_house, "22.5 ml", "3/4 oz")).changes.empty());
  CHECK(compare(base_house, with(base_house, "15 ml", "½ oz")).changes.empty());
  CHECK(compare(base_house, with(base_house, "60 ml barley", "60 ml = 2 oz barley")).changes.empty());
  CHECK(compare(base_house, with(base_house, "12 s", "0.2 min")).changes.empty());
  // And are not where it is the American one, 29.57 ml (NIST Handbook 44, Appendix C).
  auto american = with(base_house, "ounce 30 ml", "ounce us oz");
  CHECK_FALSE(compare(american, with(american, "60 ml", "2 oz")).changes.empty());
}

TEST_CASE("an aka is the same name, and so is another case", "[diff]") {
  CHECK(compare(base_house, with(base_house, "60 ml barley spirit", "60 ml Clear  Barley")).changes.empty());
  CHECK(compare(base_house, with(base_house, "drink Candle", "drink CANDLE")).changes.empty());
  CHECK(compare(base_house, with(base_house, "  aka grain spirit, clear barley\n", "")).changes.empty());
}

TEST_CASE("like written out is no change", "[diff]") {
  std::string like = base_house + R"(drink Taper like Candle
  swap barley spirit -> London dry gin
  without simple syrup
  10 ml honey syrup
  shake 15 s
)";
  std::string written = base_house + R"(drink Taper
  glass coupe
  60 ml London dry gin
  22.5 ml lemon juice
  10 ml honey syrup
  shake 15 s
  double strain
  garnish lemon twist
)";
  auto pair = compare(like, written);
  INFO(pair.text());
  CHECK(pair.changes.empty());
  std::string stock_like = base_house + "ingredient strong barley like barley spirit\n  strength 55 % abv\n";
  std::string stock_written =
      base_house + "ingredient strong barley\n  kind spirit\n  strength 55 % abv\n  allergen none\n";
  CHECK(compare(stock_like, stock_written).changes.empty());
}

TEST_CASE("a new price list with the old prices changes nothing", "[diff]") {
  std::string spring = base_house + "prices spring 2026\n  barley spirit 700 ml for 24.00 EUR\n";
  std::string again = base_house + "prices autumn 2026\n  barley spirit 70 cl for 24 EUR\n";
  CHECK(compare(spring, again).changes.empty());
  // A list that another has followed says nothing any more.
  std::string both = spring + "prices winter 2025\n  barley spirit 700 ml for 20.00 EUR\n";
  CHECK(compare(spring, both).changes.empty());
}

TEST_CASE("two empty houses have no change", "[diff]") {
  CHECK(compare(std::string(), std::string()).changes.empty());
}

TEST_CASE("the order in which a shaker is filled is no change, the order in the glass is", "[diff]") {
  auto shaken = with(with(base_house, "  60 ml barley spirit\n", ""), "  15 ml simple syrup\n",
                     "  15 ml simple syrup\n  60 ml barley spirit\n");
  CHECK(compare(base_house, shaken).changes.empty());
  std::string built =
      "drink Wick\n  glass highball\n  build\n  45 ml vodka\n  20 ml lime juice\n  top 100 ml soda water\n";
  std::string other =
      "drink Wick\n  glass highball\n  build\n  20 ml lime juice\n  45 ml vodka\n  top 100 ml soda water\n";
  auto pair = compare(built, other);
  REQUIRE(pair.changes.drinks.size() == 1);
  CHECK(pair.changes.drinks[0].pour_order_changed);
}
