#pragma once
#include <optional>
#include <string>
#include <vector>

#include "print/paper.h"
#include "render/book/book.h"

/// Staff cards: one drink a card, to hang behind the bar.
namespace gill::print {

struct CardOptions {
  Paper size = a6;
  /// Several on a sheet, with marks to cut along; nothing for one card a page.
  std::optional<Paper> sheet;
  /// With a back: what is not needed at once. Sheets are turned on their long edge.
  bool has_back = false;
  /// Without amounts, times and temperatures, to practise with.
  bool is_blank = false;
  /// Printed in the foot: `2026-11-25`; empty for nothing.
  std::string printed_on;
};

/// What is to be known of the printing of one card.
struct CardRemark {
  analysis::DrinkId drink;
  /// A sentence in lower case without its full stop: `goes on to a second card`.
  std::string words;
};

/// Words as they stand on a face of a card: millimetres from the face's top left corner.
struct WordsOnCard {
  std::size_t face = 0;
  std::string words;
  double left_mm = 0, top_mm = 0, width_mm = 0, height_mm = 0;
  double min_size_pt = 0;
};

/// One card as it was set.
struct CardReport {
  analysis::DrinkId drink;
  /// Six digits that change with what the card says.
  std::string mark;
  std::size_t faces = 0;
  bool is_error = false;
  std::vector<WordsOnCard> words;
};

struct PrintedCards {
  std::string pdf;
  std::size_t pages = 0;
  std::vector<CardReport> cards;
  std::vector<CardRemark> remarks;
};

/// The cards of these drinks, in this order. A drink in error is a card that says so. Where there are no
/// drinks, one page says that. Nothing when it cannot be drawn. The same input gives the same bytes where the
/// faces of type are the same.
std::optional<PrintedCards> print_cards(const render::BookInput& input,
                                        const std::vector<analysis::DrinkId>& drinks,
                                        const CardOptions& options);

}  // namespace gill::print
