#include <fmt/format.h>

#include "base/text.h"
#include "cli/command.h"
#include "lint/page_text.h"
#include "lint/pages.h"

namespace gill::cli {
namespace {

int refuse_unknown_rule(const std::string& typed) {
  std::vector<std::string> offers;
  for (const auto& name : lint::rules_like(typed)) offers.push_back(fmt::format("`{}`", name));
  return refuse(fmt::format("there is no rule `{}`; {}", typed,
                            offers.empty() ? std::string("`gill why` lists them")
                                           : fmt::format("did you mean {}?", base::join_with_or(offers))));
}

int run(const std::string& typed) {
  if (typed.empty())
    return print(lint::list_of_rules(output_width()) + "\n`gill why RULE` shows a rule's page.\n", done);
  auto rule = lint::find_typed_rule(typed);
  auto page = rule ? lint::page_of(*rule) : std::nullopt;
  if (!page) return refuse_unknown_rule(typed);
  return print(lint::page_as_text(*page, output_width(), colour_on_output()), done);
}

}  // namespace

void add_why(CLI::App& app, int& status) {
  auto rule = std::make_shared<std::string>();
  auto* command =
      app.add_subcommand("why", "What a rule means, an example, its source; without a name, every rule");
  command->add_option("RULE", *rule, "A rule's name, as findings print it in square brackets");
  show_examples(*command, {{"gill why", "every rule"},
                           {"gill why no-strain", "what one finds, why it matters, and how to mend it"}});
  command->callback([rule, &status] { status = run(*rule); });
}

}  // namespace gill::cli
