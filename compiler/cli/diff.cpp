#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <future>
#include <map>
#include <set>

#include "base/text.h"
#include "cli/command.h"
#include "cli/plan_options.h"
#include "diff/by_file.h"
#include "diff/forms.h"
#include "driver/git_sides.h"
#include "driver/house_around.h"
#include "driver/merge_marks.h"
#include "driver/read_file.h"
#include "driver/revision.h"
#include "print/page_pdf.h"
#include "render/document/book_index.h"

namespace gill::cli {

namespace fs = std::filesystem;

namespace {

constexpr const char* working_tree = "the working tree";

constexpr const char* git_help =
    R"help(OLD and NEW are folders, files, or revisions of the git repository that holds --house: branches, tags,
commits, HEAD~3, main@{2026-06-01} (the last commit of that day or before). With NEW left out, OLD is
compared with the house on the disk; with both left out, HEAD is.

To let `git diff` show what changed in a drink instead of lines, once in a clone
(the house's folder after --house; leave it out when the house is the whole repository):

  echo '*.gill diff=gill' >> .gitattributes
  git config diff.gill.command 'gill diff --house specs --as-git'

Both sides are whole houses, as the revisions, the index or the disk have them, and each file tells what it
changes, here and elsewhere. `git log -p --ext-diff` and `git show --ext-diff` use it too.

To compare what each file says, without figures, in `git log -p` and `git show`:

  git config diff.gill.textconv 'gill diff --house specs --as-git'

To tell a merge request what it changes, for its description or for the staff:

  gill diff "$(git merge-base origin/main HEAD)" HEAD --house specs --as markdown
  gill diff "$(git merge-base origin/main HEAD)" HEAD --house specs --for staff
)help";

struct DiffOptions {
  std::vector<std::string> sides;
  std::string house = ".";
  std::string form = "text";
  std::string audience;
  std::string out;
  bool as_git = false;

  /// A textconv is handed one file, an external diff a path and two files; of a path that is not merged yet,
  /// the path alone.
  bool is_textconv() const { return as_git && sides.size() == 1 && !std::getenv("GIT_DIFF_PATH_COUNTER"); }
};

/// A side before it is compiled.
struct Source {
  std::string label;
  driver::HouseFiles files;
};

using Found = std::variant<Source, driver::FileError>;

/// The file or folder next to where a missing one was looked for whose name is most like it.
std::optional<std::string> nearest_path(const std::string& path) {
  fs::path wanted(path);
  fs::path folder = wanted.has_parent_path() ? wanted.parent_path() : fs::path(".");
  base::NearestWord nearest(wanted.filename().string());
  std::error_code error;
  std::vector<std::string> names;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end; entry.increment(error))
    if (entry->is_directory(error) || entry->path().extension() == ".gill")
      names.push_back(entry->path().filename().string());
  std::sort(names.begin(), names.end());
  for (const auto& name : names) nearest.consider(name, (wanted.parent_path() / name).string());
  return nearest.best();
}

Found from_disk(const std::string& path, const std::string& label) {
  auto repository = driver::GitAccess::open(path);
  auto* git = std::get_if<std::unique_ptr<driver::GitAccess>>(&repository);
  auto files = git ? (*git)->read_working_tree(path) : driver::DiskAccess().read_house(path, {});
  if (auto* failure = std::get_if<driver::FileError>(&files)) return *failure;
  return Source{label, std::move(std::get<driver::HouseFiles>(files))};
}

/// A side by its name: what stands on the disk, else a revision of the repository around `house`.
Found find_side(const std::string& name, const std::string& house) {
  std::error_code error;
  auto repository = driver::GitAccess::open(house);
  auto* git = std::get_if<std::unique_ptr<driver::GitAccess>>(&repository);
  // `HEAD` is a file of a bare repository, and no house.
  bool is_house = fs::is_directory(name, error) || fs::path(name).extension() == ".gill";
  if (fs::exists(name, error) && (is_house || !git || !(*git)->has_revision(name))) {
    if (git && (*git)->has_revision(name))
      fmt::print(stderr, "gill: `{}` is read from the disk; for the revision of that name write `{}^0`\n",
                 name, name);
    return from_disk(name, name);
  }
  auto near = nearest_path(name);
  std::string or_path = near ? fmt::format(" On the disk there is `{}`.", *near) : std::string();
  if (!git)
    return driver::FileError{fmt::format("there is no file or folder `{}`, and {}.{}", name,
                                         std::get<driver::FileError>(repository).message, or_path)};
  auto files = (*git)->read_house(name, {});
  if (auto* failure = std::get_if<driver::FileError>(&files))
    return driver::FileError{failure->message + "." + or_path};
  return Source{name, std::move(std::get<driver::HouseFiles>(files))};
}

/// The two houses that a call of git compares, and the names of its one file in either.
struct GitCall {
  std::vector<Found> sides;
  std::set<std::string> paths;
  bool is_guess = false;
  /// The file lies beside the house, and is no part of it.
  bool is_outside = false;
};

std::size_t number_of(const char* text) { return text ? std::strtoul(text, nullptr, 10) : 0; }

/// Below which folders a path of git may lie: with `--relative`, or `diff.relative`, it is told from there.
std::vector<std::string> folders_of_relative_paths(const driver::GitPath& path) {
  std::vector<std::string> folders;
  if (path.asked && !path.asked->relative_to.empty()) folders.push_back(path.asked->relative_to);
  if (const char* prefix = std::getenv("GIT_PREFIX"); prefix && *prefix) folders.emplace_back(prefix);
  return folders;
}

/// Two files as they lie on the disk, each by itself.
GitCall call_beside_repository(const std::string& before, const std::string& after) {
  auto side = [](const std::string& file) {
    return file == "/dev/null" ? Found(Source{file, {}}) : from_disk(file, file);
  };
  return {{side(before), side(after)}, {}, false, false};
}

/// What git hands to an external diff: path, old file, hash and mode, new file, hash and mode, and after a
/// rename the new path and a header. It says of what object, and of what revision it does not.
GitCall call_of_git(const DiffOptions& options) {
  const auto& words = options.sides;
  auto refused = [](std::string message) {
    return GitCall{{driver::FileError{std::move(message)}}, {}, false, false};
  };
  if (words.size() == 1) return refused(fmt::format("{} is not merged yet", words[0]));
  if (words.size() != 7 && words.size() != 9)
    return refused("--as-git is for git, which hands over a path and two files with their hashes and modes");
  auto asked = driver::asked_of_git();
  if (asked && asked->is_beside_repository) return call_beside_repository(words[1], words[4]);
  auto repository = driver::GitAccess::open(options.house);
  if (auto* failure = std::get_if<driver::FileError>(&repository)) return refused(failure->message);
  auto& git = *std::get<std::unique_ptr<driver::GitAccess>>(repository);
  auto object = [](const std::string& file, const std::string& hash) {
    return file == "/dev/null" ? std::string() : hash;
  };
  driver::GitPath path{words[0],
                       words.size() == 9 ? words[7] : words[0],
                       object(words[1], words[2]),
                       object(words[4], words[5]),
                       number_of(std::getenv("GIT_DIFF_PATH_TOTAL")),
                       std::move(asked)};
  auto found = driver::find_git_sides(git, path, options.house);
  for (const auto& folder : folders_of_relative_paths(path)) {
    if (std::holds_alternative<driver::GitSides>(found)) break;
    auto whole = path;
    for (auto* one : {&whole.old_path, &whole.new_path}) *one = (fs::path(folder) / *one).lexically_normal();
    auto again = driver::find_git_sides(git, whole, options.house);
    if (!std::holds_alternative<driver::GitSides>(again)) continue;
    found = std::move(again);
    path = std::move(whole);
  }
  if (auto* failure = std::get_if<driver::FileError>(&found)) return refused(failure->message);
  auto& sides = std::get<driver::GitSides>(found);
  const std::string before_in = sides.before.files.folder_before_move.value_or(git.path()),
                    after_in = sides.after.files.folder_before_move.value_or(git.path());
  GitCall call{{}, {}, sides.is_guess, true};
  for (const auto& [whole, folder] :
       {std::pair(path.old_path, before_in), std::pair(path.new_path, after_in)}) {
    auto name = driver::path_in_house(whole, folder);
    call.is_outside = call.is_outside && !name;
    call.paths.insert(name.value_or(whole));
  }
  call.sides = {Source{sides.before.label, std::move(sides.before.files)},
                Source{sides.after.label, std::move(sides.after.files)}};
  return call;
}

/// What git hands to a textconv: one file, of the working tree or a copy of an older one under its name. The
/// house around it is the newest that holds it.
std::vector<Found> side_for_textconv(const DiffOptions& options) {
  std::string name = fs::path(options.sides[0]).filename().string();
  auto text = driver::read_file(options.sides[0]);
  if (auto* failure = std::get_if<driver::FileError>(&text)) return {*failure};
  const auto& written = std::get<std::string>(text);
  auto is_called = [&](const driver::HouseFile& file) { return fs::path(file.path).filename() == name; };
  driver::HouseFiles around;
  auto repository = driver::GitAccess::open(options.house);
  if (auto* git = std::get_if<std::unique_ptr<driver::GitAccess>>(&repository))
    if (auto side = driver::newest_with(**git, name, written, options.house)) around = std::move(side->files);
  const bool has_name = std::any_of(around.files.begin(), around.files.end(), is_called);
  std::erase_if(around.files,
                [&](const auto& file) { return has_name ? is_called(file) : file.text == written; });
  driver::HouseFiles with = around;
  with.files.push_back({name, driver::first_side_of_merge(written).value_or(written)});
  return {Source{name, std::move(around)}, Source{name, std::move(with)}};
}

std::vector<Found> find_sides(const DiffOptions& options) {
  if (options.is_textconv()) return side_for_textconv(options);
  if (options.sides.size() > 2)
    return {driver::FileError{"`gill diff` compares two sides; name an old one and a new one"}};
  std::vector<Found> found;
  found.push_back(find_side(options.sides.empty() ? "HEAD" : options.sides[0], options.house));
  found.push_back(options.sides.size() == 2 ? find_side(options.sides[1], options.house)
                                            : from_disk(options.house, working_tree));
  return found;
}

/// The files of two houses that are not the same in both.
std::set<std::string> changed_files(const driver::HouseFiles& before, const driver::HouseFiles& after) {
  std::map<std::string, std::string_view> old_texts;
  for (const auto& file : before.files) old_texts[file.path] = file.text;
  std::set<std::string> changed;
  for (const auto& file : after.files) {
    auto old = old_texts.find(file.path);
    if (old == old_texts.end() || old->second != file.text) changed.insert(file.path);
    if (old != old_texts.end()) old_texts.erase(old);
  }
  for (const auto& [path, text] : old_texts) changed.insert(path);
  return changed;
}

/// Empty where it cannot be drawn.
std::string pdf_of(const render::document::Page& page, const std::string& house) {
  render::document::Frame frame;
  frame.house = house;
  frame.foot = diff::standing_lines();
  return print::page_pdf(page, frame).value_or("");
}

/// What stands above a file in the midst of a merge; empty for any other.
std::string note_of_merge(const std::string& path) {
  auto text = driver::read_file(path);
  const auto* written = std::get_if<std::string>(&text);
  return written && driver::first_side_of_merge(*written)
             ? "NOT COMPARED where git's marks of a merge stand: of two versions the first is read. Keep one "
               "of "
               "them, and delete the marks.\n\n"
             : "";
}

std::string made(const DiffOptions& options, const driver::Compilation& before,
                 const driver::Compilation& after, const diff::Snapshot& old_snapshot,
                 const diff::Snapshot& new_snapshot, const diff::Changes& changes) {
  if (options.is_textconv())
    return note_of_merge(options.sides[0]) + diff::to_text(diff::whole_page(changes), false);
  if (options.audience == "staff") {
    auto sheet = diff::staff_sheet(changes, old_snapshot, new_snapshot);
    if (options.form == "json") return diff::to_json(sheet);
    auto page = diff::staff_page(sheet);
    if (options.form == "pdf") return pdf_of(page, changes.house);
    if (options.form == "markdown") return diff::to_markdown(page);
    if (options.form == "html") return diff::to_html(page, changes.house);
    return diff::to_text(page, options.out.empty() && colour_on_output());
  }
  if (options.form == "json") return diff::to_json(changes);
  if (options.form == "pdf") return pdf_of(diff::change_page(changes, nullptr), changes.house);
  if (options.form == "markdown") return diff::to_markdown(diff::change_page(changes, nullptr));
  if (options.form == "html") {
    auto old_input = before.book_input(), new_input = after.book_input();
    render::document::BookIndex old_book(old_input, true), new_book(new_input, true);
    diff::BothBooks books{old_book, new_book};
    return diff::to_html(diff::change_page(changes, &books), changes.house);
  }
  return diff::to_text(diff::change_page(changes, nullptr), options.out.empty() && colour_on_output());
}

/// Tells on standard error of a side's errors, with the side's name before them.
int report_side(const driver::Compilation& house, const std::string& label) {
  if (!house.has_errors()) return done;
  fmt::print(stderr, "gill: in {}:\n", label);
  return report_errors(house);
}

int write(const std::string& path, const std::string& text) {
  std::ofstream stream(path, std::ios::binary | std::ios::trunc);
  stream.write(text.data(), static_cast<std::streamsize>(text.size()));
  stream.close();
  return stream ? static_cast<int>(done) : refuse(fmt::format("cannot write {}", path));
}

/// Asked inside of a house's folder, the whole house is meant: this folder is a part of it.
void mean_whole_house(DiffOptions& options) {
  if (options.house != "." || options.as_git) return;
  std::error_code error;
  // Two folders or files are what they are.
  auto is_on_disk = [&](const std::string& side) { return fs::exists(side, error); };
  if (options.sides.size() == 2 && std::all_of(options.sides.begin(), options.sides.end(), is_on_disk))
    return;
  auto here = fs::weakly_canonical(fs::current_path(error), error);
  auto house = driver::house_around(here.string());
  if (error || house == here.string()) return;
  options.house = house;
  fmt::print(stderr, "gill: this folder is a part of the house in {}, which is compared\n", house);
}

int run_diff(DiffOptions options) {
  mean_whole_house(options);
  GitCall call;
  if (options.as_git && !options.is_textconv()) call = call_of_git(options);
  auto found = call.paths.empty() && call.sides.empty() ? find_sides(options) : std::move(call.sides);
  for (const auto& side : found)
    if (const auto* failure = std::get_if<driver::FileError>(&side)) {
      // Git takes another status for a program that died, and shows no other file.
      if (options.as_git) return print(fmt::format("gill: {}\n", failure->message), done);
      return refuse(failure->message);
    }
  const auto& old_source = std::get<Source>(found[0]);
  const auto& new_source = std::get<Source>(found[1]);
  // Two houses share nothing, so that one need not wait for the other.
  auto compiling = std::async(std::launch::async, [&] { return driver::compile(old_source.files); });
  auto after = driver::compile(new_source.files);
  auto before = compiling.get();
  diff::Snapshot old_snapshot{old_source.label, before->specs, before->facts, before->units};
  diff::Snapshot new_snapshot{new_source.label, after->specs, after->facts, after->units};
  auto changes = diff::compare(old_snapshot, new_snapshot);
  if (!call.paths.empty())
    changes = diff::changes_of_file(changes, {old_snapshot, before->sources}, {new_snapshot, after->sources},
                                    call.paths, changed_files(old_source.files, new_source.files));
  std::string text = call.paths.empty() || !changes.empty()
                         ? made(options, *before, *after, old_snapshot, new_snapshot, changes)
                     : call.is_outside ? fmt::format("{}: outside of the house in `{}`, and no part of it.\n",
                                                     *call.paths.rbegin(), options.house)
                                       : fmt::format("{}: no difference in what it says or comes to.\n",
                                                     *call.paths.rbegin());
  if (call.is_guess)
    text +=
        "Git does not say which revisions it compares. These are the likeliest; `gill diff OLD NEW` is "
        "sure.\n";
  // The house around one file may be of another time than the file, and without it is nobody's.
  int status = options.is_textconv()
                   ? report_errors_in(*after, new_source.label)
                   : std::max(report_side(*after, new_source.label), report_side(*before, old_source.label));
  // Git takes any other status for a program that died.
  if (options.as_git) status = done;
  if (options.form == "pdf")
    return deliver_pdf(options.out, text.empty() ? std::nullopt : std::optional(std::move(text)), status);
  if (options.out.empty()) return print(text, status);
  int written = write(options.out, text);
  return written == done ? status : written;
}

}  // namespace

void add_diff(CLI::App& app, int& status) {
  auto options = std::make_shared<DiffOptions>();
  auto* command = app.add_subcommand("diff", "Tells what changed between two houses, by meaning");
  command->add_option("OLD NEW", options->sides, "Folders, .gill files, or git revisions of the house");
  command->add_option("--house", options->house, "The house whose revisions are meant")
      ->capture_default_str();
  command->add_option("--as", options->form, "The form of the changes")
      ->check(CLI::IsMember({"text", "markdown", "html", "json", "pdf"}))
      ->capture_default_str();
  command->add_option("--for", options->audience, "staff: only what hands must do differently, by station")
      ->check(CLI::IsMember({"staff"}));
  command->add_option("--out", options->out, "A file to write to instead of standard output");
  command->add_flag("--as-git", options->as_git, "Called by git as an external diff or a textconv");
  show_examples(*command,
                {{"gill diff --house specs", "what is not committed yet"},
                 {"gill diff specs-before specs", "two folders"},
                 {"gill diff HEAD~1 HEAD --house specs --for staff",
                  "what hands must do differently since the commit before"}},
                git_help);
  command->callback([options, &status] { status = run_diff(*options); });
}

}  // namespace gill::cli
