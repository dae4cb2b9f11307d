#include "model/hands.h"

namespace gill::model {

namespace {

struct Way {
  analysis::Verb verb;
  ChillMethod method;
};
constexpr Way ways[] = {
    {analysis::Verb::shake, ChillMethod::shake},   {analysis::Verb::stir, ChillMethod::stir},
    {analysis::Verb::whip, ChillMethod::whip},     {analysis::Verb::swizzle, ChillMethod::swizzle},
    {analysis::Verb::throw_, ChillMethod::throw_}, {analysis::Verb::roll, ChillMethod::roll},
    {analysis::Verb::churn, ChillMethod::churn},   {analysis::Verb::build, ChillMethod::build},
};

}  // namespace

std::optional<ChillMethod> chill_method_of(analysis::Verb verb) {
  for (const auto& way : ways)
    if (way.verb == verb) return way.method;
  return std::nullopt;
}

analysis::Verb verb_of(ChillMethod method) {
  for (const auto& way : ways)
    if (way.method == method) return way.verb;
  return analysis::Verb::blend;
}

Hands hands_of(const analysis::House& house) {
  Hands hands;
  for (const auto& [verb, hand] : house.hands) {
    auto method = chill_method_of(verb);
    if (!method) continue;
    hands.melt[index_of(*method)] = hand.factor;
    if (hand.width) hands.melt_width[index_of(*method)] = *hand.width;
  }
  hands.hold = house.strain_hand.factor;
  if (house.strain_hand.width) hands.hold_width = *house.strain_hand.width;
  return hands;
}

}  // namespace gill::model
