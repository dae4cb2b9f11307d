#include "driver/kept/same.h"

#include <algorithm>

#include "driver/kept/walk.h"

namespace gill::driver::kept {

namespace {

/// Compares two values part by part; places count for nothing.
struct Same {
  template <Atom Type>
  bool operator()(const Type& a, const Type& b) const {
    return a == b;
  }
  bool operator()(const source::Span&, const source::Span&) const { return true; }
  template <typename Tag>
  bool operator()(const base::Id<Tag>& a, const base::Id<Tag>& b) const {
    return a == b;
  }
  template <PlainStruct Type>
  bool operator()(const Type& a, const Type& b) const {
    return fields(base::fields_of(a), base::fields_of(b),
                  std::make_index_sequence<base::field_count<Type>>{});
  }
  template <typename Type>
  bool operator()(const std::optional<Type>& a, const std::optional<Type>& b) const {
    return a.has_value() == b.has_value() && (!a || (*this)(*a, *b));
  }
  template <typename Type>
  bool operator()(const std::vector<Type>& a, const std::vector<Type>& b) const {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), *this);
  }
  template <typename Type, std::size_t count>
  bool operator()(const std::array<Type, count>& a, const std::array<Type, count>& b) const {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), *this);
  }
  template <typename Key, typename Type>
  bool operator()(const std::map<Key, Type>& a, const std::map<Key, Type>& b) const {
    auto same = [this](const auto& one, const auto& other) {
      return one.first == other.first && (*this)(one.second, other.second);
    };
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), same);
  }

 private:
  template <typename Fields, std::size_t... index>
  bool fields(const Fields& a, const Fields& b, std::index_sequence<index...>) const {
    return ((*this)(std::get<index>(a), std::get<index>(b)) && ...);
  }
};

}  // namespace

bool says_the_same(const analysis::Stock& a, const analysis::Stock& b) { return Same{}(a, b); }
bool says_the_same(const analysis::Glass& a, const analysis::Glass& b) { return Same{}(a, b); }
bool says_the_same(const analysis::Ice& a, const analysis::Ice& b) { return Same{}(a, b); }
bool says_the_same(const analysis::Family& a, const analysis::Family& b) { return Same{}(a, b); }
bool says_the_same(const analysis::Drink& a, const analysis::Drink& b) { return Same{}(a, b); }
bool says_the_same(const analysis::PriceList& a, const analysis::PriceList& b) { return Same{}(a, b); }
bool says_the_same(const analysis::Menu& a, const analysis::Menu& b) { return Same{}(a, b); }

bool have_the_same_face(const analysis::Stock& a, const analysis::Stock& b) {
  return a.head.name == b.head.name && a.is_prep == b.is_prep && a.kind == b.kind && a.form == b.form &&
         Same{}(a.each, b.each) && Same{}(a.gives, b.gives) && Same{}(a.fizz, b.fizz);
}

bool says_the_same_but_for_buys(const analysis::Stock& a, const analysis::Stock& b) {
  analysis::Stock bought = a;
  bought.buys = b.buys;
  return says_the_same(bought, b);
}

bool are_bought_alike(const analysis::Stock& a, const analysis::Stock& b) {
  return Same{}(a.buys, b.buys) && Same{}(a.gives, b.gives) && a.head.name == b.head.name;
}

}  // namespace gill::driver::kept
