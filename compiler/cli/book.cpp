#include <fmt/format.h>

#include "cli/command.h"
#include "driver/output.h"
#include "render/book.h"

namespace gill::cli {
namespace {

struct Options {
  std::string house = ".";
  std::string form = "html";
  std::string out = "out/book";
  bool drafts = false;
};

int run(const Options& options) {
  auto house = compile_house(options.house, options.out);
  if (!house) return cannot_work;
  // Cautions print whether an `allow` quieted their finding or not.
  auto findings = house->findings;
  findings.insert(findings.end(), house->quieted.begin(), house->quieted.end());
  render::BookInput input{house->specs, house->facts, house->units, house->names, house->sources, findings};
  auto form = options.form == "html" ? render::Form::html : options.form == "markdown" ? render::Form::markdown : render::Form::both;
  auto files = render::make_book(input, form, options.drafts);
  if (auto failure = driver::replace_folder(options.out, files)) return refuse(failure->message);
  int status = report_errors(*house);
  return print(fmt::format("Wrote {} files to {}; open {}/index.{}.\n", files.size(), options.out, options.out,
                           form == render::Form::markdown ? "md" : "html"),
               status);
}

}  // namespace

void add_book(CLI::App& app, int& status) {
  auto options = std::make_shared<Options>();
  auto* command = app.add_subcommand("book", "Writes the staff spec book");
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  command->add_option("--out", options->out, "The folder to write to")->capture_default_str();
  command->add_option("--as", options->form, "The form of the book")->check(CLI::IsMember({"html", "markdown", "all"}))->capture_default_str();
  command->add_flag("--drafts", options->drafts, "Drafts as well");
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace gill::cli
