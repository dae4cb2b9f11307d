#include "importer/words_kept.h"

#include <algorithm>
#include <cctype>
#include <set>

#include "base/characters.h"
#include "base/text.h"
#include "importer/ingredient_line.h"

namespace gill::importer {
namespace {

/// Signs beyond ASCII that are no letters.
constexpr std::string_view signs[] = {"–", "—", "•", "·", "▪", "▫", "◦", "○", "●", "■", "□", "☐", "☑",
                                      "☒", "✓", "→", "‣", "…", "°", "’", "‘", "“", "”", "×", "⁄", "\xC2\xA0"};

std::multiset<std::string> words_of(std::string_view line) {
  std::string text = base::fold_name(with_plain_fractions(line));
  for (auto sign : signs)
    for (auto at = text.find(sign); at != std::string::npos; at = text.find(sign, at))
      text.replace(at, sign.size(), 1, ' ');
  std::multiset<std::string> words;
  std::string word;
  auto end_word = [&] {
    if (!word.empty()) words.insert(word);
    word.clear();
  };
  for (char c : text) {
    bool digit = base::is_digit(c);
    bool letter = std::isalpha(static_cast<unsigned char>(c)) || static_cast<unsigned char>(c) >= 0x80;
    if (!digit && !letter) end_word();
    if (!word.empty() && base::is_digit(word.back()) != digit) end_word();
    if (digit || letter) word += c;
  }
  end_word();
  words.erase("and");
  return words;
}

}  // namespace

bool keeps_all_words(std::string_view source, std::string_view written) {
  auto asked = words_of(source), there = words_of(written);
  return std::includes(there.begin(), there.end(), asked.begin(), asked.end());
}

}  // namespace gill::importer
