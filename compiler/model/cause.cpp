#include "model/cause.h"

#include <fmt/format.h>

#include "base/percent.h"

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
      return fmt::format("± {} %", two_digits(base::percent_of_share(width)));
  }
  return {};
}

}  // namespace gill::model
