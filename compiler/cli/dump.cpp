#include "cli/command.h"
#include "cli/description.h"
#include "editor/language_words.h"

namespace gill::cli {
namespace {

struct DumpOptions {
  std::string stage;
  std::string house = ".";
};

int run_dump(const DumpOptions& options) {
  auto house = compile_house(options.house);
  if (!house) return cannot_work;
  std::string text;
  if (options.stage == "tree") {
    for (const auto& file : house->files)
      if (!house->sources[file.file_id].from_library) text += syntax::dump(file, house->sources);
    text += analysis::dump_readings(house->specs, house->sources);
  }
  if (options.stage == "names") text = symbols::dump(house->names, house->sources);
  if (options.stage == "units") text = analysis::dump(house->specs, house->units);
  if (options.stage == "model") text = model::dump(house->facts, house->specs, house->units);
  if (options.stage == "words") text = editor::dump_words(house->units);
  return print(text, done);
}

}  // namespace

void add_dump(CLI::App& app, int& status) {
  auto options = std::make_shared<DumpOptions>();
  auto* command =
      app.add_subcommand("dump", "Prints what one stage of the compiler made, for those who mend it");
  command
      ->add_option(
          "STAGE", options->stage,
          "tree, names, units or model; words lists those of the language, manual writes the man page")
      ->required()
      ->check(CLI::IsMember({"tree", "names", "units", "model", "words", "manual"}));
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  show_examples(*command, {{"gill dump units specs", "what the compiler read each line as"},
                           {"gill dump words specs", "the words of the language"}});
  command->callback([options, &app, &status] {
    status = options->stage == "manual" ? print(manual_page(describe(app), GILL_VERSION), done)
                                        : run_dump(*options);
  });
}

}  // namespace gill::cli
