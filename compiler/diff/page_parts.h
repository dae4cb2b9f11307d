#pragma once
#include "diff/changes.h"
#include "render/document/document.h"

/// What the parts of the page of changes share: cells, names of properties, figures and allergens in words.
namespace gill::diff {

/// Stands where one side has nothing.
inline const std::string nothing = "—";

/// A cell of a table; strong where it is what differs.
render::document::Cell cell(std::string words, bool differs = false);
/// A cell that names its row.
render::document::Cell header(const std::string& words);

/// Properties that hands or eyes meet at the bar: told as rows of the build.
bool is_row(const std::string& property);
/// `guest` as it reads at the head of a line.
std::string title_of(const std::string& property);

/// Whether a figure is told in print: some are left to the JSON, and what prints the same on both sides is no
/// change for a reader.
bool shows(const FigureChange& change);
/// `+0.9, beyond tolerance`; empty where there is no difference to tell.
std::string change_in_words(const FigureChange& change);
/// `strength 14.1 → 15.0 % abv (beyond tolerance)`.
std::string in_one_line(const FigureChange& change);

/// The allergens of `owner`, with what each comes by.
std::string codes_in_words(const std::vector<Allergen>& allergens, const std::string& owner);

}  // namespace gill::diff
