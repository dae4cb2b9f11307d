#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "importer/phrase_reader.h"

namespace gill::importer {

/// A name and what stands behind it on the same line.
struct NamedList {
  std::string name;
  std::vector<OldPart> parts;
  /// What the name reads as by itself is a glass: `Old Fashioned`.
  bool is_named_like_a_glass = false;
  /// Something of the list is a step that is read.
  bool says_a_step = false;
  /// It was a sentence, `Moor is 40 ml gin, …`, of which words are left.
  bool is_sentence = false;
  /// Bars part it, as they part any row.
  bool is_row = false;

  bool empty() const { return name.empty(); }
};

/// Words that may mean a glass, and say how a drink is rather: `Night Shift (hot)`.
bool is_manner(const std::string& words);

/// Reads a name and a list off one line.
class NamedListReader {
 public:
  explicit NamedListReader(PhraseReader& reader) : reader_(reader) {}

  /// `Old Clay - 60 ml bourbon, 5 ml rich syrup, stir`: a whole drink. Below a heading of preps every list is
  /// one that says an amount or a step.
  NamedList whole_spec(const std::string& text, bool in_preps);
  /// `Clay Jar / coupe / lemon twist`: a name with a glass, a garnish or ice behind it.
  NamedList name_with_its_glass(const std::string& text);
  /// `Moor: vodka, lime, mint. Shake`: a name and anything that may be what a drink is made of, read or not.
  NamedList list_of_its_own(const std::string& text);

 private:
  NamedList named(std::string_view name, const std::vector<std::string>& parts) const;
  std::vector<Phrase> read(const std::string& text, bool in_prep = false);
  std::vector<std::string> parts_of(const std::string& rest, bool in_preps);
  std::vector<std::string> parts_of_sentences(const std::vector<std::string>& sentences);
  NamedList whole_spec_before_number(const std::string& text, bool in_preps);
  NamedList whole_sentence(const std::string& text, bool in_preps);
  bool is_spec_name(const std::string& words, std::string_view sign);
  bool is_named_like_a_glass(const std::string& words, std::string_view sign,
                             const std::vector<std::string>& parts);
  bool is_named_like_a_measure(const std::string& words) const;
  bool may_be_own_name(const std::string& words);
  bool is_numbered_name(const std::string& words);
  bool may_have_a_glass(const std::string& name, bool is_weak);
  bool says_what_is_served(const std::string& rest, bool is_weak);
  bool is_evident(NamedList& list);
  void take_what_is_served(NamedList& list);

  PhraseReader& reader_;
};

}  // namespace gill::importer
