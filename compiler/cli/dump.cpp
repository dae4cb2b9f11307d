#include "cli/command.h"
#include "cli/description.h"
#include "driver/kept_house.h"
#include "editor/language_words.h"

namespace gill::cli {
namespace {

struct DumpOptions {
  std::string stage;
  std::string house = ".";
  std::string edited;
};

/// What an edit does again: the house as it was, and as it is after.
int run_again(const DumpOptions& options) {
  if (options.edited.empty()) return refuse("`gill dump again` takes the house before an edit and after it");
  driver::DiskAccess disk;
  std::vector<driver::HouseFiles> states;
  for (const auto& path : {options.house, options.edited}) {
    auto read = disk.read_house(path, {});
    if (auto* failure = std::get_if<driver::FileError>(&read)) return refuse(failure->message);
    states.push_back(std::get<driver::HouseFiles>(std::move(read)));
  }
  // A file beside the other, or a folder, stands for the same one edited.
  auto &before = states[0], &after = states[1];
  after.name = before.name;
  if (before.files.size() == 1 && after.files.size() == 1) after.files[0].path = before.files[0].path;
  driver::KeptHouse kept;
  kept.update(before);
  kept.update(after);
  return print(driver::dump(kept.redone()), done);
}

int run_dump(const DumpOptions& options) {
  if (options.stage == "again") return run_again(options);
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
      ->add_option("STAGE", options->stage,
                   "tree, names, units or model; words lists those of the language, manual writes the man "
                   "page, again tells what an edit does again and why")
      ->required()
      ->check(CLI::IsMember({"tree", "names", "units", "model", "words", "manual", "again"}));
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  command->add_option("EDITED", options->edited, "With again: the same after an edit");
  show_examples(*command, {{"gill dump units specs", "what the compiler read each line as"},
                           {"gill dump words specs", "the words of the language"}});
  command->callback([options, &app, &status] {
    status = options->stage == "manual" ? print(manual_page(describe(app), GILL_VERSION), done)
                                        : run_dump(*options);
  });
}

}  // namespace gill::cli
