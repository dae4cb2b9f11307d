#include "driver/git_sides.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <queue>
#include <set>

#include "driver/git_objects.h"

namespace gill::driver {

namespace fs = std::filesystem;
using namespace git;

namespace {

// Histories are looked through so far back, and so many pairs of states are compared before the likeliest is
// taken.
constexpr std::size_t max_commits = 20000, max_pairs = 200, max_states_of_a_side = 16;

/// A state of the repository that git can compare.
struct State {
  /// `nothing` is what stood before the first commit.
  enum class Kind : std::uint8_t { working_tree, index, commit, nothing } kind = Kind::commit;
  git_oid commit{};
  bool operator==(const State& other) const {
    return kind == other.kind && (kind != Kind::commit || git_oid_equal(&commit, &other.commit) != 0);
  }
};

constexpr State working_tree{State::Kind::working_tree, {}}, the_index{State::Kind::index, {}},
    nothing{State::Kind::nothing, {}};

std::string hex(const git_oid& id) {
  std::array<char, GIT_OID_HEXSZ + 1> text{};
  git_oid_tostr(text.data(), text.size(), &id);
  return text.data();
}

bool is_zero(const std::string& object) {
  return !object.empty() && object.find_first_not_of('0') == std::string::npos;
}

class Search {
 public:
  explicit Search(GitAccess& git) : git_(git), repository_(git.repository()) {
    git_index* index = nullptr;
    if (git_repository_index(&index, repository_) == 0) index_.reset(index);
  }

  /// Every commit: HEAD, then what has a name and all that stands before it, newest first. The history is
  /// looked through when it is first asked for: two states that git names need none of it.
  const std::vector<State>& commits() const {
    if (!commits_) commits_ = find_commits();
    return *commits_;
  }

  /// The object at a path of a state, in hex; empty where the path is not there.
  std::string object_at(const State& state, const std::string& path) const {
    switch (state.kind) {
      case State::Kind::working_tree: {
        const char* top = git_repository_workdir(repository_);
        git_oid id;
        if (!top || git_odb_hashfile(&id, (fs::path(top) / path).c_str(), GIT_OBJECT_BLOB) != 0) return {};
        return hex(id);
      }
      case State::Kind::index: {
        const git_index_entry* entry = index_ ? git_index_get_bypath(index_.get(), path.c_str(), 0) : nullptr;
        return entry ? hex(entry->id) : std::string();
      }
      case State::Kind::commit: {
        auto tree = tree_of(state);
        git_tree_entry* found = nullptr;
        if (!tree || git_tree_entry_bypath(&found, tree.get(), path.c_str()) != 0) return {};
        TreeEntry entry(found);
        return hex(*git_tree_entry_id(entry.get()));
      }
      case State::Kind::nothing:
        break;
    }
    return {};
  }

  std::vector<State> parents(const State& state) const {
    std::vector<State> all;
    auto commit = commit_of(state);
    if (!commit) return all;
    for (unsigned i = 0; i < git_commit_parentcount(commit.get()); ++i)
      if (State parent{State::Kind::commit, *git_commit_parent_id(commit.get(), i)}; commit_of(parent))
        all.push_back(parent);
    // Before the first commit, and below the last of a shallow clone, git sees nothing.
    if (all.empty()) all.push_back(nothing);
    return all;
  }

  /// The paths that differ between two states, a renamed one as one; nothing where they cannot be compared.
  std::optional<std::vector<std::string>> changed_paths(const State& before, const State& after) const {
    // Git may compare a newer with an older one: the paths are the same.
    if (rank(before) > rank(after)) return changed_paths(after, before);
    git_diff* made = nullptr;
    const git_diff_options options = git::usual_diff_options();
    auto tree = before.kind == State::Kind::commit ? tree_of(before) : Tree();
    int failed = -1;
    if (after.kind == State::Kind::commit) {
      auto other = tree_of(after);
      if ((tree || before.kind == State::Kind::nothing) && other)
        failed = git_diff_tree_to_tree(&made, repository_, tree.get(), other.get(), &options);
    } else if (after.kind == State::Kind::index) {
      failed = git_diff_tree_to_index(&made, repository_, tree.get(), index_.get(), &options);
    } else if (before.kind != State::Kind::index) {
      failed = git_diff_tree_to_workdir_with_index(&made, repository_, tree.get(), &options);
    } else {
      failed = git_diff_index_to_workdir(&made, repository_, index_.get(), &options);
    }
    if (failed != 0) return std::nullopt;
    Diff diff(made);
    git_diff_find_similar(diff.get(), nullptr);
    std::vector<std::string> paths;
    for (std::size_t i = 0; i < git_diff_num_deltas(diff.get()); ++i)
      paths.emplace_back(git_diff_get_delta(diff.get(), i)->new_file.path);
    return paths;
  }

  std::variant<GitSide, FileError> read(const State& state, const std::string& house) const {
    std::variant<HouseFiles, FileError> files = HouseFiles{};
    switch (state.kind) {
      case State::Kind::working_tree:
        files = git_.read_working_tree(house);
        break;
      case State::Kind::index:
        files = git_.read_index();
        break;
      case State::Kind::commit:
        files = git_.read_house(hex(state.commit), {});
        break;
      case State::Kind::nothing:
        break;
    }
    if (auto* failure = std::get_if<FileError>(&files)) return *failure;
    return GitSide{label_of(state), std::move(std::get<HouseFiles>(files))};
  }

  std::string label_of(const State& state) const {
    switch (state.kind) {
      case State::Kind::working_tree:
        return "the working tree";
      case State::Kind::index:
        return "the index";
      case State::Kind::nothing:
        return "nothing";
      case State::Kind::commit:
        break;
    }
    constexpr std::size_t short_name = 7, day = std::string_view("2026-06-01").size();
    auto name = hex(state.commit).substr(0, short_name);
    auto commit = commit_of(state);
    return commit ? fmt::format("{} of {}", name, moment_of(commit.get()).substr(0, day)) : name;
  }

  /// The two states that a `git diff` was asked for; nothing where a name is none.
  std::optional<std::pair<State, State>> asked(const AskedOfGit& asked) const {
    std::vector<State> named;
    for (const auto& name : asked.revisions)
      if (auto state = state_of(name)) named.push_back(*state);
    if (named.size() == 2 && asked.from_merge_base) {
      git_oid base;
      if (git_merge_base(&base, repository_, &named[0].commit, &named[1].commit) != 0) return std::nullopt;
      named[0].commit = base;
    }
    if (named.size() == 2) return std::pair(named[0], named[1]);
    if (asked.is_cached) {
      auto head = named.empty() ? state_of("HEAD") : named[0];
      return std::pair(head.value_or(nothing), the_index);
    }
    return std::pair(named.empty() ? the_index : named[0], working_tree);
  }

  /// True where a tree of the commit has such an object under such a name (any, where it is empty), of the
  /// trees that no newer commit has.
  bool holds_object(const State& state, const std::string& file_name, const git_oid& object) {
    struct Sought {
      const std::string& name;
      const git_oid& object;
      std::set<std::string>& seen;
      bool is_found = false;
    } sought{file_name, object, seen_trees_};
    auto tree = tree_of(state);
    if (!tree) return false;
    git_tree_walk(
        tree.get(), GIT_TREEWALK_PRE,
        [](const char*, const git_tree_entry* entry, void* into) {
          constexpr int skip = 1, stop = -1, go_on = 0;
          auto& what = *static_cast<Sought*>(into);
          if (git_tree_entry_type(entry) == GIT_OBJECT_TREE)
            return what.seen.insert(hex(*git_tree_entry_id(entry))).second ? go_on : skip;
          what.is_found = what.is_found || ((what.name.empty() || git_tree_entry_name(entry) == what.name) &&
                                            git_oid_equal(git_tree_entry_id(entry), &what.object) != 0);
          return what.is_found ? stop : go_on;
        },
        &sought);
    return sought.is_found;
  }

 private:
  std::optional<State> state_of(const std::string& name) const {
    git_object* found = nullptr;
    if (git_revparse_single(&found, repository_, name.c_str()) != 0) return std::nullopt;
    Object object(found);
    git_object* commit = nullptr;
    if (git_object_peel(&commit, object.get(), GIT_OBJECT_COMMIT) != 0) return std::nullopt;
    Object peeled(commit);
    return State{State::Kind::commit, *git_object_id(peeled.get())};
  }

  /// A walk of the library stops where a shallow clone ends, so this one goes by the commits that are there.
  std::vector<State> find_commits() const {
    std::vector<State> commits;
    std::priority_queue<std::pair<git_time_t, std::string>> waiting;
    std::set<std::string> met;
    auto meet = [&](const git_oid& id) {
      State state{State::Kind::commit, id};
      auto commit = commit_of(state);
      if (commit && met.insert(hex(id)).second) waiting.emplace(git_commit_time(commit.get()), hex(id));
    };
    auto head = state_of("HEAD");
    if (head) {
      commits.push_back(*head);
      meet(head->commit);
    }
    git_strarray names{};
    if (git_reference_list(&names, repository_) == 0)
      for (std::size_t i = 0; i < names.count; ++i)
        if (auto state = state_of(names.strings[i])) meet(state->commit);
    git_strarray_dispose(&names);
    while (!waiting.empty() && commits.size() < max_commits) {
      git_oid id;
      git_oid_fromstr(&id, waiting.top().second.c_str());
      waiting.pop();
      State state{State::Kind::commit, id};
      // HEAD stands first, however old it is.
      if (!(head && state == *head)) commits.push_back(state);
      for (const auto& parent : parents(state))
        if (parent.kind == State::Kind::commit) meet(parent.commit);
    }
    return commits;
  }

  /// From what is committed to what is not.
  static int rank(const State& state) {
    switch (state.kind) {
      case State::Kind::nothing:
        return 0;
      case State::Kind::commit:
        return 1;
      case State::Kind::index:
        return 2;
      case State::Kind::working_tree:
        return 3;
    }
    return 0;
  }

  Commit commit_of(const State& state) const {
    git_commit* found = nullptr;
    if (state.kind == State::Kind::commit) git_commit_lookup(&found, repository_, &state.commit);
    return Commit(found);
  }

  Tree tree_of(const State& state) const {
    git_tree* tree = nullptr;
    if (auto commit = commit_of(state)) git_commit_tree(&tree, commit.get());
    return Tree(tree);
  }

  GitAccess& git_;
  git_repository* repository_;
  Index index_;
  mutable std::optional<std::vector<State>> commits_;
  std::set<std::string> seen_trees_;
};

/// Finds the pair of states that a path, as git hands it over, is compared between.
class PairSearch {
 public:
  PairSearch(const Search& search, const GitAccess& git, const GitPath& path)
      : search_(search), git_(git), path_(path) {}

  struct Pair {
    State before, after;
    bool is_sure = false;
  };

  std::optional<Pair> find() {
    if (path_.asked)
      if (auto asked = search_.asked(*path_.asked)) {
        for (auto [before, after] : {*asked, std::pair(asked->second, asked->first)})
          if (has(before, path_.old_path, path_.old_object) && has(after, path_.new_path, path_.new_object))
            return Pair{before, after, true};
      }
    visit_all();
    if (best_) best_->is_sure = best_score_ == Score::all;
    return best_;
  }

 private:
  enum class Score : std::uint8_t { none, one_path, of_house, all };

  bool holds(const State& state, const std::string& path, const std::string& object) const {
    if (object.empty()) return search_.object_at(state, path).empty();
    if (is_zero(object)) return state.kind == State::Kind::working_tree;
    // Git hands over a file of the working tree without a name of its object.
    return state.kind != State::Kind::working_tree && search_.object_at(state, path) == object;
  }
  /// The same of a state that was named: git hands over a file of the working tree with its object's name
  /// where it is as the index has it.
  bool has(const State& state, const std::string& path, const std::string& object) const {
    if (state.kind != State::Kind::working_tree || object.empty() || is_zero(object))
      return holds(state, path, object);
    return search_.object_at(the_index, path) == object;
  }
  bool is_old(const State& state) const { return holds(state, path_.old_path, path_.old_object); }
  bool is_new(const State& state) const { return holds(state, path_.new_path, path_.new_object); }

  void visit_all() {
    const bool with_working_tree = is_zero(path_.old_object) || is_zero(path_.new_object);
    const auto& commits = search_.commits();
    if (with_working_tree || path_.old_object.empty() || path_.new_object.empty()) {
      try_both(the_index, working_tree);
      for (const auto& commit : commits) try_both(commit, working_tree);
    }
    if (with_working_tree || is_done()) return;
    if (!commits.empty()) try_both(commits.front(), the_index);
    for (const auto& commit : commits)
      for (const auto& parent : search_.parents(commit)) try_both(parent, commit);
    for (const auto& commit : commits) try_both(commit, the_index);
    std::vector<State> olds, news;
    for (const auto& commit : commits) {
      if (olds.size() < max_states_of_a_side && is_old(commit)) olds.push_back(commit);
      if (news.size() < max_states_of_a_side && is_new(commit)) news.push_back(commit);
    }
    for (std::size_t sum = 0; sum < olds.size() + news.size(); ++sum)
      for (std::size_t i = 0; i <= sum && i < olds.size(); ++i)
        if (sum - i < news.size()) try_pair(olds[i], news[sum - i]);
  }

  bool is_done() const { return best_score_ == Score::all || compared_ >= max_pairs; }

  void try_both(const State& older, const State& newer) {
    try_pair(older, newer);
    try_pair(newer, older);
  }

  void try_pair(const State& before, const State& after) {
    if (is_done() || before == after || !is_old(before) || !is_new(after)) return;
    auto paths = search_.changed_paths(before, after);
    if (!paths) return;
    ++compared_;
    Score score = score_of(*paths);
    if (best_ && score <= best_score_) return;
    best_ = Pair{before, after};
    best_score_ = score;
  }

  Score score_of(const std::vector<std::string>& paths) const {
    if (path_.path_count == 0 || paths.size() == path_.path_count) return Score::all;
    auto of_house = std::count_if(paths.begin(), paths.end(), [&](const std::string& path) {
      return path_in_house(path, git_.path()).has_value();
    });
    if (static_cast<std::size_t>(of_house) == path_.path_count) return Score::of_house;
    return path_.path_count == 1 ? Score::one_path : Score::none;
  }

  const Search& search_;
  const GitAccess& git_;
  const GitPath& path_;
  std::optional<Pair> best_;
  Score best_score_ = Score::none;
  std::size_t compared_ = 0;
};

/// An empty name is any.
bool holds(const HouseFiles& house, const std::string& file_name, const std::string& text) {
  return std::any_of(house.files.begin(), house.files.end(), [&](const HouseFile& file) {
    return (file_name.empty() || fs::path(file.path).filename() == file_name) && file.text == text;
  });
}

}  // namespace

std::optional<std::string> path_in_house(const std::string& whole, const std::string& folder) {
  if (folder.empty()) return whole;
  if (whole == folder) return fs::path(whole).filename().string();
  return whole.starts_with(folder + "/") ? std::optional(whole.substr(folder.size() + 1)) : std::nullopt;
}

std::variant<GitSides, FileError> find_git_sides(GitAccess& git, const GitPath& path,
                                                 const std::string& house) {
  Search search(git);
  auto pair = PairSearch(search, git, path).find();
  if (!pair)
    return FileError{
        fmt::format("no two states of the repository hold {} as git compares it; name the two: `gill diff "
                    "OLD NEW --house {}`",
                    path.new_path, house)};
  auto read = [&](const State& state, const std::string& object) {
    auto side = search.read(state, house);
    // Before its first file and after its last there is no house.
    if (std::holds_alternative<FileError>(side) && object.empty()) side = GitSide{search.label_of(state), {}};
    return side;
  };
  auto before = read(pair->before, path.old_object), after = read(pair->after, path.new_object);
  if (auto* failure = std::get_if<FileError>(&before)) return *failure;
  if (auto* failure = std::get_if<FileError>(&after)) return *failure;
  auto &old_files = std::get<GitSide>(before).files, &new_files = std::get<GitSide>(after).files;
  if (old_files.name.empty()) old_files.name = new_files.name;
  if (new_files.name.empty()) new_files.name = old_files.name;
  return GitSides{std::move(std::get<GitSide>(before)), std::move(std::get<GitSide>(after)), !pair->is_sure};
}

namespace {

std::optional<GitSide> newest_called(GitAccess& git, const std::string& file_name, const std::string& text,
                                     const std::string& house) {
  git_oid id;
  if (git_odb_hash(&id, text.data(), text.size(), GIT_OBJECT_BLOB) != 0) return std::nullopt;
  Search search(git);
  for (const auto& state : {working_tree, the_index}) {
    auto side = search.read(state, house);
    if (auto* found = std::get_if<GitSide>(&side); found && holds(found->files, file_name, text))
      return *found;
  }
  for (const auto& commit : search.commits()) {
    if (!search.holds_object(commit, file_name, id)) continue;
    auto side = search.read(commit, house);
    if (auto* found = std::get_if<GitSide>(&side); found && holds(found->files, file_name, text))
      return *found;
  }
  return std::nullopt;
}

}  // namespace

std::optional<GitSide> newest_with(GitAccess& git, const std::string& file_name, const std::string& text,
                                   const std::string& house) {
  if (auto side = newest_called(git, file_name, text, house)) return side;
  return newest_called(git, {}, text, house);
}

}  // namespace gill::driver
