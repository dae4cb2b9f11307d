#pragma once
#include <memory>
#include <vector>

#include "analysis/line_reader.h"
#include "analysis/specs_in_reach.h"

namespace gill::analysis {

/// What reading one declaration found, and what that hung on beside its own
/// lines, the units, the house's settings and what it is `like`.
struct ReadLog {
  symbols::AskedNames asked;
  std::vector<SeenStock> seen;
  int unit_questions = 0;
  /// The parts that its `like` brought.
  std::size_t brought = 0;
  std::vector<diagnostics::Diagnostic> findings;
  /// Places in `Specs::readings`.
  std::vector<std::size_t> readings;
};

/// Reads declarations into `Specs`: all of them, and after an edit one again.
class Reader {
 public:
  /// All that is handed over stays where it is while the reader is used. Where `logs` is not null, findings,
  /// form readings and name uses go there, by declaration, and not to `sink` and `specs`.
  Reader(const symbols::SymbolTable& names, const units::UnitTable& units,
         const std::vector<syntax::File>& files, source::SourceSet& sources, Specs& specs,
         diagnostics::DiagnosticSink& sink, std::vector<ReadLog>* logs);
  ~Reader();
  Reader(const Reader&) = delete;
  Reader& operator=(const Reader&) = delete;

  /// Every declaration gets its place in the tables and is read. `house_name` is the house's where it
  /// declares none.
  void read_all(const std::string& house_name);

  // After an edit, with `names` and the tables brought up to date:

  /// Takes the order in which declarations are read from the names.
  void set_order();
  const ReadingOrder& order() const;
  /// True once a `like` was refused, since the house holds too much: which one hangs on the order then.
  bool is_full() const;
  /// Makes the place of a new declaration: until it is read it counts as broken.
  void set_place(DeclarationId id, Stock& place);
  void set_place(DeclarationId id, Glass& place);
  void set_place(DeclarationId id, Ice& place);
  void set_place(DeclarationId id, Family& place);
  void set_place(DeclarationId id, Drink& place);
  void set_place(DeclarationId id, PriceList& place);
  void set_place(DeclarationId id, Menu& place);
  /// Reads one declaration; what it was before is gone. Of a menu that sells things whole `share_out` follows
  /// when every drink is read.
  void read_again(DeclarationId id);
  void share_out(Menu& menu);
  /// A declaration is no more, and nobody needs its readings.
  void forget(ReadLog& log);

 private:
  class Work;
  std::unique_ptr<Work> work_;
};

}  // namespace gill::analysis
