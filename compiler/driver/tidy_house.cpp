#include "driver/tidy_house.h"

#include <algorithm>
#include <atomic>
#include <thread>

#include "driver/house_meaning.h"

namespace gill::driver {

using tidy::Extent;

namespace {

/// How often a text is written anew until it stays as it is.
constexpr int max_passes = 4;
/// How often declarations whose meaning would change are held back.
constexpr int max_holding_rounds = 8;

/// By file of the house and by declaration.
using Extents = std::vector<std::vector<Extent>>;

class HouseTidier {
 public:
  HouseTidier(const HouseFiles& house, const std::set<std::string>* only)
      : house_(house), only_(only), compiled_(compile_for_findings(house)), meaning_(*compiled_) {
    for (std::size_t i = 0; i < house.files.size(); ++i)
      extents_.emplace_back(tree(*compiled_, i).declarations.size(), Extent::forms);
  }

  TidiedHouse tidy() {
    for (int round = 0; round < max_holding_rounds; ++round) {
      auto [files, difference] = settled();
      if (!difference.any()) return changed(files);
      hold_back(difference);
    }
    return changed(house_);
  }

 private:
  struct Outcome {
    HouseFiles files;
    MeaningDifference difference;
  };

  static const syntax::File& tree(const Compilation& compiled, std::size_t file) {
    return compiled.files[compiled.files.size() - compiled.house_file_count + file];
  }

  bool may_change(std::size_t file) const { return !only_ || only_->contains(house_.files[file].path); }

  /// Every file anew, as many at a time as there are cores.
  HouseFiles written_anew(const HouseFiles& files, const Compilation& compiled) const {
    tidy::Tidier tidier(compiled.sources, {compiled.names, compiled.units}, compiled.specs,
                        compiled.findings);
    HouseFiles anew = files;
    std::atomic<std::size_t> next = 0;
    auto work = [&] {
      for (std::size_t i = next++; i < files.files.size(); i = next++) {
        if (!may_change(i)) continue;
        std::string_view mark = files.files[i].text.starts_with(byte_order_mark) ? byte_order_mark : "";
        anew.files[i].text = std::string(mark) + tidier.tidied(tree(compiled, i), extents_[i]);
      }
    };
    std::size_t count = std::min<std::size_t>(std::thread::hardware_concurrency(), files.files.size());
    std::vector<std::jthread> others;
    for (std::size_t i = 1; i < count; ++i) others.emplace_back(work);
    work();
    return anew;
  }

  static bool same_texts(const HouseFiles& a, const HouseFiles& b) {
    return std::equal(a.files.begin(), a.files.end(), b.files.begin(),
                      [](const HouseFile& one, const HouseFile& other) { return one.text == other.text; });
  }

  /// The house written anew until it stays as it is, with what it then says otherwise than before. What does
  /// not come to rest differs.
  Outcome settled() const {
    HouseFiles files = house_;
    std::unique_ptr<Compilation> compiled;
    for (int pass = 0; pass < max_passes; ++pass) {
      const Compilation& now = compiled ? *compiled : *compiled_;
      HouseFiles anew = written_anew(files, now);
      if (same_texts(anew, files)) return {std::move(files), {}};
      auto fresh = compile_for_findings(anew);
      if (auto difference = differences(*fresh); difference.any()) return {std::move(files), difference};
      if (pass + 1 == max_passes) return {std::move(files), restless(now, *fresh)};
      files = std::move(anew);
      compiled = std::move(fresh);
    }
    return {std::move(files), {}};
  }

  MeaningDifference differences(const Compilation& fresh) const {
    for (std::size_t i = 0; i < house_.files.size(); ++i)
      if (tree(fresh, i).declarations.size() != extents_[i].size()) return {{}, true};
    return meaning_.difference(HouseMeaning(fresh));
  }

  /// The declarations whose text differs between two passes.
  MeaningDifference restless(const Compilation& before, const Compilation& after) const {
    MeaningDifference difference;
    for (std::size_t i = 0; i < extents_.size(); ++i)
      for (std::size_t d = 0; d < extents_[i].size(); ++d)
        if (text_of(before, i, d) != text_of(after, i, d)) difference.declarations.insert({i, d});
    difference.elsewhere = difference.declarations.empty();
    return difference;
  }

  static std::string_view text_of(const Compilation& compiled, std::size_t file, std::size_t declaration) {
    const auto& parsed = tree(compiled, file);
    auto begin = parsed.lines[parsed.declarations[declaration].header].begin;
    auto end = declaration + 1 < parsed.declarations.size()
                   ? parsed.lines[parsed.declarations[declaration + 1].header].begin
                   : parsed.lines.back().end;
    return std::string_view(compiled.sources[parsed.file_id].text).substr(begin, end - begin);
  }

  static void hold_back(Extent& extent) {
    if (extent != Extent::nothing) extent = static_cast<Extent>(static_cast<int>(extent) + 1);
  }

  void hold_back(const MeaningDifference& difference) {
    bool held = false;
    for (const auto& [file, declaration] : difference.declarations) {
      if (!may_change(file) || extents_[file][declaration] == Extent::nothing) continue;
      hold_back(extents_[file][declaration]);
      held = true;
    }
    if (held) return;
    // Nobody knows whose it is: all of them.
    for (auto& file : extents_)
      for (auto& extent : file) hold_back(extent);
  }

  TidiedHouse changed(const HouseFiles& files) const {
    tidy::Tidier tidier(compiled_->sources, {compiled_->names, compiled_->units}, compiled_->specs,
                        compiled_->findings);
    TidiedHouse result;
    for (std::size_t i = 0; i < files.files.size(); ++i) {
      if (!may_change(i)) continue;
      result.unread_lines += tidier.damaged_lines(tree(*compiled_, i));
      result.kept += static_cast<std::size_t>(std::count_if(
          extents_[i].begin(), extents_[i].end(), [](Extent extent) { return extent != Extent::forms; }));
      if (files.files[i].text != house_.files[i].text) result.files.push_back(files.files[i]);
    }
    return result;
  }

  const HouseFiles& house_;
  const std::set<std::string>* only_;
  std::unique_ptr<Compilation> compiled_;
  HouseMeaning meaning_;
  Extents extents_;
};

}  // namespace

TidiedHouse tidy_house(const HouseFiles& house, const std::set<std::string>* only) {
  return HouseTidier(house, only).tidy();
}

}  // namespace gill::driver
