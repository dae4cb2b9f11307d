#pragma once
#include <fmt/format.h>

#include <string>

namespace gill::testing {

/// A house of so many drinks of three pours each, on forty chains of preps inside preps, 8 deep, all on one
/// menu.
inline std::string big_house(int drinks) {
  constexpr int chains = 40, depth = 8;
  std::string house = "house Big\n  currency EUR\n";
  for (int i = 0; i < chains; ++i)
    house += fmt::format(
        "ingredient spirit {0}\n  kind spirit\n  strength 40 % abv\n  buy 700 ml for {1} EUR\n  buy 6 x 700 "
        "ml for {2} EUR\n",
        i, 15 + i, 85 + 6 * i);
  for (int i = 0; i < chains; ++i)
    for (int level = 0; level < depth; ++level) {
      house += fmt::format("prep prep {0} level {1}\n", i, level);
      house += level == 0 ? fmt::format("  700 ml spirit {}\n", i)
                          : fmt::format("  500 ml prep {0} level {1}\n  200 ml spirit {2}\n", i, level - 1,
                                        (i + level) % chains);
      house +=
          fmt::format("  rest 4 h\n  fine strain\n  makes 650 ml\n  keeps {} d chilled\n  takes 10 min\n",
                      2 + (i + level) % 30);
    }
  std::string menu = "menu All\n  section All\n";
  for (int i = 0; i < drinks; ++i) {
    house += fmt::format(
        "drink drink {0}\n  glass rocks\n  30 ml prep {1} level {2}\n  20 ml spirit {3}\n  20 ml lemon "
        "juice\n"
        "  shake 12 s\n  double strain\n",
        i, i % chains, depth - 1, (i + 7) % chains);
    menu += fmt::format("    drink {} at 12 EUR, sells {}, Fri {}\n", i, 1 + i % 9, 2 + i % 20);
  }
  return house + menu;
}

}  // namespace gill::testing
