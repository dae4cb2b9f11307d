#pragma once
#include <vector>

#include "importer/phrase_reader.h"

namespace gill::importer {

/// `60 ml soda water` in the list and `top with soda` in the method are one soda: it is poured where the
/// method says, and not twice. Lines of which nothing is left to say are empty then.
void pour_listed_tops(const std::vector<std::vector<Phrase>*>& lines, const PhraseReader& reader);

}  // namespace gill::importer
