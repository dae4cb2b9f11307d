// What an edit costs in a house that stays compiled, by the processor time of this thread: typed, renamed,
// deleted, broken and mended by chance, with one seed. `bench_edits [DRINKS…]`; without numbers 200 and
// 10,000.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <vector>

#include "driver/kept_house.h"
#include "support/big_house.h"
#include "support/random_edits.h"

namespace {

using namespace gill;

double core_ms() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return 1e3 * static_cast<double>(now.tv_sec) + 1e-6 * static_cast<double>(now.tv_nsec);
}

/// The house in files of about a hundred drinks.
driver::HouseFiles house_of(int drinks) {
  std::string all = testing::big_house(drinks);
  driver::HouseFiles house{"big", {}};
  constexpr std::size_t bytes_a_file = 14000;
  for (std::size_t at = 0, n = 0; at < all.size(); ++n) {
    auto end = std::min(all.find("\ndrink ", at + bytes_a_file), all.size());
    if (end < all.size()) ++end;
    house.files.push_back({fmt::format("part{:04}.gill", n), all.substr(at, end - at)});
    at = end;
  }
  return house;
}

double at_share(std::vector<double> times, double share) {
  if (times.empty()) return 0;
  std::sort(times.begin(), times.end());
  return times[std::min(times.size() - 1,
                        static_cast<std::size_t>(share * static_cast<double>(times.size())))];
}

void measure(int drinks, int edits) {
  testing::RandomEdits edited(house_of(drinks), 11);
  driver::KeptHouse kept(false);
  double begun = core_ms();
  kept.update(edited.house());
  double first = core_ms() - begun;
  std::vector<double> times;
  int from_nothing = 0;
  for (int i = 0; i < edits; ++i) {
    // Some edits on top of each other, then all is mended: else nothing of the house would be left.
    constexpr int edits_a_mess = 6;
    if (i % edits_a_mess == 0)
      edited.restore();
    else
      edited.edit();
    begun = core_ms();
    kept.update(edited.house());
    double taken = core_ms() - begun;
    bool is_anew = std::any_of(kept.redone().begin(), kept.redone().end(), [](const driver::Redone& redone) {
      return redone.what == driver::Redone::What::everything;
    });
    from_nothing += is_anew;
    if (!is_anew) times.push_back(taken);
    if (std::getenv("GILL_EDITS_TOLD"))
      fmt::print("{:8.2f} ms  {}{}\n", taken, edited.last_edit(), is_anew ? ", all" : "");
  }
  fmt::print(
      "{:6} drinks: first {:.0f} ms; of {} edits {} reached everything, the others {:.2f} ms at the median, "
      "{:.2f} ms "
      "at nine of ten, {:.2f} ms at the 99th percentile\n",
      drinks, first, edits, from_nothing, at_share(times, 0.5), at_share(times, 0.9), at_share(times, 0.99));
}

}  // namespace

int main(int count, char** arguments) {
  std::vector<int> sizes;
  for (int i = 1; i < count; ++i) sizes.push_back(std::atoi(arguments[i]));
  if (sizes.empty()) sizes = {200, 10000};
  for (int drinks : sizes) measure(drinks, drinks > 1000 ? 100 : 400);
}
