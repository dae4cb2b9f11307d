#include "model/colour.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

namespace gill::model {
namespace {

Light from_hex(std::string_view hex) {
  auto channel = [&](std::size_t at) {
    return static_cast<double>(std::strtol(std::string(hex.substr(at, 2)).c_str(), nullptr, 16)) / 255;
  };
  return {channel(1), channel(3), channel(5)};
}

struct NamedColour {
  std::string_view word;
  std::string_view hex;
};

// Words that specs use for drinks; our own choice of tints.
constexpr std::array<NamedColour, 20> words = {{
    {"clear", "#f4f6f4"},  {"white", "#f5f0e6"}, {"cream", "#f3e6cc"},  {"straw", "#efe3a8"},
    {"yellow", "#ecc94b"}, {"gold", "#d9a441"},  {"amber", "#c77f2a"},  {"orange", "#dd7a2b"},
    {"copper", "#b5652f"}, {"brown", "#6e4423"}, {"black", "#2b1d16"},  {"red", "#b3262e"},
    {"ruby", "#8e1b2d"},   {"pink", "#e39aa3"},  {"purple", "#6b3a63"}, {"violet", "#7a5ea8"},
    {"blue", "#4a78b8"},   {"green", "#7f9f5a"}, {"tan", "#c9a36b"},    {"grey", "#b9b7b0"},
}};

/// What a kind looks like when nobody says.
std::string_view usual_hex(analysis::StockKind kind) {
  using analysis::StockKind;
  switch (kind) {
    case StockKind::liqueur:
      return "#d8b36a";
    case StockKind::fortified_wine:
      return "#c98f4e";
    case StockKind::wine:
    case StockKind::sparkling:
      return "#efe3a8";
    case StockKind::beer:
      return "#d9a441";
    case StockKind::bitters:
      return "#7a2f1d";
    case StockKind::juice:
      return "#ecdf9b";
    case StockKind::dairy:
      return "#f5f0e6";
    case StockKind::egg:
      return "#f6efd9";
    case StockKind::fat:
      return "#e6c76a";
    case StockKind::fruit:
      return "#d8684f";
    case StockKind::herb:
      return "#9db36c";
    case StockKind::tea_coffee:
      return "#7a4a22";
    case StockKind::unstated:
    case StockKind::spirit:
    case StockKind::syrup:
    case StockKind::sweetener:
    case StockKind::acid:
    case StockKind::spice:
    case StockKind::mixer:
    case StockKind::water:
    case StockKind::saline:
    case StockKind::additive:
    case StockKind::garnish:
      return "#f4f6f4";
  }
  return "#f4f6f4";
}

}  // namespace

Light light_of(const analysis::Stock& stock) {
  if (stock.colour.size() == 7 && stock.colour.front() == '#') return from_hex(stock.colour);
  for (const auto& word : words)
    if (stock.colour == word.word) return from_hex(word.hex);
  return from_hex(usual_hex(stock.kind));
}

Light mixed(const std::vector<std::pair<Light, double>>& parts_ml) {
  double total = 0;
  for (const auto& [light, ml] : parts_ml) total += ml;
  if (total <= 0) return {};
  // Beer and Lambert: what is let through multiplies, so logarithms add by share.
  auto let_through = [&](double Light::*channel) {
    double sum = 0;
    for (const auto& [light, ml] : parts_ml) sum += ml / total * std::log(std::max(light.*channel, 0.02));
    return std::exp(sum);
  };
  return {let_through(&Light::red), let_through(&Light::green), let_through(&Light::blue)};
}

std::string to_hex(const Light& light) {
  auto channel = [](double value) {
    return static_cast<int>(std::lround(255 * std::clamp(value, 0.0, 1.0)));
  };
  return fmt::format("#{:02x}{:02x}{:02x}", channel(light.red), channel(light.green), channel(light.blue));
}

}  // namespace gill::model
