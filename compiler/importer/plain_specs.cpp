#include "importer/plain_specs.h"

#include <algorithm>

#include "base/text.h"
#include "costing/words.h"
#include "importer/ingredient_line.h"

namespace gill::importer {

using costing::House;
using costing::one_line;

namespace {

bool begins_method(const std::string& folded) {
  for (std::string_view verb :
       {"shake",  "stir",    "strain",  "double strain", "fine strain", "dry shake", "muddle", "build",
        "blend",  "garnish", "combine", "pour",          "add",         "swizzle",   "serve",  "mix",
        "method", "rim",     "whip",    "dump",          "float",       "fill",      "put"})
    if (folded.starts_with(verb) &&
        (folded.size() == verb.size() || !std::isalpha(static_cast<unsigned char>(folded[verb.size()]))))
      return true;
  return false;
}

/// A line of several ingredients parted by commas, where each of them reads as one.
std::vector<std::string> parted(const std::string& line, const House& house) {
  std::vector<std::string> parts;
  std::size_t at = 0;
  while (at <= line.size()) {
    auto end = std::min(line.find(", ", at), line.size());
    parts.emplace_back(base::trim(std::string_view(line).substr(at, end - at)));
    at = end + 2;
  }
  if (parts.size() < 2) return {line};
  for (const auto& part : parts) {
    auto read = read_ingredient_line(part, house);
    if (!read || read->number.empty()) return {line};
  }
  return parts;
}

/// A known name, or an amount; a bare number beside an unknown name counts among ingredients alone, since
/// names hold numbers, too.
bool is_ingredient(const IngredientLine& line, bool among_ingredients) {
  return !line.name.empty() || (!line.number.empty() && (!line.unit.empty() || among_ingredients));
}

/// A heading without the marks that people put around it.
std::string name_in(const std::string& line) {
  std::string name = line;
  while (!name.empty() && (name.front() == '#' || name.front() == '*' || name.front() == ' '))
    name.erase(0, 1);
  while (!name.empty() && (name.back() == ':' || name.back() == '*' || name.back() == ' ')) name.pop_back();
  return name.empty() ? line : name;
}

/// Reads plain lines one by one; each belongs to the drink that is open.
class PlainReader {
 public:
  explicit PlainReader(const House& house) : house_(house) {}

  std::vector<OldSpec> read(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
      auto end = std::min(text.find('\n', at), text.size());
      std::string line = one_line(text.substr(at, end - at));
      at = end + 1;
      ++number_;
      if (!line.empty()) add(line);
      after_blank_ = line.empty();
    }
    return std::move(specs_);
  }

 private:
  void begin(std::string name) {
    specs_.emplace_back();
    specs_.back().name = std::move(name);
    specs_.back().line = number_;
  }
  OldSpec& open_spec() {
    if (specs_.empty()) begin("");
    return specs_.back();
  }

  void add(const std::string& line) {
    std::string folded = base::fold_name(line);
    bool is_open = !specs_.empty();
    bool has_parts = is_open && (!specs_.back().ingredients.empty() || !specs_.back().instructions.empty());
    auto labelled = [&](std::string_view label) {
      return folded.starts_with(label) ? one_line(line.substr(label.size())) : std::string();
    };
    if (auto glass = labelled("glass:"); is_open && !glass.empty()) {
      specs_.back().glass = glass;
    } else if (begins_method(folded)) {
      auto method = labelled("method:");
      open_spec().instructions.push_back(method.empty() ? line : method);
    } else if (auto read = read_ingredient_line(line, house_);
               read && is_ingredient(*read, is_open && !after_blank_)) {
      add_ingredients(line);
    } else if (!is_open || (after_blank_ && has_parts)) {
      begin(name_in(line));
    } else if (!has_parts) {
      specs_.back().description.push_back(line);
    } else {
      specs_.back().left_over.push_back(line);
    }
  }

  void add_ingredients(const std::string& line) {
    auto& spec = open_spec();
    for (const auto& part : parted(line, house_)) {
      spec.ingredients.push_back(part);
      spec.ingredient_lines.push_back(number_);
    }
  }

  const House& house_;
  std::vector<OldSpec> specs_;
  bool after_blank_ = true;
  std::size_t number_ = 0;
};

}  // namespace

std::vector<OldSpec> plain_specs(std::string_view text, const House& house) {
  return PlainReader(house).read(text);
}

}  // namespace gill::importer
