#pragma once
#include <chrono>
#include <memory>
#include <string>

/// `gill watch`: a house that is compiled again whenever it is saved, and its book served on this machine.
namespace gill::watch {

/// Tells when a `.gill` file of a house may have changed.
class FileWatch {
 public:
  enum class Wakeup { changed, stopped, time_is_up };

  virtual ~FileWatch() = default;

  /// Waits for a change, for `stop_descriptor` to become readable, or for so long. Several changes at once
  /// are told once, when for a moment no more of them come.
  virtual Wakeup wait(int stop_descriptor, std::chrono::milliseconds maximum) = 0;
};

/// Watches a house's folder at any depth, or one file of it. The kernel tells (inotify, on Linux); where it
/// cannot, the files are looked at several times a second.
std::unique_ptr<FileWatch> watch_files(const std::string& house);

/// The second way by itself, for tests and for file systems of which the kernel tells nothing.
std::unique_ptr<FileWatch> watch_by_looking(const std::string& house);

}  // namespace gill::watch
