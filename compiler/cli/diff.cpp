#include <fmt/format.h>

#include <filesystem>
#include <future>

#include "base/text.h"
#include "cli/command.h"
#include "diff/forms.h"
#include "driver/read_file.h"
#include "driver/revision.h"
#include "render/document/book_index.h"

namespace gill::cli {

namespace fs = std::filesystem;

namespace {

constexpr const char* working_tree = "the working tree";

constexpr const char* git_help = R"help(
OLD and NEW are folders, files, or revisions of the git repository that holds --house: branches, tags,
commits, HEAD~3, main@{2026-06-01} (the last commit of that day or before). With NEW left out, OLD is
compared with the house on the disk; with both left out, HEAD is.

To let `git diff` show what changed in a drink instead of lines, once in a clone
(the house's folder after --house; leave it out when the house is the whole repository):

  echo '*.gill diff=gill' >> .gitattributes
  git config diff.gill.command 'gill diff --house specs --as-git'

Or, to compare lines of what a file comes to, in `git log -p` and `git show` as well:

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

  /// A textconv is handed one file, an external diff a path and two files.
  bool is_textconv() const { return as_git && sides.size() == 1; }
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
  auto files = driver::DiskAccess().read_house(path, {});
  if (auto* failure = std::get_if<driver::FileError>(&files)) return *failure;
  return Source{label, std::move(std::get<driver::HouseFiles>(files))};
}

/// A side by its name: what stands on the disk, else a revision of the repository around `house`.
Found find_side(const std::string& name, const std::string& house) {
  std::error_code error;
  auto repository = driver::GitAccess::open(house);
  auto* git = std::get_if<std::unique_ptr<driver::GitAccess>>(&repository);
  if (fs::exists(name, error)) {
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

/// The house on the disk with one file of it as it was, or as it is to be. `/dev/null` is no file.
Found with_file(const driver::HouseFiles& house, const std::string& path, const std::string& content_path,
                const std::vector<std::string>& others) {
  Source source{path, {house.name, {}}};
  for (const auto& file : house.files)
    if (file.path != path && std::find(others.begin(), others.end(), file.path) == others.end())
      source.files.files.push_back(file);
  if (content_path == "/dev/null") return source;
  auto text = driver::read_file(content_path);
  if (auto* failure = std::get_if<driver::FileError>(&text)) return *failure;
  source.files.files.push_back({path, std::move(std::get<std::string>(text))});
  std::sort(source.files.files.begin(), source.files.files.end(),
            [](const driver::HouseFile& a, const driver::HouseFile& b) { return a.path < b.path; });
  return source;
}

/// What git hands to an external diff: path, old file, hash and mode, new file, hash and mode, and after a
/// rename the new path and a header.
std::vector<Found> sides_from_git(const DiffOptions& options) {
  const auto& words = options.sides;
  if (words.size() != 7 && words.size() != 9)
    return {driver::FileError{
        "--as-git is for git, which hands over a path and two files with their hashes and modes"}};
  auto house = driver::DiskAccess().read_house(options.house, {});
  if (auto* failure = std::get_if<driver::FileError>(&house)) return {*failure};
  // Git speaks of paths from the top of the repository, where it also runs us; the house's are its own.
  auto in_house = [&](const std::string& path) {
    return fs::path(path).lexically_relative(fs::path(options.house).lexically_normal()).generic_string();
  };
  std::string old_path = in_house(words[0]), new_path = words.size() == 9 ? in_house(words[7]) : old_path;
  const auto& files = std::get<driver::HouseFiles>(house);
  auto before = with_file(files, old_path, words[1], {new_path});
  auto after = with_file(files, new_path, words[4], {old_path});
  if (auto* source = std::get_if<Source>(&before)) source->label = words[0] + " before";
  if (auto* source = std::get_if<Source>(&after)) source->label = "now";
  return {std::move(before), std::move(after)};
}

/// What git hands to a textconv: one file, of the working tree or a copy of an older one under its name. The
/// house around it is that on the disk, without its files of that name.
std::vector<Found> side_for_textconv(const DiffOptions& options) {
  auto house = driver::DiskAccess().read_house(options.house, {});
  driver::HouseFiles around;
  if (auto* files = std::get_if<driver::HouseFiles>(&house)) around = std::move(*files);
  std::string name = fs::path(options.sides[0]).filename().string();
  std::erase_if(around.files, [&](const auto& file) { return fs::path(file.path).filename() == name; });
  auto with = with_file(around, name, options.sides[0], {});
  if (auto* source = std::get_if<Source>(&with)) source->label = name;
  return {Source{name, around}, std::move(with)};
}

std::vector<Found> find_sides(const DiffOptions& options) {
  if (options.is_textconv()) return side_for_textconv(options);
  if (options.as_git) return sides_from_git(options);
  if (options.sides.size() > 2)
    return {driver::FileError{"`gill diff` compares two sides; name an old one and a new one"}};
  std::vector<Found> found;
  found.push_back(find_side(options.sides.empty() ? "HEAD" : options.sides[0], options.house));
  found.push_back(options.sides.size() == 2 ? find_side(options.sides[1], options.house)
                                            : from_disk(options.house, working_tree));
  return found;
}

std::string made(const DiffOptions& options, const driver::Compilation& before,
                 const driver::Compilation& after, const diff::Snapshot& old_snapshot,
                 const diff::Snapshot& new_snapshot) {
  auto changes = diff::compare(old_snapshot, new_snapshot);
  if (options.is_textconv()) return diff::to_text(diff::whole_page(changes), false);
  if (options.audience == "staff") {
    auto sheet = diff::staff_sheet(changes, old_snapshot, new_snapshot);
    if (options.form == "json") return diff::to_json(sheet);
    auto page = diff::staff_page(sheet);
    if (options.form == "markdown") return diff::to_markdown(page);
    if (options.form == "html") return diff::to_html(page, changes.house);
    return diff::to_text(page, options.out.empty() && colour_on_output());
  }
  if (options.form == "json") return diff::to_json(changes);
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

int run_diff(const DiffOptions& options) {
  auto found = find_sides(options);
  for (const auto& side : found)
    if (const auto* failure = std::get_if<driver::FileError>(&side)) return refuse(failure->message);
  const auto& old_source = std::get<Source>(found[0]);
  const auto& new_source = std::get<Source>(found[1]);
  // Two houses share nothing, so that one need not wait for the other.
  auto compiling = std::async(std::launch::async, [&] { return driver::compile(old_source.files); });
  auto after = driver::compile(new_source.files);
  auto before = compiling.get();
  diff::Snapshot old_snapshot{old_source.label, before->specs, before->facts, before->units};
  diff::Snapshot new_snapshot{new_source.label, after->specs, after->facts, after->units};
  std::string text = made(options, *before, *after, old_snapshot, new_snapshot);
  int status = report_side(*after, new_source.label);
  // The house without the file that git asks about is nobody's.
  if (!options.is_textconv()) status = std::max(report_side(*before, old_source.label), status);
  // Git takes any other status for a program that died.
  if (options.as_git) status = done;
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
      ->check(CLI::IsMember({"text", "markdown", "html", "json"}))
      ->capture_default_str();
  command->add_option("--for", options->audience, "staff: only what hands must do differently, by station")
      ->check(CLI::IsMember({"staff"}));
  command->add_option("--out", options->out, "A file to write to instead of standard output");
  command->add_flag("--as-git", options->as_git, "Called by git as an external diff or a textconv");
  command->footer(git_help);
  command->callback([options, &status] { status = run_diff(*options); });
}

}  // namespace gill::cli
