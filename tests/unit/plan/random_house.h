#pragma once
#include <random>
#include <string>
#include <vector>

#include <fmt/format.h>

namespace gill::testing {

/// A house of chance: preps inside preps with waits, yields, batches and pars, fruit for juice and peel,
/// house bottles, and a menu. The same seed and scale give the same text; `scale` multiplies every sale.
class RandomHouse {
 public:
  explicit RandomHouse(unsigned seed) : random_(seed) {}

  std::string text(double scale) {
    std::string house = R"(house Chance
  currency EUR

ingredient lemon
  kind fruit
  each 120 g
  each twist 3 g
  each wheel 8 g
  gives 45 ml lemon juice, 9 g lemon peel
  buy 1 for 0.40 EUR
  buy 20 for 7 EUR
)";
    int bought = between(3, 7);
    for (int i = 0; i < bought; ++i) house += ingredient(i);
    std::vector<std::string> parts = {"lemon juice"};
    for (int i = 0; i < bought; ++i) parts.push_back(fmt::format("bought {}", i));
    int preps = between(1, 9);
    std::vector<std::string> made;
    for (int i = 0; i < preps; ++i) {
      house += prep(i, parts, made);
      made.push_back(fmt::format("made {}", i));
    }
    std::vector<std::string> all = parts;
    all.insert(all.end(), made.begin(), made.end());
    int drinks = between(1, 6);
    std::string menu = "menu Nightly\n  section All\n";
    for (int i = 0; i < drinks; ++i) {
      house += drink(i, all);
      menu += fmt::format("    drink {} at 10 EUR, sells {}, Fri {}, Tue {}\n", i, scale * between(2, 40),
                          scale * between(2, 80), scale * (chance(4) ? 0 : between(1, 30)));
    }
    return house + menu;
  }

 private:
  int between(int low, int high) {
    return low + static_cast<int>(random_() % static_cast<unsigned>(high - low + 1));
  }
  bool chance(int in) { return between(1, in) == 1; }
  const std::string& pick(const std::vector<std::string>& from) {
    return from[static_cast<std::size_t>(between(0, static_cast<int>(from.size()) - 1))];
  }

  std::string ingredient(int i) {
    std::string text = fmt::format("\ningredient bought {}\n  kind spirit\n  strength 40 % abv\n", i);
    if (chance(3)) text += fmt::format("  waste {} %\n", between(1, 30));
    int packs = between(1, 3);
    for (int p = 0; p < packs; ++p)
      text +=
          fmt::format("  buy {} ml for {}.{:02} EUR\n", 100 * between(2, 60), between(3, 90), between(0, 99));
    return text;
  }

  std::string wait() {
    static const std::vector<std::string> verbs = {"rest {} h",     "freeze {} h", "infuse {} h",
                                                   "macerate {} h", "steep {} h",  "chill"};
    const std::string& verb = pick(verbs);
    return "  " + fmt::format(fmt::runtime(verb), between(1, 30)) + "\n";
  }

  std::string prep(int i, const std::vector<std::string>& parts, const std::vector<std::string>& made) {
    std::string text = fmt::format("\nprep made {}\n", i);
    int volume = 0;
    int lines = between(1, 3);
    for (int l = 0; l < lines; ++l) {
      int ml = 50 * between(1, 14);
      volume += ml;
      // Mostly preps in preps: chains grow deep.
      text += fmt::format("  {} ml {}\n", ml,
                          !made.empty() && !chance(3) ? (chance(2) ? made.back() : pick(made)) : pick(parts));
      if (chance(3)) text += wait();
    }
    if (chance(4)) text += "  90 g lemon peel\n";
    if (chance(2)) text += wait();
    text += "  fine strain\n";
    text += fmt::format("  makes {} ml\n", std::max(10, volume * between(50, 99) / 100));
    if (!chance(8))
      text += chance(10) ? "  keeps 4 h chilled\n"
                         : fmt::format("  keeps {} d chilled\n", chance(2) ? between(1, 4) : between(5, 60));
    if (chance(2)) text += fmt::format("  takes {} min\n", between(5, 60));
    if (chance(2)) text += fmt::format("  par {} ml\n", 100 * between(1, 40));
    if (chance(3)) text += fmt::format("  batch ..{} ml\n", 100 * between(2, 50));
    if (chance(2)) text += fmt::format("  station {}\n", chance(2) ? "back" : "well");
    return text;
  }

  std::string drink(int i, const std::vector<std::string>& all) {
    std::string text =
        fmt::format("\ndrink drink {}\n  glass rocks\n  station {}\n", i, chance(2) ? "well" : "service");
    int lines = between(1, 4);
    std::vector<std::string> used;
    for (int l = 0; l < lines; ++l) {
      const auto& name = pick(all);
      if (std::find(used.begin(), used.end(), name) != used.end()) continue;
      used.push_back(name);
      text += fmt::format("  {} ml {}\n", 5 * between(1, 12), name);
    }
    if (chance(3))
      text += "  batched " + used.front() + (chance(2) ? ", with water" : "") +
              (chance(2) ? ", bottle 700 ml" : "") + "\n";
    text += "  shake 12 s\n  double strain\n";
    if (chance(2)) text += "  garnish lemon twist\n";
    if (chance(4)) text += "  garnish lemon wheel\n";
    return text;
  }

  std::mt19937 random_;
};

}  // namespace gill::testing
