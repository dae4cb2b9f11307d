#include "print/card.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

#include "base/characters.h"
#include "base/fingerprint.h"
#include "base/text.h"
#include "model/house_bottle.h"
#include "render/document/drink_picture_part.h"
#include "render/document/shared_parts.h"
#include "render/prose/common_mark.h"
#include "render/wording/allergen_words.h"
#include "render/wording/build_lines.h"
#include "render/wording/method_lines.h"
#include "render/wording/numbers.h"

namespace gill::print {

using render::document::BookIndex;
namespace document = render::document;
namespace wording = render::wording;

const std::string blank_line = "____";

namespace {

// Less water than this is no part of a bottle.
constexpr double min_water_ml = 0.5;

CardMeasure in_print(const wording::Measure& measure, bool converted) {
  return {measure.number, measure.unit, converted};
}

/// Everything that a card says, once.
std::string mark_of(const Card& card) {
  base::Fingerprint marker;
  auto add_pour = [&](const CardPour& pour) {
    for (const auto& measure : pour.columns) marker.add(measure.number + " " + measure.unit);
    if (pour.whole) marker.add(pour.whole->number + " " + pour.whole->unit);
    marker.add(pour.is_about ? "about" : "");
    for (const auto& words : {pour.name, pour.remarks, pour.text}) marker.add(words);
  };
  for (const auto& words :
       {card.name, card.kind, card.take_care, card.bottle_words, card.strength, card.volume, card.notes})
    marker.add(words);
  for (const auto& words : card.errors) marker.add(words);
  for (const auto& fact : card.first) marker.add(fact.label + ": " + fact.words);
  for (const auto& words : card.allergens.present) marker.add("contains " + words);
  for (const auto& words : card.allergens.possible) marker.add("may contain " + words);
  for (const auto& words : card.allergens.silent) marker.add("not known " + words);
  marker.add(card.allergens.all_known ? "known" : "not known");
  for (const auto& pour : card.build) add_pour(pour);
  if (card.one_pour) add_pour(*card.one_pour);
  for (const auto& step : card.method) marker.add(step.sentence + "\n" + step.text);
  for (const auto& words : card.right_when) marker.add(words);
  auto add_section = [&](const CardSection& section) {
    for (const auto& paragraph : section.paragraphs)
      marker.add(section.title + ": " + paragraph.lead + " " + paragraph.words);
  };
  add_section(card.allergens_in_full);
  if (card.cautions) add_section(*card.cautions);
  if (card.substitutes) add_section(*card.substitutes);
  // Folded to six digits.
  auto hash = marker.value();
  return fmt::format("{:06x}", (hash ^ (hash >> 24) ^ (hash >> 48)) & 0xffffff);
}

class CardWriter {
 public:
  CardWriter(const BookIndex& index, analysis::DrinkId id)
      : index_(index),
        id_(id),
        drink_(index.specs()[id]),
        facts_(index.facts()[id]),
        recipe_(wording::recipe_of(drink_, facts_, index.specs(), index.units())),
        bottle_(model::house_bottle_of(drink_, facts_, index.facts())) {}

  Card fill() {
    card_.drink = id_;
    card_.name = drink_.head.name;
    card_.house = index_.house().head.name;
    card_.is_empty = facts_.is_empty;
    card_.is_draft = drink_.status == analysis::Status::draft;
    write_kind();
    write_errors();
    if (card_.errors.empty()) write_all();
    if (!drink_.approved_on.empty()) card_.approved = "approved " + drink_.approved_on;
    card_.mark = mark_of(card_);
    return std::move(card_);
  }

 private:
  void write_kind() {
    std::vector<std::string> parts;
    if (drink_.family.valid()) parts.push_back(index_.specs()[drink_.family].head.name);
    if (!drink_.station.empty()) parts.push_back(drink_.station);
    card_.kind = base::join(parts, " · ");
  }

  void write_errors() {
    for (const auto* error : index_.errors_of(id_)) {
      const auto& file = index_.input().sources[error->span.file_id];
      card_.errors.push_back(
          fmt::format("{}, line {}: {}", file.path, file.place_of(error->span).line, error->message));
    }
    if (card_.errors.empty() && index_.is_in_error(id_))
      card_.errors.push_back(facts_.is_empty ? "Nothing goes into it yet."
                                             : "Something that it is made of is in error.");
  }

  void write_all() {
    write_first();
    write_allergens();
    write_build();
    write_one_pour();
    for (auto& line : wording::method_lines(recipe_)) {
      std::string text = render::prose::to_plain_text(line.text);
      // A garnish stands above already.
      if (!line.is_garnish || !text.empty())
        card_.method.push_back({std::move(line.sentence), std::move(text)});
    }
    card_.right_when = drink_.right_when;
    card_.strength = wording::fixed(facts_.served.abv_percent, 1) + " % abv";
    card_.volume = wording::trimmed(facts_.served.volume_ml, 0) + " ml";
    card_.picture = document::picture_of(index_, id_);
    card_.notes = render::prose::to_plain_text(drink_.head.text);
    write_details();
  }

  // ---- first

  void add_first(const std::string& label, std::string words) {
    card_.first.push_back({label, base::capitalised(std::move(words))});
  }

  void write_first() {
    std::string glass = drink_.glass.valid() ? index_.specs()[drink_.glass].head.name : "not said";
    if (drink_.glass_chilled) glass += ", chilled";
    if (drink_.glass_frozen) glass += ", frozen";
    for (const auto& note : drink_.glass_notes) glass += ", " + note;
    add_first("Glass", glass);
    if (drink_.cup.valid()) add_first("Cup", index_.specs()[drink_.cup].head.name);
    add_first("Ice", wording::served_on_words(facts_.served_on, recipe_));
    std::vector<std::string> on, beside;
    for (const auto& garnish : wording::garnish_lines(recipe_)) {
      std::string words = garnish.words + (garnish.is_unknown ? " (nothing declares it)" : "");
      (garnish.is_side ? beside : on).push_back(garnish.is_none ? "none" : words);
    }
    add_first("Garnish", on.empty() ? "not said" : base::join(on, "; "));
    if (!beside.empty()) add_first("Beside", base::join(beside, "; "));
    if (facts_.serves != 1) add_first("Serves", wording::trimmed(facts_.serves, 1));
  }

  void write_allergens() {
    card_.allergens = wording::in_words(facts_.allergens, index_.specs());
    card_.take_care = base::capitalised(document::cautions_of(index_, id_).in_brief);
  }

  // ---- second

  void write_build() {
    for (const auto& line : wording::build_lines(recipe_)) {
      CardPour pour;
      for (std::size_t i = 0; i < line.columns.size(); ++i)
        pour.columns.push_back(line.columns[i] ? in_print(*line.columns[i], line.converted[i])
                                               : CardMeasure{});
      if (line.whole) pour.whole = in_print(*line.whole, false);
      pour.is_about = line.is_about || line.is_solved;
      pour.name = line.name;
      auto remarks = line.remarks;
      if (bottle_.holds(line.stock)) remarks.insert(remarks.begin(), "in the batch");
      pour.remarks = base::join(remarks, ", ");
      pour.text = render::prose::to_plain_text(line.text);
      card_.build.push_back(std::move(pour));
    }
  }

  void write_one_pour() {
    if (!drink_.batched) return;
    CardPour pour;
    for (auto id : recipe_.show)
      pour.columns.push_back(
          index_.units()[id].kind == units::Kind::volume
              ? in_print(wording::measure_in(bottle_.pour_ml * facts_.serves, index_.units()[id]), false)
              : CardMeasure{});
    pour.name = "One pour from the bottle";
    if (drink_.batched->bottle)
      pour.remarks = wording::text_of(*drink_.batched->bottle, index_.units()) + " bottle";
    if (bottle_.water_ml * facts_.serves > min_water_ml)
      card_.bottle_words =
          fmt::format("The bottle holds the water already: chill it, do not dilute it again.{}",
                      drink_.recipe.steps.empty() ? "" : " " + wording::mixed_without_bottle);
    card_.one_pour = std::move(pour);
  }

  // ---- the back

  void write_details() {
    card_.allergens_in_full.title = "Allergens, and what they come by";
    add_blocks(card_.allergens_in_full,
               document::allergens_notice(index_, facts_.allergens, card_.allergens.all_known, drink_.recipe)
                   .blocks);
    CardSection care{"Take care", {}};
    add_blocks(care, document::cautions_of(index_, id_).notice.blocks);
    if (!care.paragraphs.empty()) card_.cautions = std::move(care);
    CardSection substitutes{"Permitted substitutes", {}};
    for (const auto& alternative : facts_.alternatives)
      substitutes.paragraphs.push_back(
          {base::capitalised(index_.specs()[alternative.substitute].head.name) + ".",
           fmt::format("For {}: {} % abv as served.", index_.specs()[alternative.instead_of].head.name,
                       wording::fixed(alternative.served.abv_percent, 1))});
    if (!substitutes.paragraphs.empty()) card_.substitutes = std::move(substitutes);
  }

  void add_run(CardSection& section, const document::Run& run) {
    CardParagraph paragraph;
    std::size_t first = 0;
    if (!run.parts.empty())
      if (const auto* strong = std::get_if<document::Strong>(&run.parts.front()))
        paragraph.lead = strong->text, first = 1;
    document::Run rest;
    rest.parts.assign(run.parts.begin() + static_cast<std::ptrdiff_t>(first), run.parts.end());
    paragraph.words = base::collapse_space(document::plain_text(rest));
    if (first == 0) paragraph.words = base::capitalised(std::move(paragraph.words));
    section.paragraphs.push_back(std::move(paragraph));
  }

  void add_blocks(CardSection& section, const std::vector<document::Block>& blocks) {
    for (const auto& block : blocks) {
      if (const auto* paragraph = std::get_if<document::Paragraph>(&block.content))
        add_run(section, paragraph->run);
      if (const auto* list = std::get_if<document::List>(&block.content))
        for (const auto& item : list->items) add_run(section, item.run);
    }
  }

  const BookIndex& index_;
  analysis::DrinkId id_;
  const analysis::Drink& drink_;
  const model::DrinkFacts& facts_;
  wording::RecipeContext recipe_;
  model::HouseBottle bottle_;
  Card card_;
};

// ---- blank

/// Where a number that begins at `at` ends: `12`, `22.5`, `10–12`, `1 1/2`.
std::size_t end_of_number(const std::string& text, std::size_t at) {
  static const std::vector<std::string> inner = {".", "/", "–", " ± ", "±"};
  std::size_t end = at;
  while (true) {
    while (end < text.size() && base::is_digit(text[end])) ++end;
    auto goes_on = [&](const std::string& sign) {
      return text.compare(end, sign.size(), sign) == 0 && end + sign.size() < text.size() &&
             base::is_digit(text[end + sign.size()]);
    };
    auto sign = std::find_if(inner.begin(), inner.end(), goes_on);
    if (sign != inner.end()) {
      end += sign->size();
      continue;
    }
    // `1 1/2`: a whole number and its fraction.
    auto slash = end + 1;
    while (slash < text.size() && base::is_digit(text[slash])) ++slash;
    bool fraction =
        end < text.size() && text[end] == ' ' && slash > end + 1 && slash < text.size() && text[slash] == '/';
    if (!fraction) return end;
    ++end;
  }
}

/// The text with a line for every number that is no part of one of the names.
std::string without_numbers(const std::string& text, const std::vector<std::string>& names) {
  std::string result;
  for (std::size_t i = 0; i < text.size();) {
    auto stands_here = [&](const std::string& name) {
      return !name.empty() && text.compare(i, name.size(), name) == 0;
    };
    auto name = std::find_if(names.begin(), names.end(), stands_here);
    if (name != names.end()) {
      result += *name;
      i += name->size();
    } else if (base::is_digit(text[i])) {
      result += blank_line;
      i = end_of_number(text, i);
    } else {
      result += text[i++];
    }
  }
  return result;
}

void blank_pour(CardPour& pour, const std::vector<std::string>& names) {
  for (auto& measure : pour.columns)
    if (!measure.empty()) measure.number = blank_line;
  // `rinse` is no number.
  if (pour.whole && std::any_of(pour.whole->number.begin(), pour.whole->number.end(), base::is_digit))
    pour.whole->number = blank_line;
  pour.is_about = false;
  pour.remarks = without_numbers(pour.remarks, names);
  pour.text.clear();
}

}  // namespace

Card card_of(const BookIndex& index, analysis::DrinkId id) { return CardWriter(index, id).fill(); }

Card blank(Card card) {
  std::vector<std::string> names;
  for (const auto& pour : card.build) names.push_back(pour.name);
  // The longest first, so that none is cut short by another.
  std::sort(names.begin(), names.end(),
            [](const std::string& a, const std::string& b) { return a.size() > b.size(); });
  for (auto& pour : card.build) blank_pour(pour, names);
  if (card.one_pour) blank_pour(*card.one_pour, names);
  for (auto& step : card.method) step = {without_numbers(step.sentence, names), {}};
  for (auto& fact : card.first)
    if (fact.label == "Garnish" || fact.label == "Beside") fact.words = without_numbers(fact.words, names);
  card.strength.clear();
  card.volume.clear();
  card.notes.clear();
  card.picture.parts.clear();
  return card;
}

}  // namespace gill::print
