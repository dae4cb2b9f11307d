#pragma once
#include <initializer_list>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "analysis/forms/reading.h"
#include "analysis/read_recipe.h"

namespace gill::analysis {

/// What an amount names: `30 ml lime juice`, `8 mint leaves`. Nothing where the line is no number with
/// something known behind it.
std::optional<Use> use_of_amount(const syntax::LineView& line, const Context& context);

/// A stretch of a line as the forms of the trade look at it: its words in lower case, and what names, amounts
/// and times stand there. Places are tokens from 0; a stretch is from `first` up to and without `last`.
class FormLine {
 public:
  FormLine(const syntax::LineView& line, const Context& context, bool in_prep, const RecipeState& state);

 protected:
  using WordList = std::initializer_list<std::string_view>;

  // ---- words
  /// A word in lower case; empty for what is no word.
  const std::string& word(std::size_t i) const;
  /// True where that word stands at `i`.
  bool is(std::size_t i, std::string_view text) const;
  bool is_any(std::size_t i, WordList list) const;
  /// The place after a run of words; nothing where they do not stand there.
  std::optional<std::size_t> after(std::size_t i, std::string_view phrase) const {
    // Hundreds of phrases are tried at each word: most differ in the first letter.
    if (i >= end_ || words_[i].empty() || !phrase.starts_with(words_[i].front())) return std::nullopt;
    return after_words(i, phrase);
  }
  std::optional<std::size_t> after_any(std::size_t i, WordList phrases) const;
  /// After the longest of the phrases that stands at `i`.
  std::optional<std::size_t> longest(std::size_t i, std::span<const std::string_view> phrases) const;
  /// The place after an article at `i`.
  std::size_t skip_article(std::size_t i) const;
  /// Where the stretch from `i` ends: at its comma or with the line.
  std::size_t comma_or_end(std::size_t i) const;
  bool begins_quantity(std::size_t i) const;

  // ---- names
  /// True where the words are the whole name of something of that kind.
  bool is_name(symbols::NameSpace space, std::size_t first, std::size_t last) const;
  /// True where the words name an ingredient or a prep, with or without an item word.
  bool is_use(std::size_t first, std::size_t last) const;
  /// The ice that is named, as its own name: `ice` and `cubes` are cubed; nothing where no ice is.
  std::optional<std::string> ice_named(std::size_t first, std::size_t last) const;
  /// True for `ice` and the like, which say nothing of the kind of ice.
  bool is_plain_ice(std::size_t first, std::size_t last) const;
  /// The stretches from `first` to `last` that commas and those words part, as their places; nothing where
  /// one of them names nothing known.
  std::optional<std::vector<std::pair<std::size_t, std::size_t>>> listed_uses(std::size_t first,
                                                                              std::size_t last,
                                                                              WordList dividers) const;
  /// After that step's words at `i`; nothing where they do not stand there.
  std::optional<std::size_t> verb_at(std::size_t i, Verb verb) const;

  // ---- amounts and times
  /// True where the words are an amount of something that is known.
  bool is_amount(std::size_t first, std::size_t last) const;
  /// After a unit that stands alone at `i` (`splash`, `bar spoon`); nothing where none does.
  std::optional<std::size_t> unit_at(std::size_t i) const;
  /// A number written as a word; nothing for another word.
  static std::optional<std::string_view> number_of(std::string_view word);
  /// True where the words are a time and nothing else.
  bool is_time(std::size_t first, std::size_t last) const;
  /// Where a time that begins at `i` ends, before `stop`; `i` where none begins.
  std::size_t time_stop(std::size_t i, std::size_t stop) const;

  // ---- steps
  /// `gently`, `hard`: how a step is done.
  static bool is_adverb(std::string_view word);
  /// Where `40 times`, `x40` ends that counts the turns of a bar spoon; `i` where none does.
  std::size_t turns_stop(std::size_t i) const;
  /// Where words end that say only how, in what or what for a step is done: `long and hard`, `lid on`, `to
  /// get a good foam`; `i` where none stand.
  std::size_t manner_stop(std::size_t i) const;
  /// True where `to` and what follows say what a step is for: `stir to lift it`.
  bool says_what_for(Verb verb, std::size_t to) const;
  /// Where `in the mixing glass`, `into a shaker` ends; nothing where no such thing is named.
  std::optional<std::size_t> tool_at(std::size_t i) const;
  /// True for a word that names nothing the language or the house knows.
  bool is_plain_word(std::size_t i) const;
  /// True for words that say what for, where or how and no more: `to preserve`, `for colour`. The first is
  /// their preposition.
  bool hides_nothing(std::size_t first, std::size_t last) const;
  /// Where the place of a garnish ends: `on a skewer`, `around the inside of the glass`; nothing where none
  /// is named.
  std::optional<std::size_t> place_at(std::size_t i) const;
  /// Where the brackets begin, from `first` on, with which a stretch ends; nothing where it ends with none.
  std::optional<std::size_t> last_brackets(std::size_t first, std::size_t last) const;
  /// What stands in the brackets of `(700 ml)`, without them.
  static std::string inside_brackets(std::string text);
  /// Puts what stands from `first` to `last` behind the reading, after a comma.
  static Reading& with_rest(Reading& reading, const syntax::LineView& line, std::size_t first,
                            std::size_t last);

  const syntax::LineView line_;
  const Context& context_;
  bool in_prep_;
  const RecipeState& state_;
  std::size_t end_;
  std::vector<std::string> words_;

 private:
  std::optional<std::size_t> after_words(std::size_t i, std::string_view phrase) const;
  bool names_use(std::size_t first, std::size_t last) const;
  bool names_amount(std::size_t first, std::size_t last) const;
  /// What was found out of a stretch: many forms ask the same.
  using Answers = std::map<std::pair<std::size_t, std::size_t>, bool>;
  mutable Answers uses_, amounts_;
};

}  // namespace gill::analysis
