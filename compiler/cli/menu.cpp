#include <fmt/format.h>

#include "base/text.h"
#include "cli/command.h"
#include "cli/plan_options.h"
#include "costing/words.h"
#include "print/menu_pdf.h"
#include "render/document/guest_menu.h"
#include "render/html/page.h"
#include "render/markdown/page.h"

namespace gill::cli {
namespace {

struct MenuOptions {
  std::string house = ".";
  std::string menu;
  std::string form = "html";
  std::string out;
  bool drafts = false, compact = false;
};

int run_menu(const MenuOptions& options) {
  auto house = compile_house(options.house);
  if (!house) return cannot_work;
  auto input = house->book_input();
  render::document::BookIndex index(input, options.drafts);
  if (index.menus().empty()) return refuse("the house declares no menu");
  auto named = costing::find_menu(input, options.menu);
  if (auto* failure = std::get_if<std::string>(&named)) return refuse(*failure);
  auto id = std::get<analysis::MenuId>(named);
  std::size_t menu = id.valid() ? id.index() : index.menus().front();
  auto page = render::document::guest_menu_page(index, menu, options.compact);
  auto frame = render::document::guest_menu_frame(index);
  int status = report_errors(*house);
  if (auto left_off = render::document::left_off_guest_menu(index, menu); !left_off.empty())
    fmt::print(stderr, "Left off the menu, as drafts or retired: {}.\n", base::join_with_and(left_off));
  fmt::print(stderr,
             "The wording of notices to guests is your local code's to settle: read it beside this menu.\n");
  if (options.form == "pdf")
    return deliver_pdf(options.out, print::menu_pdf(page, frame, options.compact), status);
  if (options.form == "markdown")
    return deliver(options.out, render::markdown::to_markdown(page, frame).text, status);
  return deliver(options.out, render::html::to_html_alone(page, frame), status);
}

}  // namespace

void add_menu(CLI::App& app, int& status) {
  auto options = std::make_shared<MenuOptions>();
  auto* command = app.add_subcommand(
      "menu", "Writes the guests' menu: guest lines, prices, allergens and where they come from, notices");
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  command->add_option("--menu", options->menu, "The menu; without it, the one that runs last");
  command->add_option("--as", options->form, "The form of the menu")
      ->check(CLI::IsMember({"html", "markdown", "pdf"}))
      ->capture_default_str();
  command->add_option("--out", options->out, "The file to write to; standard output without it");
  command->add_flag("--compact", options->compact,
                    "On as few pages as can be read: two columns as PDF, allergens without their way");
  command->add_flag("--drafts", options->drafts, "Drafts as well");
  show_examples(*command,
                {{"gill menu specs --menu \"Spring 2026\" --out out/menu.html", "the page for the guests"},
                 {"gill menu specs --as pdf --compact --out out/menu.pdf", "on paper"}});
  command->callback([options, &status] { status = run_menu(*options); });
}

}  // namespace gill::cli
