#include "model/cause.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/percent.h"
#include "model/physics/acid.h"

namespace gill::model {

std::string words_of(const Cause& cause, const analysis::Specs& specs) {
  auto name = [&] { return specs[cause.stock].head.name; };
  switch (cause.kind) {
    case Cause::Kind::strength:
      return "the strength of " + name();
    case Cause::Kind::sugar:
      return "the sugar of " + name();
    case Cause::Kind::acid:
      return "the acidity of " + name();
    case Cause::Kind::amount:
      return "the amount of " + name();
    case Cause::Kind::jigger:
      return "the pours";
    case Cause::Kind::top:
      return "the top";
    case Cause::Kind::melt:
      return "the dilution";
    case Cause::Kind::hold:
      return "what is strained off";
    case Cause::Kind::room:
      return "the room's temperature";
    case Cause::Kind::ice:
      return "the ice's temperature";
  }
  return {};
}

namespace {

/// Two digits, and never an exponent.
std::string two_digits(double number) {
  return number < 10 ? fmt::format("{:.2g}", number) : fmt::format("{:.0f}", number);
}

}  // namespace

std::string width_text(const Cause& cause, double width) {
  switch (cause.kind) {
    case Cause::Kind::strength:
      return fmt::format("± {} % abv", two_digits(base::percent_of_share(width)));
    case Cause::Kind::room:
    case Cause::Kind::ice:
      return fmt::format("± {} C", two_digits(width));
    case Cause::Kind::sugar:
    case Cause::Kind::acid:
    case Cause::Kind::amount:
    case Cause::Kind::jigger:
    case Cause::Kind::top:
    case Cause::Kind::melt:
    case Cause::Kind::hold:
      return fmt::format("± {} %", two_digits(base::percent_of_share(width)));
  }
  return {};
}

void move_declared(DeclaredTerms& terms, Cause::Kind kind, double width) {
  double factor = std::max(0.0, 1 + width);
  switch (kind) {
    case Cause::Kind::strength:
      terms.strength = std::clamp(*terms.strength + width, 0.0, 1.0);
      break;
    case Cause::Kind::sugar:
      terms[Component::sugar] *= factor;
      break;
    case Cause::Kind::acid:
      for (Component acid : acids) terms[acid] *= factor;
      break;
    case Cause::Kind::amount:
    case Cause::Kind::jigger:
    case Cause::Kind::top:
    case Cause::Kind::melt:
    case Cause::Kind::hold:
    case Cause::Kind::room:
    case Cause::Kind::ice:
      break;
  }
}

}  // namespace gill::model
