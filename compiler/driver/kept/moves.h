#pragma once
#include <map>
#include <vector>

#include "analysis/reader.h"
#include "model/facts.h"

namespace gill::driver::kept {

/// New numbers for the ids of one table, by the old; those of what is no more are not valid.
template <typename Tag>
using NewIds = std::vector<base::Id<Tag>>;

/// What an edit moves without changing it: lines that stand elsewhere, and declarations that have another
/// number since one came or went before them. `apply` brings a kept value up to date.
class Moves {
 public:
  /// What stood there now begins at another place. When all are added, `sort_lines` makes them ready.
  void add_line(source::Span old, source::FileId now_file, std::uint32_t now_begin);
  void sort_lines();
  bool moves_lines() const { return !lines_.empty(); }
  /// True where declarations have other numbers.
  bool renumbers = false;
  NewIds<symbols::Declaration> declarations;
  NewIds<analysis::Stock> stock;
  NewIds<analysis::Glass> glasses;
  NewIds<analysis::Ice> ices;
  NewIds<analysis::Family> families;
  NewIds<analysis::Drink> drinks;
  NewIds<analysis::PriceList> price_lists;

  void apply(source::Span& span) const;
  void apply(analysis::House& house) const;
  void apply(analysis::Stock& stock) const;
  void apply(analysis::Glass& glass) const;
  void apply(analysis::Ice& ice) const;
  void apply(analysis::Family& family) const;
  void apply(analysis::Drink& drink) const;
  void apply(analysis::PriceList& list) const;
  void apply(analysis::Menu& menu) const;
  void apply(analysis::ReadingNotes& notes) const;
  /// With the readings of the trade's forms, which stand in `sources`.
  void apply(analysis::ReadLog& log, const std::deque<syntax::File>& readings,
             source::SourceSet& sources) const;
  void apply(model::DrinkFacts& facts) const;
  void apply(model::StockFacts& facts) const;
  void apply(std::vector<diagnostics::Diagnostic>& findings) const;
  void apply(std::vector<analysis::StockId>& ids) const;

 private:
  struct Line {
    std::uint32_t begin, end;
    source::FileId file;
    std::uint32_t now;
  };
  std::map<source::FileId, std::vector<Line>> lines_;
};

/// Every stock that a value names, each once.
std::vector<analysis::StockId> stock_named_in(const analysis::Drink& drink);
std::vector<analysis::StockId> stock_named_in(const analysis::Stock& stock);

}  // namespace gill::driver::kept
