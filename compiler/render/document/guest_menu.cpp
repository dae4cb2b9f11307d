#include "render/document/guest_menu.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/percent.h"
#include "base/text.h"
#include "model/cost.h"
#include "render/document/page_names.h"
#include "render/document/shared_parts.h"
#include "render/wording/allergen_words.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"
#include "render/wording/statements.h"
#include "units/money.h"

namespace gill::render::document {

using analysis::DrinkId;
using analysis::StockId;
using diagnostics::Rule;

namespace {

/// What a guest is told of before ordering, beside the drink and again below.
struct Disclosure {
  Rule rule;
  std::string_view mark;
  std::string_view beside;
  std::string_view below;
};

// A disclosure beside the dish and a reminder below: the two parts that the FDA Food Code 2022, 3-603.11,
// asks for. The words are the house's to change with its local code.
constexpr Disclosure disclosures[] = {
    {Rule::raw_egg, "*", "Served with raw egg.",
     "Raw egg can carry illness. The risk is higher for young children, in pregnancy, in later life and for "
     "anyone with weakened "
     "immunity. Ask us before you order."},
    {Rule::raw_dairy, "†", "Served with raw milk.",
     "Raw milk can carry illness. The risk is higher for young children, in pregnancy, in later life and for "
     "anyone with weakened "
     "immunity. Ask us before you order."},
};

const std::string no_break_space = "\u00a0";

class GuestMenuBuilder {
 public:
  GuestMenuBuilder(const BookIndex& index, std::size_t menu, bool compact)
      : index_(index), menu_(index.specs().menus[menu]), is_compact_(compact) {
    for (const auto& section : menu_.sections)
      for (const auto& entry : section.entries)
        if (const auto& price = entry.printed_price();
            price && price->currency == house_currency() && !is_whole(*price))
          has_decimals_ = true;
  }

  Page build() {
    Page page;
    page.path = names_.take(menu_.head.name);
    page.title = menu_.head.name;
    page.kind = "guest-menu";
    if (!menu_.head.text.empty()) page.blocks.push_back(Prose{menu_.head.text});
    for (const auto& section : menu_.sections) add_section_of(page.blocks, section);
    if (page.blocks.empty()) page.blocks.push_back(Paragraph{Run("This menu has no drink."), Tone::normal});
    add_notices(page.blocks);
    return page;
  }

 private:
  void add_section_of(std::vector<Block>& blocks, const analysis::MenuSection& section) {
    std::vector<Block> drinks;
    if (!section.text.empty()) drinks.push_back(Prose{section.text});
    for (const auto& entry : section.entries)
      if (!index_.path_of(entry.drink).empty()) drinks.push_back(offer(entry));
    if (drinks.empty()) return;
    if (section.name.empty()) {
      for (auto& drink : drinks) blocks.push_back(std::move(drink));
      return;
    }
    blocks.push_back(Section{names_.take("section " + section.name), Run(section.name), std::move(drinks)});
  }

  /// One drink: name and price, what it is, what it holds.
  Block offer(const analysis::MenuEntry& entry) {
    const auto& drink = index_.specs()[entry.drink];
    Run title(drink.head.name);
    for (const auto& disclosure : disclosures)
      if (is_disclosed(entry.drink, disclosure.rule))
        title.plain(std::string(disclosure.mark)), used_.push_back(disclosure.rule);
    if (entry.price) title.plain(" ").number(price_of(*entry.printed_price()) + sold_by(entry), "");
    std::vector<Block> blocks;
    blocks.push_back(Paragraph{Run(drink.guest.empty() ? parts_of(drink) : drink.guest), Tone::normal});
    if (drink.alcohol)
      blocks.push_back(
          Paragraph{Run("Alcohol: " + wording::text_of(*drink.alcohol, index_.units()) + "."), Tone::normal});
    for (const auto& disclosure : disclosures)
      if (is_disclosed(entry.drink, disclosure.rule))
        blocks.push_back(Paragraph{
            Run().strong(std::string(disclosure.mark) + " " + std::string(disclosure.beside)), Tone::small});
    blocks.push_back(Paragraph{allergens_of(entry.drink), Tone::small});
    for (const auto& line : wording::statement_lines(index_.facts()[entry.drink].statements, index_.specs()))
      blocks.push_back(Paragraph{Run(line), Tone::small});
    return Section{names_.take("drink " + drink.head.name), std::move(title), std::move(blocks)};
  }

  const std::string& house_currency() const { return index_.facts().currency; }

  static bool is_whole(const units::Money& price) {
    std::string digits = units::price_digits(price);
    auto point = digits.find('.');
    return point == std::string::npos || digits.find_first_not_of('0', point + 1) == std::string::npos;
  }

  /// `£12.50`; `£12` where no price of the menu has decimals: one form for all of them. Another currency has
  /// its code.
  std::string price_of(const units::Money& price) const {
    bool is_of_house = price.currency == house_currency();
    std::string digits = units::price_digits(price);
    if (is_whole(price) && !(is_of_house && has_decimals_)) digits = digits.substr(0, digits.find('.'));
    return is_of_house ? units::sign_of(price.currency) + digits : price.currency + no_break_space + digits;
  }

  /// What a price is for where the drink is made for several: a cup of the bowl, or the bowl for so many.
  std::string sold_by(const analysis::MenuEntry& entry) const {
    const auto& drink = index_.specs()[entry.drink];
    if (entry.whole_price) return fmt::format(" {} for {}", entry.sold_by, wording::trimmed(drink.serves, 1));
    if (!entry.sold_by.empty()) return " " + entry.sold_by;
    if (drink.serves <= 1) return {};
    return drink.cup.valid() ? " a cup" : " a serve";
  }

  /// A drink of which nothing is said for guests is told by what goes in.
  std::string parts_of(const analysis::Drink& drink) const {
    std::vector<std::string> names;
    for (auto id : Usage::parts_of(drink.recipe)) names.push_back(index_.specs()[id].head.name);
    if (names.empty()) return "Nothing is said of it.";
    return base::capitalised(base::join_with_and(names) + ".");
  }

  bool is_disclosed(DrinkId id, Rule rule) const {
    for (const auto* finding : index_.safety_of(id))
      if (finding->rule == rule) return true;
    for (auto stock : index_.facts()[id].uses)
      for (const auto* finding : index_.safety_of(stock))
        if (finding->rule == rule) return true;
    return false;
  }

  /// `Contains egg (in the carton egg white), sesame (in the washed rye). May contain mustard (in the
  /// rapeseed oil).`
  Run allergens_of(DrinkId id) const {
    const auto& allergens = index_.facts()[id].allergens;
    if (is_compact_) {
      Run brief = Run("Allergens: ").append(allergens_in_brief(allergens, allergens.known));
      return allergens.known ? brief : brief.plain(": ask us");
    }
    auto parts = Usage::parts_of(index_.specs()[id].recipe);
    Run run;
    auto add = [&](std::string_view before, bool may) {
      std::vector<Run> words;
      for (const auto& route : allergens.routes)
        if (route.may == may) words.push_back(with_link(route, parts));
      if (words.empty()) return;
      run.plain(std::string(run.empty() ? "" : " ") + std::string(before))
          .append(joined(words, ", "))
          .plain(".");
    };
    add("Contains ", false);
    add("May contain ", true);
    if (!index_.facts()[id].allergens.known) {
      if (!run.empty()) run.plain(" ");
      run.strong("Not all of its allergens are known: ask us.");
    }
    return run.empty() ? Run("No allergen declared.") : run;
  }

  /// The allergen, and the part of the drink that it comes by.
  Run with_link(const model::AllergenRoute& route, const std::vector<StockId>& parts) const {
    std::vector<std::string> ways;
    for (auto via : route.via)
      for (auto part : parts) {
        const auto& uses = index_.facts()[part].uses;
        bool comes_by = part == via || std::find(uses.begin(), uses.end(), via) != uses.end();
        const auto& name = index_.specs()[part].head.name;
        if (comes_by && std::find(ways.begin(), ways.end(), name) == ways.end()) ways.push_back(name);
      }
    Run run;
    run.strong(wording::allergen_words(route.code));
    if (!ways.empty()) run.plain(" by the " + base::join_with_and(ways));
    return run;
  }

  void add_notices(std::vector<Block>& blocks) const {
    Notice notice{Notice::Role::caution, "Before you order", {}};
    for (const auto& disclosure : disclosures)
      if (std::find(used_.begin(), used_.end(), disclosure.rule) != used_.end())
        notice.blocks.push_back(
            Paragraph{Run(std::string(disclosure.mark) + " " + std::string(disclosure.below)), Tone::normal});
    notice.blocks.push_back(Paragraph{Run(wording::shared_equipment_line), Tone::normal});
    for (const auto& words : index_.house().notices)
      notice.blocks.push_back(Paragraph{Run(words), Tone::normal});
    if (std::string prices = price_words(); !prices.empty())
      notice.blocks.push_back(Paragraph{Run(prices), Tone::small});
    blocks.push_back(std::move(notice));
  }

  std::string price_words() const {
    bool priced = false;
    for (const auto& section : menu_.sections)
      for (const auto& entry : section.entries) priced |= entry.price.has_value();
    if (!priced || house_currency().empty()) return {};
    std::string words = "Prices in " + house_currency();
    const auto& tax = index_.house().tax;
    if (!tax) return words + ".";
    return words + fmt::format(", tax of {} % {}.", wording::trimmed(base::percent_of_share(tax->rate), 2),
                               tax->included ? "included" : "to be added");
  }

  const BookIndex& index_;
  const analysis::Menu& menu_;
  const bool is_compact_;
  /// One price of it has decimals, so all have.
  bool has_decimals_ = false;
  PageNames names_;
  std::vector<Rule> used_;
};

}  // namespace

Page guest_menu_page(const BookIndex& index, std::size_t menu, bool compact) {
  return GuestMenuBuilder(index, menu, compact).build();
}

Frame guest_menu_frame(const BookIndex& index) {
  Frame frame;
  frame.house = index.house().head.name;
  return frame;
}

std::vector<std::string> left_off_guest_menu(const BookIndex& index, std::size_t menu) {
  std::vector<std::string> names;
  for (const auto& section : index.specs().menus[menu].sections)
    for (const auto& entry : section.entries)
      if (index.path_of(entry.drink).empty()) names.push_back(index.specs()[entry.drink].head.name);
  return names;
}

}  // namespace gill::render::document
