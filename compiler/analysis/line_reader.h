#pragma once
#include <deque>
#include <functional>
#include <initializer_list>
#include <string>
#include <string_view>

#include "analysis/specs_in_reach.h"
#include "syntax/line_view.h"
#include "units/read_quantity.h"

namespace gill::analysis {

/// The readings of the trade's forms, and the places of those that nobody needs any more.
struct ReadingStore {
  std::deque<syntax::File>& files;
  std::vector<std::size_t> free = {};
  /// Taken since a declaration was begun.
  std::vector<std::size_t> taken = {};
};

/// What every reader needs: who is meant by a name, the units, where findings go.
struct Context {
  const symbols::SymbolTable& names;
  const units::UnitTable& units;
  /// Readings of the trade's forms join the files.
  source::SourceSet& sources;
  ReadingStore& readings;
  /// Of the declaration that is being read.
  ReadingNotes& notes;
  diagnostics::DiagnosticSink& sink;
  const SpecsInReach& specs;
};

/// A cursor over one line with the checks that lines share. A failure is reported and closes the reader:
/// `failed()` is then true and nothing more is reported for the line. After a mistake whose meaning is plain
/// reading goes on, so that a line's mistakes are all reported; `is_wrong()` is then true.
class LineReader {
 public:
  LineReader(const syntax::LineView& line, const Context& context);

  const syntax::LineView& line() const { return line_; }
  std::size_t at() const { return at_; }
  void move_to(std::size_t at) { at_ = at; }
  bool done() const { return at_ >= line_.size(); }
  bool failed() const { return failed_; }
  bool is_wrong() const { return failed_ || mistaken_; }

  /// Reports and closes the reader; always false.
  bool fail(diagnostics::Rule rule, Span span, std::string message, std::string help,
            std::optional<diagnostics::Fix> fix = std::nullopt);
  /// Reports, and leaves the reader open.
  void mistake(diagnostics::Rule rule, Span span, std::string message, std::string help,
               std::optional<diagnostics::Fix> fix = std::nullopt);

  /// Closes the reader after a failure that is reported already; always false.
  bool close() { return failed_ = true, false; }

  bool at_word(std::string_view word) const { return line_.is_word(at_, word); }
  bool take_word(std::string_view word);
  /// Takes a phrase of several words.
  bool take_words(std::initializer_list<std::string_view> words);
  bool take_comma();
  bool at_quantity() const { return units::QuantityReader::begins_quantity(line_, at_); }

  // Each of these moves behind what it reads. What is missing or wrong there is reported, and gives nothing.

  /// A quantity of one of the kinds; `subject` begins the message: "a shake takes a time, and 30 ml is a
  /// volume".
  std::optional<Quantity> quantity(std::initializer_list<units::Kind> kinds, std::string_view subject);
  /// A quantity of any kind.
  std::optional<Quantity> any_quantity();
  /// A plain number or range of plain numbers, without a unit.
  std::optional<Quantity> plain_number(std::string_view subject);
  /// A price: a number with an ISO 4217 code.
  std::optional<units::Money> money(std::string_view subject);
  /// A share: `3 %`.
  std::optional<double> share(std::string_view subject);
  /// A day of the calendar, as ISO 8601 writes it.
  std::optional<std::string> date();

  /// The first token at or after the cursor that is a comma, or the end.
  std::size_t comma_or_end() const;
  /// The name from the cursor to `end`, checked for what needs quotes; moves past it. Empty when it has
  /// failed.
  std::string name(std::size_t end, std::string_view noun);
  /// The raw text from the cursor to `end` with white space as one space; moves past it.
  std::string words(std::size_t end);
  /// A quoted string without its quotes, or the raw text to the end of the line. Empty when it has failed.
  std::string string_or_rest(std::string_view subject);

  /// The declaration of that name; an invalid id, and `unknown-name` with the nearest, where there is none.
  DeclarationId declaration(symbols::NameSpace space, std::size_t end);

  /// False with a finding when a count is followed by a word: it was meant as a unit, and nobody declares it.
  bool expect_known_unit(const Quantity& quantity);

  /// False with a finding when something is left on the line.
  bool expect_end(std::string_view form);

  /// The correction of a misspelt name of that set, or of a unit: safe where only one thing can be meant;
  /// none where `near`, what is offered for it, cannot stand there as it is.
  std::optional<diagnostics::Fix> name_fix(symbols::NameSpace space, Span span, std::string_view wrong,
                                           const std::optional<std::string>& near) const;
  std::optional<diagnostics::Fix> unit_fix(Span span, std::string_view wrong) const;

  /// True for a word that a bar uses as it stands (a name, a unit, a step, `neat`, `tin`): it is no slip of
  /// another.
  bool is_trade_word(std::string_view word) const;
  /// What to say of a word that should be a unit and is none.
  units::UnknownUnit explain_unit(std::string_view word) const;

  units::QuantityReader quantities() { return {line_, context_.units, context_.sink, &mistaken_}; }
  const Context& context() const { return context_; }

  /// `30 ml` as it stands on the line, white space as one space.
  std::string written(Span span) const;

 private:
  bool wrong_kind(const Quantity& quantity, std::initializer_list<units::Kind> kinds,
                  std::string_view subject);
  bool missing(std::string_view subject, std::string_view what);
  bool report_unknown_unit();
  bool report_broken_string(std::size_t end);

  syntax::LineView line_;
  const Context& context_;
  std::size_t at_ = 0;
  bool failed_ = false;
  bool mistaken_ = false;
  std::size_t reported_ = 0;
};

/// An example of a quantity of the kind: `12 s`.
std::string_view example_of(units::Kind kind);

}  // namespace gill::analysis
