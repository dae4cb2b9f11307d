// Each form of one season's change, compared with what stands beside the two houses. GILL_UPDATE=1 in the
// environment rewrites them; the review of that difference is the test. Figures that the model works out are
// written as `#`: they have tests of their own, and here the form is meant.
#include <catch2/catch.hpp>
#include <regex>
#include <sstream>

#include "diff/pair.h"
#include "support/golden.h"

using namespace gill;
using namespace gill::testing;

namespace {

const std::string folder = GILL_SOURCE_DIR "/tests/diff/two_seasons/";

std::string without_figures(const std::string& line) {
  static const std::regex number("(-|[+]|−)?[0-9]+([.][0-9]+)?"), gap(" {2,}|-{3,}");
  return std::regex_replace(std::regex_replace(line, number, "#"), gap, "  ");
}

/// Masks the figures in lines between one that `begins` and the next blank one, and in those that tell of
/// figures in a row.
std::string masked(const std::string& text, const std::regex& begins) {
  static const std::regex in_a_row(
      "(beyond|within) tolerance|(cost|price|sugar|volume|yield|density|dilution)[^|]* → ");
  std::istringstream lines(text);
  std::string result;
  bool inside = false;
  for (std::string line; std::getline(lines, line);) {
    inside = !line.empty() && (inside || std::regex_search(line, begins));
    bool is_figure = inside || std::regex_search(line, in_a_row);
    result += (is_figure ? without_figures(line) : line) + "\n";
  }
  return result;
}

/// A page without its style sheet and its drawings, which are the book's.
std::string page_masked(const std::string& html) {
  static const std::regex style("<style>[^]*?</style>"), drawing("<svg[^]*?</svg>"),
      block_end("(</tr>|</table>|</section>|</li>|</p>|</h[1-6]>|</figure>)");
  auto text = std::regex_replace(html, style, "<style/>");
  text = std::regex_replace(text, drawing, "<svg/>");
  // One block a line, so that a difference can be read.
  text = std::regex_replace(text, block_end, "$1\n");
  std::istringstream lines(text);
  std::string result;
  for (std::string line; std::getline(lines, line);)
    if (!line.empty()) result += line + "\n";
  return result;
}

const Pair& seasons() {
  static const Pair pair =
      compare(house_in("tests/diff/two_seasons/spring"), house_in("tests/diff/two_seasons/autumn"));
  return pair;
}

}  // namespace

TEST_CASE("a season as terminal text", "[diff][golden]") {
  compare_with_golden(folder + "changes.txt",
                      masked(seasons().text(), std::regex("^ *What follows|^- .* \\(because of")));
}

TEST_CASE("a season as Markdown", "[diff][golden]") {
  compare_with_golden(folder + "changes.md",
                      masked(seasons().markdown(), std::regex("difference|comes to|\\(because of")));
}

TEST_CASE("a season as a page", "[diff][golden]") {
  auto page = page_masked(seasons().html());
  // The tables of figures: every row that names one.
  static const std::regex row(
      "<tr><th[^>]*>(volume|strength|sugar|acid|sugar to acid|temperature|dilution|fill of the "
      "glass|cost|cost a litre|cost a "
      "kilo|pour cost|yield|loss|dissolved solids|density|fat|keeps)<");
  std::istringstream lines(page);
  std::string result;
  for (std::string line; std::getline(lines, line);)
    result +=
        (std::regex_search(line, row) || line.find("(because of") != std::string::npos ? without_figures(line)
                                                                                       : line) +
        "\n";
  compare_with_golden(folder + "changes.html", result);
}

TEST_CASE("a season as JSON", "[diff][golden]") {
  auto json = nlohmann::ordered_json::parse(diff::to_json(seasons().changes));
  for (auto* list : {"drinks", "preps", "ingredients"})
    for (auto& change : json[list]) {
      for (auto* key : {"facts", "cost"})
        for (auto& pair : change[key])
          for (auto* one : {&pair, pair.is_array() ? &pair[0] : &pair, pair.is_array() ? &pair[1] : &pair})
            if (one->is_number()) *one = "#";
      if (change.contains("guess")) change["guess"] = "#";
      if (!change.contains("ingredients")) continue;
      for (auto& line : change["ingredients"])
        for (auto* key : {"volume_ml", "mass_g"})
          for (auto& one : line[key])
            if (one.is_number()) one = "#";
    }
  compare_with_golden(folder + "changes.json", json.dump(1) + "\n");
}

TEST_CASE("a season as a retraining sheet", "[diff][golden]") {
  auto sheet = seasons().staff();
  auto page = diff::staff_page(sheet);
  compare_with_golden(folder + "retraining.txt", diff::to_text(page, false));
  compare_with_golden(folder + "retraining.md", diff::to_markdown(page));
  compare_with_golden(folder + "retraining.json", diff::to_json(sheet));
}
