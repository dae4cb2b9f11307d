#include "importer/message_heads.h"

#include <algorithm>
#include <array>
#include <utility>

#include "base/characters.h"
#include "base/text.h"
#include "importer/spec_labels.h"

namespace gill::importer {
namespace {

/// Reads a head from left to right; each function is false where what it takes does not stand there.
class HeadCursor {
 public:
  explicit HeadCursor(std::string_view text) : text_(text) {}

  std::size_t at() const { return at_; }
  std::string_view rest() const { return text_.substr(at_); }

  bool take(std::string_view words) {
    if (!base::equals_ignoring_case(rest().substr(0, words.size()), words)) return false;
    at_ += words.size();
    return true;
  }
  template <typename Words>
  bool take_any(const Words& words) {
    return std::any_of(words.begin(), words.end(), [&](std::string_view one) { return take(one); });
  }
  /// Spaces, also hard ones; true where any stood.
  bool take_space() {
    const auto before = at_;
    while (take_any(std::to_array<std::string_view>({" ", "\u00A0", "\u202F"})))
      ;
    return at_ > before;
  }
  bool take_digits(std::size_t fewest, std::size_t most) {
    std::size_t digits = 0;
    while (digits < rest().size() && base::is_digit(rest()[digits])) ++digits;
    if (digits < fewest || digits > most) return false;
    at_ += digits;
    return true;
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
};

/// `12.10.26`, `10/12/2026`, `2026-10-12`.
bool take_date(HeadCursor& cursor) {
  constexpr auto signs = std::to_array<std::string_view>({".", "/", "-"});
  return cursor.take_digits(1, 4) && cursor.take_any(signs) && cursor.take_digits(1, 2) &&
         cursor.take_any(signs) && cursor.take_digits(2, 4);
}

/// `18:05`, `18:05:33`, `6:05 PM`.
bool take_time(HeadCursor& cursor) {
  constexpr auto signs = std::to_array<std::string_view>({":", "."});
  if (!cursor.take_digits(1, 2) || !cursor.take_any(signs) || !cursor.take_digits(2, 2)) return false;
  if (cursor.take(":")) cursor.take_digits(2, 2);
  auto behind = cursor;
  behind.take_space();
  if (behind.take_any(std::to_array<std::string_view>({"AM", "PM", "a.m.", "p.m.", "a. m.", "p. m.", "Uhr"})))
    cursor = behind;
  return true;
}

/// The bytes of who sent it up to the text, with the colon behind; 0 where nobody is named.
std::size_t sender_at(std::string_view text) {
  constexpr std::size_t longest_sender = 40;
  auto colon = text.find(':');
  if (colon == 0 || colon > longest_sender) return 0;
  if (colon + 1 < text.size() && text[colon + 1] != ' ') return 0;
  return colon + 1;
}

/// The bytes of the head of a chat's message; 0 where none stands. A notice of the chat itself (who came, who
/// left) is a head as a whole.
std::size_t chat_head_at(std::string_view text) {
  HeadCursor cursor(text);
  const bool is_bracketed = cursor.take("[");
  if (!take_date(cursor)) return 0;
  const bool has_comma = cursor.take(",") || cursor.take("T");
  if ((!cursor.take_space() && !has_comma) || !take_time(cursor)) return 0;
  bool is_parted = is_bracketed && cursor.take("]");
  if (is_bracketed && !is_parted) return 0;
  const bool has_space = cursor.take_space();
  if (cursor.take_any(std::to_array<std::string_view>({"- ", "– ", "— "})))
    is_parted = true;
  else if (!is_parted && !has_space)
    return 0;
  if (auto sender = sender_at(cursor.rest()); sender > 0) return cursor.at() + sender;
  if (!is_parted) return 0;
  const auto rest = cursor.rest();
  return std::any_of(rest.begin(), rest.end(), base::is_digit) ? cursor.at() : text.size();
}

/// `sure! Reed Cutter:`: the bytes of what is said before the name of a drink.
std::size_t greeting_at(std::string_view text) {
  auto colon = text.find(':');
  if (colon == std::string_view::npos) return 0;
  std::size_t behind = 0;
  for (std::string_view end : {"! ", "? ", ". "})
    if (auto at = text.substr(0, colon).rfind(end); at != std::string_view::npos)
      behind = std::max(behind, at + end.size());
  const std::string name(text.substr(behind, colon - behind));
  return is_title_case(name) && looks_like_a_name(name) ? behind : 0;
}

/// How a mail begins that quotes another, and what ends that line, in the languages of kitchens (common
/// practice, no source).
bool says_who_wrote(const std::string& text) {
  static constexpr auto begins = std::to_array<std::pair<std::string_view, std::string_view>>(
      {{"on ", "wrote"}, {"am ", "schrieb"}, {"le ", "a écrit"}, {"el ", "escribió"}, {"il ", "ha scritto"}});
  const std::string folded = base::fold_name(text);
  if (!base::trim(folded).ends_with(':') || std::none_of(folded.begin(), folded.end(), base::is_digit))
    return false;
  return std::any_of(begins.begin(), begins.end(), [&](const auto& one) {
    return folded.starts_with(one.first) && folded.find(one.second) != std::string::npos;
  });
}

/// `----- Original Message -----`
bool parts_messages(const std::string& text) {
  if (!text.starts_with("--") || !text.ends_with("--")) return false;
  const std::string folded = base::fold_name(text);
  for (std::string_view word : {"message", "nachricht", "mensaje", "messaggio"})
    if (folded.find(word) != std::string::npos) return true;
  return false;
}

class MessageParter {
 public:
  explicit MessageParter(std::vector<RawLine> lines) : lines_(std::move(lines)) {}

  std::vector<RawLine> part() {
    for (std::size_t i = 0; i < lines_.size(); ++i) take(i);
    return std::move(parted_);
  }

 private:
  std::string text_at(std::size_t i) const {
    return i < lines_.size() ? std::string(base::trim(lines_[i].text)) : std::string();
  }

  void take(std::size_t& i) {
    const auto text = text_at(i);
    if (auto head = chat_head_at(text); head > 0) {
      const auto said = base::trim(std::string_view(text).substr(head));
      const auto greeting = greeting_at(said);
      add_head(text.substr(0, head) + (greeting > 0 ? " " : "") +
                   std::string(base::trim(said.substr(0, greeting))),
               lines_[i].number);
      if (greeting < said.size()) add({std::string(said.substr(greeting)), lines_[i].number});
    } else if (says_who_wrote(text) || parts_messages(text)) {
      add_head(text, lines_[i].number);
    } else if (!text.empty() && !text_at(i + 1).empty() && says_who_wrote(text + " " + text_at(i + 1))) {
      add_head(text, lines_[i].number);
      add_head(text_at(i + 1), lines_[i + 1].number);
      ++i;
    } else {
      add(std::move(lines_[i]));
    }
  }

  void add_head(std::string text, std::size_t number) {
    parted_.push_back({std::move(text), number, true, true});
    is_below_head_ = true;
  }
  void add(RawLine line) {
    line.begins_paragraph = line.begins_paragraph || is_below_head_;
    is_below_head_ = false;
    parted_.push_back(std::move(line));
  }

  std::vector<RawLine> lines_, parted_;
  bool is_below_head_ = false;
};

}  // namespace

std::vector<RawLine> with_message_heads_apart(std::vector<RawLine> lines) {
  return MessageParter(std::move(lines)).part();
}

}  // namespace gill::importer
