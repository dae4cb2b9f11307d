#include "print/cards.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "cli/command.h"
#include "cli/named_option.h"
#include "cli/plan_options.h"
#include "cli/print_options.h"

namespace gill::cli {
namespace {

struct CardsOptions {
  std::string house = ".";
  std::string out = "out/cards.pdf";
  std::string size = "a6";
  std::string sheet = "none";
  std::string menu;
  std::vector<std::string> only;
  std::string dated;
  bool has_back = false;
  bool is_blank = false;
  bool drafts = false;
};

const std::map<std::string, print::Paper> sizes = {
    {"a6", print::a6}, {"a5", print::a5}, {"4x6in", print::card_4x6in}};
const std::map<std::string, print::Paper> sheets = {{"a4", print::a4}, {"letter", print::letter}};

/// What was found in printing, where each drink is declared, in the form of every finding.
void report_remarks(const driver::Compilation& house, const std::vector<print::CardRemark>& remarks) {
  for (const auto& remark : remarks) {
    const auto& span = house.specs[remark.drink].head.name_span;
    const auto& file = house.sources[span.file_id];
    auto place = file.place_of(span);
    fmt::print(stderr, "{}:{}:{}: note: {}\n", file.path, place.line, place.column, remark.words);
  }
}

int run_cards(const CardsOptions& options) {
  auto house = compile_house(options.house);
  if (!house) return cannot_work;
  auto drinks = chosen_drinks(*house, options.only, options.menu, options.drafts);
  if (!drinks) return cannot_work;
  auto printed_on = date_of_printing(options.dated);
  if (!printed_on) return cannot_work;
  auto input = house->book_input();
  print::CardOptions card_options;
  card_options.size = sizes.at(options.size);
  if (options.sheet != "none") card_options.sheet = sheets.at(options.sheet);
  card_options.has_back = options.has_back;
  card_options.is_blank = options.is_blank;
  card_options.printed_on = *printed_on;
  auto cards = print::print_cards(input, *drinks, card_options);
  if (!cards) return refuse("the cards could not be drawn; is a face of type installed?");
  int status = report_errors(*house);
  report_remarks(*house, cards->remarks);
  int delivered = deliver(options.out, cards->pdf, status);
  if (delivered == cannot_work || options.out == "-") return delivered;
  return print(
      fmt::format("Wrote {} cards on {} pages to {}.\n", cards->cards.size(), cards->pages, options.out),
      status);
}

}  // namespace

void add_cards(CLI::App& app, int& status) {
  auto options = std::make_shared<CardsOptions>();
  auto* command = app.add_subcommand("cards", "Prints staff cards, one a drink, as PDF");
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  command->add_option("--out", options->out, "The file to write to; `-` for standard output")
      ->capture_default_str();
  command->add_option("--size", options->size, "The size of a card")
      ->check(CLI::IsMember({"a6", "a5", "4x6in"}))
      ->capture_default_str();
  command->add_option("--sheet", options->sheet, "Several on a sheet, with marks to cut along")
      ->check(CLI::IsMember({"none", "a4", "letter"}))
      ->capture_default_str();
  command->add_flag(
      "--duplex", options->has_back,
      "With backs: allergens by their way, cautions, notes, the measured build; turn on the long edge");
  command->add_flag("--blank", options->is_blank,
                    "Amounts, times and temperatures left out, to practise with");
  command->add_option("--menu", options->menu, "The drinks of a menu, in its order");
  command->add_option("--only", options->only, "A drink (may be given again)")->take_all();
  command->add_flag("--drafts", options->drafts, "Drafts as well, marked as such");
  command->add_option(
      "--dated", options->dated,
      "A date to print in the foot, or `today`; without it that of SOURCE_DATE_EPOCH, or none");
  show_examples(
      *command,
      {{"gill cards specs --menu \"Spring 2026\" --out out/cards.pdf", "a card for each drink of a menu"},
       {"gill cards specs --only Fustian --size a5 --out out/card.pdf", "one drink, larger"}});
  command->callback([options, &status] { status = run_cards(*options); });
}

}  // namespace gill::cli
