#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "importer/named_list.h"
#include "importer/phrase_reader.h"
#include "importer/recipe_table.h"
#include "importer/source_lines.h"
#include "importer/spec_kind.h"
#include "importer/spec_labels.h"

namespace gill::importer {

/// What a line is by itself, wherever it stands.
enum class LineKind : std::uint8_t {
  amount,
  step,   ///< something of how it is made or served
  words,  ///< nothing that is read: a name, a note
  spec    ///< a whole drink on one line
};

struct JudgedLine {
  SourceLine source;
  Labelled label;
  LineKind kind = LineKind::words;
  /// What it says of whether its spec is served or made ahead.
  KindSigns signs;
  /// It says nothing but a glass or a garnish.
  bool is_only_served = false;
  /// It says several glasses, or one in the plural: `Shots`, `Beer & Wine`.
  bool names_glasses = false;
  /// A number without a unit beside an unknown name: an amount among amounts, a name elsewhere.
  bool may_be_name = false;
  /// A volume or a mass stands at its end: among amounts it is one, whatever stands above.
  bool ends_with_measure = false;
  /// The same with the number first: `86'd: Velvet Rope`.
  bool is_numbered = false;
  /// A number and a few words that nobody knows: `1 Fu Manchu`.
  bool is_counted = false;
  /// It tells somebody to do something, read or not: no name.
  bool is_order = false;
  /// `€12`, and nothing beside it.
  bool is_price = false;
  SectionKind section = SectionKind::none;
  /// Of a whole drink on one line: its name and its parts. Of a row that goes on with the drink above: its
  /// parts.
  NamedList spec;
  /// A name above amounts with its glass or its garnish behind it: `Clay Jar / coupe / lemon twist`.
  NamedList head;
  /// A name and a list behind a colon or a dash, which is a drink of its own where it stands alone.
  NamedList alone;
  /// Of a row below the head of a table: what its columns say.
  TableRow row;
  /// It goes on with the drink of the row above.
  bool goes_on = false;
};

/// Judges each line by itself, in their order.
class LineJudge {
 public:
  explicit LineJudge(PhraseReader& reader) : reader_(reader), lists_(reader) {}

  JudgedLine judge(SourceLine source);

 private:
  bool judge_row(JudgedLine& line);
  bool is_prep_of_steps(const JudgedLine& line);
  bool has_glass_behind_gap(const std::string& parted);
  void join_cells(SourceLine& source);
  void judge_labelled(JudgedLine& line);
  void judge_words(JudgedLine& line, const std::string& text);
  void judge_step(JudgedLine& line, const OldPart& part, const std::vector<Phrase>& phrases);

  PhraseReader& reader_;
  NamedListReader lists_;
  /// The last heading spoke of what is made ahead.
  bool in_preps_ = false;
  /// Of the last row that names its drink.
  std::string name_in_row_;
};

}  // namespace gill::importer
