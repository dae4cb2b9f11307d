#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "costing/costing.h"

namespace gill::costing {

/// Up to three names that a misspelt or foreign one may mean: those that share most words with it, then the
/// nearest in spelling.
class NameFinder {
 public:
  NameFinder(const House& house, symbols::NameSpace space);
  /// The declaration's index in its table, of goods by their names in other languages as well, of drinks
  /// by what they were called before (`was`); nothing when no name or `aka` fits.
  std::optional<std::uint32_t> find(std::string_view name) const;
  std::vector<std::string> nearest(std::string_view name) const;
  /// The name that shares most words that say what it is; empty where none does. What is only spelt alike is
  /// no relation: `panna` is no `banana`.
  std::string relation(std::string_view name) const;
  /// `nothing here is called X; near it: a, b`.
  std::string unmatched(std::string_view name, std::string_view noun) const;

 private:
  std::optional<std::uint32_t> renamed(std::string_view name) const;

  const House& house_;
  symbols::NameSpace space_;
  struct Known {
    std::string folded, shown;
    std::vector<std::string> words;
  };
  std::vector<Known> known_;
};

}  // namespace gill::costing
