#include "base/text.h"

#include <utf8proc.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cstdlib>

namespace gill::base {
namespace {

bool is_ascii(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

utf8proc_int32_t next_code_point(std::string_view text, std::size_t at, std::size_t& length) {
  utf8proc_int32_t code_point = -1;
  auto n = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data() + at),
                            static_cast<utf8proc_ssize_t>(text.size() - at), &code_point);
  length = n > 0 ? static_cast<std::size_t>(n) : 1;
  return n > 0 ? code_point : -1;
}

bool is_space_at(std::string_view text, std::size_t at, std::size_t& length) {
  char c = text[at];
  if (c == ' ' || c == '\t' || c == '\r' || c == '\n') return length = 1, true;
  if (text.substr(at).starts_with("\u00a0")) return length = 2, true;
  return false;
}

/// True when the only white space is single spaces between words: most text is so already.
bool is_collapsed(std::string_view text) {
  bool after_space = true;
  for (char c : text) {
    bool is_space = c == ' ';
    if ((is_space && after_space) || c == '\t' || c == '\r' || c == '\n' || c == '\xc2') return false;
    after_space = is_space;
  }
  return !after_space || text.empty();
}

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

std::string mapped(std::string_view text, int what) {
  utf8proc_uint8_t* folded = nullptr;
  auto options = static_cast<utf8proc_option_t>(what);
  auto length = utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                             static_cast<utf8proc_ssize_t>(text.size()), &folded, options);
  if (length < 0) return std::string(text);
  std::string result(reinterpret_cast<char*>(folded), static_cast<std::size_t>(length));
  std::free(folded);
  return result;
}

std::string case_fold_and_compose(std::string_view text) {
  return mapped(text, UTF8PROC_STABLE | UTF8PROC_COMPOSE | UTF8PROC_CASEFOLD);
}

std::string join_with(const std::vector<std::string>& parts, std::string_view last) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) text += i + 1 == parts.size() ? std::string(last) : std::string(", ");
    text += parts[i];
  }
  return text;
}

}  // namespace

std::optional<std::size_t> first_bad_byte(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    auto byte = static_cast<unsigned char>(text[at]);
    if (byte < 0x80) {
      if ((byte < 0x20 && byte != '\t') || byte == 0x7f) return at;
      ++at;
      continue;
    }
    std::size_t length = 0;
    auto code_point = next_code_point(text, at, length);
    if (code_point < 0 || (code_point >= 0x80 && code_point < 0xa0)) return at;
    at += length;
  }
  return std::nullopt;
}

std::size_t count_code_points(std::string_view text) {
  std::size_t n = 0;
  for (char c : text) n += (static_cast<unsigned char>(c) & 0xc0) != 0x80 ? 1 : 0;
  return n;
}

std::size_t display_width(std::string_view text) {
  if (is_ascii(text)) return text.size();
  std::size_t width = 0;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t length = 0;
    auto code_point = next_code_point(text, at, length);
    width += code_point < 0 ? 1 : static_cast<std::size_t>(std::max(0, utf8proc_charwidth(code_point)));
    at += length;
  }
  return width;
}

std::vector<std::string> folded_words(std::string_view text) {
  std::vector<std::string> words(1);
  for (char c : fold_name(text)) {
    auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) || byte >= 0x80)
      words.back() += c;
    else if (!words.back().empty())
      words.emplace_back();
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

std::string collapse_space(std::string_view text) {
  if (is_collapsed(text)) return std::string(text);
  std::string result;
  result.reserve(text.size());
  bool pending = false;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t length = 0;
    if (is_space_at(text, at, length)) {
      pending = !result.empty();
      at += length;
      continue;
    }
    if (pending) result += ' ';
    pending = false;
    result += text[at++];
  }
  return result;
}

std::string_view trim(std::string_view text) {
  std::size_t length = 0;
  while (!text.empty() && is_space_at(text, 0, length)) text.remove_prefix(length);
  while (!text.empty()) {
    if (is_space_at(text, text.size() - 1, length)) {
      text.remove_suffix(1);
    } else if (text.ends_with("\u00a0")) {
      text.remove_suffix(2);
    } else {
      break;
    }
  }
  return text;
}

std::string fold_name(std::string_view text) {
  std::string collapsed = collapse_space(text);
  std::string result;
  result.reserve(collapsed.size() + 4);
  for (char c : collapsed) {
    if (c == '\'') {
      result += "’";
    } else {
      result += lower(c);
    }
  }
  return is_ascii(collapsed) ? result : case_fold_and_compose(result);
}

std::string fold_without_accents(std::string_view text) {
  std::string folded = fold_name(text);
  return is_ascii(folded) ? folded : mapped(folded, UTF8PROC_STABLE | UTF8PROC_COMPOSE | UTF8PROC_STRIPMARK);
}

bool equals_ignoring_case(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return lower(x) == lower(y); });
}

std::string lower_ascii(std::string_view text) {
  std::string result(text);
  std::transform(result.begin(), result.end(), result.begin(), lower);
  return result;
}

std::string capitalised(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::uint64_t bytes_in(std::string_view text) {
  std::uint64_t found = 0;
  for (char c : text) found |= std::uint64_t{1} << (static_cast<unsigned char>(c) & 63U);
  return found;
}

namespace {

/// No fewer changes lead from one text to the other: one takes at most one byte away and brings one.
std::size_t least_distance(std::uint64_t bytes_of_one, std::uint64_t bytes_of_other) {
  return static_cast<std::size_t>(
      std::max(std::popcount(bytes_of_one & ~bytes_of_other), std::popcount(bytes_of_other & ~bytes_of_one)));
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b, std::size_t limit) {
  if (a.size() > b.size()) std::swap(a, b);
  if (b.size() - a.size() > limit) return limit + 1;
  // Three rows of the usual table: two back for swaps of neighbours. What lies farther from the diagonal than
  // the limit is beyond it.
  const std::size_t width = b.size() + 1, beyond = limit + 1;
  std::array<std::size_t, 3 * 65> small{};
  std::vector<std::size_t> large(3 * width > small.size() ? 3 * width : 0);
  std::size_t* rows = large.empty() ? small.data() : large.data();
  std::size_t *before = rows, *last = rows + width, *row = rows + 2 * width;
  for (std::size_t j = 0; j < width; ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    const std::size_t first = i > limit ? i - limit : 1, end = std::min(b.size(), i + limit);
    row[first - 1] = first == 1 ? i : beyond;
    if (i > 1 && end == i + limit) last[end] = beyond;
    std::size_t minimum = row[first - 1];
    for (std::size_t j = first; j <= end; ++j) {
      std::size_t replace = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({replace, last[j] + 1, row[j - 1] + 1});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        row[j] = std::min(row[j], before[j - 2] + 1);
      minimum = std::min(minimum, row[j]);
    }
    if (minimum > limit) return beyond;
    std::swap(before, last);
    std::swap(last, row);
  }
  return std::min(last[b.size()], beyond);
}

NearestWord::NearestWord(std::string_view word)
    // A third of the letters may differ, and of a lone letter none: more is a guess.
    : word_(word.substr(0, 200)),
      bytes_(bytes_in(word_)),
      best_distance_(word_.size() < 2 ? 1 : std::max<std::size_t>(1, word_.size() / 3) + 1) {}

void NearestWord::consider(std::string_view candidate, std::uint64_t bytes, std::string_view shown) {
  auto longer = std::max(candidate.size(), word_.size()) - std::min(candidate.size(), word_.size());
  if (longer >= best_distance_ || least_distance(bytes_, bytes) >= best_distance_) return;
  auto distance = edit_distance(word_, candidate, best_distance_ - 1);
  if (distance >= best_distance_) return;
  best_distance_ = distance;
  best_ = std::string(shown);
}

std::string join_with_and(const std::vector<std::string>& parts) { return join_with(parts, " and "); }
std::string join_with_or(const std::vector<std::string>& parts) { return join_with(parts, " or "); }

std::string join(const std::vector<std::string>& parts, std::string_view separator) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) text += separator;
    text += parts[i];
  }
  return text;
}

std::string_view article(std::string_view word) {
  return !word.empty() && std::string_view("aeiouAEIOU").find(word[0]) != std::string_view::npos ? "an" : "a";
}

}  // namespace gill::base
