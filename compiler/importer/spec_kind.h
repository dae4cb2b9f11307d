#pragma once
#include <vector>

#include "importer/old_spec.h"
#include "importer/phrase_reader.h"

namespace gill::importer {

/// What the lines of a spec say of whether it is served or made ahead.
struct KindSigns {
  /// A glass, a garnish, a shake with ice: no prep has one.
  bool is_drink = false;
  /// It goes into a glass, as a prep may once it is served.
  bool is_served = false;
  /// A prep alone reads it.
  bool is_ahead = false;
  /// It is bottled, or keeps for days.
  bool is_kept = false;

  void add(const KindSigns& more);
};

/// The signs of one line, of which `phrases` were read.
KindSigns signs_of_kind(const OldPart& part, const std::vector<Phrase>& phrases, PhraseReader& reader);
/// The signs of all lines of a spec.
KindSigns signs_of_kind(const OldSpec& spec, PhraseReader& reader);

/// True of a spec whose name or category says that it is made ahead, unless it is served.
bool is_prep_by_its_name(const OldSpec& spec, PhraseReader& reader);

/// True for a prep, whose name (or the heading above it) may say so.
bool is_made_ahead(const KindSigns& signs, bool is_named_so);

}  // namespace gill::importer
