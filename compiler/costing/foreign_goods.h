#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// The goods of a bar in German, French, Spanish and Italian (`foreign_goods.def`).
namespace gill::costing {

/// What a card or a list in one of these languages calls a good, in the library's words; empty for any other
/// words. Articles before it do not matter.
std::string_view english_good(std::string_view words);

/// Folded, with the straight apostrophe.
std::string folded_plainly(std::string_view words);
/// Without an article or a preposition of these languages at the start.
std::string without_foreign_article(std::string words);

/// The whole table, foreign and English.
std::vector<std::pair<std::string_view, std::string_view>> foreign_goods();

}  // namespace gill::costing
