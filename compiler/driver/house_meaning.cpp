#include "driver/house_meaning.h"

#include <algorithm>

#include "base/text.h"
#include "diff/changes.h"
#include "render/facts/facts_json.h"

namespace gill::driver {

using symbols::DeclarationKind;

namespace {

std::string key_of(std::string_view kind, std::string_view name) {
  return std::string(kind) + " " + base::fold_name(name);
}

/// The lines of a text, without their ends.
template <typename Function>
void each_line_of(std::string_view text, Function function) {
  while (!text.empty()) {
    auto end = std::min(text.find('\n'), text.size());
    function(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
}

/// A message without the words that it repeats from the line, and without white space: `60ml` and `60 ml` are
/// told alike.
std::string told(std::string_view message) {
  std::string text;
  bool is_quoted = false;
  for (char c : message) {
    if (c == '`')
      is_quoted = !is_quoted;
    else if (!is_quoted && c != ' ')
      text += c;
  }
  return text;
}

std::size_t first_house_file(const Compilation& house) { return house.files.size() - house.house_file_count; }

/// The declaration in which a byte of a house's file stands; nothing before the first one.
std::optional<DeclarationPlace> place_of(const Compilation& house, const source::Span& span) {
  auto written = house.sources.written(span);
  if (!written.file_id.valid() || written.file_id.index() < first_house_file(house) ||
      written.file_id.index() >= house.files.size())
    return std::nullopt;
  const auto& file = house.files[written.file_id.index()];
  auto above = std::upper_bound(file.declarations.begin(), file.declarations.end(), written.begin,
                                [&](std::uint32_t at, const syntax::Declaration& declaration) {
                                  return at < file.lines[declaration.header].begin;
                                });
  if (above == file.declarations.begin()) return std::nullopt;
  return DeclarationPlace{written.file_id.index() - first_house_file(house),
                          static_cast<std::size_t>(above - file.declarations.begin()) - 1};
}

std::optional<DeclarationPlace> place_of(const Compilation& house, const symbols::Declaration& declaration) {
  if (declaration.from_library) return std::nullopt;
  return DeclarationPlace{declaration.file_index - first_house_file(house), declaration.declaration_index};
}

}  // namespace

HouseMeaning::HouseMeaning(const Compilation& house) : house_(house) {
  for (std::size_t i = 0; i < house.names.size(); ++i) {
    const auto& declaration = house.names[symbols::DeclarationId::at(i)];
    if (auto place = place_of(house, declaration))
      places_.emplace(key_of(symbols::keyword_of(declaration.kind), declaration.name), *place);
  }
  add_typed();
  add_facts();
  add_findings();
}

std::string& HouseMeaning::of(Meanings& meanings, const std::string& kind, const std::string& name) {
  auto found = places_.find(key_of(kind, name));
  return found == places_.end() ? elsewhere_ : meanings[found->second];
}

/// `drink NAME` begins a declaration of the dump; what it says is indented.
void HouseMeaning::add_typed() {
  std::string* meaning = &elsewhere_;
  each_line_of(analysis::dump(house_.specs, house_.units), [&](std::string_view line) {
    if (auto space = line.find(' '); !line.starts_with(' ') && space != std::string_view::npos) {
      std::string name(line.substr(space + 1)), kind(line.substr(0, space));
      // A menu's days stand behind its name.
      if (kind == "menu") name = name.substr(0, name.rfind(' '));
      meaning = &of(said_, kind, name);
    }
    meaning->append(line) += '\n';
  });
}

/// The facts as they are printed, one declaration after the other: without what was written, and where.
void HouseMeaning::add_facts() {
  std::string section, *meaning = &elsewhere_;
  auto json =
      render::facts_json({house_.specs, house_.facts, house_.units, house_.names, house_.sources, {}});
  each_line_of(json, [&](std::string_view line) {
    constexpr std::string_view name_key = "      \"name\": \"";
    // `drinks` are each a drink.
    if (line.starts_with("  \"") && line.ends_with("[")) section = line.substr(3, line.rfind('"') - 4);
    if (line.starts_with(name_key)) {
      auto name = line.substr(name_key.size(), line.rfind('"') - name_key.size());
      meaning = &of(following_, section, std::string(name));
    }
    auto inner = base::trim(line);
    if (!inner.starts_with("\"as_written\":") && !inner.starts_with("\"line\":"))
      meaning->append(inner) += '\n';
    if (line.starts_with("    }")) meaning = &elsewhere_;
  });
}

void HouseMeaning::add_findings() {
  std::map<std::optional<DeclarationPlace>, std::vector<std::string>> by_place;
  for (const auto* findings : {&house_.findings, &house_.suppressed})
    for (const auto& finding : *findings) {
      auto place = finding.subject != diagnostics::no_subject
                       ? place_of(house_, house_.names[symbols::DeclarationId{finding.subject}])
                       : place_of(house_, finding.span);
      by_place[place].push_back(std::string(diagnostics::info(finding.rule).name) + " " + finding.drink +
                                " " + told(finding.message) +
                                (findings == &house_.suppressed ? " quiet\n" : "\n"));
    }
  for (auto& [place, texts] : by_place) {
    std::sort(texts.begin(), texts.end());
    auto& meaning = place ? following_[*place] : elsewhere_;
    for (const auto& text : texts) meaning += text;
  }
}

void HouseMeaning::add_changes(const HouseMeaning& other, MeaningDifference& difference) const {
  auto changes = diff::compare({"", house_.specs, house_.facts, house_.units},
                               {"", other.house_.specs, other.house_.facts, other.house_.units});
  auto add = [&](std::string_view kind, const std::string& name) {
    auto found = places_.find(key_of(kind, name));
    if (found == places_.end())
      difference.elsewhere = true;
    else
      difference.declarations.insert(found->second);
  };
  auto add_all = [&](std::string_view kind, const std::vector<diff::Change>& list) {
    for (const auto& change : list)
      if (change.is_own) add(kind, change.name);
  };
  add_all("drink", changes.drinks);
  add_all("prep", changes.preps);
  add_all("ingredient", changes.ingredients);
  add_all("glass", changes.glasses);
  add_all("ice", changes.ices);
  add_all("family", changes.families);
  for (const auto& change : changes.menus) add("menu", change.name);
  for (const auto& line : changes.house_lines) {
    bool is_unit = line.name.starts_with("unit ");
    add(is_unit ? "unit" : "house", is_unit ? line.name.substr(5) : house_.specs.house.head.name);
  }
}

void HouseMeaning::add_differences(const Meanings& a, const Meanings& b, MeaningDifference& difference) {
  auto add_from = [&](const Meanings& one, const Meanings& other) {
    for (const auto& [place, meaning] : one) {
      auto found = other.find(place);
      if (found == other.end() || found->second != meaning) difference.declarations.insert(place);
    }
  };
  add_from(a, b);
  add_from(b, a);
}

MeaningDifference HouseMeaning::difference(const HouseMeaning& other) const {
  MeaningDifference difference;
  add_differences(said_, other.said_, difference);
  add_changes(other, difference);
  if (difference.declarations.empty()) add_differences(following_, other.following_, difference);
  difference.elsewhere = difference.elsewhere || elsewhere_ != other.elsewhere_;
  return difference;
}

bool mean_the_same(const HouseFiles& a, const HouseFiles& b) {
  auto one = compile_for_findings(a), other = compile_for_findings(b);
  for (std::size_t i = 0; i < one->files.size() && i < other->files.size(); ++i)
    if (one->files[i].declarations.size() != other->files[i].declarations.size()) return false;
  if (one->files.size() != other->files.size()) return false;
  return !HouseMeaning(*one).difference(HouseMeaning(*other)).any();
}

}  // namespace gill::driver
