#include "print/cards.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/percent.h"
#include "print/card_layout.h"
#include "print/imposition.h"
#include "print/painter.h"
#include "print/pdf_writer.h"
#include "print/words_on.h"

namespace gill::print {
namespace {

using render::document::BookIndex;

class CardPrinter {
 public:
  CardPrinter(const render::BookInput& input, const CardOptions& options)
      : index_(input, true), options_(options), writer_("Staff cards", index_.house().head.name) {}

  std::optional<PrintedCards> print(const std::vector<analysis::DrinkId>& drinks) {
    CardShape shape{options_.size, options_.has_back, options_.is_blank,
                    options_.printed_on.empty() ? std::string() : "printed " + options_.printed_on};
    for (auto id : drinks) {
      auto card = card_of(index_, id);
      if (options_.is_blank) card = blank(std::move(card));
      auto layout = lay_out(typesetter_, card, shape);
      report(card, layout);
      remark(card, layout);
      names_.insert(names_.end(), layout.faces.size(), card.name);
      for (auto& face : layout.faces) faces_.push_back(std::move(face));
    }
    if (drinks.empty()) say_that_there_is_nothing();
    options_.sheet ? print_sheets(*options_.sheet) : print_single();
    auto pdf = writer_.finish();
    if (!pdf) return std::nullopt;
    result_.pdf = std::move(*pdf);
    return std::move(result_);
  }

 private:
  void report(const Card& card, const CardLayout& layout) {
    CardReport report{card.drink, card.mark, layout.faces.size(), !card.errors.empty(), {}};
    for (std::size_t face = 0; face < layout.faces.size(); ++face)
      for (auto& words : words_on(face, layout.faces[face].parts)) report.words.push_back(std::move(words));
    result_.cards.push_back(std::move(report));
  }

  void remark(const Card& card, const CardLayout& layout) {
    auto add = [&](std::string words) { result_.remarks.push_back({card.drink, std::move(words)}); };
    std::size_t cards = options_.has_back ? layout.faces.size() / 2 : layout.faces.size();
    if (layout.goes_on)
      add(fmt::format("`{}` takes {} cards at this size; a larger card may hold it on one", card.name,
                      cards));
    if (layout.is_cut)
      add(fmt::format("`{}` has words that are too long for a card: they end in `…`", card.name));
    if (layout.lacks_letters)
      add(fmt::format(
          "`{}` has letters that no installed face has; install one that has them and print again",
          card.name));
    if (layout.type_scale < 0.9 && !layout.goes_on)
      add(fmt::format("`{}` is set in smaller type, {:.0f} % of the usual, to go on one card", card.name,
                      base::percent_of_share(layout.type_scale)));
  }

  void say_that_there_is_nothing() {
    CardFace face;
    double margin = 6 * points_per_mm;
    face.parts.push_back(PlacedText{
        typesetter_.set("There is no drink to print.", {Letter::serif, 13, true, false, inks::text},
                        {options_.size.width_pt() - 2 * margin, Side::start, 0}),
        margin, margin});
    faces_.push_back(std::move(face));
    names_.push_back({});
    if (options_.has_back) {
      faces_.push_back({{}, true});
      names_.push_back({});
    }
  }

  void add_outline(std::size_t i) {
    bool is_first = i == 0 || names_[i] != names_[i - 1];
    if (is_first && !names_[i].empty()) writer_.add_to_outline(names_[i]);
  }

  void print_single() {
    for (std::size_t i = 0; i < faces_.size(); ++i) {
      auto* context = writer_.begin_page(options_.size);
      add_outline(i);
      paint(context, typesetter_, faces_[i].parts);
      end_page();
    }
  }

  void print_sheets(const Paper& sheet) {
    auto fronts = slots_on(sheet, options_.size);
    auto backs = slots_on_back(fronts, sheet, options_.size);
    std::size_t step = options_.has_back ? 2 : 1;
    for (std::size_t first = 0; first < faces_.size(); first += step * fronts.size()) {
      print_side(sheet, fronts, first, 0, step);
      if (options_.has_back) print_side(sheet, backs, first, 1, step);
    }
  }

  void print_side(const Paper& sheet, const std::vector<Slot>& slots, std::size_t first, std::size_t offset,
                  std::size_t step) {
    auto* context = writer_.begin_page(sheet);
    for (std::size_t i = 0; i < slots.size(); ++i) {
      std::size_t face = first + i * step + offset;
      if (face >= faces_.size()) break;
      if (offset == 0) add_outline(face);
      cairo_save(context);
      enter(context, slots[i], options_.size, offset == 1);
      paint(context, typesetter_, faces_[face].parts);
      cairo_restore(context);
    }
    draw_cut_marks(context, slots, sheet, options_.size);
    end_page();
  }

  void end_page() {
    writer_.end_page();
    ++result_.pages;
  }

  BookIndex index_;
  const CardOptions& options_;
  Typesetter typesetter_;
  PdfWriter writer_;
  std::vector<CardFace> faces_;
  /// Whose card each face is.
  std::vector<std::string> names_;
  PrintedCards result_;
};

}  // namespace

std::optional<PrintedCards> print_cards(const render::BookInput& input,
                                        const std::vector<analysis::DrinkId>& drinks,
                                        const CardOptions& options) {
  return CardPrinter(input, options).print(drinks);
}

}  // namespace gill::print
