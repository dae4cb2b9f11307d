#include <fmt/format.h>

#include "base/text.h"
#include "cli/command.h"
#include "driver/output.h"
#include "guide/guide.h"

namespace gill::cli {
namespace {

struct GuideOptions {
  std::string topic, out;
};

int refuse_unknown_topic(const std::string& typed) {
  std::vector<std::string> offers;
  for (const auto& name : guide::topics_like(typed)) offers.push_back(fmt::format("`{}`", name));
  return refuse(fmt::format("the guide has no page `{}`; {}", typed,
                            offers.empty() ? std::string("`gill guide` lists them")
                                           : fmt::format("did you mean {}?", base::join_with_or(offers))));
}

int write_pages(const std::string& folder) {
  auto files = guide::guide_as_html();
  if (auto failure = driver::replace_folder(folder, files)) return refuse(failure->message);
  return print(fmt::format("Wrote {} files to {}; open {}/index.html.\n", files.size(), folder, folder),
               done);
}

int run_guide(const GuideOptions& options) {
  if (!options.out.empty()) return write_pages(options.out);
  if (options.topic.empty())
    return print(guide::list_of_topics() +
                     "\n`gill guide TOPIC` shows a page, `gill guide --out DIR` writes them all as HTML.\n",
                 done);
  const auto* topic = guide::find_topic(options.topic);
  if (!topic) return refuse_unknown_topic(options.topic);
  return print(guide::topic_as_text(*topic, output_width(), colour_on_output()), done);
}

}  // namespace

void add_guide(CLI::App& app, int& status) {
  auto options = std::make_shared<GuideOptions>();
  auto* command = app.add_subcommand("guide", "The language and the work, page by page");
  auto* topic = command->add_option("TOPIC", options->topic, "A page's name; without one, every page");
  command->add_option("--out", options->out, "Writes every page as HTML into this folder")->excludes(topic);
  show_examples(*command, {{"gill guide", "every page"},
                           {"gill guide preps", "one page"},
                           {"gill guide --out out/guide", "all of them as HTML"}});
  command->callback([options, &status] { status = run_guide(*options); });
}

}  // namespace gill::cli
