#include "render/document/page_names.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>

#include "base/characters.h"
#include "base/text.h"

namespace gill::render::document {
namespace {

constexpr std::size_t longest_name = 60;

struct Latin {
  std::string_view marked;
  std::string_view plain;
};

// The letters of the Latin-1 Supplement, Latin Extended-A and a few beyond, in lower case (Unicode Standard),
// by what is left without their marks.
constexpr std::array<Latin, 31> latin_letters = {{
    {"àáâãäåāăąǎ", "a"}, {"æǽ", "ae"},         {"çćĉċč", "c"},
    {"ďđð", "d"},        {"èéêëēĕėęěẽ", "e"},  {"ĝğġģ", "g"},
    {"ĥħ", "h"},         {"ìíîïĩīĭįıǐ", "i"},  {"ĳ", "ij"},
    {"ĵ", "j"},          {"ķĸ", "k"},          {"ĺļľŀł", "l"},
    {"ñńņňŉŋ", "n"},     {"òóôõöøōŏőơǒ", "o"}, {"œ", "oe"},
    {"ŕŗř", "r"},        {"śŝşšșſ", "s"},      {"ß", "ss"},
    {"ţťŧț", "t"},       {"þ", "th"},          {"ùúûüũūŭůűųưǔ", "u"},
    {"ŵẁẃẅ", "w"},       {"ýÿŷỳỹ", "y"},       {"źżž", "z"},
    {"½", "1-2"},        {"¼", "1-4"},         {"¾", "3-4"},
    {"²", "2"},          {"³", "3"},           {"º", "o"},
    {"ª", "a"},
}};

/// The plain form of the code point that the text begins with, and how many bytes that takes; empty when it
/// has none.
std::string_view plain_of(std::string_view text, std::size_t& length) {
  length = 1;
  while (length < text.size() && (static_cast<unsigned char>(text[length]) & 0xc0) == 0x80) ++length;
  std::string_view letter = text.substr(0, length);
  for (const auto& entry : latin_letters)
    if (entry.marked.find(letter) != std::string_view::npos) return entry.plain;
  return {};
}

bool is_plain(char c) { return (c >= 'a' && c <= 'z') || base::is_digit(c); }

/// Apostrophes and combining marks leave no gap.
bool is_silent(std::string_view letter) {
  if (letter == "’" || letter == "'") return true;
  return letter.size() == 2 &&
         (letter[0] == '\xcc' || (letter[0] == '\xcd' && static_cast<unsigned char>(letter[1]) < 0xb0));
}

bool is_device_name(std::string_view name) {
  static constexpr std::array<std::string_view, 4> whole = {"con", "prn", "aux", "nul"};
  for (auto device : whole)
    if (name == device) return true;
  return name.size() == 4 && (name.starts_with("com") || name.starts_with("lpt")) && base::is_digit(name[3]);
}

/// FNV-1a, 32 bits: the same number for a name on every machine.
std::uint32_t number_of(std::string_view text) {
  std::uint32_t hash = 2166136261u;
  for (char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 16777619u;
  return hash;
}

}  // namespace

std::string plain_file_name(std::string_view name) {
  std::string folded = base::fold_name(name), result;
  bool gap = false;
  for (std::size_t at = 0; at < folded.size() && result.size() < longest_name;) {
    std::size_t length = 1;
    std::string_view piece;
    if (is_plain(folded[at]))
      piece = std::string_view(folded).substr(at, 1);
    else
      piece = plain_of(std::string_view(folded).substr(at), length);
    if (piece.empty() && !is_silent(std::string_view(folded).substr(at, length))) gap = true;
    if (!piece.empty()) {
      if (gap && !result.empty()) result += '-';
      gap = false;
      result += piece;
    }
    at += length;
  }
  if (result.size() > longest_name) result.resize(longest_name);
  while (result.ends_with('-')) result.pop_back();
  if (result.empty()) return fmt::format("n{:08x}", number_of(folded));
  return is_device_name(result) ? result + "-page" : result;
}

std::string PageNames::take(std::string_view name) {
  std::string plain = plain_file_name(name), candidate = plain;
  for (int n = 2; !taken_.insert(candidate).second; ++n) candidate = fmt::format("{}-{}", plain, n);
  return candidate;
}

std::string path_to_root(std::string_view page_path) {
  std::string root;
  for (auto slashes = std::count(page_path.begin(), page_path.end(), '/'); slashes > 0; --slashes)
    root += "../";
  return root;
}

}  // namespace gill::render::document
