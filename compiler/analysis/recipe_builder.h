#pragma once
#include <string>

#include "analysis/read_recipe.h"

namespace gill::analysis {

/// Puts amount and method lines into a recipe in the order in which they are done. In a variation (`like`)
/// the recipe holds the other's lines already, and what is named again changes them in place.
class RecipeBuilder {
 public:
  RecipeBuilder(Recipe& recipe, Head& head, bool is_variation, bool in_prep);

  /// Reads an amount, a step, `swap`, `without` or `method anew`; false when the line is none of them.
  bool read_line(LineReader& reader, const std::string& text);

 private:
  bool read_variation_line(LineReader& reader);
  void add_amount(LineReader& reader, Amount amount);
  void change_in_place(const LineReader& reader, RecipeLine& line, Amount amount);
  void add_step(LineReader& reader, Step step);
  /// True when the recipe takes no more lines; the first that is lost says so, and each leaves the amounts in
  /// error.
  bool is_full(LineReader& reader);
  void read_swap(LineReader& reader);
  void read_without(LineReader& reader);
  void drop_method();
  void erase_line(std::size_t position);
  /// Where that use is poured among the inherited lines, as an amount or by a step; how many there are.
  std::size_t find_inherited(const Use& use, std::size_t& count) const;
  std::size_t after_last_mixing_amount() const;
  std::size_t before_garnish() const;
  void insert(std::size_t position, RecipeLine line);

  Recipe& recipe_;
  Head& head_;
  bool is_variation_;
  bool in_prep_;
  /// After this variation's own last step; nothing while it has none.
  std::optional<std::size_t> after_own_step_;
  bool own_garnish_ = false;
  bool said_that_it_is_full_ = false;
};

}  // namespace gill::analysis
