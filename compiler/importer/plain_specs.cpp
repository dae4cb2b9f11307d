#include "importer/plain_specs.h"

#include <algorithm>
#include <optional>

#include "base/characters.h"
#include "base/text.h"
#include "importer/method_clauses.h"
#include "importer/source_lines.h"
#include "importer/spec_labels.h"

namespace gill::importer {
namespace {

/// What a line is by itself, wherever it stands.
enum class LineKind : std::uint8_t {
  amount,
  step,   ///< something of how it is made or served
  words,  ///< nothing that is read: a name, a note
  spec    ///< a whole drink on one line
};

struct JudgedLine {
  SourceLine source;
  Labelled label;
  LineKind kind = LineKind::words;
  /// A prep alone reads it.
  bool is_of_prep = false;
  /// It says what a prep never has: a glass, a garnish.
  bool is_of_drink = false;
  /// It says nothing but these.
  bool is_only_served = false;
  /// A number without a unit beside an unknown name: an amount among amounts, a name elsewhere.
  bool may_be_name = false;
  /// The same with the number first: `86'd: Velvet Rope`.
  bool is_numbered = false;
  /// A number and a few words that nobody knows: `1 Fu Manchu`.
  bool is_counted = false;
  SectionKind section = SectionKind::none;
  /// Of a whole drink on one line: its name and its parts.
  std::string name;
  std::vector<std::string> parts;
  /// The name may stand above amounts, with a glass or a garnish behind it: `Clay Jar / coupe / lemon twist`.
  bool may_head_with_parts = false;
};

/// A name: short, and no sentence.
bool looks_like_a_name(const std::string& line) {
  constexpr std::ptrdiff_t max_words = 6;
  return std::string_view(".!,;?").find(line.back()) == std::string_view::npos &&
         std::count(line.begin(), line.end(), ' ') < max_words;
}

bool is_any(const std::vector<Phrase>& phrases, PhraseKind kind) {
  return std::any_of(phrases.begin(), phrases.end(), [&](const Phrase& one) { return one.kind == kind; });
}

bool is_any_read(const std::vector<Phrase>& phrases) {
  return std::any_of(phrases.begin(), phrases.end(), [](const Phrase& one) { return one.is_read(); });
}

/// Judges each line by itself.
class LineJudge {
 public:
  explicit LineJudge(PhraseReader& reader) : reader_(reader) {}

  JudgedLine judge(SourceLine source) {
    JudgedLine line;
    line.source = std::move(source);
    join_cells(line.source);
    const auto& text = line.source.text;
    if (line.source.is_table_head) return line;
    line.label = label_of(text);
    line.section = section_of(text);
    if (line.section != SectionKind::none) in_preps_ = line.section == SectionKind::preps;
    if (line.label.role == LabelRole::none && find_spec(line)) return line;
    if (line.label.role == LabelRole::name) return line;
    if (line.label.role != LabelRole::none) {
      line.kind = LineKind::step;
      line.is_of_drink = line.label.role == LabelRole::glass || line.label.role == LabelRole::garnish ||
                         line.label.role == LabelRole::ice || line.label.role == LabelRole::rim;
      // `Spec: 60 ml gin, 20 ml lime juice`
      if (!line.label.rest.empty() &&
          (line.label.role == LabelRole::amounts || line.label.role == LabelRole::method))
        judge_words(line, line.label.rest);
      return line;
    }
    judge_words(line, without_yield(text));
    return line;
  }

 private:
  /// A row whose cells are one amount is that amount; else its cells are a list.
  void join_cells(SourceLine& source) {
    if (source.cells.size() < 2) return;
    auto joined = base::join(source.cells, " ");
    auto phrases = reader_.read({{joined, source.number}, LabelRole::none, joined}, {});
    if (phrases.size() == 1 && phrases[0].kind == PhraseKind::amount) source.text = joined;
  }

  void judge_words(JudgedLine& line, const std::string& text) {
    // What is a heading by its words is not asked about.
    if (line.section == SectionKind::preps || (line.section != SectionKind::none && line.source.heading > 0))
      return;
    OldPart part{{text, line.source.number}, LabelRole::none, text};
    auto phrases = reader_.read(part, {});
    bool is_amount =
        is_any(phrases, PhraseKind::amount) || is_any(phrases, PhraseKind::pour) ||
        std::any_of(phrases.begin(), phrases.end(), [](const Phrase& one) { return one.is_bare; });
    if (is_amount) {
      line.kind = LineKind::amount;
      bool is_doubtful = phrases.size() == 1 && !phrases[0].is_read();
      line.may_be_name = is_doubtful && !leading_number(text);
      line.is_numbered = is_doubtful && leading_number(text) && is_title_case(text);
    } else if (is_any_read(phrases)) {
      line.kind = LineKind::step;
      find_name_before_parts(line, text, phrases);
      line.is_of_drink = is_any(phrases, PhraseKind::glass) || is_any(phrases, PhraseKind::garnish) ||
                         is_any(phrases, PhraseKind::glass_state);
      line.is_only_served = std::all_of(phrases.begin(), phrases.end(), [](const Phrase& one) {
        return one.kind == PhraseKind::glass || one.kind == PhraseKind::garnish;
      });
    } else if (is_any_read(reader_.read(part, {true, false}))) {
      line.kind = LineKind::step;
      line.is_of_prep = true;
    } else {
      line.is_counted = base::is_digit(text.front()) && leading_number(text) && looks_like_a_name(text);
    }
  }

  /// `Sangria Jug (makes 1.5 l)`: what brackets say of the whole makes no step of a name.
  static std::string without_yield(const std::string& text) {
    auto open = text.rfind('(');
    if (open == std::string::npos || open == 0 || !text.ends_with(')') ||
        !is_title_case(text.substr(0, open)))
      return text;
    auto inside = base::fold_name(text.substr(open + 1));
    bool says_yield =
        inside.starts_with("makes ") || inside.starts_with("serves ") || inside.starts_with("keeps ");
    return says_yield ? std::string(base::trim(std::string_view(text).substr(0, open))) : text;
  }

  /// Only the first of the clauses is not read: it may be a name.
  static void find_name_before_parts(JudgedLine& line, const std::string& text,
                                     const std::vector<Phrase>& phrases) {
    auto clauses = clauses_of(text);
    bool rest_is_read =
        std::all_of(phrases.begin() + 1, phrases.end(), [](const Phrase& one) { return one.is_read(); });
    if (phrases.size() < 2 || phrases.front().is_read() || !rest_is_read || clauses.size() < 2 ||
        clauses.front() != phrases.front().written || !is_title_case(clauses.front()))
      return;
    line.may_head_with_parts = true;
    line.name = clauses.front();
    line.parts.assign(clauses.begin() + 1, clauses.end());
  }

  /// `Old Clay - 60 ml bourbon, 5 ml rich syrup, stir`: a name, and behind it a list with amounts.
  bool find_spec(JudgedLine& line) {
    const std::string& text = line.source.text;
    for (std::string_view sign : {": ", " - ", " – ", " — ", " = ", " (", ", ", " / ", " | "})
      if (auto at = text.find(sign); at != std::string::npos) {
        std::string rest = text.substr(at + sign.size());
        if (sign == " (" && rest.ends_with(")")) rest.pop_back();
        auto parts = parts_of(rest);
        if (parts.empty() || !is_spec_name(text.substr(0, at), sign)) continue;
        return take_spec(line, text.substr(0, at), std::move(parts));
      }
    return find_spec_before_number(line);
  }

  static bool take_spec(JudgedLine& line, std::string_view name, std::vector<std::string> parts) {
    line.kind = LineKind::spec;
    line.name = std::string(base::trim(name));
    line.parts = std::move(parts);
    return true;
  }

  /// What a spec on one line is made of: a list with amounts, and the sentences behind it. Below a heading of
  /// preps every list is one that says an amount or a step.
  std::vector<std::string> parts_of(const std::string& rest) {
    auto sentences = sentences_of(rest);
    if (sentences.empty()) return {};
    auto parts = reader_.parted(rest, {});
    if (!parts.empty()) return parts;
    parts = reader_.parted(sentences.front(), {in_preps_, false});
    if (parts.empty() && in_preps_) {
      auto listed = reader_.read({{sentences.front(), 0}, LabelRole::none, sentences.front()}, {true, false});
      bool says_amount = is_any(listed, PhraseKind::amount) || is_any_read(listed);
      if (says_amount) parts = clauses_of(sentences.front());
    }
    if (!parts.empty()) parts.insert(parts.end(), sentences.begin() + 1, sentences.end());
    return parts;
  }

  /// `Grenadine 500 ml pomegranate juice, 250 g sugar`: a name with nothing between it and its list.
  bool find_spec_before_number(JudgedLine& line) {
    const std::string& text = line.source.text;
    auto at = text.find_first_of("0123456789");
    auto comma = text.find_first_of(",;/");
    if (at == std::string::npos || at < 2 || text[at - 1] != ' ' || comma == std::string::npos || comma < at)
      return false;
    const std::string name = text.substr(0, at - 1), first = text.substr(0, comma),
                      behind = text.substr(at, comma - at);
    auto whole = reader_.read({{first, 0}, LabelRole::none, first}, {});
    auto amount = reader_.read({{behind, 0}, LabelRole::none, behind}, {});
    if (!is_title_case(name) || is_any_read(whole) || !is_any_read(amount) ||
        !is_any(amount, PhraseKind::amount) || !is_spec_name(name, " "))
      return false;
    auto parts = parts_of(text.substr(at));
    return !parts.empty() && take_spec(line, name, std::move(parts));
  }

  bool is_spec_name(const std::string& words, std::string_view sign) {
    if (words.empty() || leading_number(words) || !looks_like_a_name(words)) return false;
    if (section_of(words) != SectionKind::none) return false;
    // A thing in a list is no name; before a colon it is what the list makes: `Honey syrup: 500 g honey, …`.
    bool in_list = sign == ", " || sign == " / " || sign == " | ";
    bool holds_amount =
        std::any_of(words.begin(), words.end(), base::is_digit) || begins_with_verb(base::fold_name(words));
    if (in_list && (holds_amount || reader_.is_stock(base::fold_name(words)))) return false;
    auto phrases = reader_.read({{words, 0}, LabelRole::none, words}, {});
    return !is_any_read(phrases) && !is_any(phrases, PhraseKind::amount);
  }

  PhraseReader& reader_;
  /// The last heading spoke of what is made ahead.
  bool in_preps_ = false;
};

/// Shares the lines out among the specs.
class SpecGrouper {
 public:
  explicit SpecGrouper(std::vector<JudgedLine> lines) : lines_(std::move(lines)) {}

  std::vector<OldSpec> group() {
    for (std::size_t i = 0; i < lines_.size();) {
      const auto& line = lines_[i];
      if (is_lone_heading(i)) {
        add_heading(line);
        ++i;
      } else if (line.kind == LineKind::spec || heads_with_parts(i)) {
        begin_on_one_line(line);
        ++i;
      } else if (line.label.role == LabelRole::name && !line.label.rest.empty()) {
        begin({line.label.rest, line.source.number});
        is_below_preps_ = is_below_preps_ || base::fold_name(line.source.text).starts_with("prep");
        ++i;
      } else if (heads_spec(i)) {
        i = read_head(i);
      } else {
        add_part(line);
        ++i;
      }
    }
    finish();
    return std::move(specs_);
  }

 private:
  static bool is_words(const JudgedLine& line) {
    return line.kind == LineKind::words && line.label.role == LabelRole::none && !line.source.is_table_head;
  }
  bool begins_spec(std::size_t i) const {
    return i < lines_.size() && (lines_[i].kind == LineKind::spec || lines_[i].label.role == LabelRole::name);
  }
  bool is_amount(std::size_t i) const { return i < lines_.size() && lines_[i].kind == LineKind::amount; }

  /// Whether amounts follow before the next name can: behind notes, a glass or a label.
  bool leads_to_amounts(std::size_t i) const {
    constexpr std::size_t max_between = 6;
    for (std::size_t k = i + 1; k < lines_.size() && k <= i + max_between; ++k) {
      const auto& line = lines_[k];
      if (line.kind == LineKind::amount) return true;
      if (line.kind == LineKind::spec || line.label.role == LabelRole::name) return false;
    }
    return false;
  }

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
  /// (`STIRRED & BOOZY`, `SHAKEN, UP`, `Low ABV / Spritz`). An order (`Shake and strain`) or a glass alone
  /// may stand so as the last line of what is above.
  bool is_lone_heading(std::size_t i) const {
    const auto& line = lines_[i];
    const auto& text = line.source.text;
    if (!is_alone(i) && !is_capitals_above(i)) return false;
    if (line.label.role != LabelRole::none || line.source.is_table_head) return false;
    bool may_be_heading =
        line.kind != LineKind::amount && !line.is_only_served && !begins_with_verb(base::fold_name(text));
    bool looks_so = is_all_capitals(text) || (is_title_case(text) && (has_steps_after_ || specs_.empty()));
    return may_be_heading && looks_so && looks_like_a_name(without_signs(text)) && names_spec_at_once(i + 1);
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
    if (!is_title_case(line.source.text) || !looks_like_a_name(line.source.text)) return false;
    bool is_fresh = specs_.empty() || (line.source.after_blank && has_amounts_ && has_steps_after_);
    return is_fresh || (has_steps_after_ && is_amount(i + 2));
  }

  /// The same below the heading of a page, where a drink has yet to begin.
  bool is_named_below_blank(std::size_t i) const {
    const auto& line = lines_[i];
    return line.kind == LineKind::step && line.label.role == LabelRole::none && line.source.after_blank &&
           is_amount(i + 1) && is_title_case(line.source.text) && looks_like_a_name(line.source.text);
  }

  bool heads_with_parts(std::size_t i) const {
    const auto& line = lines_[i];
    bool is_fresh = specs_.empty() || line.source.after_blank || has_steps_after_;
    return line.may_head_with_parts && is_fresh && leads_to_amounts(i);
  }

  bool heads_spec(std::size_t i) const {
    const auto& line = lines_[i];
    const auto& text = line.source.text;
    if (line.label.role != LabelRole::none || line.source.is_table_head) return false;
    if (line.source.heading > 0 && line.kind != LineKind::amount) return true;
    if (is_section(i) || is_name_all_the_same(i)) return true;
    if (is_counted_thing(i) || is_note_above_blank(i)) return false;
    bool may_name = is_words(line) ||
                    (line.may_be_name && (specs_.empty() || has_steps_after_ || line.source.after_blank)) ||
                    (line.is_numbered && line.source.after_blank && has_steps_after_);
    if (!may_name) return false;
    if (specs_.empty()) return true;
    if (line.source.after_blank && has_parts())
      return leads_to_amounts(i) || (looks_like_a_name(text) && stands_above(i) && stretch_is_read(i));
    if (!has_amounts_ || !leads_to_amounts(i) || !is_last_name(i)) return false;
    return has_steps_after_ || (is_title_case(text) && !begins_with_verb(base::fold_name(text)));
  }

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
           (is_words(lines_[end]) || is_section(end) || lines_[end].source.heading > 0 ||
            ((lines_[end].may_be_name || is_named_below_blank(end)) && lines_[end].source.after_blank)) &&
           lines_[end].label.role == LabelRole::none && lines_[end].kind != LineKind::spec)
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
      begin({without_colon(lines_[i].source.text), lines_[i].source.number});
      while (++i < stretch)
        specs_.back().description.push_back({lines_[i].source.text, lines_[i].source.number});
    }
    return end;
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

  void begin(OldLine name) {
    finish();
    specs_.emplace_back();
    specs_.back().name = std::move(name);
    specs_.back().headings = std::move(headings_);
    headings_.clear();
    has_amounts_ = has_steps_after_ = is_of_prep_ = is_of_drink_ = false;
    is_below_preps_ = in_prep_section_;
  }

  void begin_on_one_line(const JudgedLine& line) {
    begin({line.name, line.source.number});
    for (const auto& part : line.parts)
      specs_.back().parts.push_back({{part, line.source.number}, LabelRole::none, part});
    has_amounts_ = has_steps_after_ = line.kind == LineKind::spec;
  }

  void add_part(const JudgedLine& line) {
    if (specs_.empty() && line.source.is_table_head) return add_heading(line);
    if (specs_.empty()) begin({"", line.source.number});
    auto& spec = specs_.back();
    const auto role = line.label.role;
    if (role == LabelRole::name) return;
    if (line.source.is_table_head) return spec.remarks.push_back({line.source.text, line.source.number});
    const std::string& words = role == LabelRole::none ? line.source.text : line.label.rest;
    if (line.kind == LineKind::amount) {
      has_amounts_ = true;
      has_steps_after_ = false;
    } else if (line.kind == LineKind::step && has_amounts_) {
      has_steps_after_ = true;
    }
    is_of_prep_ = is_of_prep_ || line.is_of_prep;
    is_of_drink_ = is_of_drink_ || line.is_of_drink;
    if (words.empty()) return;
    has_amounts_ = has_amounts_ || line.is_counted;
    if (spec.parts.empty() && is_words(line) && !line.is_counted)
      spec.description.push_back({words, line.source.number});
    else
      spec.parts.push_back({{words, line.source.number}, role, line.source.text});
  }

  /// What is known of a spec once all of it was seen.
  void finish() {
    if (specs_.empty()) return;
    auto& spec = specs_.back();
    bool is_named_so = names_a_prep(spec.name.text) || is_below_preps_;
    spec.is_prep = !is_of_drink_ && (is_of_prep_ || is_named_so);
  }

  std::vector<JudgedLine> lines_;
  std::vector<OldSpec> specs_;
  std::vector<OldLine> headings_;
  /// Of the last heading; of the heading above the open spec.
  bool in_prep_section_ = false, is_below_preps_ = false;
  /// Of the open spec: amounts were read; steps, a glass or a garnish behind the last of them.
  bool has_amounts_ = false, has_steps_after_ = false;
  bool is_of_prep_ = false, is_of_drink_ = false;
};

}  // namespace

std::vector<OldSpec> plain_specs(std::string_view text, PhraseReader& reader) {
  LineJudge judge(reader);
  std::vector<JudgedLine> lines;
  for (auto& line : source_lines(text)) lines.push_back(judge.judge(std::move(line)));
  return SpecGrouper(std::move(lines)).group();
}

}  // namespace gill::importer
