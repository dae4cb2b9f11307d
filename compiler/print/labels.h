#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "print/cards.h"
#include "print/label_sheet.h"
#include "render/document/book_index.h"
#include "render/wording/allergens_in_words.h"

/// Labels for what is made ahead: preps, and bottles of batched drinks.
namespace gill::print {

/// What a label says.
struct Label {
  std::string name;
  /// Why it cannot be labelled; nothing below holds then.
  bool is_error = false;
  /// `prep`, `batch`.
  std::string kind;
  /// How long it keeps; nothing where nobody says.
  std::optional<double> keeps_days;
  /// `30 days`, as the spec says it.
  std::string keeps;
  /// `Chilled`.
  std::string storage;
  /// `44.1 % abv`; empty without alcohol.
  std::string strength;
  /// What a bottle of it holds, else what the recipe makes: `640 ml`, `510 ml a bottle, 3 a recipe`.
  std::string batch;
  /// The day on which this one was made, where it is another than that of all, and how many it takes of it.
  std::optional<std::chrono::sys_days> made;
  int copies = 1;
  render::wording::AllergensInWords allergens;
  /// Of a bottle: allergens that are in the drink and not in it.
  std::vector<std::string> also_in_drink;
  /// What a law asks to be said, whole sentences.
  std::vector<std::string> statements;
  /// `Oil infusion, raw egg. Do not keep at room temperature.`; empty where there is nothing to take care of.
  std::string take_care;
  /// What instruments should show of it: `52.0 ± 0.4 brix`, `hydrometer 1.244`, `100 ml weigh 124 g`.
  std::vector<std::string> shows;
};

/// The label of a prep.
Label label_of(const render::document::BookIndex& index, analysis::StockId prep);

/// What so much in bottles of one size is, each but the last and the last: `700 ml`, `430 ml`. To 5 ml where
/// a bottle is not full, which is what a jug's mark is good to.
struct BottleFills {
  int count = 0;
  std::string each, last;
};
BottleFills bottle_fills(double volume_ml, const units::Quantity& bottle, const units::UnitTable& units);

/// `44.1 % abv`, which no line end parts.
std::string strength_words(double abv_percent);

struct LabelOptions {
  LabelSheet sheet;
  /// The day on which it was made; nothing for a line to write on.
  std::optional<std::chrono::sys_days> made;
  int copies = 1;
  /// So many labels of the first sheet are gone already.
  int skipped = 0;
};

struct PrintedLabels {
  std::string pdf;
  std::size_t pages = 0, labels = 0;
  /// Each label once, as it was set; `drink` does not hold here.
  std::vector<CardReport> reports;
  /// Sentences in lower case without their full stop.
  std::vector<std::string> remarks;
};

/// The labels, each as often as asked for. Nothing when they cannot be drawn.
std::optional<PrintedLabels> print_labels(const std::vector<Label>& labels, const std::string& house,
                                          const LabelOptions& options);

}  // namespace gill::print
