#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

/// What a vessel can hold, by mass. Masses are what is conserved; everything else is evaluated from them.
namespace gill::model {

/// The parts a drink is reckoned in. `other` is dissolved solids that are none of the named; `solids` is
/// undissolved.
enum class Component : std::uint8_t {
  water,
  ethanol,
  sugar,
  citric,
  malic,
  tartaric,
  lactic,
  acetic,
  phosphoric,
  ascorbic,
  fat,
  protein,
  salt,
  other,
  solids,
  carbon_dioxide,
};
inline constexpr std::size_t component_count = 16;

inline constexpr std::array<Component, component_count> components{
    Component::water,      Component::ethanol,  Component::sugar,  Component::citric,
    Component::malic,      Component::tartaric, Component::lactic, Component::acetic,
    Component::phosphoric, Component::ascorbic, Component::fat,    Component::protein,
    Component::salt,       Component::other,    Component::solids, Component::carbon_dioxide};

/// The acids, in the order of `Component`.
inline constexpr std::array<Component, 7> acids{Component::citric,  Component::malic,  Component::tartaric,
                                                Component::lactic,  Component::acetic, Component::phosphoric,
                                                Component::ascorbic};

constexpr std::size_t index_of(Component component) noexcept { return static_cast<std::size_t>(component); }

/// The component's name in plain words: "sugar", "citric acid", "carbon dioxide".
constexpr std::string_view component_name(Component component) noexcept {
  switch (component) {
    case Component::water:
      return "water";
    case Component::ethanol:
      return "ethanol";
    case Component::sugar:
      return "sugar";
    case Component::citric:
      return "citric acid";
    case Component::malic:
      return "malic acid";
    case Component::tartaric:
      return "tartaric acid";
    case Component::lactic:
      return "lactic acid";
    case Component::acetic:
      return "acetic acid";
    case Component::phosphoric:
      return "phosphoric acid";
    case Component::ascorbic:
      return "ascorbic acid";
    case Component::fat:
      return "fat";
    case Component::protein:
      return "protein";
    case Component::salt:
      return "salt";
    case Component::other:
      return "other dissolved solids";
    case Component::solids:
      return "undissolved solids";
    case Component::carbon_dioxide:
      return "carbon dioxide";
  }
  return "";
}

/// Grams of each component. A plain value: copied freely, added, scaled.
struct Masses {
  std::array<double, component_count> grams{};

  constexpr double& operator[](Component component) noexcept { return grams[index_of(component)]; }
  constexpr double operator[](Component component) const noexcept { return grams[index_of(component)]; }

  constexpr Masses& operator+=(const Masses& more) noexcept {
    for (std::size_t i = 0; i < component_count; ++i) grams[i] += more.grams[i];
    return *this;
  }
  constexpr Masses& operator-=(const Masses& less) noexcept {
    for (std::size_t i = 0; i < component_count; ++i) grams[i] -= less.grams[i];
    return *this;
  }
  constexpr Masses& operator*=(double factor) noexcept {
    for (double& gram : grams) gram *= factor;
    return *this;
  }
  friend constexpr Masses operator+(Masses left, const Masses& right) noexcept { return left += right; }
  friend constexpr Masses operator-(Masses left, const Masses& right) noexcept { return left -= right; }
  friend constexpr Masses operator*(Masses masses, double factor) noexcept { return masses *= factor; }
  friend constexpr Masses operator*(double factor, Masses masses) noexcept { return masses *= factor; }
  friend constexpr bool operator==(const Masses&, const Masses&) = default;

  /// Grams of everything.
  constexpr double total() const noexcept {
    double sum = 0;
    for (const double gram : grams) sum += gram;
    return sum;
  }
  /// Grams of everything but undissolved solids.
  constexpr double liquid() const noexcept { return total() - (*this)[Component::solids]; }
  /// Grams of all acids together, each as itself (not as citric equivalents).
  constexpr double all_acids() const noexcept {
    double sum = 0;
    for (const Component acid : acids) sum += (*this)[acid];
    return sum;
  }
};

/// `grams` of one component and nothing else.
constexpr Masses only(Component component, double grams) noexcept {
  Masses masses;
  masses[component] = grams;
  return masses;
}

}  // namespace gill::model
