#include "importer/spec_writer.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/characters.h"
#include "base/text.h"
#include "costing/words.h"
#include "importer/list_marks.h"
#include "importer/listed_tops.h"
#include "importer/spec_labels.h"
#include "importer/words_kept.h"

namespace gill::importer {

using costing::gill_name;
using costing::one_line;

namespace {

bool is_step(const Phrase& phrase) { return phrase.kind == PhraseKind::step && phrase.is_read(); }

bool is_poured_amount(const Phrase& phrase) { return phrase.kind == PhraseKind::amount || phrase.is_bare; }

/// Whether a keyword says what the label said, or nothing needs to.
bool is_label_said(const OldPart& part, const std::vector<Phrase>& phrases) {
  auto begins = [&](std::string_view keyword) {
    return std::any_of(phrases.begin(), phrases.end(),
                       [&](const Phrase& one) { return one.gill.starts_with(std::string(keyword) + " "); });
  };
  switch (part.role) {
    case LabelRole::none:
    // Only a label of JSON-LD's own, beside which words may stand: `4 servings`.
    case LabelRole::serves:
    case LabelRole::place:
    case LabelRole::remark:
      return false;
    case LabelRole::name:
    case LabelRole::method:
    case LabelRole::amounts:
      return true;
    case LabelRole::glass:
      return begins("glass");
    case LabelRole::ice:
      return begins("ice");
    case LabelRole::garnish:
      return begins("garnish");
    case LabelRole::rim:
      return begins("rim");
    case LabelRole::makes:
      return begins("makes");
    case LabelRole::keeps:
      return begins("keeps");
  }
  return false;
}

template <typename Parts, typename Test>
bool any_phrase(const Parts& parts, Test test) {
  return std::any_of(parts.begin(), parts.end(), [&](const auto& part) {
    return std::any_of(part.phrases.begin(), part.phrases.end(), test);
  });
}

/// `Autumn Punch for 12`: where the words behind a bowl begin that say for how many it is; nowhere in `Table
/// for 4`, which is a name.
std::size_t guests_of_bowl_at(const std::string& name) {
  static constexpr auto bowls = std::to_array<std::string_view>(
      {"bowl", "punch", "bowle", "pitcher", "jug", "carafe", "batch", "sharer", "bottle", "keg"});
  if (auto at = name.rfind(" serves "); at != std::string::npos && at > 0 && serves_of(name.substr(at + 1)))
    return at;
  auto at = name.rfind(" for ");
  if (at == std::string::npos || !serves_of(name.substr(at + 1))) return std::string::npos;
  // Behind a dash they are read as any other words there.
  if (at == 0 || std::string_view("-–—").find(name[at - 1]) != std::string_view::npos)
    return std::string::npos;
  const auto words = base::folded_words(name.substr(0, at));
  const bool is_bowl = !words.empty() && std::find(bowls.begin(), bowls.end(), words.back()) != bowls.end();
  return is_bowl ? at : std::string::npos;
}

bool holds_digit(const std::string& words) { return std::any_of(words.begin(), words.end(), base::is_digit); }

}  // namespace

SpecWriter::SpecWriter(PhraseReader& reader, const std::string& file) : reader_(reader) {
  lines_.push_back(line(
      fmt::format("# Brought in from {}. What could not be understood stands as a comment where it stood.",
                  one_line(file)),
      0));
  lines_.push_back(
      line("# An ounce is what the house says it is: 30 ml unless a house line reads `ounce us oz`.", 0));
}

void SpecWriter::write_comment(std::string_view words) {
  lines_.push_back({"# " + one_line(words), 0, 0, false, {}});
}

std::string SpecWriter::unused_name(const OldLine& name) {
  std::string given = one_line(name.text), wanted = given.empty() ? "Unnamed" : given, unused = wanted;
  for (int i = 2; !names_.insert(base::fold_name(unused)).second; ++i)
    unused = fmt::format("{} ({})", wanted, i);
  if (given.empty())
    tell(name.line, "A spec without a name is called `" + unused + "` here.");
  else if (unused != wanted)
    tell(name.line, fmt::format("A second spec is called `{}`; it is `{}` here.", wanted, unused));
  return unused;
}

void SpecWriter::write_head(const OldSpec& spec) {
  lines_.push_back(line("", 0));
  for (const auto& heading : spec.headings)
    lines_.push_back(line("# " + one_line(heading.text), heading.line));
  lines_.push_back(
      line((spec.is_prep ? "prep " : "drink ") + gill_name(unused_name(spec.name)), spec.name.line, true));
  auto text = [&](const OldLine& words) {
    std::string one = one_line(words.text);
    lines_.push_back(line(one.empty() ? "  |" : "  | " + one, words.line));
  };
  for (const auto& words : spec.description) {
    text(words);
    if (spec.told_steps.empty() && holds_digit(words.text))
      tell(words.line, fmt::format("`{}` stands as the text of `{}`; no amount was read of it.",
                                   one_line(words.text), one_line(spec.name.text)));
  }
  if (!spec.description.empty() && !spec.told_steps.empty()) text({"", spec.name.line});
  for (const auto& words : spec.told_steps) text(words);
  for (const auto& author : spec.authors) {
    std::string name = one_line(author.text);
    std::replace(name.begin(), name.end(), '"', '\'');
    lines_.push_back(line("  author  \"" + name + "\"", author.line));
  }
}

std::vector<SpecWriter::ReadPart> SpecWriter::read_parts(const OldSpec& spec) {
  std::vector<ReadPart> parts;
  PhrasePlace place{spec.is_prep, false};
  auto add = [&](const OldPart& part, bool is_told) {
    parts.push_back({part, reader_.read(part, place), is_told});
    const auto& phrases = parts.back().phrases;
    place.after_steps = place.after_steps || std::any_of(phrases.begin(), phrases.end(), is_step);
  };
  for (const auto& part : spec.parts) add(part, false);
  for (const auto& words : spec.told_steps)
    add({{without_step_number(words.text), words.line}, LabelRole::none, words.text}, true);
  std::vector<std::vector<Phrase>*> lines;
  for (auto& part : parts) lines.push_back(&part.phrases);
  pour_listed_tops(lines, reader_);
  std::erase_if(parts, [](const ReadPart& part) { return part.phrases.empty(); });
  return in_order_of_work(std::move(parts));
}

/// A method above what goes in is done to it.
std::vector<SpecWriter::ReadPart> SpecWriter::in_order_of_work(std::vector<ReadPart> parts) {
  auto has_amount = [](const ReadPart& part) {
    return std::any_of(part.phrases.begin(), part.phrases.end(), is_poured_amount);
  };
  auto has_step = [](const ReadPart& part) {
    return std::any_of(part.phrases.begin(), part.phrases.end(), is_step);
  };
  auto first_amount = std::find_if(parts.begin(), parts.end(), has_amount);
  if (std::none_of(first_amount, parts.end(), has_step))
    std::stable_partition(parts.begin(), parts.end(), has_amount);
  return parts;
}

/// `Towpath Punch (serves 10)`, `House Punch -- for 20`: what the name says of its lines stands among them.
OldSpec SpecWriter::with_line_of_name(OldSpec spec) {
  auto& name = spec.name.text;
  if (auto at = guests_of_bowl_at(name); at != std::string::npos && !spec.is_prep) {
    const std::string words = name.substr(at + 1);
    spec.parts.push_back({{std::to_string(*serves_of(words)), spec.name.line}, LabelRole::serves, words});
    name.resize(at);
    return spec;
  }
  auto at = words_of_whole_at(name);
  if (at == std::string::npos) return spec;
  const std::string words = words_of_whole(name);
  auto serves = serves_of(words);
  OldPart part{{words, spec.name.line}, LabelRole::none, words};
  if (serves && !spec.is_prep) part = {{std::to_string(*serves), spec.name.line}, LabelRole::serves, words};
  spec.parts.push_back(std::move(part));
  name = std::string(base::trim(std::string_view(name).substr(0, at)));
  return spec;
}

void SpecWriter::write(const OldSpec& written) {
  ++drink_;
  const OldSpec spec = with_line_of_name(written);
  write_head(spec);
  auto parts = read_parts(spec);
  // What tops a drink stands behind its steps, wherever the list names it.
  auto last_step = std::find_if(parts.rbegin(), parts.rend(), [](const ReadPart& part) {
    return std::any_of(part.phrases.begin(), part.phrases.end(), is_step);
  });
  for (auto part = parts.begin(); part != parts.end(); ++part) {
    pours_wait_ = part < last_step.base();
    write_part(*part);
  }
  write_glass_state();
  ask_for_size(spec, parts);
  keep_one_glass();
  flush();
  tell_what_is_missing(spec, parts);
  write_left_over(spec);
}

void SpecWriter::write_part(const ReadPart& part) {
  const auto& phrases = part.phrases;
  auto read = std::count_if(phrases.begin(), phrases.end(), [](const Phrase& one) { return one.is_read(); });
  const std::size_t body_begin = body_.size();
  bool is_whole = read == static_cast<std::ptrdiff_t>(phrases.size());
  // A line that was read in part stands above what was read of it.
  if (!is_whole && !part.is_told)
    body_.push_back(line("  # " + one_line(part.part.written), part.part.what.line));
  for (const auto& phrase : phrases) write_phrase(phrase, part);
  if (is_whole && !part.is_told) keep_lost_words(part, body_begin);
  tell_unread(part);
}

void SpecWriter::write_phrase(const Phrase& phrase, const ReadPart& part) {
  const std::size_t at = part.part.what.line;
  if (phrase.is_bare) bare_numbers_.insert(at);
  if (phrase.kind == PhraseKind::served) {
    if (!part.is_told) body_.push_back(line("  # " + base::fold_name(phrase.written), at));
    return;
  }
  if (!phrase.is_read()) return;
  if (phrase.kind == PhraseKind::glass_state) {
    glass_states_.emplace_back(phrase, at);
    return;
  }
  lines_for(phrase).push_back(line("  " + phrase.gill, at));
  if (!phrase.asks.empty()) lines_for(phrase).back().answered = "  " + phrase.answered;
  for (const auto& word : phrase.asks) asked_[word].insert(at);
}

SpecWriter::Lines& SpecWriter::lines_for(const Phrase& phrase) {
  if (phrase.kind == PhraseKind::glass) return glasses_;
  if (phrase.kind == PhraseKind::garnish) return garnishes_;
  bool waits = phrase.kind == PhraseKind::pour && pours_wait_ && phrase.gill.starts_with("top");
  return waits ? pours_ : body_;
}

/// Behind the one line that came of it, or above the several, stands the source where a word would be lost.
void SpecWriter::keep_lost_words(const ReadPart& part, std::size_t body_begin) {
  std::string written = is_label_said(part.part, part.phrases) ? part.part.what.text : part.part.written, all;
  for (const auto& phrase : part.phrases)
    all += " " + phrase.gill + (phrase.gill.empty() ? phrase.written : "");
  const auto kind = part.phrases.front().kind;
  if (part.phrases.size() == 1 && kind != PhraseKind::glass_state && kind != PhraseKind::served) {
    if (!keeps_all_words(written, all))
      lines_for(part.phrases.front()).back().text += "    # " + one_line(written);
    return;
  }
  if (!keeps_all_words(written, all))
    body_.insert(body_.begin() + static_cast<std::ptrdiff_t>(body_begin),
                 line("  # " + one_line(written), part.part.what.line));
}

void SpecWriter::tell_unread(const ReadPart& part) {
  const std::size_t at = part.part.what.line;
  if (!part.part.doubt.empty()) tell(at, part.part.doubt);
  bool none_read = std::none_of(part.phrases.begin(), part.phrases.end(), [](const Phrase& one) {
    return one.is_read() || one.kind == PhraseKind::amount;
  });
  if (none_read && part.phrases.size() > 1)
    return tell(at, fmt::format("`{}` is nothing that could be read.", one_line(part.part.written)));
  for (const auto& phrase : part.phrases)
    if (!phrase.doubt.empty()) tell(at, phrase.doubt);
}

void SpecWriter::write_glass_state() {
  for (const auto& [state, at] : glass_states_) {
    if (glasses_.empty()) {
      body_.push_back(line("  # " + one_line(state.written), at));
      tell(at, fmt::format("`{}`, and the spec names no glass; write `glass coupe, {}`, say.",
                           one_line(state.written), state.gill));
      continue;
    }
    auto& glass = glasses_.front().text;
    if (glass.find(state.gill) == std::string::npos)
      glass.insert(std::min(glass.find("    #"), glass.size()), ", " + state.gill);
    if (!keeps_all_words(state.written, glass)) glass += "    # " + one_line(state.written);
  }
  glass_states_.clear();
}

/// Parts fill a size, and a spec in parts rarely says which.
void SpecWriter::ask_for_size(const OldSpec& spec, const std::vector<ReadPart>& parts) {
  bool is_of_parts = any_phrase(parts, [](const Phrase& one) { return one.is_of_parts; });
  bool has_size = any_phrase(parts, [](const Phrase& one) { return one.gill.starts_with("size "); });
  if (!is_of_parts || has_size) return;
  const std::string name = one_line(spec.name.text);
  body_.insert(body_.begin(),
               line("  # in parts: a line with the size of the drink is missing, `size 90 ml`, say", 0));
  body_.front().answered = "  size 90 ml";
  tell(spec.name.line,
       fmt::format("`{}` is in parts, and nothing says how much they make together: add a line "
                   "below its name, `size 90 ml`, say.",
                   name));
}

/// A drink has one glass: the first stays, the others are told.
void SpecWriter::keep_one_glass() {
  for (std::size_t i = 1; i < glasses_.size(); ++i) {
    auto& other = glasses_[i];
    if (other.text == glasses_.front().text) continue;
    const auto words = base::collapse_space(other.text), first = base::collapse_space(glasses_.front().text);
    tell(other.source_line, fmt::format("A second glass stands here, `{}` beside `{}`: keep the one that the "
                                        "drink is served in.",
                                        words, first));
    other.text = "  # " + words;
  }
}

void SpecWriter::flush() {
  for (Lines* lines : {&glasses_, &body_, &pours_, &garnishes_}) {
    lines_.insert(lines_.end(), lines->begin(), lines->end());
    lines->clear();
  }
}

void SpecWriter::tell_what_is_missing(const OldSpec& spec, const std::vector<ReadPart>& parts) {
  const std::string name = one_line(spec.name.text);
  if (!any_phrase(parts, [](const Phrase& one) { return is_poured_amount(one) || is_step(one); }))
    return tell(spec.name.line, fmt::format("Nothing that goes into `{}` could be read.", name));
  bool is_made = any_phrase(parts, [](const Phrase& one) {
    return is_step(one) || one.kind == PhraseKind::pour || one.kind == PhraseKind::garnish;
  });
  if (!is_made)
    tell(spec.name.line,
         fmt::format("No method could be read for `{}`; add `shake 12 s`, `double strain` and so on.", name));
}

void SpecWriter::write_left_over(const OldSpec& spec) {
  for (const auto& words : spec.tags)
    lines_.push_back(line("  # keyword: " + one_line(words.text), words.line));
  for (const auto& words : spec.remarks) lines_.push_back(line("  # " + one_line(words.text), words.line));
  for (const auto& words : spec.left_over) {
    lines_.push_back(line("  # " + one_line(words.text), words.line));
    tell(words.line, fmt::format("Gill has no line for `{}`; it stands as a comment.", one_line(words.text)));
  }
}

std::string SpecWriter::text() const {
  std::string text;
  for (const auto& line : lines_) text += line.text + "\n";
  return text;
}

/// As it reads once every question is answered.
std::string SpecWriter::answered_text() const {
  std::string text;
  for (const auto& line : lines_) text += (line.answered.empty() ? line.text : line.answered) + "\n";
  return text;
}

bool SpecWriter::comment_out(OutLine& line) {
  line.answered.clear();
  if (line.text.empty() || base::trim(line.text).starts_with("#")) return false;
  line.text = "  # " + std::string(base::trim(line.text));
  return true;
}

void SpecWriter::comment_out_errors(const CheckText& check) {
  constexpr int max_rounds = 20;
  bool changed = true;
  for (int round = 0; round < max_rounds && changed; ++round) {
    changed = false;
    for (const auto& error : check(answered_text())) {
      if (error.line == 0 || error.line > lines_.size()) continue;
      auto& line = lines_[error.line - 1];
      bool is_new = false;
      for (auto& other : lines_)
        if (&other == &line || (line.is_header && other.drink == line.drink))
          is_new = comment_out(other) || is_new;
      if (!is_new) continue;
      changed = true;
      auto words = base::trim(std::string_view(line.text).substr(std::min<std::size_t>(4, line.text.size())));
      tell(line.source_line, fmt::format("`{}` stands as a comment: {}", words, error.message));
    }
  }
}

}  // namespace gill::importer
