#include "analysis/verbs.h"

#include "analysis/usual_times.h"
#include "base/text.h"

namespace gill::analysis {
namespace {

using Time = VerbInfo::Time;
using Name = VerbInfo::Name;

constexpr bool yes = true, no = false;

// One verb a line, in the order of `Verb`.
// clang-format off
constexpr VerbInfo verbs[] = {
    //                                   drink prep time          ice  temp count amount target gas name        words
    {Verb::muddle,        "muddle",        yes, yes, Time::never,  no,  no,  no,  no,  no,  no,  Name::may,   no},
    {Verb::dry_shake,     "dry shake",     yes, yes, Time::should, no,  no,  no,  no,  no,  no,  Name::never, no},
    {Verb::shake,         "shake",         yes, yes, Time::should, yes, no,  no,  no,  no,  no,  Name::never, no, usual_shake_s},
    {Verb::whip,          "whip",          yes, yes, Time::should, yes, no,  no,  no,  no,  no,  Name::never, no, usual_whip_s},
    {Verb::stir,          "stir",          yes, yes, Time::should, yes, no,  no,  no,  no,  no,  Name::never, no, usual_stir_s},
    {Verb::throw_,        "throw",         yes, no,  Time::never,  yes, no,  yes, no,  no,  no,  Name::never, no},
    {Verb::roll,          "roll",          yes, no,  Time::never,  yes, no,  yes, no,  no,  no,  Name::never, no},
    {Verb::swizzle,       "swizzle",       yes, no,  Time::should, yes, no,  no,  no,  no,  no,  Name::never, no},
    {Verb::churn,         "churn",         yes, yes, Time::should, yes, no,  no,  no,  no,  no,  Name::never, no},
    {Verb::blend,         "blend",         yes, yes, Time::should, yes, no,  no,  no,  no,  no,  Name::never, no},
    {Verb::build,         "build",         yes, no,  Time::never,  no,  no,  no,  no,  no,  no,  Name::never, no},
    {Verb::strain,        "strain",        yes, yes, Time::never,  no,  no,  no,  no,  no,  no,  Name::never, no},
    {Verb::double_strain, "double strain", yes, yes, Time::never,  no,  no,  no,  no,  no,  no,  Name::never, no},
    {Verb::fine_strain,   "fine strain",   yes, yes, Time::never,  no,  no,  no,  no,  no,  no,  Name::never, no},
    {Verb::dump,          "dump",          yes, no,  Time::never,  no,  no,  no,  no,  no,  no,  Name::never, no},
    {Verb::rinse,         "rinse",         yes, no,  Time::never,  no,  no,  no,  yes, no,  no,  Name::must,  no},
    {Verb::top,           "top",           yes, no,  Time::never,  no,  no,  no,  yes, no,  no,  Name::must,  no},
    {Verb::float_,        "float",         yes, no,  Time::never,  no,  no,  no,  yes, no,  no,  Name::must,  no},
    {Verb::layer,         "layer",         yes, no,  Time::never,  no,  no,  no,  yes, no,  no,  Name::must,  no},
    {Verb::mist,          "mist",          yes, no,  Time::never,  no,  no,  yes, no,  no,  no,  Name::must,  no},
    {Verb::rim,           "rim",           yes, no,  Time::never,  no,  no,  no,  yes, no,  no,  Name::must,  no},
    {Verb::flame,         "flame",         yes, no,  Time::never,  no,  no,  no,  no,  no,  no,  Name::may,   no},
    {Verb::smoke,         "smoke",         yes, yes, Time::may,    no,  no,  no,  no,  no,  no,  Name::must,  no},
    {Verb::heat,          "heat",          yes, yes, Time::may,    no,  yes, no,  no,  no,  no,  Name::never, no},
    {Verb::carbonate,     "carbonate",     yes, yes, Time::may,    no,  no,  no,  no,  no,  yes, Name::never, no},
    {Verb::rest,          "rest",          yes, yes, Time::should, no,  yes, no,  no,  no,  no,  Name::never, no},
    {Verb::add_ice,       "add",           yes, no,  Time::never,  yes, no,  no,  no,  no,  no,  Name::never, no},
    {Verb::garnish,       "garnish",       yes, no,  Time::never,  no,  no,  no,  yes, no,  no,  Name::must,  no},
    {Verb::side,          "side",          yes, no,  Time::never,  no,  no,  no,  yes, no,  no,  Name::must,  no},
    {Verb::serve,         "serve",         yes, no,  Time::never,  no,  no,  no,  no,  no,  no,  Name::never, yes},
    {Verb::do_,           "do",            yes, yes, Time::may,    no,  no,  no,  no,  no,  no,  Name::never, yes},
    {Verb::dissolve,      "dissolve",      no,  yes, Time::may,    no,  yes, no,  no,  no,  no,  Name::may,   no},
    {Verb::cool,          "cool",          no,  yes, Time::may,    no,  yes, no,  no,  no,  no,  Name::never, no},
    {Verb::simmer,        "simmer",        no,  yes, Time::should, no,  yes, no,  no,  no,  no,  Name::never, no},
    {Verb::infuse,        "infuse",        no,  yes, Time::should, no,  yes, no,  no,  no,  no,  Name::never, no},
    {Verb::steep,         "steep",         no,  yes, Time::should, no,  yes, no,  no,  no,  no,  Name::never, no},
    {Verb::macerate,      "macerate",      no,  yes, Time::should, no,  yes, no,  no,  no,  no,  Name::never, no},
    {Verb::chill,         "chill",         no,  yes, Time::may,    no,  yes, no,  no,  no,  no,  Name::never, no},
    {Verb::freeze,        "freeze",        no,  yes, Time::should, no,  yes, no,  no,  no,  no,  Name::never, no},
    {Verb::thaw,          "thaw",          no,  yes, Time::may,    no,  yes, no,  no,  no,  no,  Name::never, no},
    {Verb::ferment,       "ferment",       no,  yes, Time::should, no,  yes, no,  no,  no,  no,  Name::never, no},
    {Verb::dehydrate,     "dehydrate",     no,  yes, Time::should, no,  yes, no,  no,  no,  no,  Name::never, no},
    {Verb::skim,          "skim",          no,  yes, Time::never,  no,  no,  no,  no,  no,  no,  Name::may,   no},
    {Verb::decant,        "decant",        no,  yes, Time::never,  no,  no,  no,  no,  no,  no,  Name::never, no},
    {Verb::press,         "press",         no,  yes, Time::may,    no,  no,  no,  no,  no,  no,  Name::may,   no},
    {Verb::clarify,       "clarify",       no,  yes, Time::may,    no,  no,  no,  no,  no,  no,  Name::may,   no},
    {Verb::remove,        "remove",        no,  yes, Time::never,  no,  no,  no,  no,  no,  no,  Name::must,  no},
    {Verb::reduce,        "reduce",        no,  yes, Time::may,    no,  no,  no,  no,  yes, no,  Name::never, no},
    {Verb::charge,        "charge",        no,  yes, Time::never,  no,  no,  yes, no,  no,  no,  Name::never, no},
    {Verb::bottle,        "bottle",        no,  yes, Time::never,  no,  no,  no,  yes, no,  no,  Name::never, no},
};
// clang-format on

constexpr bool stand_in_the_order_of_verbs() {
  for (std::size_t i = 0; i < std::size(verbs); ++i)
    if (verbs[i].verb != static_cast<Verb>(i)) return false;
  return std::size(verbs) == static_cast<std::size_t>(Verb::bottle) + 1;
}
static_assert(stand_in_the_order_of_verbs());

}  // namespace

const VerbInfo& info(Verb verb) { return verbs[static_cast<std::size_t>(verb)]; }

const std::vector<VerbInfo>& all_verbs() {
  static const std::vector<VerbInfo> all(std::begin(verbs), std::end(verbs));
  return all;
}

std::optional<VerbMatch> match_verb(const syntax::LineView& line, std::size_t first) {
  if (line.kind(first) != syntax::TokenKind::word) return std::nullopt;
  std::string first_word = base::lower_ascii(line.text(first));
  std::string two_words;
  if (line.kind(first + 1) == syntax::TokenKind::word)
    two_words = first_word + " " + base::lower_ascii(line.text(first + 1));
  for (const auto& verb : verbs)
    if (verb.name == two_words) return VerbMatch{verb.verb, 2};
  for (const auto& verb : verbs)
    if (verb.name == first_word) return VerbMatch{verb.verb, 1};
  return std::nullopt;
}

}  // namespace gill::analysis
