#pragma once
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "syntax/line_view.h"

namespace gill::analysis {

/// What a method line does.
enum class Verb : std::uint8_t {
  muddle,
  dry_shake,
  shake,
  whip,
  stir,
  throw_,
  roll,
  swizzle,
  churn,
  blend,
  build,
  strain,
  double_strain,
  fine_strain,
  dump,
  rinse,
  top,
  float_,
  layer,
  mist,
  rim,
  flame,
  smoke,
  heat,
  carbonate,
  rest,
  add_ice,
  garnish,
  side,
  serve,
  do_,
  dissolve,
  cool,
  simmer,
  infuse,
  steep,
  macerate,
  chill,
  freeze,
  thaw,
  ferment,
  dehydrate,
  skim,
  decant,
  press,
  clarify,
  remove,
  reduce,
  charge,
  bottle,
};

/// What may follow a verb.
struct VerbInfo {
  Verb verb;
  std::string_view name;
  bool in_drink;
  bool in_prep;
  /// Takes a time: never, may (nothing is assumed), or should (`no-time` when left out).
  enum class Time : std::uint8_t { never, may, should } time = Time::never;
  bool takes_ice = false;          ///< `with ICE`
  bool takes_temperature = false;  ///< `to TEMP`, or `at TEMP` for a verb with a time
  bool takes_count = false;        ///< a plain number: `throw 6`, `mist 2 absinthe`
  bool takes_amount = false;       ///< a volume, mass or count of what is named
  bool takes_target = false;       ///< `to QUANTITY` or `by SHARE`
  bool takes_gas = false;          ///< `to 3.5 vol`
  enum class Name : std::uint8_t { never, may, must } name_slot = Name::never;
  bool takes_words = false;  ///< the rest is words
  /// How long it usually takes, s, where no time is said and one matters; 0 else. The model assumes the same.
  int usual_s = 0;
};

const VerbInfo& info(Verb verb);
/// The verb that begins at this item, longest first, and how many items it takes.
struct VerbMatch {
  Verb verb;
  std::size_t tokens;
};
std::optional<VerbMatch> match_verb(const syntax::LineView& line, std::size_t first);
const std::vector<VerbInfo>& all_verbs();

}  // namespace gill::analysis
