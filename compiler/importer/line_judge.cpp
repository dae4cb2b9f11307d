#include "importer/line_judge.h"

#include <algorithm>

#include "base/characters.h"
#include "base/text.h"
#include "importer/ingredient_line.h"
#include "importer/prices.h"
#include "importer/recipe_table.h"
#include "importer/step_words.h"

namespace gill::importer {
namespace {

/// `Sangria Jug (makes 1.5 l)`, `Night Porter - batch, 1 l bottle`: what is said of the whole makes no step
/// of a name.
std::string without_yield(const std::string& text) {
  const auto at = words_of_whole_at(text);
  if (at == std::string::npos) return text;
  const std::string name = text.substr(0, at), own = name.substr(0, name.find(" - "));
  const bool may_be_name = is_title_case(own) && !leading_number(own);
  const bool has_brackets = text.substr(at).starts_with(" (");
  return may_be_name && (has_brackets || names_a_full_bottle(text)) ? std::string(base::trim(name)) : text;
}

}  // namespace

JudgedLine LineJudge::judge(SourceLine source) {
  JudgedLine line;
  line.source = std::move(source);
  join_cells(line.source);
  const auto& text = line.source.text;
  if (line.source.is_table_head || line.source.is_mail_head || judge_row(line)) return line;
  line.is_price = is_price(text);
  if (line.is_price) return line;
  line.label = label_of(text);
  line.section = section_of(text);
  if (line.section != SectionKind::none) in_preps_ = line.section == SectionKind::preps;
  if (line.label.role == LabelRole::name && is_prep_of_steps(line)) line.label.role = LabelRole::method;
  if (line.label.role == LabelRole::name) return line;
  if (line.label.role != LabelRole::none) {
    judge_labelled(line);
    return line;
  }
  line.spec = lists_.whole_spec(text, in_preps_);
  if (!line.spec.empty()) {
    line.kind = LineKind::spec;
    return line;
  }
  if (has_glass_behind_gap(line.source.parted)) line.source.text = line.source.parted;
  judge_words(line, without_yield(text));
  line.head = lists_.name_with_its_glass(text);
  line.alone = lists_.list_of_its_own(text);
  return line;
}

/// `Prep: shake, strain`: how the drink is made, and no name.
bool LineJudge::is_prep_of_steps(const JudgedLine& line) {
  const auto& rest = line.label.rest;
  if (!base::fold_name(line.source.text).starts_with("prep") || rest.empty() || is_title_case(rest))
    return false;
  auto phrases = reader_.read({{rest, 0}, LabelRole::none, rest}, {});
  return is_any(phrases, PhraseKind::step) &&
         std::all_of(phrases.begin(), phrases.end(), [](const Phrase& one) { return one.is_read(); });
}

/// `Reed Warbler - coupe`; `Cream - float` is a pour, though a glass is called so.
bool LineJudge::has_glass_behind_gap(const std::string& parted) {
  const auto list = lists_.name_with_its_glass(parted);
  if (list.empty() || list.parts.empty() || reader_.is_stock(base::fold_name(list.name))) return false;
  const auto& first = list.parts.front();
  return is_any(reader_.read(first, {}), PhraseKind::glass);
}

/// A row below a head that names the drinks of a table.
bool LineJudge::judge_row(JudgedLine& line) {
  if (line.source.columns.empty() || line.source.row.empty()) {
    name_in_row_.clear();
    return false;
  }
  auto row = table_row(line.source.columns, line.source.row, reader_);
  if (row.empty()) return false;
  line.goes_on = row.name.empty() ? row.is_one_ingredient || !name_in_row_.empty()
                                  : row.is_one_ingredient && row.name == name_in_row_;
  if (row.name.empty() && !line.goes_on) return false;
  for (auto* parts : {&row.amounts, &row.said, &row.parts})
    for (auto& part : *parts) {
      const auto column = part.what.line - 1;
      const auto& numbers = line.source.row_numbers;
      part.what.line = column < numbers.size() ? numbers[column] : line.source.number;
    }
  line.kind = line.goes_on ? LineKind::amount : LineKind::spec;
  if (!row.name.empty()) name_in_row_ = row.name;
  line.row = std::move(row);
  return true;
}

/// A row whose cells are one amount is that amount; else its cells are a list.
void LineJudge::join_cells(SourceLine& source) {
  if (source.cells.size() < 2) return;
  auto joined = base::join(source.cells, " ");
  auto phrases = reader_.read({{joined, source.number}, LabelRole::none, joined}, {});
  if (phrases.size() == 1 && phrases[0].kind == PhraseKind::amount) source.text = joined;
}

void LineJudge::judge_labelled(JudgedLine& line) {
  const auto role = line.label.role;
  line.kind = LineKind::step;
  line.signs.is_drink = role == LabelRole::glass || role == LabelRole::garnish || role == LabelRole::ice ||
                        role == LabelRole::rim;
  // `Spec: 60 ml gin, 20 ml lime juice`
  if (!line.label.rest.empty() &&
      (role == LabelRole::amounts || role == LabelRole::method || role == LabelRole::place))
    judge_words(line, line.label.rest);
}

void LineJudge::judge_words(JudgedLine& line, const std::string& text) {
  // What is a heading by its words is not asked about.
  if (line.section == SectionKind::preps || (line.section != SectionKind::none && line.source.heading > 0))
    return;
  OldPart part{{text, line.source.number}, LabelRole::none, text};
  auto phrases = reader_.read(part, {});
  bool is_amount = is_any(phrases, PhraseKind::amount) || is_any(phrases, PhraseKind::pour) ||
                   std::any_of(phrases.begin(), phrases.end(), [](const Phrase& one) { return one.is_bare; });
  line.is_order = tells_a_step(text, line.source.after_blank);
  // Read or not: `Keeps 2 weeks` does not say where.
  line.signs.is_kept = base::fold_name(text).starts_with("keeps ");
  bool is_doubtful = phrases.size() == 1 && !phrases[0].is_read();
  if (is_amount && !(is_doubtful && line.is_order)) {
    line.kind = LineKind::amount;
    line.may_be_name = is_doubtful && !leading_number(text);
    line.ends_with_measure = line.may_be_name && reader_.ends_with_measure(text);
    line.is_numbered = is_doubtful && leading_number(text) && is_title_case(text);
  } else if (is_any_read(phrases)) {
    judge_step(line, part, phrases);
  } else if (is_any_read(reader_.read(part, {true, false}))) {
    line.kind = LineKind::step;
    line.signs.is_ahead = true;
  } else if (line.is_order) {
    line.kind = LineKind::step;
  } else {
    line.is_counted = base::is_digit(text.front()) && leading_number(text) && looks_like_a_name(text);
  }
}

void LineJudge::judge_step(JudgedLine& line, const OldPart& part, const std::vector<Phrase>& phrases) {
  line.kind = LineKind::step;
  line.signs.add(signs_of_kind(part, phrases, reader_));
  // A line of its own that is a garnish is one.
  line.signs.is_drink =
      line.signs.is_drink || is_any(phrases, PhraseKind::garnish) || is_any(phrases, PhraseKind::glass_state);
  line.is_only_served = std::all_of(phrases.begin(), phrases.end(), [](const Phrase& one) {
    return one.kind == PhraseKind::glass || one.kind == PhraseKind::garnish;
  });
  const auto glasses = std::count_if(phrases.begin(), phrases.end(),
                                     [](const Phrase& one) { return one.kind == PhraseKind::glass; });
  const auto& text = part.what.text;
  line.names_glasses =
      line.is_only_served &&
      (glasses > 1 ||
       (glasses == 1 && text.size() > 2 && (text.ends_with('s') || text.ends_with('S')) &&
        is_any(
            reader_.read(
                {{text.substr(0, text.size() - 1), 0}, LabelRole::none, text.substr(0, text.size() - 1)}, {}),
            PhraseKind::glass)));
}

}  // namespace gill::importer
