#include "importer/plain_specs.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "base/characters.h"
#include "base/text.h"
#include "importer/line_judge.h"
#include "importer/lone_labels.h"
#include "importer/name_marks.h"
#include "importer/prices.h"
#include "importer/spec_kind.h"
#include "importer/spec_labels.h"
#include "importer/step_words.h"
#include "importer/table_rows.h"

namespace gill::importer {
namespace {

// Words before what is done to a batch at the bar (common practice, no source).
constexpr auto serving_words = std::to_array<std::string_view>(
    {"to serve", "serve:", "service:", "per serve", "per drink", "à servir", "pour servir", "zum servieren",
     "servieren:", "para servir", "per servire"});

/// Shares the lines out among the specs.
class SpecGrouper {
 public:
  SpecGrouper(std::vector<JudgedLine> lines, PhraseReader& reader)
      : reader_(reader), lines_(std::move(lines)) {}

  std::vector<OldSpec> group() {
    for (std::size_t i = 0; i < lines_.size();) i = take(i);
    keep_last_headings();
    finish();
    return std::move(specs_);
  }

 private:
  /// Takes the line, or the lines of a head; the next that is not taken.
  std::size_t take(std::size_t i) {
    const auto& line = lines_[i];
    if (line.is_price && !specs_.empty()) {
      specs_.back().remarks.push_back({line.source.text, line.source.number});
      return i + 1;
    }
    const bool is_first_remark = specs_.empty() && line.label.role == LabelRole::remark;
    if (is_lone_heading(i) || line.source.is_mail_head || is_first_remark || is_talk(i)) {
      add_heading(line);
    } else if (line.kind == LineKind::spec) {
      begin_on_one_line(line, line.spec);
    } else if (stands_for_itself(i)) {
      begin_on_one_line(line, line.alone);
    } else if (heads_with_parts(i)) {
      begin_on_one_line(line, line.head);
      has_amounts_ = has_steps_after_ = false;
      is_headed_with_parts_ = true;
    } else if (line.label.role == LabelRole::name && !line.label.rest.empty()) {
      begin({line.label.rest, line.source.number});
      if (base::fold_name(line.source.text).starts_with("prep")) {
        is_below_preps_ = true;
        named_as_prep_ = {line.source.text, line.source.number};
      }
    } else if (heads_spec(i)) {
      return read_head(i);
    } else {
      add_part(line);
    }
    return i + 1;
  }

  /// A message between others that nothing is read of: `thx, and the tea syrup?`.
  bool is_talk(std::size_t i) const {
    auto is_head = [&](std::size_t k) { return k >= lines_.size() || lines_[k].source.is_mail_head; };
    return i > 0 && is_head(i - 1) && is_head(i + 1) && is_words(lines_[i]);
  }

  static bool is_words(const JudgedLine& line) {
    return line.kind == LineKind::words && line.label.role == LabelRole::none && !line.source.is_table_head &&
           !line.source.is_mail_head && !line.is_price;
  }
  bool begins_spec(std::size_t i) const {
    if (i >= lines_.size()) return false;
    return lines_[i].kind == LineKind::spec || lines_[i].label.role == LabelRole::name ||
           begins_below_blank(i);
  }
  /// Below a blank line, a name with its glass above amounts, or with its list behind it.
  bool begins_below_blank(std::size_t i) const {
    const auto& line = lines_[i];
    if (!is_below_blank(i)) return false;
    return (!line.head.empty() && leads_to_amounts(i)) ||
           (!line.alone.empty() && !line.alone.is_row && is_last_of_stretch(i));
  }
  /// A blank line stands below it, or nothing.
  bool is_last_of_stretch(std::size_t i) const {
    return i + 1 == lines_.size() || lines_[i + 1].source.after_blank;
  }
  bool is_amount(std::size_t i) const { return i < lines_.size() && lines_[i].kind == LineKind::amount; }

  /// Whether amounts follow before the next name can: behind notes, a glass or a label.
  bool leads_to_amounts(std::size_t i) const {
    constexpr std::size_t max_between = 6;
    for (std::size_t k = i + 1; k < lines_.size() && k <= i + max_between; ++k) {
      const auto& line = lines_[k];
      if (names_the_next(k, i)) return false;
      if (line.kind == LineKind::amount) return true;
      if (line.kind == LineKind::spec || line.label.role == LabelRole::name || line.source.is_mail_head)
        return false;
    }
    return false;
  }

  /// Below a blank line a name stands, so that the amounts below it are of another drink than what stands in
  /// the lines of the one above, at `last`.
  bool names_the_next(std::size_t i, std::size_t last) const {
    const auto& line = lines_[i];
    if (!line.source.after_blank || is_below_blank(last) || specs_.empty() || !has_parts()) return false;
    const bool has_head = !line.head.empty() && !line.head.is_named_like_a_glass;
    return has_head || is_named_like_a_vessel(i) || (is_words(line) && is_title_case(line.source.text)) ||
           line.source.heading > 0;
  }

  /// `Copper Mug` below a blank line, of two words or more, with amounts below it before the next blank line
  /// and no other name: a name, though a glass is called so.
  bool is_named_like_a_vessel(std::size_t i) const {
    const auto& line = lines_[i];
    const auto& text = line.source.text;
    if (line.kind != LineKind::step || line.label.role != LabelRole::none || line.is_order) return false;
    if (begins_with_verb(base::fold_name(text)) || begins_with_order(text) || !is_below_blank(i))
      return false;
    // `Toddy, hot`, `Martini, 3 ways`; `Coupe, lemon twist` says what is served.
    const auto comma = std::min(text.find(", "), text.size());
    const auto behind = text.substr(std::min(comma + 2, text.size()));
    const bool is_how = behind.empty() || is_manner(behind) || base::is_digit(behind.front());
    return is_how && text.find(' ') != std::string::npos && is_title_case(text.substr(0, comma)) &&
           looks_like_a_name(text) && has_amounts_in_stretch(i);
  }

  /// Behind prices, notes and what is said of the whole.
  bool has_amounts_in_stretch(std::size_t i) const {
    for (auto k = i + 1; k < lines_.size() && !lines_[k].source.after_blank; ++k) {
      const auto& line = lines_[k];
      if (line.kind == LineKind::amount) return true;
      const bool is_name = is_words(line) && is_title_case(line.source.text) &&
                           looks_like_a_name(without_quotes(line.source.text)) && is_amount(k + 1) &&
                           !is_quoted(line.source.text);
      const bool is_said = line.is_price || is_words(line) || line.label.role == LabelRole::remark ||
                           line.label.role == LabelRole::serves || line.label.role == LabelRole::amounts ||
                           serves_of(line.source.text) || is_half_read(line);
      if (is_name || !is_said) return false;
    }
    return false;
  }

  /// `Warm and long, for the fire.`: words of it are a glass or a step, and it tells nobody to do anything.
  static bool is_half_read(const JudgedLine& line) {
    return line.kind == LineKind::step && line.label.role == LabelRole::none && !line.is_only_served &&
           !line.is_order && !begins_with_verb(base::fold_name(line.source.text));
  }

  static bool is_quoted(const std::string& text) { return without_quotes(text) != text; }

  /// Something stands right below it.
  bool stands_above(std::size_t i) const {
    return i + 1 < lines_.size() && !lines_[i + 1].source.after_blank;
  }

  bool has_parts() const { return !specs_.empty() && !specs_.back().parts.empty(); }

  /// A heading by its words and its look, before a drink's name: `STIRRED`.
  bool is_section(std::size_t i) const {
    const auto& line = lines_[i];
    if (line.section == SectionKind::none || line.kind == LineKind::amount) return false;
    bool looks_so = is_all_capitals(line.source.text) || line.source.heading > 0 ||
                    line.source.text.ends_with(':') || line.source.after_blank;
    bool before_name = i + 1 < lines_.size() && (is_words(lines_[i + 1]) || lines_[i + 1].may_be_name ||
                                                 begins_spec(i + 1) || lines_[i + 1].source.heading > 0);
    return looks_so && before_name;
  }

  /// Alone between blank lines, above a name with its amounts: nobody's step, whatever its words are
  /// (`STIRRED & BOOZY`, `SHAKEN, UP`, `Low ABV / Spritz`). An order (`Shake and strain`) may stand so as the
  /// last line of what is above.
  bool is_lone_heading(std::size_t i) const {
    const auto& line = lines_[i];
    const auto& text = line.source.text;
    if (!is_alone(i) && !is_capitals_above(i)) return false;
    if (line.label.role != LabelRole::none || line.source.is_table_head) return false;
    bool may_be_heading = line.kind != LineKind::amount && !line.is_only_served &&
                          !begins_with_verb(base::fold_name(text)) && !is_strength(text);
    may_be_heading = may_be_heading || names_a_section(i);
    bool looks_so = is_all_capitals(text) || is_strength(text) ||
                    (is_title_case(text) && (has_steps_after_ || specs_.empty()));
    return may_be_heading && looks_so && looks_like_a_name(without_signs(text)) && names_spec_at_once(i + 1);
  }

  /// What would be a glass or a step, and is nobody's: several glasses (`SHOTS`, `Beer & Wine`), or below a
  /// drink that is made a word alone (`Tea`, `Rinse`, `0%`) which is no vessel's. Where every line stands
  /// alone it may be the last one's of the drink above.
  bool names_a_section(std::size_t i) const {
    const auto& line = lines_[i];
    const auto& text = line.source.text;
    if (line.names_glasses) return true;
    const bool is_word = text.find(' ') == std::string::npos;
    const bool is_spread = i > 0 && lines_[i - 1].source.after_blank;
    const bool may_be_served = line.is_only_served && !is_drink_of_glass(text);
    if (!is_word || is_spread || may_be_served || begins_with_order(text)) return false;
    return specs_.empty() || has_steps_after_;
  }

  /// `0%`, `0 %`: how strong the drinks are that stand below.
  static bool is_strength(const std::string& text) {
    return text.ends_with('%') && text.find_first_not_of("0123456789.,% -") == std::string::npos;
  }

  /// A blank line above it and one below.
  bool is_alone(std::size_t i) const {
    return is_below_blank(i) && i + 1 < lines_.size() && lines_[i + 1].source.after_blank;
  }
  bool is_below_blank(std::size_t i) const { return i == 0 || lines_[i].source.after_blank; }

  /// Capitals below a blank line, right above a name that is not in capitals.
  bool is_capitals_above(std::size_t i) const {
    return is_below_blank(i) && stands_above(i) && is_heading_above(i);
  }

  /// `SHAKEN, UP`: what a heading may hold and a name does not.
  static std::string without_signs(std::string text) {
    std::erase(text, ',');
    return text;
  }

  /// A name with its amounts right below it; other headings may stand above it.
  bool names_spec_at_once(std::size_t i) const {
    while (is_alone(i) && is_title_case(lines_[i].source.text)) ++i;
    if (begins_spec(i)) return true;
    bool may_name = is_words(lines_[i]) || lines_[i].may_be_name || is_named_below_blank(i);
    return may_name && stands_above(i) && leads_to_amounts(i);
  }

  /// A step or a glass by its words, where a name stands: `Old Fashioned` behind a blank line before amounts.
  bool is_name_all_the_same(std::size_t i) const {
    const auto& line = lines_[i];
    if (line.kind != LineKind::step || line.label.role != LabelRole::none || !is_amount(i + 1)) return false;
    const bool is_done = has_amounts_ && has_steps_after_;
    if (line.source.after_blank && is_done && names_a_prep(line.source.text)) return true;
    if (line.is_order || !is_title_case(line.source.text) || !looks_like_a_name(line.source.text))
      return false;
    bool is_fresh = specs_.empty() || (line.source.after_blank && has_amounts_ && has_steps_after_);
    return is_fresh || (has_steps_after_ && is_amount(i + 2));
  }

  /// The same below the heading of a page, where a drink has yet to begin.
  bool is_named_below_blank(std::size_t i) const {
    const auto& line = lines_[i];
    return line.kind == LineKind::step && line.label.role == LabelRole::none && line.source.after_blank &&
           !line.is_order && is_amount(i + 1) && is_title_case(line.source.text) &&
           looks_like_a_name(line.source.text);
  }

  /// A name with its glass or its garnish behind it, above amounts.
  bool heads_with_parts(std::size_t i) const {
    const auto& line = lines_[i];
    if (line.head.empty() || !leads_to_amounts(i)) return false;
    const bool is_named_well =
        is_title_case(line.head.name) && !line.head.is_named_like_a_glass && line.kind != LineKind::amount;
    if (is_named_well)
      return specs_.empty() || line.source.after_blank || has_steps_after_ ||
             (is_headed_with_parts_ && has_amounts_);
    const bool is_done = specs_.empty() || (has_amounts_ && has_steps_after_);
    return is_below_blank(i) && is_done && is_amount(i + 1);
  }

  /// Between blank lines, a name with anything behind its colon or its dash; or one of several such lines.
  bool stands_for_itself(std::size_t i) const {
    const auto& line = lines_[i];
    if (line.alone.empty() || line.label.role != LabelRole::none) return false;
    if (is_below_blank(i) && is_last_of_stretch(i) && !line.alone.is_row) return true;
    return is_in_list_of_specs(i) ||
           (has_steps_after_ && line.alone.says_a_step && is_title_case(line.alone.name));
  }

  /// Every line from the blank one above to the blank one below is a drink of its own.
  bool is_in_list_of_specs(std::size_t i) const {
    auto is_one = [&](std::size_t k) {
      const auto& line = lines_[k];
      const auto& alone = line.alone;
      return line.kind == LineKind::spec ||
             (!alone.empty() && line.label.role == LabelRole::none &&
              (alone.says_a_step || alone.parts.size() > 1 || alone.is_named_like_a_glass));
    };
    auto first = i, last = i;
    while (!is_below_blank(first)) --first;
    while (last + 1 < lines_.size() && !lines_[last + 1].source.after_blank) ++last;
    for (auto k = first; k <= last; ++k)
      if (!is_one(k)) return false;
    return last > first;
  }

  bool heads_spec(std::size_t i) const {
    const auto& line = lines_[i];
    const auto& text = line.source.text;
    if (line.label.role != LabelRole::none || line.source.is_table_head) return false;
    if (line.source.heading > 0 && line.kind != LineKind::amount && !line.is_order) return true;
    if (is_section(i) || is_name_all_the_same(i)) return true;
    if ((specs_.empty() || has_amounts_) && is_named_like_a_vessel(i)) return true;
    if (is_counted_thing(i) || is_note_above_blank(i)) return false;
    bool may_name = is_words(line) ||
                    (line.may_be_name && (specs_.empty() || line.source.after_blank ||
                                          (has_steps_after_ && !line.ends_with_measure))) ||
                    (line.is_numbered && line.source.after_blank && (has_steps_after_ || is_first_name(i)));
    if (!may_name) return false;
    if (specs_.empty()) return true;
    if (line.source.after_blank && has_parts())
      return leads_to_amounts(i) || (looks_like_a_name(text) && stands_above(i) && stretch_is_read(i));
    if (!has_amounts_ || !leads_to_amounts(i) || !is_last_name(i)) return false;
    return has_steps_after_ || (is_title_case(text) && !begins_with_verb(base::fold_name(text)));
  }

  /// Nothing stands above it, and amounts right below: `7 Bells`.
  bool is_first_name(std::size_t i) const { return specs_.empty() && stands_above(i) && is_amount(i + 1); }

  /// The last words before a blank line, with other words behind it: a note, not a name.
  bool is_note_above_blank(std::size_t i) const {
    return !specs_.empty() && has_parts() && !lines_[i].source.after_blank && lines_[i].source.heading == 0 &&
           i + 1 < lines_.size() && lines_[i + 1].source.after_blank && is_words(lines_[i + 1]);
  }

  /// Something of the lines right below is read: a greeting and who sends it are not.
  bool stretch_is_read(std::size_t i) const {
    for (std::size_t k = i + 1; k < lines_.size() && !lines_[k].source.after_blank; ++k)
      if (!is_words(lines_[k]) || lines_[k].is_counted) return true;
    return false;
  }

  /// A count among amounts or behind the steps is something that goes in, unless amounts stand below it as
  /// below a name.
  bool is_counted_thing(std::size_t i) const {
    const auto& line = lines_[i];
    if (!line.is_counted || specs_.empty() || line.source.heading > 0) return false;
    bool may_end_here = has_steps_after_ || line.source.after_blank;
    return !may_end_here || !stands_above(i) || !leads_to_amounts(i);
  }

  /// Of several lines of words before amounts, a note is not the name while one below is written like one.
  bool is_last_name(std::size_t i) const {
    if (is_title_case(lines_[i].source.text)) return true;
    for (std::size_t k = i + 1; k < lines_.size() && is_words(lines_[k]); ++k)
      if (is_title_case(lines_[k].source.text)) return false;
    return looks_like_a_name(lines_[i].source.text);
  }

  /// Reads the lines above the first amount or step: headings, the name, what is said of the drink.
  std::size_t read_head(std::size_t i) {
    std::size_t end = i + 1;
    while (end < lines_.size() && !(lines_[end].is_counted && !lines_[end].source.after_blank) &&
           (is_words(lines_[end]) || lines_[end].is_price || is_section(end) ||
            lines_[end].source.heading > 0 ||
            ((lines_[end].may_be_name || is_named_below_blank(end)) && lines_[end].source.after_blank)) &&
           lines_[end].label.role == LabelRole::none && !begins_spec(end))
      ++end;
    std::size_t below = end;
    while (below < lines_.size() && lines_[below].source.is_table_head) ++below;
    const bool before_spec = begins_spec(below);
    while (i < end) {
      std::size_t stretch = i + 1;
      while (stretch < end && !lines_[stretch].source.after_blank && lines_[stretch].source.heading == 0)
        ++stretch;
      const bool is_last = stretch == end;
      // Headings stand above a name: alone, marked, or by their words.
      while (i + 1 < stretch && (is_section(i) || is_heading_above(i))) add_heading(lines_[i++]);
      const bool is_alone = i + 1 == stretch;
      // What a page says before its first drink.
      if (!is_last && specs_.empty() && (stretch > i + 1 || !looks_like_a_name(lines_[i].source.text))) {
        while (i < stretch) add_heading(lines_[i++]);
        continue;
      }
      if ((is_alone && !is_last) || (is_alone && before_spec && lines_[i].section != SectionKind::none) ||
          (is_last && is_alone && before_spec && specs_.empty())) {
        add_heading(lines_[i++]);
        continue;
      }
      begin(name_of(lines_[i].source));
      while (++i < stretch) {
        auto& to = lines_[i].is_price ? specs_.back().remarks : specs_.back().description;
        to.push_back({lines_[i].source.text, lines_[i].source.number});
      }
    }
    return end;
  }

  /// The name as a line heads it; a price behind a gap is parted from it.
  static OldLine name_of(const SourceLine& line) {
    const bool is_priced = !line.parted.empty() && !price_behind(line.parted).empty();
    return {without_colon(is_priced ? line.parted : line.text), line.number};
  }

  /// All capitals above a name that is not.
  bool is_heading_above(std::size_t i) const {
    return is_all_capitals(lines_[i].source.text) && is_title_case(lines_[i + 1].source.text) &&
           !is_all_capitals(lines_[i + 1].source.text);
  }

  void add_heading(const JudgedLine& line) {
    headings_.push_back({line.source.text, line.source.number});
    in_prep_section_ = line.section == SectionKind::preps;
  }

  /// Below the last spec nothing is headed any more.
  void keep_last_headings() {
    if (headings_.empty()) return;
    if (specs_.empty()) return begin({"", headings_.front().line});
    auto& remarks = specs_.back().remarks;
    remarks.insert(remarks.end(), headings_.begin(), headings_.end());
  }

  void begin(OldLine name) {
    finish();
    specs_.emplace_back();
    const auto number = counting_number_at(name.text);
    if (number > 0) specs_.back().remarks.push_back(name);
    name.text = without_quotes(name.text.substr(number));
    if (auto priced = price_behind(name.text); !priced.empty()) {
      name.text = without_quotes(priced.words);
      specs_.back().remarks.push_back({priced.price, name.line});
    }
    specs_.back().name = std::move(name);
    // `Night Porter (1 l bottle)` is made ahead.
    is_bottled_ = names_a_full_bottle(specs_.back().name.text);
    specs_.back().headings = std::move(headings_);
    headings_.clear();
    has_amounts_ = has_steps_after_ = is_headed_with_parts_ = is_in_batch_ = false;
    signs_ = {};
    signs_.is_ahead = is_bottled_;
    is_below_preps_ = in_prep_section_;
  }

  void begin_on_one_line(const JudgedLine& line, const NamedList& list) {
    begin({list.name, line.source.number});
    if (list.is_sentence) specs_.back().remarks.push_back({line.source.text, line.source.number});
    add_parts(list.parts, line.source.number);
    has_amounts_ = has_steps_after_ = true;
  }

  void add_parts(const std::vector<OldPart>& parts, std::size_t line) {
    for (auto part : parts) {
      if (part.what.line == 0) part.what.line = line;
      signs_.add(signs_of_kind(part, reader_.read(part, {}), reader_));
      specs_.back().parts.push_back(std::move(part));
    }
  }

  void add_part(const JudgedLine& line) {
    if (specs_.empty() && line.source.is_table_head) return add_heading(line);
    if (specs_.empty()) begin({"", line.source.number});
    auto& spec = specs_.back();
    if (takes_for_batch(line)) return;
    const bool is_pour_of_batch = is_bottled_ && tells_how_to_serve(line.source.text);
    const auto role = is_pour_of_batch ? LabelRole::remark : line.label.role;
    if (role == LabelRole::name) return;
    if (line.source.is_table_head) return spec.remarks.push_back({line.source.text, line.source.number});
    const std::string& words = role == LabelRole::none ? line.source.text : line.label.rest;
    if (line.kind == LineKind::amount) {
      has_amounts_ = true;
      has_steps_after_ = false;
    } else if (line.kind == LineKind::step && has_amounts_) {
      has_steps_after_ = true;
    }
    if (is_pour_of_batch)
      return spec.parts.push_back({{line.source.text, line.source.number}, role, line.source.text});
    // A row of a table that goes on with its drink.
    if (!line.spec.parts.empty()) return add_parts(line.spec.parts, line.source.number);
    signs_.add(line.signs);
    if (words.empty() && role == LabelRole::remark)
      spec.remarks.push_back({line.source.text, line.source.number});
    if (words.empty()) return;
    has_amounts_ = has_amounts_ || line.is_counted;
    if (spec.parts.empty() && is_words(line) && !line.is_counted)
      spec.description.push_back({words, line.source.number});
    else
      spec.parts.push_back({{words, line.source.number}, role, line.source.text, doubt_of_glass(line)});
  }

  /// `Batch:` below a drink, and the amounts below that: the same once more for several, kept as a remark.
  bool takes_for_batch(const JudgedLine& line) {
    auto& spec = specs_.back();
    const bool begins = has_amounts_ && is_batch_alone(without_colon(line.source.text));
    is_in_batch_ = begins || (is_in_batch_ && (line.kind == LineKind::amount || line.is_counted));
    if (!is_in_batch_) return false;
    if (begins)
      spec.remarks.push_back({line.source.text, line.source.number});
    else
      spec.parts.push_back({{line.source.text, line.source.number}, LabelRole::remark, line.source.text});
    return true;
  }

  /// `To serve: 90 ml batch, shake, coupe`: done to what stands ready in the bottle, and no part of it.
  static bool tells_how_to_serve(const std::string& text) {
    const std::string folded = base::fold_name(text);
    return std::any_of(serving_words.begin(), serving_words.end(),
                       [&](auto word) { return folded.starts_with(word); });
  }

  /// A glass alone between blank lines, with a drink above and a name below: it may be of either.
  std::string doubt_of_glass(const JudgedLine& line) const {
    const auto i = static_cast<std::size_t>(&line - lines_.data());
    const bool is_spread = i > 0 && lines_[i - 1].source.after_blank;
    if (!line.is_only_served || line.label.role != LabelRole::none || is_spread || i == 0 || !is_alone(i) ||
        !heads_something(i + 1))
      return {};
    return fmt::format(
        "`{}` stands alone between two drinks, and is taken for the glass of `{}`: move it where "
        "it belongs to the one below.",
        line.source.text, specs_.back().name.text);
  }

  /// A name, or a line that is a whole drink.
  bool heads_something(std::size_t i) const {
    return begins_spec(i) || is_words(lines_[i]) || lines_[i].source.heading > 0;
  }

  /// What is known of a spec once all of it was seen.
  void finish() {
    if (specs_.empty()) return;
    auto& spec = specs_.back();
    const bool is_kept_thing = signs_.is_kept && (reader_.is_stock(base::fold_name(spec.name.text)) ||
                                                  is_named_like_a_batch(spec.name.text));
    spec.is_prep = is_made_ahead(signs_, names_a_prep(spec.name.text) || is_below_preps_ || is_kept_thing);
    // What was called a prep and is served all the same keeps the word.
    if (!spec.is_prep && !named_as_prep_.text.empty()) spec.remarks.push_back(named_as_prep_);
    named_as_prep_ = {};
  }

  PhraseReader& reader_;
  std::vector<JudgedLine> lines_;
  std::vector<OldSpec> specs_;
  std::vector<OldLine> headings_;
  /// Of the last heading; of the heading above the open spec.
  bool in_prep_section_ = false, is_below_preps_ = false;
  /// Of the open spec: amounts were read; steps, a glass or a garnish behind the last of them.
  bool has_amounts_ = false, has_steps_after_ = false, is_in_batch_ = false;
  /// Its glass or its steps stand behind its name.
  bool is_headed_with_parts_ = false;
  /// The line that called it a prep: `PREP: rosemary honey`.
  OldLine named_as_prep_;
  /// It fills a bottle or a keg by its name.
  bool is_bottled_ = false;
  KindSigns signs_;
};

}  // namespace

std::vector<OldSpec> plain_specs(std::string_view text, PhraseReader& reader) {
  LineJudge judge(reader);
  std::vector<JudgedLine> lines;
  auto is_served = [&](const std::string& words) {
    return is_any_read(reader.read({{words, 0}, LabelRole::none, words}, {}));
  };
  for (auto& line : with_their_values(source_lines(text, is_served), reader))
    lines.push_back(judge.judge(std::move(line)));
  return SpecGrouper(with_rows_joined(std::move(lines), reader), reader).group();
}

}  // namespace gill::importer
