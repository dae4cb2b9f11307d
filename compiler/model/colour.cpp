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
struct UsualColour {
  analysis::StockKind kind;
  std::string_view hex;
};

constexpr std::string_view colourless = "#f4f6f4";

// In the order of `StockKind`.
constexpr UsualColour usual_colours[] = {
    {analysis::StockKind::unstated, colourless},  {analysis::StockKind::spirit, colourless},
    {analysis::StockKind::liqueur, "#d8b36a"},    {analysis::StockKind::fortified_wine, "#c98f4e"},
    {analysis::StockKind::wine, "#efe3a8"},       {analysis::StockKind::sparkling, "#efe3a8"},
    {analysis::StockKind::beer, "#d9a441"},       {analysis::StockKind::bitters, "#7a2f1d"},
    {analysis::StockKind::juice, "#ecdf9b"},      {analysis::StockKind::syrup, colourless},
    {analysis::StockKind::sweetener, colourless}, {analysis::StockKind::acid, colourless},
    {analysis::StockKind::dairy, "#f5f0e6"},      {analysis::StockKind::egg, "#f6efd9"},
    {analysis::StockKind::fat, "#e6c76a"},        {analysis::StockKind::fruit, "#d8684f"},
    {analysis::StockKind::herb, "#9db36c"},       {analysis::StockKind::spice, colourless},
    {analysis::StockKind::tea_coffee, "#7a4a22"}, {analysis::StockKind::mixer, colourless},
    {analysis::StockKind::water, colourless},     {analysis::StockKind::saline, colourless},
    {analysis::StockKind::additive, colourless},  {analysis::StockKind::garnish, colourless},
};
static_assert([] {
  for (std::size_t i = 0; i < std::size(usual_colours); ++i)
    if (usual_colours[i].kind != static_cast<analysis::StockKind>(i)) return false;
  return std::size(usual_colours) == static_cast<std::size_t>(analysis::StockKind::garnish) + 1;
}());

}  // namespace

Light light_of(const analysis::Stock& stock) {
  if (stock.colour.size() == 7 && stock.colour.front() == '#') return from_hex(stock.colour);
  for (const auto& word : words)
    if (stock.colour == word.word) return from_hex(word.hex);
  return from_hex(usual_colours[static_cast<std::size_t>(stock.kind)].hex);
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
