#include "importer/spec_writer.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "importer/ingredient_line.h"
#include "importer/method_clauses.h"

namespace gill::importer {
namespace {

/// Words as a remark behind a comma, where they can stand there.
bool is_plain_remark(const std::string& words) {
  return !words.empty() && words.size() < 60 && std::all_of(words.begin(), words.end(), [](char c) {
    auto byte = static_cast<unsigned char>(c);
    return std::isalpha(byte) || byte >= 0x80 || c == ' ' || c == '-' || c == '\'';
  });
}

/// What its name says is made ahead, and no glass is named for it.
bool is_prep(const OldSpec& spec) {
  std::string name = " " + base::fold_name(spec.name) + " ";
  static constexpr std::string_view words[] = {
      "syrup",  "cordial", "shrub",   "infusion", "infused", "tincture",  "brine",
      "saline", "oleo",    "sherbet", "falernum", "orgeat",  "grenadine", "puree",
      "purée",  "washed",  "stock",   "mix",      "premix",  "solution",  "foam"};
  return spec.glass.empty() && std::any_of(std::begin(words), std::end(words), [&](std::string_view word) {
           return name.find(" " + std::string(word) + " ") != std::string::npos ||
                  name.find("-" + std::string(word) + " ") != std::string::npos;
         });
}

}  // namespace

SpecWriter::SpecWriter(const House& house, const std::string& file)
    : house_(house), finder_(house, symbols::NameSpace::stock) {
  add(fmt::format("# Brought in from {}. What could not be understood stands as a comment where it stood.",
                  one_line(file)),
      0);
  add("# An ounce is what the house says it is: 30 ml unless a house line reads `ounce us oz`.", 0);
}

std::string SpecWriter::unused_name(const std::string& name, std::size_t line) {
  std::string wanted = name.empty() ? "Unnamed" : name;
  std::string unused = wanted;
  for (int i = 2; !names_.insert(base::fold_name(unused)).second; ++i)
    unused = fmt::format("{} ({})", wanted, i);
  if (name.empty())
    findings_.push_back({line, "A spec without a name is called `" + unused + "` here."});
  else if (unused != wanted)
    findings_.push_back(
        {line, fmt::format("A second spec is called `{}`; it is `{}` here.", wanted, unused)});
  return unused;
}

void SpecWriter::ingredient(const std::string& text, std::size_t line_number) {
  auto line = read_ingredient_line(text, house_);
  if (!line) {
    keep(text, line_number,
         fmt::format("`{}` has no amount that could be read; write it as `30 ml NAME`.", one_line(text)));
    return;
  }
  if (line->name.empty()) {
    keep(text, line_number, finder_.unmatched(one_line(line->written_name), "ingredient or prep"));
    return;
  }
  std::string written = line->verb.empty()
                            ? line->number + (line->unit.empty() ? "" : " " + line->unit) + "  " + line->name
                            : "";
  if (!line->verb.empty()) {
    poured_.push_back("  " + line->verb + "  " + line->name);
    add("  # " + one_line(text) + ": see the method", line_number);
    return;
  }
  if (!line->substitute.empty()) written += ", or " + line->substitute;
  if (line->is_optional) written += ", optional";
  bool remark = is_plain_remark(line->remark) && !house_.units.find(line->remark).valid();
  if (remark && line->remark != "chilled") written += ", " + line->remark;
  // What was put in other words keeps the old ones beside it.
  auto squeezed = [](std::string words) {
    words = base::fold_name(words);
    std::erase_if(words, [](char c) { return c == ' ' || c == ',' || c == '.'; });
    return words;
  };
  if (squeezed(written) != squeezed(one_line(text))) written += "    # " + one_line(text);
  add("  " + written, line_number);
}

/// The glass whose name stands in the instructions, the longest first.
std::string SpecWriter::find_glass(const OldSpec& spec) const {
  std::string all = " " + base::fold_name(spec.glass);
  for (const auto* lines : {&spec.instructions, &spec.left_over})
    for (const auto& words : *lines) all += " " + base::fold_name(words);
  for (char& c : all)
    if (std::string_view(",.;:()").find(c) != std::string_view::npos) c = ' ';
  all += " ";
  std::string best;
  for (auto id : house_.names.in_order()) {
    const auto& declaration = house_.names[id];
    if (declaration.kind != symbols::DeclarationKind::glass) continue;
    auto consider = [&](const std::string& name) {
      if (all.find(" " + base::fold_name(name) + " ") != std::string::npos &&
          declaration.name.size() > best.size())
        best = declaration.name;
    };
    consider(declaration.name);
    for (const auto& alias : declaration.aliases) consider(alias.name);
  }
  return best;
}

/// Each step as it was written, in its order: the language reads the trade's words itself, and what it does
/// not read becomes a comment.
void SpecWriter::method(const OldSpec& spec, const std::string& glass) {
  std::vector<std::pair<std::string, std::size_t>> garnishes;
  for (std::size_t i = 0; i < spec.instructions.size(); ++i) {
    std::size_t line = i < spec.instruction_lines.size() ? spec.instruction_lines[i] : spec.line;
    // What is put in other words keeps the old ones beside it.
    if (is_reworded(spec.instructions[i])) add("  # " + one_line(spec.instructions[i]), line);
    for (const auto& clause : clauses_of(spec.instructions[i])) {
      if (base::fold_name(clause).starts_with("garnish"))
        garnishes.emplace_back(clause.substr(std::string_view("garnish").size()), line);
      else
        step(clause, line, glass);
    }
  }
  for (const auto& pour : poured_) add(pour, spec.line);
  for (const auto& [words, line] : garnishes) garnish(words, line);
}

void SpecWriter::step(const std::string& clause, std::size_t line, const std::string& glass) {
  std::string folded = base::fold_name(clause);
  std::string place = folded;
  for (std::string_view before : {"serve ", "served ", "in ", "into ", "a ", "an "})
    if (place.starts_with(before)) place.erase(0, before.size());
  // The glass has a line of its own.
  auto id = house_.names.find(symbols::NameSpace::glass,
                              place.ends_with(" glass") ? place.substr(0, place.size() - 6) : place);
  if (!glass.empty() && id.valid() && house_.names[id].name == glass) {
    if (folded.find(base::fold_name(glass)) == std::string::npos) add("  # " + one_line(clause), line);
    return;
  }
  if (!begins_with_verb(folded))
    return keep(clause, line, fmt::format("`{}` is no step that could be read.", one_line(clause)));
  std::string written = one_line(clause);
  if (written[0] >= 'A' && written[0] <= 'Z') written[0] = static_cast<char>(written[0] - 'A' + 'a');
  add("  " + written, line);
}

void SpecWriter::garnish(const std::string& written, std::size_t line_number) {
  std::string words = written;
  for (std::string_view first : {" with ", ": ", " "})
    if (words.starts_with(first)) {
      words.erase(0, first.size());
      break;
    }
  for (std::string_view first : {"a ", "an ", "the "})
    if (words.starts_with(first)) words.erase(0, first.size());
  auto line = read_ingredient_line("1 " + words, house_);
  if (line && !line->name.empty())
    add("  garnish  " + line->name, line_number);
  else if (!base::trim(words).empty())
    keep("garnish " + words, line_number,
         fmt::format("The garnish `{}` is nothing that is declared.", one_line(words)));
}

void SpecWriter::write(const OldSpec& spec) {
  ++drink_;
  poured_.clear();
  add("", 0);
  for (const auto& heading : spec.headings) add("# " + one_line(heading), spec.line);
  add((is_prep(spec) ? "prep " : "drink ") + gill_name(unused_name(one_line(spec.name), spec.line)),
      spec.line, true);
  auto text = [&](const std::string& words) {
    std::string line = one_line(words);
    add(line.empty() ? "  |" : "  | " + line, spec.line);
  };
  for (const auto& words : spec.description) text(words);
  if (spec.instruction_lines.empty()) {
    if (!spec.description.empty() && !spec.instructions.empty()) text("");
    for (const auto& words : spec.instructions) text(words);
  }
  const auto glass = find_glass(spec);
  if (!glass.empty())
    add("  glass  " + glass, spec.line);
  else if (!spec.glass.empty())
    keep("glass: " + spec.glass, spec.line, fmt::format("No glass is called `{}`.", one_line(spec.glass)));
  if (spec.serves > 1) add(fmt::format("  serves  {}", static_cast<int>(spec.serves)), spec.line);
  for (const auto& author : spec.authors)
    add("  author  \"" + base::join({one_line(author)}, "") + "\"", spec.line);
  for (std::size_t i = 0; i < spec.ingredients.size(); ++i)
    ingredient(spec.ingredients[i], i < spec.ingredient_lines.size() ? spec.ingredient_lines[i] : spec.line);
  std::size_t before = lines_.size();
  method(spec, glass);
  if (lines_.size() == before && !spec.ingredients.empty())
    findings_.push_back(
        {spec.line,
         fmt::format("No method could be read for `{}`; add `shake 12 s`, `double strain` and so on.",
                     one_line(spec.name))});
  for (const auto& words : spec.tags) add("  # keyword: " + one_line(words), spec.line);
  for (const auto& words : spec.left_over)
    for (const auto& clause : clauses_of(words)) {
      auto last_word = clause.substr(clause.rfind(' ') + 1);
      auto unit = house_.units.find(base::fold_name(last_word));
      if (unit.valid() && house_.units[unit].is_item_word && clause != last_word)
        garnish(" " + base::fold_name(clause), spec.line);
      else
        step(clause, spec.line, glass);
    }
}

std::string SpecWriter::text() const {
  std::string text;
  for (const auto& line : lines_) text += line.text + "\n";
  return text;
}

bool SpecWriter::comment_out(OutLine& line) {
  if (line.text.empty() || base::trim(line.text).starts_with("#")) return false;
  line.text = "  # " + std::string(base::trim(line.text));
  return true;
}

void SpecWriter::comment_out_errors(const CheckText& check) {
  constexpr int max_rounds = 20;
  bool changed = true;
  for (int round = 0; round < max_rounds && changed; ++round) {
    changed = false;
    for (const auto& error : check(text())) {
      if (error.line == 0 || error.line > lines_.size()) continue;
      auto& line = lines_[error.line - 1];
      for (auto& other : lines_)
        if (&other == &line || (line.is_header && other.drink == line.drink))
          changed = comment_out(other) || changed;
      if (!changed) continue;
      auto words = base::trim(std::string_view(line.text).substr(std::min<std::size_t>(4, line.text.size())));
      findings_.push_back(
          {line.source_line, fmt::format("`{}` stands as a comment: {}", words, error.message)});
    }
  }
}

}  // namespace gill::importer
