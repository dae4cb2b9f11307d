// What the compiler of C++ refuses: kinds of quantity do not mix.
#include "units/measures.h"

#include <catch2/catch.hpp>
#include <type_traits>

#include "units/quantity.h"

using namespace gill::units;

namespace {

template <typename A, typename B>
concept adds = requires(A a, B b) {
  a + b;
};
template <typename A, typename B>
concept subtracts = requires(A a, B b) {
  a - b;
};
template <typename A, typename B>
concept multiplies = requires(A a, B b) {
  a* b;
};
template <typename A, typename B>
concept divides = requires(A a, B b) {
  a / b;
};
template <typename A, typename B>
concept compares = requires(A a, B b) {
  a < b;
};
template <typename A, typename B>
concept assigns = requires(A& a, B b) {
  a = b;
};

/// True when two kinds neither add, subtract, compare nor stand in for each other.
template <typename A, typename B>
constexpr bool keep_apart = !adds<A, B> && !adds<B, A> && !subtracts<A, B> && !subtracts<B, A> &&
                            !compares<A, B> && !assigns<A, B> && !assigns<B, A>;

/// True when the first keeps apart from all the others.
template <typename First, typename... Others>
constexpr bool apart_from_all = (keep_apart<First, Others> && ...);

template <typename... All>
struct pairwise : std::true_type {};
template <typename First, typename... Others>
struct pairwise<First, Others...>
    : std::bool_constant<apart_from_all<First, Others...> && pairwise<Others...>::value> {};

}  // namespace

TEST_CASE("no kind of quantity adds to, compares with or becomes another", "[measures]") {
  STATIC_REQUIRE(pairwise<Millilitres, Grams, Seconds, AlcoholByVolume, GramsInMillilitre, MassFraction,
                          Density, GasVolumes, Share, Celsius>::value);
}

TEST_CASE("a kind adds to itself and scales by plain numbers", "[measures]") {
  STATIC_REQUIRE(adds<Millilitres, Millilitres>);
  STATIC_REQUIRE(multiplies<Millilitres, double>);
  STATIC_REQUIRE(Millilitres(45) + Millilitres(15) == Millilitres(60));
  STATIC_REQUIRE(2 * Millilitres(30) == Millilitres(60));
  STATIC_REQUIRE(Millilitres(60) / Millilitres(30) == 2.0);
}

TEST_CASE("a plain number is no quantity", "[measures]") {
  STATIC_REQUIRE_FALSE(adds<Millilitres, double>);
  STATIC_REQUIRE_FALSE(std::is_convertible_v<double, Millilitres>);
  STATIC_REQUIRE_FALSE(std::is_convertible_v<Millilitres, double>);
}

TEST_CASE("volume times density is mass, and only so", "[measures]") {
  STATIC_REQUIRE(Millilitres(100) * Density(1.42) == Grams(142));
  STATIC_REQUIRE(Grams(142) / Density(1.42) == Millilitres(100));
  STATIC_REQUIRE(Grams(142) / Millilitres(100) == Density(1.42));
  STATIC_REQUIRE_FALSE(multiplies<Grams, Density>);
  STATIC_REQUIRE_FALSE(multiplies<Millilitres, Grams>);
  STATIC_REQUIRE_FALSE(divides<Millilitres, Grams>);
}

TEST_CASE("a concentration by volume is of a volume, one by mass of a mass", "[measures]") {
  STATIC_REQUIRE(Millilitres(100) * GramsInMillilitre(0.5) == Grams(50));
  STATIC_REQUIRE(Grams(100) * MassFraction(0.5) == Grams(50));
  STATIC_REQUIRE_FALSE(multiplies<Millilitres, MassFraction>);
  STATIC_REQUIRE_FALSE(multiplies<Grams, GramsInMillilitre>);
}

TEST_CASE("a temperature is a point: two do not add, their difference is a number", "[measures]") {
  STATIC_REQUIRE_FALSE(adds<Celsius, Celsius>);
  STATIC_REQUIRE_FALSE(multiplies<Celsius, double>);
  STATIC_REQUIRE(Celsius{20} - Celsius{-18} == 38.0);
}

TEST_CASE("a quantity gives itself only as its own kind", "[measures]") {
  Quantity quantity;
  quantity.kind = Kind::volume;
  quantity.value = 60;
  CHECK(quantity.volume() == Millilitres(60));
  CHECK_FALSE(quantity.mass());
  CHECK_FALSE(quantity.time());
  CHECK_FALSE(quantity.strength());
  CHECK_FALSE(quantity.density());
  CHECK_FALSE(quantity.temperature());
  CHECK_FALSE(quantity.mass_concentration());
  CHECK_FALSE(quantity.mass_fraction());
  CHECK_FALSE(quantity.gas());
}
