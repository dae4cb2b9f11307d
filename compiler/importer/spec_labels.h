#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "importer/old_spec.h"

namespace gill::importer {

/// What a label at the start of a line says, and the words behind it.
struct Labelled {
  LabelRole role = LabelRole::none;
  std::string rest;
};

/// `Glass: coupe`, `Garnitur - Zitrone`, `Method:`; the role is `none` where no label stands.
Labelled label_of(std::string_view line);

/// How the words of a section speak of what stands below them.
enum class SectionKind : std::uint8_t { none, drinks, preps };

/// `STIRRED`, `Syrups & cordials`, `Zero proof`: a heading by its words alone, whatever its letters look
/// like.
SectionKind section_of(std::string_view line);

/// A name that says what is made ahead: `Honey syrup 2:1`, `Chilli-infused tequila`.
bool names_a_prep(std::string_view name);

/// `4`, `4 servings`, `1 drink`, `10 Personen`: how many it serves; nothing of `500 ml` and other words.
std::optional<int> serves_of(std::string_view yield);

/// Where a name's words of the whole begin, with the sign before them: ` (makes 1.5 l)`, `, 1 l bottle`,
/// ` - for 20`; npos where it has none.
std::size_t words_of_whole_at(std::string_view name);
/// The words themselves, without sign and brackets.
std::string words_of_whole(std::string_view name);
/// `Night Porter, 1 l bottle`: its words of the whole say which vessel is full of it.
bool names_a_full_bottle(std::string_view name);

/// `Spritz Keg (19L)`, `Punch Batch`: what it stands in ends the name.
bool is_named_like_a_batch(std::string_view name);
/// `Batch:`, `Pre-batch:`: what stands below is the drink above once more, for several.
bool is_batch_alone(std::string_view line);

/// What is drunk, and short for the glass of it as well: `Tea`, `Hot Water`, `Wine (red)`.
bool is_drink_of_glass(std::string_view name);

/// Every word begins with a capital, but for the small ones: `Up Draft`, `Salt of the Earth`.
bool is_title_case(std::string_view line);
/// No letter is small, and there are letters.
bool is_all_capitals(std::string_view line);

/// Every bracket that opens closes.
bool has_whole_brackets(std::string_view line);

/// A name: short, and no sentence.
bool looks_like_a_name(const std::string& line);

/// A heading without the marks that people put behind it.
std::string without_colon(std::string_view line);

}  // namespace gill::importer
