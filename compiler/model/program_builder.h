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

/// Lowers the recipe of a drink or a prep: its amounts to grams and its method to operations; reports what
/// cannot be.
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
  void clarify(Job& job, const analysis::Step& step, std::size_t index);
  void add_ice(Job& job, const analysis::Step& step, std::size_t index);
  void chill_step(Job& job, const analysis::Step& step, std::size_t index, ChillMethod method);
  void pour(Job& job, const analysis::Step& step, std::size_t index, Role role);
  void garnish(Job& job, const analysis::Step& step, std::size_t index, Role role);
  void choose_glass_ice(Job& job);
  void settle_glass_ice(Job& job);
  void add_operation(Job& job, Operation operation, std::size_t entry);
  std::size_t slot_of(Job& job, analysis::StockId stock);
  std::size_t add_entry(Job& job, const analysis::Use& use, Role role, std::size_t index,
                        std::string as_written);
  units::Millilitres poured(const analysis::Use& use, const units::Quantity& quantity) const;
  units::Millilitres expected(const Job& job) const;
  units::Grams grams_of_part(Job& job, const analysis::Amount& amount);
  units::Millilitres part_of(Job& job, const units::Quantity& size);
  void find_uncertain(Job& job);
  units::Celsius temperature_of(const analysis::Amount& amount) const;
  units::Celsius start_temperature(analysis::StockId stock) const;

  const analysis::Specs& specs_;
  const units::UnitTable& units_;
  const std::vector<StockFacts>& stock_;
  diagnostics::DiagnosticSink& sink_;
  Measuring measuring_;
};

/// True when a count or a weight says how much ice there is, or a single large piece stands for itself.
bool is_ice_measured(const analysis::IceUse& use, const analysis::Specs& specs);
/// The mass of ice that a line means: its count or weight, else one large piece, else a scoop of the glass.
units::Grams ice_mass(const analysis::IceUse& use, const analysis::Specs& specs,
                      units::Millilitres glass_holds);

}  // namespace gill::model
