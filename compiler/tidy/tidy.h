#pragma once
#include <cstdint>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "analysis/specs.h"
#include "diagnostics/diagnostic.h"
#include "syntax/tree.h"
#include "units/unit_table.h"

/// Gill text written as a careful hand would: amounts and names in columns, units and the trade's forms in
/// the language's own spelling.
namespace gill::tidy {

/// How far a declaration may be changed.
enum class Extent : std::uint8_t {
  forms,   ///< lines in the trade's own words become what they were read as
  terms,   ///< units, numbers and keywords take the language's own spelling
  spaces,  ///< only white space changes
  nothing
};

/// What the words of a house mean.
struct Terms {
  const symbols::SymbolTable& names;
  const units::UnitTable& units;
};

/// What one declaration or a whole house of them may become. It knows the house as it was read, all of which
/// outlives it, and may be asked by several threads at once.
class Tidier {
 public:
  /// `findings`: what was found in the house. Lines of which an error of the language or of units speaks are
  /// left byte for byte.
  Tidier(const source::SourceSet& sources, Terms terms, const analysis::Specs& specs,
         const std::vector<diagnostics::Diagnostic>& findings);

  /// The file's text anew, by what each of its declarations may become. Its line ends stay what they are (LF
  /// or CRLF, whichever the first line has); the last line has one, too. Time grows in step with the file.
  std::string tidied(const syntax::File& file, const std::vector<Extent>& extents) const;
  /// How many of its lines are left as they are.
  std::size_t damaged_lines(const syntax::File& file) const;

 private:
  friend class FileTidier;
  using Place = std::uint64_t;
  bool is_damaged(const syntax::File& file, std::uint32_t line) const;
  static Place place(source::FileId file, std::uint32_t begin);

  const source::SourceSet& sources_;
  Terms terms_;
  /// By where the written line begins.
  std::unordered_map<Place, const analysis::FormReading*> forms_;
  /// Where the lines begin that are left as they are.
  std::unordered_set<Place> damaged_;
};

}  // namespace gill::tidy
