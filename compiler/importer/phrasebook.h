#pragma once
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "importer/import_specs.h"

namespace gill::importer {

/// Where words are tried: as a line of a drink (or of one that has a size, which parts need), as one of a
/// prep, or behind a keyword of a drink.
enum class PhraseUse : std::uint8_t { drink_line, sized_line, prep_line, glass, ice, garnish };

/// Knows which words the language reads, by asking it: what it reads needs no reader here. Questions are
/// gathered and asked all at once, since each asking reads a whole text.
class Phrasebook {
 public:
  explicit Phrasebook(const CheckText& check) : check_(check) {}

  /// False for what was not asked yet as well, which is asked next time.
  bool reads(PhraseUse use, const std::string& phrase);
  /// What the language says of words that it does not read, and what to write; empty where it reads them or
  /// was not asked.
  std::string why_not(PhraseUse use, const std::string& phrase) const;
  /// Asks all that is open; false where nothing was.
  bool ask();

 private:
  using Question = std::pair<PhraseUse, std::string>;
  void ask(const std::vector<Question>& questions);
  void ask_in_halves(const std::vector<Question>& questions);

  const CheckText& check_;
  /// What is wrong with each; empty where it is read.
  std::map<Question, std::string> answers_;
  std::set<Question> open_;
};

}  // namespace gill::importer
