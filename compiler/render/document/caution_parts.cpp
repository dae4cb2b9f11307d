// Cautions, for every page that tells of them.
#include <algorithm>

#include "base/text.h"
#include "model/raw_egg.h"
#include "render/document/shared_parts.h"
#include "render/wording/allergen_words.h"

namespace gill::render::document {

using analysis::StockId;
using diagnostics::Diagnostic;
using diagnostics::Rule;

namespace {

/// `raw egg`, `cool it fast`.
std::string brief_of(Rule rule) { return std::string(caution_words(rule)); }

/// What a rule is called on a page: `Raw egg`.
std::string title_of(Rule rule) { return base::capitalised(brief_of(rule)); }

/// Of a prep, what concerns whoever drinks what it is in, and not only whoever makes it.
bool concerns_guest(Rule rule) {
  return rule == Rule::raw_egg || rule == Rule::raw_dairy || rule == Rule::allergen_carried ||
         rule == Rule::hidden_allergen || rule == Rule::restricted_ingredient;
}

/// A message of one line as a sentence for a page: a capital, a full stop, no code marks.
std::string as_sentence(std::string text) {
  std::erase(text, '`');
  text = base::capitalised(std::move(text));
  auto end = text.find_last_not_of(")”\"");
  if (end != std::string::npos && std::string_view(".!?").find(text[end]) == std::string_view::npos)
    text += '.';
  return text;
}

/// What was found, and the caution that goes with it.
std::string words_of(const Diagnostic& finding) {
  std::string words = " " + as_sentence(finding.message);
  if (!finding.help.empty()) words += " " + as_sentence(finding.help);
  return wording::with_allergen_words(words);
}

/// Stands for what the declaration itself says, which is told in full.
constexpr std::string_view see_below = "see below";

class CautionWriter {
 public:
  explicit CautionWriter(const BookIndex& index) : index_(index) {}

  void add_findings(const std::vector<const Diagnostic*>& findings) {
    for (const auto* finding : findings) {
      rules_.push_back(finding->rule);
      name(brief_of(finding->rule));
      add(Run().strong(title_of(finding->rule) + ".").plain(words_of(*finding)));
    }
  }

  void add_words(const std::vector<std::string>& cautions) {
    for (const auto& words : cautions) add(Run(as_sentence(words)));
    if (!cautions.empty()) name(std::string(see_below));
  }

  /// What preps say of themselves: it is for whoever makes them.
  void add_making(const std::vector<StockId>& uses) {
    for (auto id : uses)
      if (index_.specs()[id].is_prep) add_own(id);
  }

  /// What the ingredients in it say of themselves, and what was found of its preps that reaches the glass.
  void add_parts(const std::vector<StockId>& uses) {
    for (auto id : uses) {
      if (!index_.specs()[id].is_prep) add_own(id);
      for (const auto* finding : index_.safety_of(id)) {
        bool reported = std::find(rules_.begin(), rules_.end(), finding->rule) != rules_.end();
        if (!concerns_guest(finding->rule) || reported) continue;
        name(brief_of(finding->rule));
        add(index_.link_to(id).plain(": ").strong(title_of(finding->rule) + ".").plain(words_of(*finding)));
      }
    }
  }

  /// What there is to take care of, a word or two each: `raw egg, nutmeg`.
  std::string names() const { return base::join(names_, ", "); }

  /// `Raw egg, nutmeg. Do not keep at room temperature.`
  std::string label_words(const std::vector<std::string>& own) const {
    std::vector<std::string> brief;
    for (const auto& name : names_) {
      // What a label says of its allergens anyway.
      bool is_on_it = name == brief_of(Rule::allergen_carried) || name == brief_of(Rule::hidden_allergen);
      if (name != see_below && !is_on_it) brief.push_back(name);
    }
    std::vector<std::string> sentences;
    if (!brief.empty()) sentences.push_back(as_sentence(base::join(brief, ", ")));
    for (const auto& words : own) sentences.push_back(as_sentence(words));
    return base::join(sentences, " ");
  }

  Notice write(std::string title) {
    Notice notice{Notice::Role::caution, std::move(title), {}};
    if (list_.items.empty()) return notice;
    notice.blocks.push_back(std::move(list_));
    Run closing(wording::local_code_line);
    for (const auto& words : index_.house().notices) closing.plain(" " + as_sentence(words));
    notice.blocks.push_back(Paragraph{std::move(closing), Tone::small});
    return notice;
  }

 private:
  void add_own(StockId id) {
    const auto& stock = index_.specs()[id];
    for (const auto& words : stock.cautions) add(index_.link_to(id).plain(": " + as_sentence(words)));
    if (!stock.cautions.empty()) name(stock.head.name);
  }

  void add(Run run) { list_.items.push_back({std::move(run), {}}); }

  void name(std::string words) {
    if (std::find(names_.begin(), names_.end(), words) == names_.end()) names_.push_back(std::move(words));
  }

  const BookIndex& index_;
  std::vector<Rule> rules_;
  std::vector<std::string> names_;
  List list_;
};

}  // namespace

std::string_view caution_words(Rule rule) {
  static constexpr std::pair<Rule, std::string_view> words[] = {
#define CAUTION_WORDS(of_rule, in_words) {Rule::of_rule, in_words},
#include "render/document/caution_words.def"
#undef CAUTION_WORDS
  };
  for (const auto& [of_rule, in_words] : words)
    if (of_rule == rule) return in_words;
  return {};
}

namespace {

/// Of a declaration: what was found of it, what it says itself, and what its parts, and all that is in them,
/// do.
template <typename Id>
CautionWriter writer_of(const BookIndex& index, Id id, const std::vector<const Diagnostic*>& findings,
                        const std::vector<StockId>& parts) {
  CautionWriter writer(index);
  writer.add_findings(findings);
  writer.add_words(index.specs()[id].cautions);
  writer.add_parts(parts);
  return writer;
}

template <typename Id>
Cautions written(CautionWriter writer, const BookIndex& index, Id id) {
  return {writer.names(), writer.label_words(index.specs()[id].cautions), writer.write("Take care")};
}

template <typename Id>
std::vector<StockId> parts_of(const BookIndex& index, Id id) {
  return Usage::everything_in(index.specs()[id].recipe, index.facts()[id].uses, index.facts());
}

}  // namespace

Cautions cautions_of(const BookIndex& index, analysis::DrinkId id) {
  return written(writer_of(index, id, index.safety_of(id), parts_of(index, id)), index, id);
}

Cautions cautions_of(const BookIndex& index, StockId id) {
  const auto parts = parts_of(index, id);
  auto writer = writer_of(index, id, index.safety_of(id), parts);
  writer.add_making(parts);
  return written(std::move(writer), index, id);
}

Cautions cautions_of_bottle(const BookIndex& index, analysis::DrinkId id, const std::vector<StockId>& held) {
  const bool holds_egg = std::any_of(held.begin(), held.end(), [&](StockId part) {
    return model::brings_raw_egg(index.specs(), index.facts(), part);
  });
  auto findings = index.safety_of(id);
  std::erase_if(findings,
                [&](const Diagnostic* finding) { return finding->rule == Rule::raw_egg && !holds_egg; });
  std::vector<StockId> parts = held;
  for (auto part : held)
    for (auto inner : index.facts()[part].uses)
      if (std::find(parts.begin(), parts.end(), inner) == parts.end()) parts.push_back(inner);
  return written(writer_of(index, id, findings, parts), index, id);
}

Notice making_notice(const BookIndex& index, analysis::DrinkId id) {
  CautionWriter writer(index);
  writer.add_making(parts_of(index, id));
  return writer.write("Take care in making its preps");
}

}  // namespace gill::render::document
