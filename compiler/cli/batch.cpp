#include <fmt/format.h>

#include "batch/batch_output.h"
#include "cli/command.h"
#include "cli/named_option.h"
#include "render/document/shared_parts.h"

namespace gill::cli {
namespace {

struct BatchOptions {
  std::string name, house = ".", form = "text", volume, bottle, within;
  std::optional<double> serves;
  bool diluted = false, of_prep = false;
};

/// A quantity above nothing, of the kind that the option takes.
bool read_positive(const units::UnitTable& units, std::string_view option, const std::string& text,
                   units::Kind kind, double per, std::optional<double>& result) {
  if (text.empty()) return true;
  auto quantity = read_quantity(units, option, text);
  if (!quantity) return false;
  if (quantity->kind != kind) {
    refuse(fmt::format("{} takes {}, as in `{}`; `{}` is {}", option, units::noun_of(kind),
                       kind == units::Kind::volume ? "700 ml" : "6 h", text, units::noun_of(quantity->kind)));
    return false;
  }
  result = quantity->number() / per;
  if (*result > 0) return true;
  refuse(fmt::format("{} must be more than nothing", option));
  return false;
}

std::optional<batch::BatchRequest> read_request(const units::UnitTable& units, const BatchOptions& options) {
  constexpr double seconds_an_hour = 3600;
  batch::BatchRequest request;
  request.serves = options.serves;
  request.diluted = options.diluted;
  if (!read_positive(units, "--volume", options.volume, units::Kind::volume, 1, request.volume_ml))
    return std::nullopt;
  if (!read_positive(units, "--bottle", options.bottle, units::Kind::volume, 1, request.bottle_ml))
    return std::nullopt;
  if (!read_positive(units, "--within", options.within, units::Kind::time, seconds_an_hour, request.within_h))
    return std::nullopt;
  if (!request.serves && !request.volume_ml && !request.bottle_ml)
    return refuse("how much? Give --serves, --volume or --bottle"), std::nullopt;
  return request;
}

/// A drink and a prep may be called alike: the prep is meant where it is asked for, or where the name is
/// written as the prep's is and not as the drink's.
bool means_prep(const driver::Compilation& house, const BatchOptions& options) {
  auto drink = house.names.find(symbols::NameSpace::drink, options.name);
  auto stock = house.names.find(symbols::NameSpace::stock, options.name);
  if (!stock.valid() || !house.specs.stock[house.specs.index_of[stock.index()]].is_prep) return false;
  if (!drink.valid() || options.of_prep) return true;
  const auto& of_drink = house.specs.drinks[house.specs.index_of[drink.index()]].head.name;
  const auto& of_stock = house.specs.stock[house.specs.index_of[stock.index()]].head.name;
  const bool is_prep = options.name == of_stock && options.name != of_drink;
  if (is_prep)
    fmt::print(stderr, "gill: the prep is meant; the drink is written `{}`\n", of_drink);
  else
    fmt::print(stderr, "gill: the drink is meant; for the prep `{}` write `--prep` behind it\n", of_stock);
  return is_prep;
}

int run_batch(const BatchOptions& options) {
  auto house = compile_house(options.house);
  if (!house) return cannot_work;
  auto request = read_request(house->units, options);
  if (!request) return cannot_work;
  auto input = house->book_input();
  auto drink = house->names.find(symbols::NameSpace::drink, options.name);
  auto stock = house->names.find(symbols::NameSpace::stock, options.name);
  bool is_prep = means_prep(*house, options);
  if (options.of_prep && !is_prep)
    return refuse(fmt::format("the house has no prep called `{}`", options.name));
  if (!drink.valid() && stock.valid() && !is_prep)
    return refuse(fmt::format("`{}` is bought, not made: a batch is of a drink or a prep", options.name));
  std::optional<std::uint32_t> index;
  if (is_prep)
    index = house->specs.index_of[stock.index()];
  else
    index = find_named(*house, symbols::NameSpace::drink, "drink or prep", options.name);
  if (!index) return cannot_work;
  int status = report_errors(*house);
  bool valid = is_prep ? house->facts.stock[*index].valid : house->facts.drinks[*index].valid;
  if (!valid) {
    refuse(
        fmt::format("`{}` has an amount in error, so it cannot be scaled; correct that first", options.name));
    return errors_in_specs;
  }
  auto batch = is_prep ? batch::make_batch(input, analysis::StockId::at(*index), *request)
                       : batch::make_batch(input, analysis::DrinkId::at(*index), *request);
  if (auto* failure = std::get_if<std::string>(&batch)) return refuse(*failure);
  auto& made = std::get<batch::Batch>(batch);
  render::document::BookIndex book(input, true);
  made.take_care =
      is_prep
          ? render::document::cautions_of(book, analysis::StockId::at(*index)).on_label
          : render::document::cautions_of_bottle(book, analysis::DrinkId::at(*index), made.held()).on_label;
  return print(options.form == "json" ? batch::batch_json(made, input) : batch::batch_text(made, input),
               status);
}

}  // namespace

void add_batch(CLI::App& app, int& status) {
  auto options = std::make_shared<BatchOptions>();
  auto* command = app.add_subcommand(
      "batch", "Scales a drink or a prep for many: amounts, water, bottles, freezing, keeping");
  command->add_option("NAME", options->name, "The drink or prep")->required();
  command->add_option("--house", options->house, "A folder or a .gill file")->capture_default_str();
  auto* serves =
      command->add_option("--serves", options->serves, "How many serves")->check(CLI::Range(1e-3, 1e6));
  command->add_option("--volume", options->volume, "How much in all, as in `5 l`")->excludes(serves);
  command->add_option("--bottle", options->bottle,
                      "The bottles it goes into, as in `700 ml`; alone, one of them full");
  command->add_flag("--prep", options->of_prep, "The prep of that name, where a drink is called so too");
  command->add_flag("--diluted", options->diluted, "Puts the water in that the ice would bring");
  command->add_option("--within", options->within,
                      "It is used up within this time: fresh juice goes in, as in `6 h`");
  command->add_option("--as", options->form, "The form of the answer")
      ->check(CLI::IsMember({"text", "json"}))
      ->capture_default_str();
  show_examples(*command,
                {{"gill batch Fustian --house specs --serves 40", "amounts and bottles for forty"},
                 {"gill batch \"quince cordial\" --house specs --volume \"3 l\"", "a prep for the week"}});
  command->callback([options, &status] { status = run_batch(*options); });
}

}  // namespace gill::cli
