#include "cli/command.h"
#include "cli/plan_options.h"
#include "costing/words.h"
#include "model/calibration.h"
#include "render/document/hands_page.h"
#include "render/facts/calibration_json.h"
#include "stock/measurements.h"

namespace gill::cli {
namespace {

struct CalibrateOptions {
  std::string house = ".";
  std::string form = "text";
  std::string out, from;
};

int run_calibrate(const CalibrateOptions& options) {
  auto house = compile_house(options.house);
  if (!house) return cannot_work;
  auto input = house->book_input();
  auto measured = model::measurements_of(input.specs);
  if (!options.from.empty()) {
    auto bytes = read_table_file(options.from);
    if (!bytes) return cannot_work;
    auto table = stock::read_measurements(*bytes, input);
    report_rows(options.from, table.problems);
    measured.insert(measured.end(), table.measured.begin(), table.measured.end());
  }
  auto calibration = model::calibrate(input.specs, input.units, input.facts, std::move(measured));
  int status = report_errors(*house);
  if (options.form == "json")
    return deliver(options.out, render::calibration_json(calibration, input, options.from), status);
  render::document::BookIndex index(input, true);
  return deliver_page(options.out, options.form,
                      render::document::hands_page(index, calibration, options.from),
                      costing::desk_frame(input), status);
}

}  // namespace

void add_calibrate(CLI::App& app, int& status) {
  auto options = std::make_shared<CalibrateOptions>();
  auto* command = app.add_subcommand(
      "calibrate",
      "What the house measured of its hands and ice, and the lines that make every drink follow");
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  command->add_option(
      "--from", options->from,
      "More measurements, as CSV: date, drink, before, after, temperature, brix, seconds, ice");
  command->add_option("--as", options->form, "The form of the answer")
      ->check(CLI::IsMember({"text", "markdown", "html", "json"}))
      ->capture_default_str();
  command->add_option("--out", options->out, "The file to write to; standard output without it");
  show_examples(*command, {{"gill calibrate specs", "what the house measured, and the lines to write"},
                           {"gill calibrate specs --as json >hands.json", "the same for a program"}});
  command->callback([options, &status] { status = run_calibrate(*options); });
}

}  // namespace gill::cli
