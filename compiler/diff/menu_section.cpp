#include "diff/menu_section.h"

#include <fmt/format.h>

#include <map>

#include "base/text.h"
#include "diff/overview.h"
#include "diff/page_parts.h"
#include "diff/words.h"

namespace gill::diff {

using namespace render::document;

std::string price_words(const MenuLine& line) {
  return words_of(line.price) + (line.price && !line.sold_by.empty() ? " " + line.sold_by : "");
}

namespace {

/// `under Long, 12.50 EUR`; `at 12.50 EUR` where the menu has no sections.
std::string place_and_price(const MenuLine& line) {
  auto price = price_words(line);
  if (!line.section.empty()) return fmt::format("under {}, {}", line.section, price);
  return line.price ? "at " + price : price;
}

Run menu_line(const MenuLineChange& line) {
  Run run;
  run.strong(line.drink);
  if (!line.before) return run.plain(": new " + place_and_price(*line.after));
  if (!line.after) return run.plain(fmt::format(": off (was {})", place_and_price(*line.before)));
  std::vector<std::string> parts;
  if (line.moved && base::fold_name(line.before->section) != base::fold_name(line.after->section))
    parts.push_back(fmt::format("moved from {} to {}", line.before->section, line.after->section));
  else if (line.moved)
    parts.push_back(fmt::format("moved from place {} to place {} under {}", line.before->position,
                                line.after->position, line.after->section));
  if (line.price_changed)
    parts.push_back(fmt::format("price {} → {}", price_words(*line.before), price_words(*line.after)));
  if (line.sells_changed) {
    auto sells = [](const std::string& words) { return words.empty() ? nothing : words; };
    parts.push_back(fmt::format("sells {} → {}", sells(line.before->sells), sells(line.after->sells)));
  }
  return run.plain(": " + base::join(parts, "; "));
}

/// By how much the price of a line moves that is as it was otherwise; nothing for any other line.
std::optional<long long> price_move(const MenuLineChange& line) {
  if (!line.before || !line.after || line.moved || line.sells_changed || !line.price_changed)
    return std::nullopt;
  const auto &before = line.before->price, &after = line.after->price;
  if (!before || !after || before->currency != after->currency || line.before->sold_by != line.after->sold_by)
    return std::nullopt;
  return price_step(base::to_double(after->amount - before->amount));
}

/// The move that the most prices share; nothing where too few do.
std::optional<UniformPrice> uniform_price(const MenuChange& menu) {
  std::map<long long, std::size_t> counts;
  for (const auto& line : menu.lines)
    if (auto move = price_move(line)) ++counts[*move];
  UniformPrice most;
  for (const auto& line : menu.lines)
    if (auto move = price_move(line); move && counts[*move] > most.count)
      most = {difference_of_step(*move), line.after->price->currency, counts[*move]};
  return most.count >= min_uniform_prices ? std::optional(std::move(most)) : std::nullopt;
}

}  // namespace

Section menu_section(const MenuChange& menu, std::string name) {
  Section section{std::move(name), Run(menu.name), {}};
  if (menu.kind == Kind::added) section.title.plain(": new");
  if (menu.kind == Kind::removed) section.title.plain(": gone");
  List list;
  if (menu.kind != Kind::removed) {
    for (const auto& property : menu.properties)
      list.items.push_back({Run(fmt::format("{}: {} → {}", title_of(property.name),
                                            property.before ? property.before->words : nothing,
                                            property.after ? property.after->words : nothing)),
                            {}});
    auto uniform = uniform_price(menu);
    if (uniform)
      list.items.push_back(
          {Run(fmt::format("{} for each of {} drinks", difference_words(*uniform), uniform->count)), {}});
    for (const auto& line : menu.lines)
      if (!uniform || price_move(line) != price_step(uniform->difference))
        list.items.push_back({menu_line(line), {}});
  }
  if (!list.items.empty()) section.blocks.push_back(std::move(list));
  return section;
}

Section written_menu(const MenuChange& menu, std::string name) {
  Section section{std::move(name), Run(menu.name), {}};
  List list;
  for (const auto& property : menu.properties)
    if (property.after)
      list.items.push_back({Run(fmt::format("{}: {}", title_of(property.name), property.after->words)), {}});
  for (const auto& line : menu.lines) {
    if (!line.after) continue;
    std::string words = place_and_price(*line.after);
    if (!line.after->sells.empty()) words += ", sells " + line.after->sells;
    list.items.push_back({Run().strong(line.drink).plain(" " + words), {}});
  }
  if (!list.items.empty()) section.blocks.push_back(std::move(list));
  return section;
}

}  // namespace gill::diff
