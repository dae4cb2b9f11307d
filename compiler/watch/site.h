#pragma once
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "driver/kept_house.h"

namespace gill::watch {

/// What is served: every page and file of the book by its path, all in memory.
struct Site {
  std::map<std::string, std::string> files;
  /// Notified from the content: another one means that something differs.
  std::string version;
};

/// Keeps the book up to date with a house that is being written.
class SiteKeeper {
 public:
  explicit SiteKeeper(bool drafts) : drafts_(drafts) {}

  /// The book of a house as it now stands. Errors are told on every page. A page that an error has taken away
  /// is kept as it last was and says so; so is one whose file is empty at the moment, since a file that is
  /// half saved looks like that.
  std::shared_ptr<const Site> update(const driver::HouseFiles& house);
  /// The house cannot be read: every page stays as it was and says so.
  std::shared_ptr<const Site> cannot_read(const std::string& why);

  /// The house as it was last compiled; null before the first time.
  const driver::Compilation* house() const { return kept_.now(); }
  /// True where the last update left the house with errors.
  bool has_errors() const { return house() && house()->has_errors(); }

 private:
  /// What every page says at its head; `is_old` for a page that is kept.
  std::string banner(const std::vector<std::string>& troubles, bool is_old) const;
  std::shared_ptr<const Site> publish(const std::map<std::string, std::string>& now,
                                      const std::vector<std::string>& troubles);

  bool drafts_;
  driver::KeptHouse kept_;
  /// Pages as they last were while nothing was in the way of them.
  std::map<std::string, std::string> good_;
  /// The files that held something when the house was last whole.
  std::map<std::string, bool> filled_;
};

/// The page for an address at which nothing stands; it comes back by itself when something does.
std::string missing_page(const Site& site);

}  // namespace gill::watch
