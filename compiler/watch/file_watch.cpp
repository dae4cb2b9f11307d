#include "watch/file_watch.h"

#include <poll.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <map>
#include <vector>

#ifdef __linux__
#include <sys/inotify.h>
#endif

namespace gill::watch {

namespace fs = std::filesystem;
using std::chrono::milliseconds;
using Clock = std::chrono::steady_clock;

namespace {

// An editor saves in several steps, and a switch of branches writes many files: after the last of them it has
// been quiet for this long. Whoever never stops writing is still shown something after the second.
constexpr milliseconds quiet_time{40};
constexpr milliseconds longest_unrest{400};
constexpr milliseconds time_between_looks{250};

bool is_spec(const std::string& name) { return name.ends_with(".gill") && !name.starts_with('.'); }

/// Calls `visit` with each folder of a house and each of its files, as `gill` reads it.
template <typename Visit>
void walk(const fs::path& house, Visit visit) {
  std::error_code error;
  if (!fs::is_directory(house, error)) {
    visit(house, false);
    return;
  }
  visit(house, true);
  fs::recursive_directory_iterator entry(house, fs::directory_options::skip_permission_denied, error), end;
  while (!error && entry != end) {
    std::error_code ignored;
    std::string name = entry->path().filename().string();
    if (entry->is_directory(ignored)) {
      if (name.starts_with('.'))
        entry.disable_recursion_pending();
      else
        visit(entry->path(), true);
    } else if (is_spec(name)) {
      visit(entry->path(), false);
    }
    entry.increment(error);
  }
}

/// Waits for either descriptor (-1 for none); which of them it was.
enum class WaitResult { first, stop, neither };
WaitResult wait_for(int first, int stop, milliseconds maximum) {
  pollfd waited[] = {{stop, POLLIN, 0}, {first, POLLIN, 0}};
  int ready = poll(waited, 2, static_cast<int>(maximum.count()));
  if (ready > 0 && waited[0].revents != 0) return WaitResult::stop;
  if (ready > 0 && waited[1].revents != 0) return WaitResult::first;
  return WaitResult::neither;
}

class LookingWatch final : public FileWatch {
 public:
  explicit LookingWatch(const std::string& house) : house_(house), seen_(look()) {}

  Wakeup wait(int stop_descriptor, milliseconds maximum) override {
    auto until = Clock::now() + maximum;
    for (;;) {
      if (auto now = look(); now != seen_) {
        seen_ = std::move(now);
        return Wakeup::changed;
      }
      auto left = std::chrono::duration_cast<milliseconds>(until - Clock::now());
      if (left <= milliseconds(0)) return Wakeup::time_is_up;
      if (wait_for(-1, stop_descriptor, std::min(left, time_between_looks)) == WaitResult::stop)
        return Wakeup::stopped;
    }
  }

 private:
  /// When each file was last written, and how long it is.
  using Look = std::map<std::string, std::pair<fs::file_time_type, std::uintmax_t>>;

  Look look() const {
    Look files;
    walk(house_, [&](const fs::path& path, bool is_folder) {
      std::error_code error;
      if (is_folder) return;
      auto written = fs::last_write_time(path, error);
      auto size = error ? 0 : fs::file_size(path, error);
      if (!error) files[path.string()] = {written, size};
    });
    return files;
  }

  fs::path house_;
  Look seen_;
};

#ifdef __linux__

class KernelWatch final : public FileWatch {
 public:
  /// Nothing where the kernel will not tell: it is asked for too many folders, say.
  static std::unique_ptr<KernelWatch> make(const std::string& house) {
    std::unique_ptr<KernelWatch> watch(new KernelWatch(house));
    if (watch->descriptor_ < 0 || !watch->add_folders()) return nullptr;
    return watch;
  }
  ~KernelWatch() override {
    if (descriptor_ >= 0) close(descriptor_);
  }
  KernelWatch(const KernelWatch&) = delete;
  KernelWatch& operator=(const KernelWatch&) = delete;

  Wakeup wait(int stop_descriptor, milliseconds maximum) override {
    auto until = Clock::now() + maximum;
    for (;;) {
      auto left = std::max(milliseconds(0), std::chrono::duration_cast<milliseconds>(until - Clock::now()));
      auto ready = wait_for(descriptor_, stop_descriptor, left);
      if (ready == WaitResult::stop) return Wakeup::stopped;
      if (ready == WaitResult::neither) {
        if (Clock::now() >= until) return Wakeup::time_is_up;
        continue;
      }
      if (!read_events()) continue;
      return calm_down(stop_descriptor);
    }
  }

 private:
  explicit KernelWatch(const std::string& house)
      : house_(house), descriptor_(inotify_init1(IN_NONBLOCK | IN_CLOEXEC)) {
    std::error_code error;
    if (!fs::is_directory(house_, error)) file_name_ = house_.filename().string();
  }

  /// Asks for every folder of the house; of a single file for the folder around it, since editors put a new
  /// file in its place.
  bool add_folders() {
    constexpr std::uint32_t events = IN_CLOSE_WRITE | IN_CREATE | IN_DELETE | IN_MOVED_FROM | IN_MOVED_TO |
                                     IN_ATTRIB | IN_DELETE_SELF | IN_MOVE_SELF;
    bool all = true;
    auto add = [&](const fs::path& folder) {
      // A folder that is gone again by now is none that had to be watched.
      if (inotify_add_watch(descriptor_, folder.c_str(), events) < 0 && errno != ENOENT && errno != ENOTDIR)
        all = false;
    };
    if (!file_name_.empty()) {
      add(house_.has_parent_path() ? house_.parent_path() : fs::path("."));
    } else {
      walk(house_, [&](const fs::path& path, bool is_folder) {
        if (is_folder) add(path);
      });
    }
    return all;
  }

  /// Takes the events that are there; true when one of them is about the house.
  bool read_events() {
    alignas(inotify_event) char buffer[16 * 1024];
    bool about_house = false, folders_changed = false;
    for (;;) {
      ssize_t length = read(descriptor_, buffer, sizeof buffer);
      if (length <= 0) break;
      for (char* at = buffer; at < buffer + length;) {
        const auto* event = reinterpret_cast<const inotify_event*>(at);
        at += sizeof(inotify_event) + event->len;
        std::string name = event->len > 0 ? event->name : "";
        bool is_folder = (event->mask & (IN_ISDIR | IN_DELETE_SELF | IN_MOVE_SELF | IN_Q_OVERFLOW)) != 0;
        folders_changed |= is_folder;
        about_house |= file_name_.empty() ? is_folder || is_spec(name) : name == file_name_;
      }
    }
    if (folders_changed && file_name_.empty()) add_folders();
    return about_house;
  }

  Wakeup calm_down(int stop_descriptor) {
    auto until = Clock::now() + longest_unrest;
    while (Clock::now() < until) {
      auto ready = wait_for(descriptor_, stop_descriptor, quiet_time);
      if (ready == WaitResult::stop) return Wakeup::stopped;
      if (ready == WaitResult::neither) break;
      read_events();
    }
    return Wakeup::changed;
  }

  fs::path house_;
  /// Of a house in one file.
  std::string file_name_;
  int descriptor_;
};

#endif

}  // namespace

std::unique_ptr<FileWatch> watch_by_looking(const std::string& house) {
  return std::make_unique<LookingWatch>(house);
}

std::unique_ptr<FileWatch> watch_files(const std::string& house) {
#ifdef __linux__
  if (auto watch = KernelWatch::make(house)) return watch;
#endif
  return watch_by_looking(house);
}

}  // namespace gill::watch
