#pragma once
#include <string_view>
#include <vector>

#include "importer/old_spec.h"
#include "importer/phrase_reader.h"

namespace gill::importer {

/// The drinks and preps of a text of plain lines: a name, what goes in one a line (or all on one line), and
/// method words below. A name is known by where it stands: behind a blank line, behind a finished method, by
/// its label or its marks. No line is left out.
std::vector<OldSpec> plain_specs(std::string_view text, PhraseReader& reader);

}  // namespace gill::importer
