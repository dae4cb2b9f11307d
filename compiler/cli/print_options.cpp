#include "cli/print_options.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cstdlib>
#include <string_view>

#include "base/date.h"
#include "base/text.h"
#include "cli/command.h"
#include "cli/named_option.h"
#include "cli/plan_options.h"

namespace gill::cli {
namespace {

std::chrono::sys_days day_of(std::chrono::seconds since_epoch) {
  return std::chrono::floor<std::chrono::days>(std::chrono::sys_seconds(since_epoch));
}

void sort_by_name(std::vector<analysis::DrinkId>& drinks, const analysis::Specs& specs) {
  std::vector<std::pair<std::string, analysis::DrinkId>> named;
  for (auto id : drinks) named.emplace_back(base::fold_name(specs[id].head.name), id);
  std::stable_sort(named.begin(), named.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  for (std::size_t i = 0; i < drinks.size(); ++i) drinks[i] = named[i].second;
}

}  // namespace

std::optional<std::vector<analysis::DrinkId>> chosen_drinks(const driver::Compilation& house,
                                                            const std::vector<std::string>& only,
                                                            const std::string& menu, bool drafts) {
  const auto& specs = house.specs;
  std::vector<analysis::DrinkId> drinks;
  std::vector<bool> chosen(specs.drinks.size());
  auto add = [&](analysis::DrinkId id) {
    if (!chosen[id.index()]) drinks.push_back(id);
    chosen[id.index()] = true;
  };
  auto is_served = [&](analysis::DrinkId id) {
    auto status = specs[id].status;
    return status == analysis::Status::approved || (drafts && status == analysis::Status::draft);
  };
  for (const auto& name : only) {
    auto index = find_named(house, symbols::NameSpace::drink, "drink", name);
    if (!index) return std::nullopt;
    add(analysis::DrinkId::at(*index));
  }
  if (!menu.empty()) {
    auto index = find_named(house, symbols::NameSpace::menu, "menu", menu);
    if (!index) return std::nullopt;
    for (const auto& section : specs.menus[*index].sections)
      for (const auto& entry : section.entries)
        if (entry.drink.valid() && is_served(entry.drink)) add(entry.drink);
  }
  if (!only.empty() || !menu.empty()) return drinks;
  for (std::size_t i = 0; i < specs.drinks.size(); ++i) {
    auto id = analysis::DrinkId::at(i);
    if (is_served(id) && !specs[id].head.from_library) add(id);
  }
  sort_by_name(drinks, specs);
  return drinks;
}

std::optional<print::LabelSheet> read_sheet(const std::string& written) {
  auto sheet = print::read_label_sheet(written);
  if (!sheet)
    refuse(fmt::format(
        "`{}` is no sheet of labels; write the size of one, how many stand across and down, and the gaps "
        "between, as in `63.5x38.1mm/3x7+2.5x0mm@a4`, or the size alone for a roll, as in `62x40mm`",
        written));
  return sheet;
}

std::optional<std::string> date_of_printing(const std::string& dated) {
  using std::chrono::seconds;
  if (dated == "today") {
    auto now = std::chrono::time_point_cast<seconds>(std::chrono::system_clock::now());
    return base::iso_date(day_of(now.time_since_epoch()));
  }
  if (!dated.empty()) {
    if (auto day = base::read_iso_date(dated)) return base::iso_date(*day);
    refuse(base::not_a_date(dated));
    return std::nullopt;
  }
  const char* epoch = std::getenv("SOURCE_DATE_EPOCH");
  if (!epoch || !*epoch) return std::string();
  std::string_view digits = epoch;
  // Up to the year 9999, the last that a date of four digits can name.
  constexpr std::int64_t latest = 253402300799;
  std::int64_t value = 0;
  auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (error != std::errc() || end != digits.data() + digits.size() || value < 0 || value > latest) {
    refuse("SOURCE_DATE_EPOCH is no number of seconds");
    return std::nullopt;
  }
  return base::iso_date(day_of(seconds(value)));
}

}  // namespace gill::cli
