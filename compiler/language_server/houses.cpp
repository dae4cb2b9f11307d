#include "language_server/houses.h"

#include <algorithm>
#include <filesystem>
#include <set>

#include "driver/house_around.h"
#include "language_server/uri.h"

namespace gill::language_server {

namespace fs = std::filesystem;
using driver::HouseFiles;

namespace {

/// The rest of a path below a folder, both without links; empty where it is not below it.
std::string below(const std::string& path, const std::string& folder) {
  std::string root = folder + (folder.ends_with('/') ? "" : "/");
  return path.starts_with(root) ? path.substr(root.size()) : std::string();
}

}  // namespace

void House::read_disk() {
  is_read_ = true;
  trouble_.clear();
  files_ = {fs::path(folder_).filename().string(), {}};
  if (folder_.empty()) return;
  auto read = driver::DiskAccess().read_house(folder_, {});
  if (auto* failure = std::get_if<driver::FileError>(&read))
    trouble_ = failure->message;
  else
    files_ = std::get<HouseFiles>(std::move(read));
}

std::string House::relative_path(const Document& document) const {
  if (!folder_.empty()) return below(document.real_path, folder_);
  return document.path.empty() ? name_of_uri(document.uri) : fs::path(document.path).filename().string();
}

std::string House::path_of(const std::string& relative) const {
  if (!folder_.empty()) return (fs::path(folder_) / relative).string();
  return path_of_uri(lone_uri_).value_or(std::string());
}

void House::lay_over(const Document& document) {
  std::string path = relative_path(document);
  if (path.empty()) return;
  auto at = std::lower_bound(
      files_.files.begin(), files_.files.end(), path,
      [](const driver::HouseFile& file, const std::string& wanted) { return file.path < wanted; });
  if (at == files_.files.end() || at->path != path) at = files_.files.insert(at, {path, {}});
  if (at->text != document.text) at->text = document.text;
}

// What is no longer open is read from the disk again (`touch_disk`), so nothing is ever to be taken away
// here.
const HouseFiles& House::files(const Documents& documents) {
  if (!is_read_) read_disk();
  if (!folder_.empty()) {
    for (const auto& [uri, document] : documents.all())
      if (!document.path.empty()) lay_over(document);
  } else if (const auto* document = documents.find(lone_uri_)) {
    files_.name = fs::path(relative_path(*document)).stem().string();
    lay_over(*document);
  }
  return files_;
}

const editor::HouseView* House::view(const Documents& documents, const std::stop_token& stop) {
  if (view_ && viewed_ == state_) return view_.get();
  view_.reset();
  const auto* compiled = kept_.update(files(documents), stop);
  if (!compiled) return nullptr;
  for (const auto& redone : kept_.redone()) {
    if (redone.what == driver::Redone::What::everything) all_is_new_ = true;
    if (redone.what == driver::Redone::What::read_file) new_texts_.insert(redone.name);
  }
  view_ = std::make_unique<editor::HouseView>(*compiled);
  viewed_ = state_;
  return view_.get();
}

void House::try_texts(const Documents& documents, const std::string& path,
                      const std::vector<std::string>& texts,
                      const std::function<void(std::size_t, const driver::Compilation&)>& look) {
  HouseFiles tried = files(documents);
  auto file = std::find_if(tried.files.begin(), tried.files.end(),
                           [&](const driver::HouseFile& one) { return one.path == path; });
  if (file == tried.files.end() || texts.empty()) return;
  view_.reset();
  for (std::size_t i = 0; i < texts.size(); ++i) {
    file->text = texts[i];
    if (const auto* compiled = kept_.update(tried)) look(i, *compiled);
  }
  if (const auto* compiled = kept_.update(files_)) view_ = std::make_unique<editor::HouseView>(*compiled);
}

std::string Houses::key_of(const Document& document) {
  if (document.path.empty()) return document.uri;
  std::string parent = fs::path(document.real_path).parent_path().string();
  auto [found, is_new] = folders_.try_emplace(parent);
  if (is_new) {
    std::string around = driver::house_around(parent);
    auto read = driver::DiskAccess().read_house(around, {});
    const auto* files = std::get_if<HouseFiles>(&read);
    // A folder of several houses: each file is judged alone, as `gill tidy` does it.
    if (!files || driver::houses_declared(*files) < 2) found->second = around;
  }
  if (found->second.empty() || fs::path(document.path).extension() != ".gill") return document.uri;
  return found->second;
}

House& Houses::of(const Document& document) {
  std::string key = key_of(document);
  auto& house = houses_[key];
  if (!house) {
    bool is_lone = key == document.uri;
    house = std::make_unique<House>(is_lone ? std::string() : key, is_lone ? key : std::string());
  }
  return *house;
}

House* Houses::find(const std::string& uri) {
  if (const auto* document = documents_.find(uri)) return &of(*document);
  auto path = path_of_uri(uri);
  if (!path) return nullptr;
  std::string real = real_path(*path);
  for (auto& [key, house] : houses_)
    if (!house->folder().empty() && !below(real, house->folder()).empty()) return house.get();
  return nullptr;
}

void Houses::touch_disk() {
  folders_.clear();
  for (auto& [key, house] : houses_) house->touch_disk();
}

std::vector<std::string> Houses::drop_unused() {
  std::set<std::string> used;
  for (const auto& [uri, document] : documents_.all()) used.insert(key_of(document));
  std::vector<std::string> dropped;
  std::erase_if(houses_, [&](const auto& entry) {
    if (used.contains(entry.first)) return false;
    dropped.push_back(entry.first);
    return true;
  });
  return dropped;
}

}  // namespace gill::language_server
