#include "analysis/allergen_lists.h"

#include <algorithm>
#include <array>

namespace gill::analysis {
namespace {

constexpr std::array<std::string_view, 14> european = {
    "cereals", "crustaceans", "egg",     "fish",   "peanuts",   "soybeans", "milk",
    "nuts",    "celery",      "mustard", "sesame", "sulphites", "lupin",    "molluscs"};
// Pine nut is one of its tree nuts, and no nut of the European list; of the cereals only wheat is named.
constexpr std::array<std::string_view, 10> american = {"milk",     "egg",      "fish",          "crustaceans",
                                                       "nuts",     "pine nut", "cereals:wheat", "peanuts",
                                                       "soybeans", "sesame"};
constexpr std::array<std::string_view, 13> canadian = {
    "egg",    "milk",     "mustard",   "peanuts", "crustaceans", "molluscs", "fish",
    "sesame", "soybeans", "sulphites", "nuts",    "pine nut",    "cereals"};
constexpr std::array<std::string_view, 13> australian = {
    "cereals",  "crustaceans", "molluscs", "fish",     "egg",   "milk",     "nuts",
    "pine nut", "peanuts",     "sesame",   "soybeans", "lupin", "sulphites"};

constexpr std::string_view annex = "Regulation (EU) No 1169/2011, Annex II";

constexpr std::array<AllergenList, 6> lists = {{
    {"EU", european, annex},
    {"UK", european,
     "Food Information Regulations 2014, with Annex II of Regulation 1169/2011 as retained: from memory"},
    {"US", american,
     "21 U.S.C. 321(qq), with sesame since 1 January 2023; which nuts: FDA guidance on food allergens, "
     "January 2025"},
    {"CA", canadian,
     "Food and Drug Regulations of Canada, priority allergens and gluten sources: from memory"},
    {"AU", australian,
     "Food Standards Code, Standard 1.2.3, Food Standards Australia New Zealand: from memory"},
    {"NZ", australian,
     "Food Standards Code, Standard 1.2.3, Food Standards Australia New Zealand: from memory"},
}};

// ISO 3166-1, alpha-2 codes in official use (International Organization for Standardization): from memory.
constexpr std::string_view country_codes =
    "AD AE AF AG AI AL AM AO AQ AR AS AT AU AW AX AZ BA BB BD BE BF BG BH BI BJ BL BM BN BO BQ BR BS "
    "BT BV BW BY BZ CA CC CD CF CG CH CI CK CL CM CN CO CR CU CV CW CX CY CZ DE DJ DK DM DO DZ EC EE "
    "EG EH ER ES ET FI FJ FK FM FO FR GA GB GD GE GF GG GH GI GL GM GN GP GQ GR GS GT GU GW GY HK HM "
    "HN HR HT HU ID IE IL IM IN IO IQ IR IS IT JE JM JO JP KE KG KH KI KM KN KP KR KW KY KZ LA LB LC "
    "LI LK LR LS LT LU LV LY MA MC MD ME MF MG MH MK ML MM MN MO MP MQ MR MS MT MU MV MW MX MY MZ NA "
    "NC NE NF NG NI NL NO NP NR NU NZ OM PA PE PF PG PH PK PL PM PN PR PS PT PW PY QA RE RO RS RU RW "
    "SA SB SC SD SE SG SH SI SJ SK SL SM SN SO SR SS ST SV SX SY SZ TC TD TF TG TH TJ TK TL TM TN TO "
    "TR TT TV TW TZ UA UG UM US UY UZ VA VC VE VG VI VN VU WF WS YE YT ZA ZM ZW ";

}  // namespace

std::span<const AllergenList> allergen_lists() noexcept { return lists; }

const AllergenList* find_allergen_list(std::string_view name) noexcept {
  if (name == "GB") name = "UK";
  const auto* found =
      std::find_if(lists.begin(), lists.end(), [&](const AllergenList& list) { return list.name == name; });
  return found == lists.end() ? nullptr : found;
}

std::string allergen_list_names() {
  std::string names;
  for (const auto& list : lists) names += (names.empty() ? "" : ", ") + std::string(list.name);
  return names;
}

bool is_country_code(std::string_view code) noexcept {
  for (std::size_t at = 0; at < country_codes.size(); at += 3)
    if (country_codes.substr(at, 2) == code) return true;
  return false;
}

}  // namespace gill::analysis
