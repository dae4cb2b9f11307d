// Allergens in words, for every page that tells of them.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "model/origin.h"
#include "render/document/shared_parts.h"
#include "render/wording/allergen_words.h"
#include "render/wording/unfinished.h"

namespace gill::render::document {

using analysis::StockId;

namespace {

class AllergenWriter {
 public:
  AllergenWriter(const BookIndex& index, const model::Allergens& allergens, bool known,
                 const analysis::Recipe& recipe, const model::Origins* origins)
      : index_(index),
        allergens_(allergens),
        known_(known),
        parts_(Usage::parts_of(recipe)),
        origins_(origins) {}

  Notice write() {
    Notice notice{Notice::Role::allergens, "Allergens", {}};
    const auto& list = index_.house().allergen_list;
    add(notice, "Contains ", {}, routes(false, true));
    add(notice, "May contain ", ", by the maker or by a permitted substitute: read the label",
        routes(true, true));
    add(notice, "Also contains, outside the " + list + " list, ", {}, routes(false, false));
    add(notice, "Also may contain, outside the " + list + " list, ", {}, routes(true, false));
    if (allergens_.routes.empty() && !allergens_.is_of_nothing)
      notice.blocks.push_back(Paragraph{Run("No allergen declared."), Tone::lead});
    if (!known_) notice.blocks.push_back(Paragraph{not_known(), Tone::lead});
    if (origins_) add_animals(notice);
    notice.blocks.push_back(
        Paragraph{Run(wording::evaluated_line + " " + wording::shared_equipment_line), Tone::small});
    return notice;
  }

 private:
  /// Each allergen, strong, with what it comes by.
  std::vector<Run> routes(bool may, bool on_list) const {
    std::vector<Run> runs;
    for (const auto& route : allergens_.routes) {
      if (route.may != may || wording::is_on_list(route.code, index_.house().allergen_list) != on_list)
        continue;
      Run run;
      run.strong(wording::allergen_words(route.code));
      std::vector<Run> sources;
      for (auto id : route.via) sources.push_back(link_to(id));
      if (!sources.empty()) run.plain(", from ").append(joined_with_and(sources));
      runs.push_back(std::move(run));
    }
    return runs;
  }

  /// What an animal gave, for guests who leave it out; nothing where no part tells of any.
  void add_animals(Notice& notice) const {
    for (bool may : {false, true}) {
      std::vector<Run> runs;
      for (const auto& route : origins_->routes) {
        if (route.may != may || !model::is_of_animals(route.origin)) continue;
        std::vector<Run> sources;
        for (auto id : route.via) sources.push_back(link_to(id));
        bool is_of_the_body = route.origin == analysis::Origin::animal;
        Run run;
        if (!is_of_the_body) run.plain(std::string(analysis::name_of(route.origin)) + ", in ");
        runs.push_back(run.append(joined_with_and(sources)));
      }
      add(notice, may ? "May be from an animal: " : "From an animal: ",
          may ? " (finings, colour, whey: ask the maker)" : "", runs);
    }
    std::vector<Run> silent;
    for (auto id : origins_->unknown) silent.push_back(link_to(id));
    add(notice, "Nothing says where it comes from: ", {}, silent);
  }

  /// The stock, and the part of the recipe in which it comes where that is another.
  Run link_to(StockId id) const {
    Run run = index_.link_to(id);
    if (std::find(parts_.begin(), parts_.end(), id) != parts_.end()) return run;
    for (auto part : parts_) {
      const auto& uses = index_.facts()[part].uses;
      if (std::find(uses.begin(), uses.end(), id) == uses.end()) continue;
      return run.plain(" in ").append(index_.link_to(part));
    }
    return run;
  }

  static void add(Notice& notice, const std::string& words, const std::string& after,
                  const std::vector<Run>& routes) {
    if (routes.empty()) return;
    Run run(words);
    run.append(joined(routes, "; ")).plain(after + ".");
    notice.blocks.push_back(Paragraph{std::move(run), Tone::lead});
  }

  Run not_known() const {
    Run run;
    run.strong("Not known:");
    std::vector<Run> silent;
    for (auto id : allergens_.unknown) silent.push_back(link_to(id));
    for (const auto& name : allergens_.undeclared)
      silent.push_back(Run(name).plain(" (a garnish that nothing declares)"));
    if (allergens_.is_of_nothing) return run.plain(fmt::format(" {}.", wording::why_not_known(allergens_)));
    if (silent.empty())
      return run.plain(
          fmt::format(" {}, so there may be more than stands here.", wording::why_not_known(allergens_)));
    run.plain(" nothing is said of ").append(joined_with_and(silent));
    return run.plain(". Read the label before you answer a guest.");
  }

  const BookIndex& index_;
  const model::Allergens& allergens_;
  bool known_;
  std::vector<StockId> parts_;
  const model::Origins* origins_;
};

std::vector<std::string> words_of(const model::Allergens& allergens, bool may) {
  std::vector<std::string> words;
  for (const auto& route : allergens.routes)
    if (route.may == may) words.push_back(wording::allergen_short(route.code));
  return words;
}

std::string comma_list(const std::vector<std::string>& words) {
  std::string text;
  for (const auto& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

}  // namespace

Notice allergens_notice(const BookIndex& index, const model::Allergens& allergens, bool known,
                        const analysis::Recipe& recipe, const model::Origins* origins) {
  return AllergenWriter(index, allergens, known, recipe, origins).write();
}

Run allergens_in_brief(const model::Allergens& allergens, bool known) {
  std::vector<Run> parts;
  auto present = words_of(allergens, false), possible = words_of(allergens, true);
  if (!present.empty()) parts.push_back(Run().strong(comma_list(present)));
  if (!possible.empty()) parts.push_back(Run("may: " + comma_list(possible)));
  if (!known) parts.push_back(Run().emphasis("not all known"));
  if (parts.empty()) parts.push_back(Run("none declared"));
  return joined(parts, "; ");
}

}  // namespace gill::render::document
