#include "importer/lone_labels.h"

#include <algorithm>
#include <utility>

#include "base/characters.h"
#include "base/text.h"
#include "importer/spec_labels.h"
#include "importer/step_words.h"

namespace gill::importer {
namespace {

class LoneLabels {
 public:
  LoneLabels(std::vector<SourceLine> lines, PhraseReader& reader)
      : lines_(std::move(lines)), reader_(reader) {}

  std::vector<SourceLine> joined() {
    std::vector<SourceLine> whole;
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      auto line = lines_[i];
      if (is_label(i) && names_tools(i) && is_value(i)) {
        line.text = word_of(i) + ":";
      } else if (is_label(i) && is_value(i)) {
        line.text = word_of(i) + ": " + lines_[i + 1].text;
        line.number = lines_[++i].number;
        line.heading = 0;
      }
      whole.push_back(std::move(line));
    }
    return whole;
  }

 private:
  std::string word_of(std::size_t i) const { return without_colon(lines_[i].text); }

  bool is_plain(std::size_t i) const {
    const auto& line = lines_[i];
    return line.cells.empty() && !line.is_table_head && !line.is_mail_head;
  }

  LabelRole role_of(std::size_t i) const {
    const auto label = label_of(word_of(i) + ":");
    if (label.role == LabelRole::name && base::fold_name(word_of(i)) != "name") return LabelRole::none;
    return label.rest.empty() ? label.role : LabelRole::none;
  }

  bool is_label(std::size_t i) const {
    return is_plain(i) && i + 1 < lines_.size() && is_plain(i + 1) && lines_[i + 1].heading == 0 &&
           role_of(i + 1) == LabelRole::none && label_of(lines_[i + 1].text).role == LabelRole::none;
  }

  std::vector<Phrase> read(std::size_t i, LabelRole role) {
    const auto& text = lines_[i].text;
    return reader_.read({{text, 0}, role, text}, {});
  }

  /// All of it is what the label says.
  bool reads_as(std::size_t i, PhraseKind kind) {
    auto phrases = read(i, LabelRole::none);
    return !phrases.empty() && std::all_of(phrases.begin(), phrases.end(), [&](const Phrase& one) {
      return one.kind == kind && one.is_read();
    });
  }

  bool is_read_behind(std::size_t i, LabelRole role, std::string_view keyword) {
    auto phrases = read(i, role);
    return phrases.size() == 1 && phrases.front().gill.starts_with(keyword);
  }

  bool begins_with_number(std::size_t i) const {
    return i < lines_.size() && base::is_digit(lines_[i].text.front());
  }

  /// A name with its amounts below it, where a paragraph begins.
  bool may_be_name(std::size_t label) const {
    return (lines_[label].after_blank || lines_[label + 1].after_blank) && begins_with_number(label + 2);
  }

  /// `Equipment`, above the glass.
  bool names_tools(std::size_t i) {
    const auto word = base::fold_name(word_of(i));
    return (word == "equipment" || word == "tools") && reads_as(i + 1, PhraseKind::glass);
  }

  bool is_value(std::size_t label) {
    const std::size_t value = label + 1;
    const auto& text = lines_[value].text;
    switch (role_of(label)) {
      case LabelRole::glass:
        return reads_as(value, PhraseKind::glass) || is_words_of(label);
      case LabelRole::garnish:
        return reads_as(value, PhraseKind::garnish) ||
               (begins_with_number(value) ? reader_.poured_thing_of(text).empty() && !may_be_name(label)
                                          : is_words_of(label));
      case LabelRole::remark:
        return !may_be_name(label) && reader_.poured_thing_of(text).empty();
      case LabelRole::name:
        return !begins_with_number(value);
      case LabelRole::ice:
        return is_read_behind(value, LabelRole::ice, "ice ");
      case LabelRole::rim:
        return is_read_behind(value, LabelRole::rim, "rim ");
      case LabelRole::makes:
        return is_read_behind(value, LabelRole::makes, "makes ");
      case LabelRole::serves:
        return is_read_behind(value, LabelRole::serves, "serves ");
      case LabelRole::keeps:
        return is_read_behind(value, LabelRole::keeps, "keeps ");
      case LabelRole::none:
      case LabelRole::method:
      case LabelRole::amounts:
      case LabelRole::place:
        return false;
    }
    return false;
  }

  /// Words that nobody knows, where they can be what the label says.
  bool is_words_of(std::size_t label) {
    const auto& text = lines_[label + 1].text;
    return !may_be_name(label) && !begins_with_number(label + 1) && looks_like_a_name(text) &&
           !begins_with_verb(base::fold_name(text)) && !reads_as(label + 1, PhraseKind::step);
  }

  std::vector<SourceLine> lines_;
  PhraseReader& reader_;
};

}  // namespace

std::vector<SourceLine> with_their_values(std::vector<SourceLine> lines, PhraseReader& reader) {
  return LoneLabels(std::move(lines), reader).joined();
}

}  // namespace gill::importer
