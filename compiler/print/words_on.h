#pragma once
#include "print/cards.h"
#include "print/placed.h"

namespace gill::print {

/// The words among what was placed on a face.
std::vector<WordsOnCard> words_on(std::size_t face, const std::vector<Placed>& parts);

}  // namespace gill::print
