#include "importer/spec_kind.h"

#include <algorithm>
#include <initializer_list>
#include <string_view>

#include "base/text.h"
#include "importer/foreign_words.h"
#include "importer/list_marks.h"
#include "importer/method_clauses.h"
#include "importer/spec_labels.h"
#include "importer/step_words.h"

namespace gill::importer {
namespace {

bool is_label_of_drinks(LabelRole role) {
  return role == LabelRole::glass || role == LabelRole::garnish || role == LabelRole::ice ||
         role == LabelRole::rim;
}

/// What takes hours or a pot, and is never done to a drink: `infuse 2 d`.
bool is_kitchen_work(const std::string& clause) {
  const std::string folded = base::fold_name(clause);
  for (std::string_view word :
       {"infuse", "macerate", "simmer", "steep", "ferment", "boil", "reduce", "clarify"})
    if (folded == word || folded.starts_with(std::string(word) + " ")) return true;
  return false;
}

bool is_read_of_drinks(const std::string& clause, PhraseReader& reader) {
  return is_any_read(reader.read({{clause, 0}, LabelRole::none, clause}, {}));
}

bool says_it_keeps(const std::string& clause) {
  const std::string folded = base::fold_name(clause);
  for (std::string_view word : {"keep", "bottle", "jar", "fridge", "refrigerate", "week", "label"})
    if (folded.starts_with(word) || folded.find(" " + std::string(word)) != std::string::npos) return true;
  return false;
}

bool holds_any_of(const std::string& category, std::initializer_list<std::string_view> words) {
  const std::string folded = base::fold_name(category);
  return std::any_of(words.begin(), words.end(),
                     [&](auto word) { return folded.find(word) != std::string::npos; });
}

/// `Cocktail`, `Mocktails, alcohol-free`.
bool is_category_of_cocktails(const std::string& category) {
  return holds_any_of(category, {"cocktail", "mocktail", "longdrink", "highball", "cóctel", "coctel"});
}

/// `Drinks`, among which syrups are found as well.
bool is_category_of_drinks(const std::string& category) {
  return holds_any_of(category, {"drink", "beverage", "getränk", "boisson", "bebida", "bevand"});
}

bool shakes_with_ice(const std::string& clause) {
  return is_made_with_ice(clause) || is_made_with_ice(english_step(clause));
}

}  // namespace

void KindSigns::add(const KindSigns& more) {
  is_drink = is_drink || more.is_drink;
  is_served = is_served || more.is_served;
  is_ahead = is_ahead || more.is_ahead;
  is_kept = is_kept || more.is_kept;
}

KindSigns signs_of_kind(const OldPart& part, const std::vector<Phrase>& phrases, PhraseReader& reader) {
  KindSigns signs;
  signs.is_drink = is_label_of_drinks(part.role);
  for (const auto& phrase : phrases) {
    signs.is_drink =
        signs.is_drink || phrase.kind == PhraseKind::glass ||
        (phrase.kind == PhraseKind::garnish && base::fold_name(phrase.written).starts_with("garnish"));
    signs.is_served =
        signs.is_served || phrase.kind == PhraseKind::garnish || phrase.kind == PhraseKind::glass_state;
  }
  for (const auto& clause : clauses_of(part.what.text)) {
    signs.is_drink = signs.is_drink || shakes_with_ice(clause);
    signs.is_served = signs.is_served || reader.goes_into_a_glass(clause);
    signs.is_kept = signs.is_kept || says_it_keeps(clause);
    signs.is_ahead = signs.is_ahead || (is_kitchen_work(clause) && !is_read_of_drinks(clause, reader));
  }
  if (!is_any_read(phrases) && !is_any(phrases, PhraseKind::amount))
    signs.is_ahead = signs.is_ahead || is_any_read(reader.read(part, {true, false}));
  return signs;
}

KindSigns signs_of_kind(const OldSpec& spec, PhraseReader& reader) {
  KindSigns signs;
  PhrasePlace place;
  auto add = [&](const OldPart& part) {
    auto phrases = reader.read(part, place);
    signs.add(signs_of_kind(part, phrases, reader));
  };
  for (const auto& part : spec.parts) add(part);
  for (const auto& step : spec.told_steps)
    add({{without_step_number(step.text), step.line}, LabelRole::none, step.text});
  return signs;
}

bool is_prep_by_its_name(const OldSpec& spec, PhraseReader& reader) {
  bool is_named_so = names_a_prep(spec.name.text);
  auto signs = signs_of_kind(spec, reader);
  for (const auto& category : spec.categories) {
    if (is_category_of_cocktails(category.text)) return false;
    signs.is_served = signs.is_served || is_category_of_drinks(category.text);
    is_named_so =
        is_named_so || names_a_prep(category.text) || section_of(category.text) == SectionKind::preps;
  }
  signs.is_ahead = false;
  return is_made_ahead(signs, is_named_so);
}

bool is_made_ahead(const KindSigns& signs, bool is_named_so) {
  if (signs.is_drink || (signs.is_served && !signs.is_ahead && !signs.is_kept)) return false;
  return signs.is_ahead || is_named_so;
}

}  // namespace gill::importer
