#pragma once
#include <deque>
#include <string>
#include <vector>

#include "analysis/line_reader.h"

namespace gill::analysis {

/// Whether a line is a property that a step said in passing (`strain into a coupe`, `strain over ice`): it
/// holds where the drink's own line says nothing else.
enum class Implied : std::uint8_t { no, named, any_ice, tin_or_glass };

/// One line as the readers of amounts, steps and properties take it.
struct ReadLine {
  syntax::LineView view;
  Implied implied = Implied::no;
};

struct Reading;

/// What the lines of a recipe have done so far, as far as a later line's meaning hangs on it.
struct RecipeState {
  bool has_step = false;
  bool has_shaken = false;
  bool has_dry_shaken = false;
  /// Something was shaken, stirred or otherwise worked.
  bool was_worked = false;
  /// The glass or its ice was named.
  bool has_setting = false;
  /// The line before named the glass: `collins`, `ice`.
  bool was_setting = false;
  /// Ice was named, to serve on or to work with.
  bool has_ice = false;
  bool was_built = false;
  bool has_muddled = false;
  bool has_rim = false;
  bool has_rinsed = false;
  /// Something worked in the mixing vessel that no line has moved to the glass yet, and whether that was a
  /// blender.
  bool is_mixed = false, is_blended = false;
  /// The drink is in its glass and worked no more: what is counted from here on lies on it.
  bool is_finished = false;
  /// What was poured so far, and what went in that is no liquid.
  std::vector<StockId> liquids, solids;
  /// The fat that was last put into a prep, by its own name: what `skim off the fat` means.
  std::string fat;
};

/// The trade's own ways of writing amounts and steps (`shake and strain`, `top up with soda water`, `dash of
/// absinthe`, `1 oz each A, B`), read as the forms of the language. A line with several amounts or steps is
/// taken apart; words of the bar are written anew as a reading whose spans lead back to what was written.
/// What has one meaning is read; what two bartenders would read in two ways is left to the readers, which
/// ask.
class TradeForms {
 public:
  TradeForms(const Context& context, bool in_prep) : context_(context), in_prep_(in_prep) {}

  /// The lines that a body line is read as: mostly itself.
  std::vector<ReadLine> read(const syntax::LineView& line);
  /// A line that is no form of the trade, for what a later one's meaning hangs on: `glass coupe`.
  void note(const syntax::LineView& line) { see(line); }

 private:
  void read_part(const syntax::LineView& part, std::vector<ReadLine>& lines);
  void read_readings(std::vector<Reading> readings, const Span& written, int depth,
                     std::vector<ReadLine>& lines);
  syntax::LineView add(Reading reading, const Span& written);
  void see(const syntax::LineView& line);
  void see_amount(const syntax::LineView& line);

  const Context& context_;
  bool in_prep_;
  RecipeState state_;
};

}  // namespace gill::analysis
