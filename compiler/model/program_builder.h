#pragma once
#include <string>
#include <vector>

#include "model/measuring.h"
#include "model/program.h"

namespace gill::model {

/// A recipe made ready, with one entry for every thing in it and the inputs that are uncertain.
struct BuiltProgram {
  Program program;
  std::vector<Entry> entries;
  /// Entry of each operation that adds something; the entries' count where it adds nothing.
  std::vector<std::size_t> entry_of;
  struct Uncertain {
    Perturbation moved;
    std::string input;
    double relative_tolerance;
  };
  std::vector<Uncertain> uncertain;
};

/// Works the amounts of a drink or a prep out in grams and its method into operations; reports what cannot
/// be.
class ProgramBuilder {
 public:
  ProgramBuilder(const analysis::Specs& specs, const units::UnitTable& units,
                 const std::vector<StockFacts>& stock, diagnostics::DiagnosticSink& sink)
      : specs_(specs), units_(units), stock_(stock), sink_(sink), measuring_(specs, units, stock, sink) {}

  BuiltProgram build(const analysis::Drink& drink);
  BuiltProgram build(const analysis::Stock& prep);

 private:
  struct Job;
  void lower(Job& job);
  void amount(Job& job, std::size_t index);
  void step(Job& job, std::size_t index);
  void prep_step(Job& job, const analysis::Step& step, Operation operation);
  void chill_step(Job& job, const analysis::Step& step, Operation operation);
  void pour(Job& job, const analysis::Step& step, std::size_t index, Operation operation, Role role);
  void add_operation(Job& job, Operation operation, std::size_t entry);
  std::size_t slot_of(Job& job, analysis::StockId stock);
  std::size_t add_entry(Job& job, const analysis::Use& use, Role role, std::size_t index,
                        std::string as_written);
  double expected_ml(const Job& job) const;
  double grams_of_part(Job& job, const analysis::Amount& amount);
  void find_uncertain(Job& job);
  double temperature_of(const analysis::Amount& amount) const;
  double start_temperature(analysis::StockId stock) const;

  const analysis::Specs& specs_;
  const units::UnitTable& units_;
  const std::vector<StockFacts>& stock_;
  diagnostics::DiagnosticSink& sink_;
  Measuring measuring_;
};

/// The mass of ice that a line means: its count or weight, else one large piece, else what fills a glass.
double ice_mass_g(const analysis::IceUse& use, const analysis::Specs& specs, double glass_holds_ml);

}  // namespace gill::model
