#include "print/labels.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/date.h"
#include "base/text.h"
#include "model/figures_table.h"
#include "model/keeping.h"
#include "print/flow.h"
#include "print/painter.h"
#include "print/pdf_writer.h"
#include "print/words_on.h"
#include "render/document/shared_parts.h"
#include "render/wording/allergen_words.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"
#include "render/wording/statements.h"

namespace gill::print {

namespace wording = render::wording;
using render::document::BookIndex;

namespace {

// Sizes of type on a label of 63.5 by 38.1 mm, in points; never below the least, whatever the label.
constexpr double name_pt = 11, date_pt = 8.8, words_pt = 8, fact_pt = 7, small_pt = 6.2;
constexpr double min_pt = 5.6;
constexpr Paper usual_label{63.5, 38.1};
constexpr std::array<double, 9> type_scales = {1.2, 1.1, 1, 0.95, 0.9, 0.85, 0.8, 0.75, 0.7};
// Drinks of at most so much are no alcohol to speak of on a label (Regulation (EU) No 1169/2011 asks for the
// strength above 1.2 % vol; a bar's label says it from far less).
constexpr double min_strength = 0.05;

const std::string no_break_space = "\u00a0";

/// One label in type: one face, or more where it does not go on one.
struct LabelLayout {
  std::vector<std::vector<Placed>> faces;
  bool is_cut = false;
  bool lacks_letters = false;
};

class LabelComposer {
 public:
  LabelComposer(const Typesetter& typesetter, const Label& label, const LabelOptions& options,
                double type_scale)
      : typesetter_(typesetter), label_(label), options_(options) {
    const auto& paper = options.sheet.label;
    size_ = std::clamp(
        std::min(paper.width_mm / usual_label.width_mm, paper.height_mm / usual_label.height_mm), 0.7, 2.0);
    type_ = type_scale * size_;
    margin_ = 2.4 * points_per_mm * std::min(size_, 1.5);
    width_ = paper.width_pt() - 2 * margin_;
    height_ = paper.height_pt() - 2 * margin_;
  }

  LabelLayout compose() {
    auto foot = label_.is_error ? TypeBlock{} : set_foot();
    double first_head = set_head(false).height, later_head = set_head(true).height;
    auto faces = flow(body(), height_ - first_head - foot.height, height_ - later_head - foot.height);
    for (std::size_t i = 0; i < faces.size(); ++i) {
      auto head = set_head(i > 0);
      std::vector<Placed> parts = std::move(head.parts);
      double y = stack(std::move(faces[i]), 0, head.height, parts);
      auto below = foot.parts;
      move(below, 0, height_ - foot.height);
      parts.insert(parts.end(), below.begin(), below.end());
      move(parts, margin_, margin_);
      layout_.faces.push_back(std::move(parts));
      layout_.is_cut |= y > height_ - foot.height + 0.5;
    }
    return std::move(layout_);
  }

 private:
  double mm(double length) const { return length * points_per_mm * size_; }
  TextStyle style(double size, bool bold = false, Ink ink = inks::text) const {
    return {Letter::sans, std::max(min_pt, size * type_), bold, false, ink};
  }

  ShapedText set(const StyledText& text, const Shaping& setting) {
    auto set = typesetter_.set(text, setting);
    layout_.is_cut |= set.is_cut;
    layout_.lacks_letters |= set.lacks_letters;
    return set;
  }

  TypeBlock paragraph(const StyledText& text, double space_before, int max_lines = 8) {
    TypeBlock block;
    auto words = set(text, {width_, Side::start, max_lines});
    block.height = words.height;
    block.space_before = space_before;
    block.parts.push_back(PlacedText{std::move(words), 0, 0});
    return block;
  }

  TypeBlock set_head(bool is_later) {
    StyledText name = {
        {label_.name, {Letter::serif, std::max(min_pt, name_pt * type_), true, false, inks::text}}};
    if (is_later)
      name.push_back({", continued", style(small_pt)});
    else if (label_.kind == "batch")
      name.push_back({"  house bottle", style(fact_pt, false, inks::soft)});
    TypeBlock head = paragraph(name, 0, 3);
    head.height += mm(0.3);
    head.parts.push_back(PlacedRule{0, head.height, width_, head.height, 0.8 * size_, inks::text, 0});
    head.height += mm(0.8);
    return head;
  }

  std::vector<TypeBlock> body() {
    if (label_.is_error)
      return {paragraph({{"No label: the spec has an error. Do not use it before somebody has looked.",
                          style(words_pt, true)}},
                        0)};
    std::vector<TypeBlock> blocks;
    add_dates(blocks);
    auto add = [&](const std::string& lead, const std::string& words) {
      blocks.push_back(
          paragraph({{lead + " ", style(fact_pt)}, {words, style(words_pt, true)}}, mm(0.4), 12));
    };
    if (!label_.allergens.present.empty()) add("Contains", base::join(label_.allergens.present, ", "));
    if (!label_.allergens.possible.empty()) add("May contain", base::join(label_.allergens.possible, ", "));
    if (!label_.allergens.all_known)
      add("Allergens not known:", label_.allergens.silent.empty()
                                      ? "read every label"
                                      : base::join_with_and(label_.allergens.silent));
    if (label_.allergens.present.empty() && label_.allergens.possible.empty() && label_.allergens.all_known)
      add("Allergens:", "none declared");
    if (!label_.also_in_drink.empty()) add("The drink also contains", base::join(label_.also_in_drink, ", "));
    if (!label_.take_care.empty())
      blocks.push_back(paragraph({{"Take care: ", style(fact_pt, true)},
                                  {label_.take_care + " The book says it in full.", style(fact_pt)}},
                                 mm(0.4), 8));
    for (const auto& line : label_.statements)
      blocks.push_back(paragraph({{line, style(fact_pt, true)}}, mm(0.4), 4));
    if (!label_.shows.empty())
      blocks.push_back(
          paragraph({{"Check: " + base::join(label_.shows, " · "), style(small_pt)}}, mm(0.4), 3));
    return blocks;
  }

  /// Made on, use by, and the line for a part that is older: each date large, or a line to write it on.
  void add_dates(std::vector<TypeBlock>& blocks) {
    TypeBlock block;
    const auto& day = label_.made ? label_.made : options_.made;
    std::string made = day ? base::iso_date(*day) : "__________";
    std::string by = "__________";
    if (day && label_.keeps_days)
      by = base::iso_date(*day + std::chrono::days(model::days_after_making(*label_.keeps_days)));
    auto set_one = [&](const std::string& lead, const std::string& words) {
      return set({{lead + " ", style(small_pt)}, {words, style(date_pt, true)}}, {});
    };
    auto left = set_one("Made", made), right = set_one("Use by", by);
    bool side_by_side = left.width + right.width + mm(2) <= width_;
    block.height = side_by_side ? std::max(left.height, right.height) : left.height + right.height;
    double right_left = side_by_side ? width_ - right.width : 0, right_top = side_by_side ? 0 : left.height;
    block.parts.push_back(PlacedText{std::move(left), 0, 0});
    block.parts.push_back(PlacedText{std::move(right), right_left, right_top});
    blocks.push_back(std::move(block));
    blocks.push_back(
        paragraph({{"or the oldest part’s, if earlier: ____________", style(small_pt)}}, mm(0.2)));
  }

  /// Storage, keeping, strength and size; the box for initials on its right.
  TypeBlock set_foot() {
    double box_width = mm(11), box_height = mm(6);
    std::vector<std::string> facts;
    // A number and its unit stay on one line.
    auto whole = [](const std::string& words) {
      constexpr std::size_t max_length = 24;
      if (words.size() > max_length) return words;
      std::string kept;
      for (char c : words) kept += c == ' ' ? no_break_space : std::string(1, c);
      return kept;
    };
    if (!label_.storage.empty()) facts.push_back(label_.storage);
    facts.push_back(label_.keeps.empty() ? "how long it keeps is not said" : whole("keeps " + label_.keeps));
    if (!label_.strength.empty()) facts.push_back(label_.strength);
    if (!label_.batch.empty()) facts.push_back(whole(label_.batch));
    auto words =
        set({{base::join(facts, " · "), style(fact_pt)}}, {width_ - box_width - mm(1.5), Side::start, 4});
    auto initials = set({{"initials", {Letter::sans, min_pt, false, false, inks::soft}}}, {});
    TypeBlock foot;
    foot.height = std::max(words.height, box_height) + mm(0.8);
    double top = foot.height - words.height;
    foot.parts.push_back(PlacedText{std::move(words), 0, top});
    foot.parts.push_back(PlacedPanel{width_ - box_width,
                                     foot.height - box_height,
                                     box_width - 0.4,
                                     box_height - 0.4,
                                     {},
                                     0.6,
                                     inks::text,
                                     0});
    foot.parts.push_back(
        PlacedText{std::move(initials), width_ - box_width + mm(0.6), foot.height - box_height + mm(0.2)});
    return foot;
  }

  const Typesetter& typesetter_;
  const Label& label_;
  const LabelOptions& options_;
  double size_ = 1, type_ = 1, margin_ = 0, width_ = 0, height_ = 0;
  LabelLayout layout_;
};

/// As large as it goes on one label; where it goes on none, on as few as the smallest type takes.
LabelLayout lay_out(const Typesetter& typesetter, const Label& label, const LabelOptions& options) {
  LabelLayout layout;
  for (double scale : type_scales) {
    layout = LabelComposer(typesetter, label, options, scale).compose();
    if (layout.faces.size() == 1 && !layout.is_cut) break;
  }
  return layout;
}

class LabelPrinter {
 public:
  LabelPrinter(const std::string& house, const LabelOptions& options)
      : options_(options), writer_("Labels", house) {}

  std::optional<PrintedLabels> compose(const std::vector<Label>& labels) {
    place_ = static_cast<std::size_t>(std::max(0, options_.skipped)) %
             static_cast<std::size_t>(options_.sheet.count());
    for (const auto& label : labels) {
      auto layout = lay_out(typesetter_, label, options_);
      report(label, layout);
      remark(label, layout);
      for (int copy = 0; copy < options_.copies * label.copies; ++copy)
        for (const auto& face : layout.faces) print(face);
    }
    if (!page_open_) begin_page();
    if (labels.empty()) say_that_there_is_nothing();
    end_page();
    auto pdf = writer_.finish();
    if (!pdf) return std::nullopt;
    result_.pdf = std::move(*pdf);
    return std::move(result_);
  }

 private:
  void report(const Label& label, const LabelLayout& layout) {
    CardReport report;
    report.faces = layout.faces.size();
    report.is_error = label.is_error;
    for (std::size_t face = 0; face < layout.faces.size(); ++face)
      for (auto& words : words_on(face, layout.faces[face])) report.words.push_back(std::move(words));
    result_.reports.push_back(std::move(report));
  }

  void remark(const Label& label, const LabelLayout& layout) {
    auto add = [&](std::string words) { result_.remarks.push_back(std::move(words)); };
    if (layout.faces.size() > 1)
      add(fmt::format("`{}` takes {} labels of this size; a larger one may hold it", label.name,
                      layout.faces.size()));
    if (layout.is_cut)
      add(fmt::format("`{}` has words that are too long for this label: use a larger one", label.name));
    if (layout.lacks_letters) add(fmt::format("`{}` has letters that no installed face has", label.name));
    if (!label.is_error && !label.keeps_days)
      add(fmt::format("`{}` does not say how long it keeps, so its use-by date is left to write in",
                      label.name));
  }

  void begin_page() {
    context_ = writer_.begin_page(options_.sheet.page);
    page_open_ = true;
  }

  void end_page() {
    writer_.end_page();
    page_open_ = false;
    place_ = 0;
    ++result_.pages;
  }

  void print(const std::vector<Placed>& face) {
    if (page_open_ && place_ == static_cast<std::size_t>(options_.sheet.count())) end_page();
    if (!page_open_) begin_page();
    const auto& sheet = options_.sheet;
    auto columns = static_cast<std::size_t>(sheet.columns);
    const std::size_t row = place_ / columns, column = place_ % columns;
    double wide = sheet.columns * sheet.label.width_mm + (sheet.columns - 1) * sheet.column_gap_mm;
    double high = sheet.rows * sheet.label.height_mm + (sheet.rows - 1) * sheet.row_gap_mm;
    double left = (sheet.page.width_mm - wide) / 2 +
                  static_cast<double>(column) * (sheet.label.width_mm + sheet.column_gap_mm);
    double top = (sheet.page.height_mm - high) / 2 +
                 static_cast<double>(row) * (sheet.label.height_mm + sheet.row_gap_mm);
    cairo_save(context_);
    cairo_translate(context_, left * points_per_mm, top * points_per_mm);
    paint(context_, typesetter_, face);
    cairo_restore(context_);
    ++place_;
    ++result_.labels;
  }

  void say_that_there_is_nothing() {
    auto words = typesetter_.set("There is nothing to label.", {Letter::sans, 8, true, false, inks::text},
                                 {options_.sheet.label.width_pt() - 12, Side::start, 0});
    paint(context_, typesetter_, {PlacedText{std::move(words), 6, 6}});
  }

  const LabelOptions& options_;
  Typesetter typesetter_;
  PdfWriter writer_;
  cairo_t* context_ = nullptr;
  bool page_open_ = false;
  std::size_t place_ = 0;
  PrintedLabels result_;
};

std::string batch_words(const analysis::Stock& prep, const model::StockFacts& facts,
                        const units::UnitTable& units) {
  if (prep.bottle && prep.bottle->kind == units::Kind::volume && facts.yield_ml > 0) {
    auto fills = bottle_fills(facts.yield_ml, *prep.bottle, units);
    if (fills.count <= 1) return fills.last;
    return fmt::format("{} a bottle, {} a recipe", fills.each, fills.count) +
           (fills.last != fills.each ? ", the last " + fills.last : "");
  }
  if (prep.makes) {
    bool blocks = prep.makes->kind == units::Kind::count && !prep.makes->unit.valid();
    return wording::text_of(*prep.makes, units) + (blocks ? no_break_space + "pieces" : std::string());
  }
  bool liquid = prep.effective_form() == analysis::Form::liquid;
  double amount = wording::to_two_figures(liquid ? facts.yield_ml : facts.yield_g);
  bool large = amount >= 1000;
  auto unit = units.find(liquid ? (large ? "l" : "ml") : (large ? "kg" : "g"));
  return unit.valid() && amount > 0 ? "about " + wording::text_of(wording::measure_in(amount, units[unit]))
                                    : std::string();
}

/// `refractometer 52.0 ± 0.4 brix`; empty where such an instrument shows nothing.
std::string shown_words(const model::StockFacts& facts, const model::StockFigure& figure) {
  auto value = figure.value(facts);
  if (!value) return {};
  return std::string(figure.row.lead) + " " +
         wording::with_tolerance(*value, model::tolerance_of(figure, facts).value_or(0), figure.row.places) +
         model::unit_behind(figure.row);
}

}  // namespace

BottleFills bottle_fills(double volume_ml, const units::Quantity& bottle, const units::UnitTable& units) {
  constexpr double step_ml = 5;
  auto split = model::split_into_bottles(volume_ml, bottle.number());
  auto words = [&](double fill_ml, bool is_full) {
    auto fill = bottle;
    if (!is_full) {
      fill.value = base::Exact(step_ml * std::round(fill_ml / step_ml));
      fill.unit = units.find("ml");
    }
    return wording::text_of(fill, units);
  };
  return {split.count, words(split.fill_ml, split.count > 1 && !split.is_even()),
          words(split.last_ml, split.last_is_full())};
}

std::string strength_words(double abv_percent) {
  return wording::fixed(abv_percent, 1) + no_break_space + "%" + no_break_space + "abv";
}

Label label_of(const BookIndex& index, analysis::StockId id) {
  const auto& prep = index.specs()[id];
  const auto& facts = index.facts()[id];
  Label label;
  label.name = prep.head.name;
  label.kind = "prep";
  label.is_error = index.is_in_error(id);
  if (label.is_error) return label;
  // What the parts keep by themselves says nothing of the mixture: no date comes of it.
  if (prep.keeps) {
    label.keeps_days = facts.keeps_days;
    label.keeps = wording::text_of(prep.keeps->duration, index.units());
    label.storage = base::capitalised(std::string(analysis::name_of(prep.keeps->storage)));
  }
  if (facts.abv_percent > min_strength) label.strength = strength_words(facts.abv_percent);
  label.batch = batch_words(prep, facts, index.units());
  label.allergens = wording::in_words(facts.allergens, index.specs());
  label.statements = wording::statement_lines(facts.statements, index.specs());
  label.take_care = render::document::cautions_of(index, id).on_label;
  // No instrument reads what is counted in pieces.
  if (prep.effective_form() != analysis::Form::liquid || facts.yield_count) return label;
  for (std::string_view key : {"refractometer_brix", "hydrometer_specific_gravity", "weight_of_100ml_g"})
    if (auto words = shown_words(facts, model::stock_figure(key)); !words.empty())
      label.shows.push_back(std::move(words));
  return label;
}

std::optional<PrintedLabels> print_labels(const std::vector<Label>& labels, const std::string& house,
                                          const LabelOptions& options) {
  return LabelPrinter(house, options).compose(labels);
}

}  // namespace gill::print
