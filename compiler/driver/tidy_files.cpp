#include "driver/tidy_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <filesystem>
#include <map>
#include <thread>

#include "driver/fix.h"
#include "driver/house_around.h"
#include "driver/read_file.h"

namespace gill::driver {

namespace fs = std::filesystem;

namespace {

/// A house of which files are asked for.
struct Job {
  HouseFiles house;
  /// Of each file that is asked for: its path in the house, and as it was asked for.
  std::map<std::string, std::string> asked;
  TidiedHouse tidied;
};

/// Sorts what is asked for by its houses.
class Jobs {
 public:
  std::optional<FileError> add(const std::string& path) {
    std::error_code error;
    return fs::is_directory(path, error) ? add_folder(path) : add_file(path);
  }

  std::vector<Job> take() {
    std::vector<Job> jobs = std::move(alone_);
    for (auto& [folder, job] : by_folder_)
      if (!job.asked.empty()) jobs.push_back(std::move(job));
    return jobs;
  }

 private:
  /// The house of a folder, read once; null where it cannot be read or is several.
  Job* house_in(const std::string& folder) {
    auto [found, is_new] = by_folder_.try_emplace(folder);
    if (is_new) {
      auto house = disk_.read_house(folder, {});
      if (auto* files = std::get_if<HouseFiles>(&house); files && houses_declared(*files) < 2)
        found->second.house = std::move(*files);
    }
    return found->second.house.files.empty() ? nullptr : &found->second;
  }

  std::optional<FileError> add_folder(const std::string& folder) {
    auto files = disk_.read_house(folder, {});
    if (auto* failure = std::get_if<FileError>(&files)) return *failure;
    std::string house = house_around(folder);
    for (const auto& file : std::get<HouseFiles>(files).files)
      if (auto failure = add_to(house, (fs::path(folder) / file.path).lexically_normal().string()))
        return failure;
    return std::nullopt;
  }

  std::optional<FileError> add_file(const std::string& path) {
    std::error_code error;
    if (!fs::exists(path, error)) return FileError{fmt::format("there is no file or folder {}", path)};
    return add_to(house_around(fs::absolute(path, error).parent_path().string()), path);
  }

  /// Asks for a file of a house, or for one alone where the house is several or does not know it.
  std::optional<FileError> add_to(const std::string& house, const std::string& path) {
    std::error_code error;
    if (!seen_.insert(fs::weakly_canonical(path, error).string()).second) return std::nullopt;
    auto relative = fs::relative(path, house, error).generic_string();
    auto* job = house_in(house);
    bool is_in = job && std::any_of(job->house.files.begin(), job->house.files.end(),
                                    [&](const HouseFile& file) { return file.path == relative; });
    if (!is_in) return add_alone(path);
    job->asked.emplace(relative, path);
    return std::nullopt;
  }

  std::optional<FileError> add_alone(const std::string& path) {
    auto house = disk_.read_house(path, {});
    if (auto* failure = std::get_if<FileError>(&house)) return *failure;
    Job job{std::get<HouseFiles>(std::move(house)), {}, {}};
    job.asked.emplace(job.house.files[0].path, path);
    alone_.push_back(std::move(job));
    return std::nullopt;
  }

  DiskAccess disk_;
  std::map<std::string, Job> by_folder_;
  std::vector<Job> alone_;
  /// Files that were asked for, wherever they were named from.
  std::set<std::string> seen_;
};

void work_off(std::vector<Job>& jobs) {
  std::atomic<std::size_t> next = 0;
  auto work = [&] {
    for (std::size_t i = next++; i < jobs.size(); i = next++) {
      std::set<std::string> only;
      for (const auto& [path, shown] : jobs[i].asked) only.insert(path);
      jobs[i].tidied = tidy_house(jobs[i].house, &only);
    }
  };
  std::vector<std::jthread> others;
  std::size_t count = std::min<std::size_t>(std::thread::hardware_concurrency(), jobs.size());
  for (std::size_t i = 1; i < count; ++i) others.emplace_back(work);
  work();
}

TidiedFiles gathered(const std::vector<Job>& jobs) {
  TidiedFiles result;
  for (const auto& job : jobs) {
    result.unread_lines += job.tidied.unread_lines;
    result.kept += job.tidied.kept;
    for (const auto& file : job.house.files) {
      auto asked = job.asked.find(file.path);
      if (asked == job.asked.end()) continue;
      auto tidied = std::find_if(job.tidied.files.begin(), job.tidied.files.end(),
                                 [&](const HouseFile& one) { return one.path == file.path; });
      result.files.push_back(
          {asked->second, file.text, tidied == job.tidied.files.end() ? file.text : tidied->text});
    }
  }
  std::sort(result.files.begin(), result.files.end(),
            [](const TidiedText& a, const TidiedText& b) { return a.path < b.path; });
  return result;
}

}  // namespace

std::variant<TidiedFiles, FileError> tidy_files(const std::vector<std::string>& paths) {
  Jobs asked;
  for (const auto& path : paths)
    if (auto failure = asked.add(path)) return *failure;
  auto jobs = asked.take();
  work_off(jobs);
  return gathered(jobs);
}

TidiedFiles tidy_text(const std::string& name, std::string text) {
  std::vector<Job> jobs(1);
  jobs[0].house = {name, {{name, std::move(text)}}};
  jobs[0].asked.emplace(name, name);
  work_off(jobs);
  return gathered(jobs);
}

std::optional<FileError> write_tidied(const TidiedText& file) {
  auto now = read_file(file.path);
  if (auto* failure = std::get_if<FileError>(&now)) return *failure;
  if (std::get<std::string>(now) != file.before)
    return FileError{fmt::format("{} was changed while it was read; it is left as it is", file.path)};
  return replace_file(file.path, file.after);
}

}  // namespace gill::driver
