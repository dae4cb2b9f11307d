#include <fmt/format.h>

#include <map>

#include "cli/command.h"
#include "driver/output.h"
#include "render/book/book.h"

namespace gill::cli {
namespace {

const std::map<std::string, render::Form> forms = {{"html", render::Form::html},
                                                   {"markdown", render::Form::markdown},
                                                   {"commonmark", render::Form::commonmark},
                                                   {"all", render::Form::both}};

struct BookOptions {
  std::string house = ".";
  std::string form = "html";
  std::string out = "out/book";
  bool drafts = false;
};

int run_book(const BookOptions& options) {
  auto house = compile_house(options.house, options.out);
  if (!house) return cannot_work;
  auto input = house->book_input();
  auto form = forms.at(options.form);
  auto files = render::make_book(input, form, options.drafts);
  if (auto failure = driver::replace_folder(options.out, files)) return refuse(failure->message);
  int status = report_errors(*house);
  return print(
      fmt::format("Wrote {} files to {}; open {}/index.{}.\n", files.size(), options.out, options.out,
                  form == render::Form::html || form == render::Form::both ? "html" : "md"),
      status);
}

}  // namespace

void add_book(CLI::App& app, int& status) {
  auto options = std::make_shared<BookOptions>();
  auto* command = app.add_subcommand("book", "Writes the staff spec book");
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  command->add_option("--out", options->out, "The folder to write to")->capture_default_str();
  command
      ->add_option("--as", options->form,
                   "The form of the book: HTML, Markdown with tables, plain CommonMark, or HTML and Markdown")
      ->check(CLI::IsMember(forms))
      ->capture_default_str();
  command->add_flag("--drafts", options->drafts, "Drafts as well");
  show_examples(*command,
                {{"gill book specs --out out/book", "the staff book as pages; open `out/book/index.html`"},
                 {"gill book specs --as markdown --out out/pages", "the same for a wiki"}});
  command->callback([options, &status] { status = run_book(*options); });
}

}  // namespace gill::cli
