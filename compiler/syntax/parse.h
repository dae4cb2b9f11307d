#pragma once
#include "diagnostics/diagnostic.h"
#include "syntax/tree.h"

namespace gill::syntax {

/// Reads a file into its tree. Never fails: a line that is no text becomes a bad line with a finding, and
/// reading goes on at the next. Time and space grow in step with the file.
File parse(source::FileId file_id, const source::SourceSet& sources, diagnostics::DiagnosticSink& sink);

}  // namespace gill::syntax
