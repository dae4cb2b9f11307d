#pragma once
#include <vector>

#include "importer/phrase_reader.h"
#include "importer/source_lines.h"

namespace gill::importer {

/// A label alone on its line (`GLASSWARE`, `Garnish:`) and its value on the next, with or without blank lines
/// between them, as one line: `GLASSWARE: Coupe`. A word that heads a name (`GARNISHES` above a drink) stays.
std::vector<SourceLine> with_their_values(std::vector<SourceLine> lines, PhraseReader& reader);

}  // namespace gill::importer
