#pragma once
#include <string>
#include <vector>

#include "model/measuring.h"
#include "model/program.h"

namespace gill::model {

/// A recipe made ready, with one entry for every thing in it.
struct BuiltProgram {
  Program program;
  std::vector<Entry> entries;
  /// Entry of each operation that adds something; the entries' count where it adds nothing.
  std::vector<std::size_t> entry_of;
};

struct Lowering;

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
  void lower(Lowering& job);
  void amount(Lowering& job, std::size_t index);
  void add_measured(Lowering& job, const analysis::Amount& amount, std::size_t index, std::size_t entry);
  operation::Fill fill_of(Lowering& job, const analysis::Amount& amount);
  operation::Until until_of(Lowering& job, const analysis::Amount& amount);
  void step(Lowering& job, std::size_t index);

  // What each verb becomes, in `step_lowerings`.
  template <ChillMethod method>
  void chill(Lowering& job, const analysis::Step& step, std::size_t index);
  template <Role role>
  void pour(Lowering& job, const analysis::Step& step, std::size_t index);
  template <Role role>
  void lay(Lowering& job, const analysis::Step& step, std::size_t index);
  void add_ice(Lowering& job, const analysis::Step& step, std::size_t index);
  void build_in_glass(Lowering& job, const analysis::Step& step, std::size_t index);
  void carbonate(Lowering& job, const analysis::Step& step, std::size_t index);
  void clarify(Lowering& job, const analysis::Step& step, std::size_t index);
  void cool(Lowering& job, const analysis::Step& step, std::size_t index);
  void dehydrate(Lowering& job, const analysis::Step& step, std::size_t index);
  void dry_shake(Lowering& job, const analysis::Step& step, std::size_t index);
  void dump(Lowering& job, const analysis::Step& step, std::size_t index);
  void heat(Lowering& job, const analysis::Step& step, std::size_t index);
  void muddle(Lowering& job, const analysis::Step& step, std::size_t index);
  void flame(Lowering& job, const analysis::Step& step, std::size_t index);
  void nothing(Lowering& job, const analysis::Step& step, std::size_t index);
  void press(Lowering& job, const analysis::Step& step, std::size_t index);
  void reduce(Lowering& job, const analysis::Step& step, std::size_t index);
  void remove(Lowering& job, const analysis::Step& step, std::size_t index);
  void skim(Lowering& job, const analysis::Step& step, std::size_t index);
  void stand(Lowering& job, const analysis::Step& step, std::size_t index);
  void strain(Lowering& job, const analysis::Step& step, std::size_t index);
  struct StepLowering {
    analysis::Verb verb;
    void (ProgramBuilder::*lower)(Lowering& job, const analysis::Step& step, std::size_t index);
  };
  static const StepLowering step_lowerings[];

  void add_plain(Lowering& job, Operation::Act act, std::size_t index);
  units::Grams ice_in_glass(Lowering& job, std::size_t index) const;
  void chill_step(Lowering& job, const analysis::Step& step, std::size_t index, ChillMethod method);
  void set_named_ice(Lowering& job, operation::Chill& chill, const analysis::IceUse& ice,
                     bool own_glass) const;
  bool set_usual_ice(const Program& program, operation::Chill& chill, bool own_glass) const;
  void pour(Lowering& job, const analysis::Step& step, std::size_t index, Role role);
  void top_up(Lowering& job, std::size_t slot, units::Celsius temperature, std::size_t index,
              std::size_t entry);
  void garnish(Lowering& job, const analysis::Step& step, std::size_t index, Role role);
  void add_operation(Lowering& job, Operation operation, std::size_t entry);
  std::size_t slot_of(Lowering& job, analysis::StockId stock);
  void set_foam(Slot& slot, analysis::StockKind kind) const;
  void squeeze(Slot& slot, const analysis::Stock& fruit) const;
  void keep_in_cells(Slot& slot, analysis::StockKind kind) const;
  std::size_t add_entry(Lowering& job, const analysis::Use& use, Role role, std::size_t index,
                        std::string as_written);
  units::Millilitres poured(const analysis::Use& use, const units::Quantity& quantity) const;
  units::Millilitres expected(const Lowering& job) const;
  units::Grams grams_of_part(Lowering& job, const analysis::Amount& amount);
  units::Millilitres part_of(Lowering& job, const units::Quantity& size);
  units::Celsius temperature_of(const analysis::Amount& amount) const;
  units::Celsius start_temperature(analysis::StockId stock) const;

  const analysis::Specs& specs_;
  const units::UnitTable& units_;
  const std::vector<StockFacts>& stock_;
  diagnostics::DiagnosticSink& sink_;
  Measuring measuring_;
};

}  // namespace gill::model
