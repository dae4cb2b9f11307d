// Cautions, for every page that tells of them.
#include <fmt/format.h>

#include <algorithm>

#include "render/document/shared_parts.h"
#include "render/wording/allergen_words.h"

namespace gill::render::document {

using diagnostics::Diagnostic;
using diagnostics::Rule;
using spec::StockId;

namespace {

/// What a safety rule is called on a page.
std::string title_of(Rule rule) {
  switch (rule) {
    case Rule::raw_egg: return "Raw egg";
    case Rule::raw_dairy: return "Raw milk or cream";
    case Rule::allergen_carried: return "An allergen that stays in";
    case Rule::hidden_allergen: return "An allergen where few expect it";
    case Rule::oil_infusion: return "Plants held in oil";
    case Rule::weak_infusion: return "A weak infusion";
    case Rule::low_acid_hold: return "Low in acid";
    case Rule::cool_down: return "Cool it down";
    case Rule::ferment: return "It ferments";
    case Rule::pressure: return "Gas under pressure";
    case Rule::hot_egg: return "Egg or dairy in something hot";
    case Rule::hot_shake: return "Hot in a closed shaker";
    case Rule::open_flame: return "Open flame";
    case Rule::strong_serve: return "A strong serve";
    case Rule::alcohol_in_alcohol_free: return "Alcohol where none is declared";
    case Rule::restricted_ingredient: return "A restricted ingredient";
    case Rule::bare_copper: return "Bare copper";
    case Rule::cryogen: return "Very cold";
    case Rule::caustic: return "Caustic";
    default: return std::string(diagnostics::info(rule).name);
  }
}

/// Of a prep, what concerns whoever drinks what it is in, and not only whoever makes it.
bool concerns_guest(Rule rule) {
  switch (rule) {
    case Rule::raw_egg:
    case Rule::raw_dairy:
    case Rule::allergen_carried:
    case Rule::hidden_allergen:
    case Rule::restricted_ingredient: return true;
    default: return false;
  }
}

/// A message of one line as a sentence for a page: a capital, a full stop, no code marks.
std::string as_sentence(std::string text) {
  std::erase(text, '`');
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  if (!text.empty() && std::string_view(".!?").find(text.back()) == std::string_view::npos) text += '.';
  return text;
}

class CautionWriter {
 public:
  explicit CautionWriter(const BookIndex& index) : index_(index) {}

  void add_findings(const std::vector<const Diagnostic*>& findings) {
    for (const auto* finding : findings) {
      rules_.push_back(finding->rule);
      add(Run().strong(title_of(finding->rule) + ".").plain(" " + as_sentence(finding->message)));
    }
  }

  void add_words(const std::vector<std::string>& cautions) {
    for (const auto& words : cautions) add(Run(as_sentence(words)));
  }

  /// What the things in it say of themselves, and what was found of its preps that reaches the glass.
  void add_parts(const std::vector<StockId>& uses) {
    for (auto id : uses) {
      const auto& stock = index_.specs()[id];
      for (const auto& words : stock.cautions)
        add(Run(stock.is_prep ? "In making " : "").append(index_.link_to(id)).plain(": " + as_sentence(words)));
      for (const auto* finding : index_.safety_of(id)) {
        bool told = std::find(rules_.begin(), rules_.end(), finding->rule) != rules_.end();
        if (concerns_guest(finding->rule) && !told)
          add(index_.link_to(id).plain(": ").strong(title_of(finding->rule) + ".").plain(" " + as_sentence(finding->message)));
      }
    }
  }

  Notice run() {
    Notice notice{Notice::Role::caution, "Take care", {}};
    if (list_.items.empty()) return notice;
    for (const auto& words : index_.house().notices) list_.items.push_back({Run(as_sentence(words)), {}});
    notice.blocks.push_back(std::move(list_));
    notice.blocks.push_back(Paragraph{Run(wording::local_code_line), Tone::small});
    return notice;
  }

 private:
  void add(Run run) { list_.items.push_back({std::move(run), {}}); }

  const BookIndex& index_;
  std::vector<Rule> rules_;
  List list_;
};

/// What is in it to any depth, permitted stand-ins included, each once.
std::vector<StockId> everything_in(const BookIndex& index, const spec::Recipe& recipe, std::vector<StockId> uses) {
  auto add = [&](StockId id) {
    if (std::find(uses.begin(), uses.end(), id) == uses.end()) uses.push_back(id);
  };
  for (auto part : Usage::parts_of(recipe)) {
    add(part);
    for (auto id : index.facts()[part].uses) add(id);
  }
  return uses;
}

}  // namespace

Notice cautions_notice(const BookIndex& index, spec::DrinkId id) {
  CautionWriter writer(index);
  writer.add_findings(index.safety_of(id));
  writer.add_words(index.specs()[id].cautions);
  writer.add_parts(everything_in(index, index.specs()[id].recipe, index.facts()[id].uses));
  return writer.run();
}

Notice cautions_notice(const BookIndex& index, StockId id) {
  CautionWriter writer(index);
  writer.add_findings(index.safety_of(id));
  writer.add_words(index.specs()[id].cautions);
  writer.add_parts(everything_in(index, index.specs()[id].recipe, index.facts()[id].uses));
  return writer.run();
}

}  // namespace gill::render::document
