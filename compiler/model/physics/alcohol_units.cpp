#include "model/physics/alcohol_units.h"

#include <algorithm>
#include <array>

#include "model/physics/ethanol_water.h"

namespace gill::model {
namespace {

// In order of country. Where a country knows a range, its lower end: it counts more units, the cautious side.
constexpr std::array table{
    AlcoholUnit{"AR", "standard drink", 14.0,
                "comparative table of national definitions, public health review"},
    AlcoholUnit{"AT", "standard drink", 20.0,
                "comparative table of national definitions, public health review"},
    AlcoholUnit{"AU", "standard drink", 10.0,
                "Food Standards Code 2.7.1, Food Standards Australia New Zealand"},
    AlcoholUnit{"CA", "standard drink", 13.45, "Canadian Centre on Substance Use and Addiction"},
    AlcoholUnit{"CH", "standard drink", 10.0, "10 to 12 g in use; from memory"},
    AlcoholUnit{"CL", "standard drink", 14.0,
                "comparative table of national definitions, public health review"},
    AlcoholUnit{"DE", "standard drink", 10.0, "10 to 12 g in use, no legal unit; from memory"},
    AlcoholUnit{"DK", "genstand", 12.0, "comparative table of national definitions, public health review"},
    AlcoholUnit{"ES", "standard drink", 10.0, "from memory"},
    AlcoholUnit{"FI", "standard drink", 12.0, "from memory"},
    AlcoholUnit{"FR", "standard drink", 10.0,
                "comparative table of national definitions, public health review"},
    AlcoholUnit{"GB", "unit", 10.0 * ethanol_water::ethanol_density_g_per_ml,
                "UK Chief Medical Officers' low risk drinking guidelines, Department of Health, 2016: 10 ml"},
    AlcoholUnit{"HK", "standard drink", 10.0, "from memory"},
    AlcoholUnit{"HU", "standard drink", 17.0, "from memory"},
    AlcoholUnit{"IE", "standard drink", 10.0, "Health Service Executive; from memory"},
    AlcoholUnit{"IN", "standard drink", 10.0, "newer texts; an older table has 8 g"},
    AlcoholUnit{"IS", "standard drink", 8.0, "from memory"},
    AlcoholUnit{"IT", "standard drink", 12.0,
                "comparative table of national definitions, public health review"},
    AlcoholUnit{"JP", "unit", 20.0, "Ministry of Health, Labour and Welfare; newer texts count plain grams"},
    AlcoholUnit{"MX", "standard drink", 13.0,
                "comparative table of national definitions, public health review"},
    AlcoholUnit{"NL", "standard drink", 10.0, "from memory"},
    AlcoholUnit{"NO", "standard drink", 12.0, "from memory"},
    AlcoholUnit{"NZ", "standard drink", 10.0, "Food Standards Code 2.7.1; from memory"},
    AlcoholUnit{"PL", "standard drink", 10.0, "from memory"},
    AlcoholUnit{"PT", "standard drink", 10.0, "10 to 12 g in use; from memory"},
    AlcoholUnit{"SE", "standard drink", 12.0, "from memory"},
    AlcoholUnit{"SG", "standard drink", 10.0, "from memory"},
    AlcoholUnit{"US", "standard drink", 14.0,
                "National Institute on Alcohol Abuse and Alcoholism: 14 g, 0.6 fl oz"},
    AlcoholUnit{"WHO", "drink", 10.0, "AUDIT questionnaire, World Health Organization"},
    AlcoholUnit{"ZA", "standard drink", 12.0, "from memory"},
};

constexpr char upper(char letter) noexcept {
  return letter >= 'a' && letter <= 'z' ? static_cast<char>(letter - 'a' + 'A') : letter;
}

bool same_letters(std::string_view left, std::string_view right) noexcept {
  return std::equal(left.begin(), left.end(), right.begin(), right.end(),
                    [](char a, char b) { return upper(a) == upper(b); });
}

}  // namespace

std::span<const AlcoholUnit> alcohol_units() noexcept { return table; }

const AlcoholUnit* find_alcohol_unit(std::string_view country) noexcept {
  if (same_letters(country, "UK")) country = "GB";
  const auto found = std::find_if(table.begin(), table.end(), [&](const AlcoholUnit& unit) {
    return same_letters(unit.country, country);
  });
  return found == table.end() ? nullptr : &*found;
}

}  // namespace gill::model
