#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace gill::base {

/// The byte offset of the first byte that is no part of valid UTF-8 or is a control character other than tab;
/// nothing when the text is sound.
std::optional<std::size_t> first_bad_byte(std::string_view text);

/// How many code points the text holds (every byte that starts none counts as one).
std::size_t count_code_points(std::string_view text);

/// How many terminal columns the text takes (wide scripts count two, marks none).
std::size_t display_width(std::string_view text);

/// The form in which names are compared: NFC, without case, runs of white space as one space, `'` as `’`.
std::string fold_name(std::string_view text);

/// `fold_name` without accents and other marks on letters: `Désignation` and `DESIGNATION` are `designation`.
std::string fold_without_accents(std::string_view text);

/// The text with runs of white space (also non-breaking) as one space, and none at the ends.
std::string collapse_space(std::string_view text);
/// The words of a text, folded: runs of letters and digits, whatever stands between them.
std::vector<std::string> folded_words(std::string_view text);

/// The text without white space at either end.
std::string_view trim(std::string_view text);

/// True when both are equal but for the case of ASCII letters.
bool equals_ignoring_case(std::string_view a, std::string_view b);

/// The text with ASCII letters in lower case.
std::string lower_ascii(std::string_view text);

/// The text with its first letter as a capital, where that is an ASCII letter.
std::string capitalised(std::string text);

/// Single-letter changes (insert, delete, replace, swap of neighbours) between two texts; stops counting past
/// `limit`.
std::size_t edit_distance(std::string_view a, std::string_view b, std::size_t limit);

/// Which bytes stand in a text, each by its last six bits: what has other bytes is another text.
std::uint64_t bytes_in(std::string_view text);

/// Keeps the candidate that is nearest to a word and near enough to be worth offering.
class NearestWord {
 public:
  explicit NearestWord(std::string_view word);
  /// Considers one candidate; both sides should be folded alike. `shown` is what is offered.
  void consider(std::string_view candidate, std::string_view shown) {
    consider(candidate, bytes_in(candidate), shown);
  }
  /// The same where the candidate's `bytes_in` is known.
  void consider(std::string_view candidate, std::uint64_t bytes, std::string_view shown);
  /// The nearest, or nothing when none is near.
  const std::optional<std::string>& best() const { return best_; }

 private:
  std::string word_;
  /// Which bytes stand in it.
  std::uint64_t bytes_;
  std::size_t best_distance_;
  std::optional<std::string> best_;
};

/// `a, b and c`.
std::string join_with_and(const std::vector<std::string>& parts);
/// `a, b or c`.
std::string join_with_or(const std::vector<std::string>& parts);
/// The parts with `separator` between them.
std::string join(const std::vector<std::string>& parts, std::string_view separator);

/// `a` or `an`, by the first letter of the word.
std::string_view article(std::string_view word);

}  // namespace gill::base
