#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "costing/name_finder.h"
#include "importer/ingredient_line.h"
#include "importer/old_spec.h"
#include "importer/phrasebook.h"

namespace gill::importer {

enum class PhraseKind : std::uint8_t {
  amount,
  pour,  ///< what tops or rinses, named among the amounts
  step,  ///< a line of the language's own, whatever it says
  glass,
  glass_state,  ///< `frozen glass`: how a glass that is named elsewhere comes
  garnish,
  served,  ///< `serve`: says nothing that every drink does not
  unread
};

/// A part of a line, and what the language has for it.
struct Phrase {
  PhraseKind kind = PhraseKind::unread;
  std::string written;
  /// The line of Gill; empty where there is none.
  std::string gill;
  /// What a person must look at, as a full sentence; empty where nothing.
  std::string doubt;
  /// A number with no unit, of something that is poured.
  bool is_bare = false;
  /// Words that the language asks about, and the line with an answer to each.
  std::vector<std::string> asks = {};
  std::string answered = {};
  /// A share of the drink's size.
  bool is_of_parts = false;

  bool is_read() const {
    return !gill.empty() || kind == PhraseKind::served || kind == PhraseKind::glass_state;
  }
};

/// Where a line stands.
struct PhrasePlace {
  bool in_prep = false;
  /// What was mixed stands above: a fruit without an amount lies on it.
  bool after_steps = false;
};

bool is_any(const std::vector<Phrase>& phrases, PhraseKind kind);
bool is_any_read(const std::vector<Phrase>& phrases);

/// Takes lines of old specs apart, each part into a line that the language reads, where there is one.
class PhraseReader {
 public:
  /// `numbers` is the unit that bare numbers mean, or empty.
  PhraseReader(const House& house, Phrasebook& phrases, std::string_view numbers);

  std::vector<Phrase> read(const OldPart& part, PhrasePlace place);
  /// A list parted by commas, slashes, bars or plus signs, of which two or more are amounts, or one is and
  /// the others are read; nothing where the line is none.
  std::vector<std::string> parted(const std::string& text, PhrasePlace place);
  /// True of a number with a unit, or of something that the house knows: `2 Lemons`, not `2 Left Feet`.
  bool is_known_amount(const std::string& words) const;
  /// True where the thing of a measure is the house's: `Pinch of Salt`, not `Pinch Me`.
  bool names_a_known_thing(const std::string& words) const;
  /// What the house calls the thing of `60 ml soda water`; empty where that is no volume of one.
  std::string poured_thing_of(const std::string& amount) const;
  /// The same of `top with soda`; empty where an amount stands there.
  std::string topped_thing_of(const std::string& step) const;
  /// True of `double strain into a coupe`, `in a chilled flute`: what stands behind is a glass.
  bool goes_into_a_glass(const std::string& clause);
  /// True of `demerara 125ml`: a volume or a mass stands behind the words.
  bool ends_with_measure(const std::string& words) const;
  /// True where the words are something of the house.
  bool is_stock(const std::string& words) const;
  /// What the language lets a word mean that it asks about.
  const std::vector<std::string>& answers_to(const std::string& word) const {
    return house_.specs.house.asks.at(word);
  }

 private:
  std::vector<Phrase> read_steps_with_dashes(const std::string& text, PhrasePlace place);
  std::vector<Phrase> read_priced(const std::string& text, PhrasePlace place);
  std::vector<Phrase> read_steps_behind_amount(const std::string& text, PhrasePlace place);
  bool is_list(const std::vector<std::string>& parts, PhrasePlace place);
  bool says_measure(const std::string& part) const;
  std::vector<Phrase> read_part(const OldPart& part, PhrasePlace place);
  std::pair<std::string, std::vector<std::string>> answered(const std::string& text) const;
  std::string longest_name_at(const std::string& folded, std::size_t at) const;
  PhraseUse use_of(const std::string& text, PhrasePlace place) const;
  bool reads(PhraseUse use, const std::string& text);
  std::vector<Phrase> read_line(const std::string& text, PhrasePlace place);
  std::optional<Phrase> read_amount(const std::string& text, PhrasePlace place);
  std::optional<Phrase> read_known_amount(const IngredientLine& line, const std::string& text,
                                          const std::string& written, PhrasePlace place, bool is_bare);
  std::optional<Phrase> read_warm_amount(const IngredientLine& line, const std::string& written,
                                         PhrasePlace place, bool is_bare);
  std::optional<Phrase> read_one_measure(IngredientLine line, const std::string& text,
                                         const std::string& written, PhrasePlace place);
  Phrase read_unknown_amount(const IngredientLine& line, const std::string& text, PhrasePlace place);
  std::string with_number_first(const std::string& text) const;
  std::string with_unit(const std::string& written, bool& is_bare) const;
  bool is_small(const std::string& number) const;
  bool is_poured(const IngredientLine& line, const std::string& number) const;
  std::vector<Phrase> read_sentence(const std::string& text, PhrasePlace place);
  Phrase read_clause(const std::string& clause, PhrasePlace place);
  std::vector<Phrase> read_joined(const std::string& clause, PhrasePlace place);
  std::vector<Phrase> read_glass(const OldPart& part);
  std::vector<Phrase> read_garnish(const OldPart& part);
  std::string garnish_with_remark(const std::string& words);
  bool is_piece(const Phrase& phrase);
  std::optional<Phrase> read_bare_piece(const std::string& clause, PhrasePlace place);
  std::optional<Phrase> read_foreign_thing(const std::string& clause, PhrasePlace place);
  std::optional<Phrase> behind_keyword(std::string_view keyword, const OldPart& part, PhrasePlace place);
  bool reads_line(const std::string& text, PhrasePlace place);

  const House& house_;
  Phrasebook& phrases_;
  NameFinder finder_;
  std::string numbers_;
};

}  // namespace gill::importer
