#include "importer/spec_writer.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "importer/ingredient_line.h"

namespace gill::importer {
namespace {

/// Words as a remark behind a comma, where they can stand there.
bool is_plain_remark(const std::string& words) {
  return !words.empty() && words.size() < 60 && std::all_of(words.begin(), words.end(), [](char c) {
    auto byte = static_cast<unsigned char>(c);
    return std::isalpha(byte) || byte >= 0x80 || c == ' ' || c == '-' || c == '\'';
  });
}

/// `  12 s` where a number of seconds stands in the same sentence after the verb, else nothing.
std::string seconds_after(const std::string& all, std::string_view verb) {
  auto at = all.find(verb);
  if (at == std::string::npos) return {};
  auto end = std::min(all.find('.', at), all.size());
  at = std::min(all.find_first_of("0123456789", at), end);
  auto last = std::min(all.find_first_not_of("0123456789", at), end);
  auto unit = base::trim(std::string_view(all).substr(last, end - last));
  bool seconds = unit == "s" || unit.starts_with("s ") || unit.starts_with("sec");
  return at < last && last - at <= 3 && seconds ? "  " + all.substr(at, last - at) + " s" : std::string();
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
  for (const auto& step : spec.instructions) all += " " + base::fold_name(step);
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

/// Method lines that the instructions surely mean; the instructions stand above as text, whole.
void SpecWriter::method(const OldSpec& spec) {
  std::string all;
  for (const auto& step : spec.instructions) all += " " + base::fold_name(step) + ".";
  std::replace_if(
      all.begin(), all.end(),
      [](char c) { return std::string_view(",:!()").find(c) != std::string_view::npos; }, ' ');
  std::replace(all.begin(), all.end(), ';', '.');
  auto says = [&](std::string_view words) { return all.find(words) != std::string::npos; };
  bool dry = says("dry shake") || says("shake without ice");
  bool shakes = says("shake ") || says("shake.") || says("shaken");
  if (says("muddle")) add("  muddle", spec.line);
  if (dry)
    add("  dry shake" + seconds_after(all, says("dry shake") ? "dry shake" : "without ice"), spec.line);
  std::string without_dry = all;
  if (auto at = without_dry.find("dry shake"); at != std::string::npos) without_dry.erase(at, 9);
  if (shakes && (!dry || without_dry.find("shake") != std::string::npos))
    add("  shake" + seconds_after(without_dry, "shake"), spec.line);
  bool stirs = says("stir ") || says("stirred") || says("stir.");
  bool strains = says("strain");
  if (stirs && !shakes && strains) add("  stir" + seconds_after(all, "stir"), spec.line);
  if (says("blend")) add("  blend", spec.line);
  if (says("double strain") || says("double-strain") || says("fine strain") || says("fine-strain"))
    add("  double strain", spec.line);
  else if (strains)
    add("  strain", spec.line);
  else if (says("build") && !shakes)
    add("  build", spec.line);
  for (const auto& pour : poured_) add(pour, spec.line);
  if (auto at = all.find("garnish"); at != std::string::npos) {
    at += std::string_view("garnish").size();
    garnish(all.substr(at, all.find_first_of(".;", at) - at), spec.line);
  }
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
  add("drink " + gill_name(unused_name(one_line(spec.name), spec.line)), spec.line, true);
  auto text = [&](const std::string& words) {
    std::string line = one_line(words);
    add(line.empty() ? "  |" : "  | " + line, spec.line);
  };
  for (const auto& words : spec.description) text(words);
  if (!spec.description.empty() && !spec.instructions.empty()) text("");
  for (const auto& words : spec.instructions) text(words);
  if (auto glass = find_glass(spec); !glass.empty())
    add("  glass  " + glass, spec.line);
  else if (!spec.glass.empty())
    keep("glass: " + spec.glass, spec.line, fmt::format("No glass is called `{}`.", one_line(spec.glass)));
  if (spec.serves > 1) add(fmt::format("  serves  {}", static_cast<int>(spec.serves)), spec.line);
  for (const auto& author : spec.authors)
    add("  author  \"" + base::join({one_line(author)}, "") + "\"", spec.line);
  for (std::size_t i = 0; i < spec.ingredients.size(); ++i)
    ingredient(spec.ingredients[i], i < spec.ingredient_lines.size() ? spec.ingredient_lines[i] : spec.line);
  std::size_t before = lines_.size();
  method(spec);
  if (lines_.size() == before && !spec.ingredients.empty())
    findings_.push_back(
        {spec.line,
         fmt::format("No method could be read for `{}`; add `shake 12 s`, `double strain` and so on.",
                     one_line(spec.name))});
  for (const auto& words : spec.tags) add("  # keyword: " + one_line(words), spec.line);
  for (const auto& words : spec.left_over)
    keep(words, spec.line,
         fmt::format("Kept as a comment in `{}`: {}", one_line(spec.name), one_line(words)));
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
