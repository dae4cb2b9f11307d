#pragma once
#include <functional>
#include <map>
#include <memory>
#include <set>
#include <stop_token>
#include <string>

#include "driver/kept_house.h"
#include "editor/house_view.h"
#include "language_server/documents.h"

namespace gill::language_server {

/// A house of which documents are open: its files on disk with the open texts laid over them.
class House {
 public:
  /// Of a folder, or of one document alone where `folder` is empty.
  House(std::string folder, std::string lone_uri)
      : folder_(std::move(folder)), lone_uri_(std::move(lone_uri)) {}

  /// The folder on disk; empty for a document that stands by itself.
  const std::string& folder() const { return folder_; }
  const std::string& lone_uri() const { return lone_uri_; }

  /// Its files may have changed on disk.
  void touch_disk() { is_read_ = false, touch(); }
  /// An open text of it has changed.
  void touch() { ++state_; }
  /// True where nobody has been told yet what is found in it as it now is.
  bool needs_check() const { return checked_ != state_; }
  void was_checked() { checked_ = state_; }
  bool was_ever_checked() const { return checked_ != 0; }

  /// The house as it now is; of an edit only what it reaches is compiled. Null where it was asked to stop
  /// meanwhile.
  const editor::HouseView* view(const Documents& documents, const std::stop_token& stop);
  /// Has the house compiled with each of the texts in the place of that file, and lets `look` see what is
  /// found. Views from before are of the past then.
  void try_texts(const Documents& documents, const std::string& path, const std::vector<std::string>& texts,
                 const std::function<void(std::size_t, const driver::Compilation&)>& look);
  /// As it was last compiled, however old; null before the first time.
  const editor::HouseView* last() const { return view_.get(); }
  /// True where a file of it has another text since all was told.
  bool has_new_text(const std::string& path) const { return all_is_new_ || new_texts_.contains(path); }
  void was_told() { all_is_new_ = false, new_texts_.clear(); }

  /// Its files with the open texts in them: the same object at each call, brought up to date.
  const driver::HouseFiles& files(const Documents& documents);
  /// The path of a file of it on disk; empty for a lone document that is none.
  std::string path_of(const std::string& relative) const;
  /// The path in the house of a document of it.
  std::string relative_path(const Document& document) const;
  /// Why the folder cannot be read; empty where it can.
  const std::string& trouble() const { return trouble_; }

 private:
  void read_disk();
  /// Lays an open text over the file of its path.
  void lay_over(const Document& document);

  std::string folder_, lone_uri_, trouble_;
  /// As on disk, with what was open when it was last asked for.
  driver::HouseFiles files_;
  bool is_read_ = false;
  std::uint64_t state_ = 1, checked_ = 0;
  driver::KeptHouse kept_;
  std::unique_ptr<editor::HouseView> view_;
  std::uint64_t viewed_ = 0;
  std::set<std::string> new_texts_;
  bool all_is_new_ = true;
};

/// Which house each document belongs to.
class Houses {
 public:
  explicit Houses(const Documents& documents) : documents_(documents) {}

  /// The house of a document, which is open.
  House& of(const Document& document);
  /// The same for a URI; null where no such document is open and no known house holds such a file.
  House* find(const std::string& uri);
  /// Something happened on disk: every house is read again, and who belongs where is asked anew.
  void touch_disk();
  /// Lets go of houses of which nothing is open; gives what they were.
  std::vector<std::string> drop_unused();

  std::map<std::string, std::unique_ptr<House>>& all() { return houses_; }

 private:
  /// What a house goes by: its folder, or the URI of a lone document.
  std::string key_of(const Document& document);

  const Documents& documents_;
  std::map<std::string, std::unique_ptr<House>> houses_;
  /// By folder of a document: the folder of its house; empty where a document there stands by itself.
  std::map<std::string, std::string> folders_;
};

}  // namespace gill::language_server
