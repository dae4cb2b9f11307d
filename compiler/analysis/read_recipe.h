#pragma once
#include <optional>

#include "analysis/line_reader.h"

namespace gill::analysis {

/// A quantity with what it is of.
struct Measured {
  Quantity quantity;
  std::optional<Quantity> second;
  Use use;
  bool known = true;
  std::string words;  ///< the name as written, when it is not known
};

/// How an unknown name is met: as an error, or left to the caller (a garnish).
enum class UnknownName : std::uint8_t { report, keep };

/// What is used, from the cursor to `end`: a name, or a name and an item word. Nothing where no such name is
/// known, reported as `unknown-name` with its fix.
std::optional<Use> read_use(LineReader& reader, std::size_t end);
/// The same between two places, without a report: nothing where the name is not known.
std::optional<Use> find_use(const LineReader& reader, std::size_t first, std::size_t end);

/// What a word with several meanings, or its plural, may mean, where the house has not answered; null for any
/// other.
const std::vector<std::string>* answers_to(const LineReader& reader, std::size_t first, std::size_t end);
/// True for a word with several meanings that the house has not answered.
bool is_asked_about(const LineReader& reader, std::size_t first, std::size_t end);

/// `60 ml = 2 oz rye whiskey`, `8 mint leaves`, `1 egg white`, up to the next comma; nothing
/// when it is in error (reported) or names what is unknown and may be kept.
std::optional<Measured> read_measured(LineReader& reader, UnknownName unknown);

/// True when the line is an amount: it begins with a number, `about`, `to` and a quantity, or `until`.
bool begins_amount(const syntax::LineView& line);

/// One amount line; nothing when it is in error (reported).
std::optional<Amount> read_amount(LineReader& reader);

/// One method line, from its verb on; nothing when it is in error (reported).
std::optional<Step> read_step(LineReader& reader, VerbMatch verb, bool in_prep);

/// `[COUNT or MASS] [NAME of an ice]` from the cursor to `end`; nothing when it is in error (reported).
std::optional<IceUse> read_ice(LineReader& reader, std::size_t end);

/// `measured DATE, …`, from the date on; nothing when it is in error (reported).
std::optional<Measurement> read_measurement(LineReader& reader, bool in_prep);

/// True for a step in which hands decide how much ice melts.
bool has_hands(Verb verb);

/// `hands shake melt 1.08 ± 0.06`, from the step on.
void read_hands(LineReader& reader, House& house, bool first);

/// Reports a body line that is neither amount, property nor method, with the fix of what it was meant to be.
/// `words` are the properties that the declaration has. True when it may have been meant as an amount.
bool report_unknown_line(LineReader& reader, const std::vector<std::string_view>& words, bool with_verbs,
                         bool in_prep);

/// Reports the colon at the cursor: none stands after a keyword.
void report_colon(LineReader& reader);

}  // namespace gill::analysis
