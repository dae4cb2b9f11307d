#include "print/labels.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/date.h"
#include "batch/bottle_label.h"
#include "cli/command.h"
#include "cli/named_option.h"
#include "cli/plan_options.h"
#include "cli/print_options.h"

namespace gill::cli {
namespace {

using render::document::BookIndex;

struct LabelsOptions {
  std::string house = ".";
  std::string out = "out/labels.pdf";
  std::string sheet{usual_label_sheet};
  std::string made;
  std::string menu;
  std::vector<std::string> only;
  int copies = 1;
  int skipped = 0;
};

/// What is to be labelled.
struct Chosen {
  std::vector<analysis::StockId> preps;
  std::vector<analysis::DrinkId> drinks;
};

/// The preps and drinks that were named. Nothing, with the reason on standard error, where one is neither.
std::optional<Chosen> chosen_by_name(const driver::Compilation& house,
                                     const std::vector<std::string>& names) {
  Chosen chosen;
  for (const auto& name : names) {
    auto drink = house.names.find(symbols::NameSpace::drink, name);
    if (drink.valid()) {
      auto id = analysis::DrinkId::at(house.specs.index_of[drink.index()]);
      if (!house.specs[id].batched)
        return refuse(fmt::format("`{}` is not batched, so there is no bottle to label", name)), std::nullopt;
      chosen.drinks.push_back(id);
      continue;
    }
    auto stock = find_named(house, symbols::NameSpace::stock, "prep", name);
    if (!stock) return std::nullopt;
    auto id = analysis::StockId::at(*stock);
    if (!house.specs[id].is_prep)
      return refuse(fmt::format("`{}` is bought, not made; labels are for what is made", name)), std::nullopt;
    chosen.preps.push_back(id);
  }
  return chosen;
}

/// Everything that the drinks are made of ahead, and their bottles.
Chosen chosen_of(const driver::Compilation& house, const std::vector<analysis::DrinkId>& drinks,
                 const std::vector<analysis::StockId>& preps) {
  Chosen chosen;
  std::vector<bool> used(house.specs.stock.size());
  for (auto id : drinks) {
    if (house.specs[id].batched) chosen.drinks.push_back(id);
    for (auto stock : house.facts[id].uses) used[stock.index()] = true;
  }
  for (auto id : preps)
    if (used[id.index()]) chosen.preps.push_back(id);
  return chosen;
}

std::optional<Chosen> choose(const driver::Compilation& house, const BookIndex& index,
                             const LabelsOptions& options) {
  if (!options.only.empty()) return chosen_by_name(house, options.only);
  auto drinks = chosen_drinks(house, {}, options.menu, false);
  if (!drinks) return std::nullopt;
  if (!options.menu.empty()) return chosen_of(house, *drinks, index.preps());
  Chosen all{index.preps(), {}};
  for (auto id : *drinks)
    if (house.specs[id].batched) all.drinks.push_back(id);
  return all;
}

int run_labels(const LabelsOptions& options) {
  print::LabelOptions label_options;
  auto sheet = read_sheet(options.sheet);
  if (!sheet) return cannot_work;
  label_options.sheet = *sheet;
  label_options.copies = options.copies;
  label_options.skipped = options.skipped;
  if (!options.made.empty()) {
    label_options.made = base::read_iso_date(options.made);
    if (!label_options.made) return refuse(base::not_a_date(options.made));
  }
  auto house = compile_house(options.house);
  if (!house) return cannot_work;
  auto input = house->book_input();
  BookIndex index(input, false);
  auto chosen = choose(*house, index, options);
  if (!chosen) return cannot_work;
  std::vector<print::Label> labels;
  for (auto id : chosen->preps) labels.push_back(print::label_of(index, id));
  for (auto id : chosen->drinks) labels.push_back(batch::bottle_label(index, id));
  auto printed = print::print_labels(labels, house->specs.house.head.name, label_options);
  if (!printed) return refuse("the labels could not be drawn; is a face of type installed?");
  int status = report_errors(*house);
  for (const auto& remark : printed->remarks) fmt::print(stderr, "gill: note: {}\n", remark);
  int delivered = deliver(options.out, printed->pdf, status);
  if (delivered == cannot_work || options.out == "-") return delivered;
  return print(
      fmt::format("Wrote {} labels on {} pages to {}.\n", printed->labels, printed->pages, options.out),
      status);
}

}  // namespace

void add_labels(CLI::App& app, int& status) {
  auto options = std::make_shared<LabelsOptions>();
  auto* command =
      app.add_subcommand("labels", "Prints labels for preps and for bottles of batched drinks, as PDF");
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  command->add_option("--out", options->out, "The file to write to; `-` for standard output")
      ->capture_default_str();
  command->add_option("--made", options->made,
                      "The day on which it was made; without it, a line to write on");
  command->add_option("--copies", options->copies, "How many of each")
      ->check(CLI::Range(1, 500))
      ->capture_default_str();
  command
      ->add_option(
          "--sheet", options->sheet,
          "Size of a label, how many across and down, the gaps, the sheet; or the size alone for a roll")
      ->capture_default_str();
  command->add_option("--skip", options->skipped, "How many labels of the first sheet are gone already")
      ->check(CLI::Range(0, 500))
      ->capture_default_str();
  command->add_option("--menu", options->menu, "What the drinks of a menu are made of");
  command->add_option("--only", options->only, "A prep or a batched drink (may be given again)")->take_all();
  show_examples(*command, {{"gill labels specs --made 2026-04-01 --out out/labels.pdf",
                            "for all preps, with the day and when they are used up"},
                           {"gill labels specs --only \"quince cordial\" --copies 4 --out out/labels.pdf",
                            "four of one prep"}});
  command->callback([options, &status] { status = run_labels(*options); });
}

}  // namespace gill::cli
