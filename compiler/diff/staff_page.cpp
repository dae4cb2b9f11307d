#include <fmt/format.h>

#include "base/text.h"
#include "diff/page.h"

namespace gill::diff {

using namespace render::document;

namespace {

/// What a station does, as one list under a heading in words.
class StationWriter {
 public:
  explicit StationWriter(const Station& station, std::size_t number) : station_(station), number_(number) {}

  Section build() {
    Section section{fmt::format("station-{}", number_), Run(station_.name), {}};
    blocks_ = &section.blocks;
    builds("Learn", station_.learn);
    reworks("Do differently", station_.change);
    names("Make no more", station_.stop);
    builds("Preps to start making", station_.preps_to_start);
    reworks("Preps to make differently", station_.preps_to_change);
    builds("The new recipe, whole", station_.new_recipes);
    names("Preps to stop making", station_.preps_to_stop);
    names("Pour away what is left of the old", station_.pour_away);
    names("Glasses to pull", station_.glasses_to_pull);
    names("Glasses to put away", station_.glasses_to_put_away);
    return section;
  }

 private:
  void title(const std::string& words) { blocks_->push_back(Paragraph{Run().strong(words), Tone::lead}); }

  template <typename Build>
  static std::string called(const Build& build) {
    if (build.was.empty()) return build.name;
    return fmt::format("{} (was {}{})", build.name, build.was, build.was_guessed ? ", at a guess" : "");
  }

  static Cell header(const std::string& words) {
    Cell cell;
    cell.run.plain(words);
    cell.is_header = true;
    return cell;
  }

  static Cell cell(const std::string& words) {
    Cell cell;
    cell.run.plain(words);
    return cell;
  }

  void builds(const std::string& words, const std::vector<StaffBuild>& builds) {
    if (builds.empty()) return;
    title(words);
    for (const auto& build : builds) {
      Table table{{}, {{called(build), Align::start}, {"amount", Align::start}}, {}, false};
      for (const auto& line : build.lines) table.rows.push_back({header(line.name), cell(line.amount)});
      for (const auto& [name, served] : build.serve) table.rows.push_back({header(name), cell(served)});
      blocks_->push_back(std::move(table));
      List method{List::Kind::numbered, {}};
      for (const auto& step : build.method) method.items.push_back({Run(step), {}});
      if (!method.items.empty()) blocks_->push_back(std::move(method));
      List duties;
      for (const auto& duty : build.duties) duties.items.push_back({Run(duty), {}});
      if (!duties.items.empty()) blocks_->push_back(std::move(duties));
    }
  }

  void reworks(const std::string& words, const std::vector<StaffRework>& reworks) {
    if (reworks.empty()) return;
    title(words);
    for (const auto& rework : reworks) {
      std::string name = called(rework);
      if (rework.lines.empty()) {
        const char* rest = !rework.method.empty()    ? ":"
                           : rework.tastes_otherwise ? ": the name is new; taste it again."
                                                     : ": only the name is new.";
        blocks_->push_back(Paragraph{Run().strong(name).plain(rest), Tone::normal});
      } else {
        Table table{{}, {{name, Align::start}, {"before", Align::start}, {"now", Align::start}}, {}, false};
        for (const auto& line : rework.lines) {
          Cell now;
          now.run.strong(line.after.empty() ? "none" : line.after);
          table.rows.push_back({header(line.name), cell(line.before.empty() ? "none" : line.before), now});
        }
        blocks_->push_back(std::move(table));
      }
      List method;
      for (const auto& line : rework.method) method.items.push_back({Run(line), {}});
      if (!method.items.empty()) blocks_->push_back(std::move(method));
    }
  }

  void names(const std::string& words, const std::vector<std::string>& names) {
    if (!names.empty())
      blocks_->push_back(
          Paragraph{Run().strong(words + ": ").plain(base::join(names, ", ") + "."), Tone::normal});
  }

  const Station& station_;
  std::size_t number_;
  std::vector<Block>* blocks_ = nullptr;
};

void add_goods(Page& page, const StaffSheet& sheet) {
  std::vector<Block> blocks;
  auto add = [&](const char* title, const std::vector<std::string>& goods) {
    if (!goods.empty())
      blocks.push_back(Paragraph{Run().strong(title).plain(base::join(goods, ", ") + "."), Tone::normal});
  };
  add("In use from now on: ", sheet.goods_to_bring);
  add("In nothing any more, put away: ", sheet.goods_to_put_away);
  if (!blocks.empty()) page.blocks.push_back(Section{"goods", Run("Bottles and goods"), std::move(blocks)});
}

}  // namespace

Page staff_page(const StaffSheet& sheet) {
  Page page;
  page.path = "retraining";
  page.title = "What to do differently";
  page.kind = "changes";
  page.subtitle = Run(sheet.sides);
  if (!sheet.from.empty())
    page.blocks.push_back(Paragraph{Run("From ").strong(sheet.from).plain(" on."), Tone::lead});
  for (auto notice : {alert_notice(sheet.alerts), error_notice(sheet.not_compared)})
    if (!notice.blocks.empty()) page.blocks.push_back(std::move(notice));
  if (sheet.stations.empty() && sheet.goods_to_bring.empty() && sheet.goods_to_put_away.empty() &&
      sheet.other_menus.empty())
    page.blocks.push_back(Paragraph{Run("No build, prep or glass changes for anybody's hands."), Tone::lead});
  auto add_list = [&](const char* name, const char* title, const std::vector<std::string>& items) {
    List list;
    for (const auto& item : items) list.items.push_back({Run(item), {}});
    if (!items.empty()) page.blocks.push_back(Section{name, Run(title), {Block(std::move(list))}});
  };
  add_list("taste", "Taste again: made as before, and another drink in the glass", sheet.taste);
  add_list("menus", "On other menus, made as before", sheet.other_menus);
  add_goods(page, sheet);
  std::size_t number = 0;
  for (const auto& station : sheet.stations) page.blocks.push_back(StationWriter(station, ++number).build());
  return page;
}

}  // namespace gill::diff
