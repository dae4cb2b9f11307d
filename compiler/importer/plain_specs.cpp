#include "importer/plain_specs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "base/text.h"
#include "costing/words.h"
#include "importer/ingredient_line.h"
#include "importer/method_clauses.h"

namespace gill::importer {

using costing::House;
using costing::one_line;

namespace {

bool begins_method(const std::string& folded) {
  return begins_with_verb(folded) || folded.starts_with("method:") || folded.starts_with("method ");
}

/// A name: short, and no sentence.
bool looks_like_a_name(const std::string& line) {
  constexpr std::ptrdiff_t max_words = 6;
  return std::string_view(".!,;").find(line.back()) == std::string_view::npos &&
         std::count(line.begin(), line.end(), ' ') < max_words;
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

/// A heading without the marks and the number that people put before it.
std::string name_in(const std::string& line) {
  std::string name = line;
  auto digits = name.find_first_not_of("0123456789");
  if (digits != std::string::npos && digits > 0 && digits <= 3 &&
      (name[digits] == '.' || name[digits] == ')') && digits + 1 < name.size() && name[digits + 1] == ' ')
    name.erase(0, digits + 2);
  while (!name.empty() && (name.front() == '#' || name.front() == '*' || name.front() == ' '))
    name.erase(0, 1);
  while (!name.empty() && (name.back() == ':' || name.back() == '*' || name.back() == ' ')) name.pop_back();
  return name.empty() ? line : name;
}

/// Reads plain lines one by one; each belongs to the drink that is open.
class PlainReader {
 public:
  PlainReader(const House& house, std::string_view numbers) : house_(house), numbers_(numbers) {}

  /// Lines whose number has no unit, and which are poured.
  const std::vector<std::size_t>& bare_numbers() const { return bare_numbers_; }

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

  /// With the unit that all bare numbers of the file mean.
  std::string with_unit(const std::string& line) {
    auto number = leading_number(line);
    auto read = number ? read_ingredient_line(line, house_) : std::nullopt;
    if (!read || !read->unit.empty() || !read->verb.empty() || !is_poured(*read, number->gill)) return line;
    bare_numbers_.push_back(number_);
    if (numbers_.empty()) return line;
    return fmt::format("{} {} {}", number->gill, numbers_,
                       base::trim(std::string_view(line).substr(number->bytes)));
  }

  /// Of what is poured a number is a measure, of what is counted it is not: five and more where they are
  /// millilitres.
  bool is_poured(const IngredientLine& line, const std::string& number) const {
    constexpr double min_ml = 5;
    if (numbers_ != "oz" && std::strtod(number.c_str(), nullptr) < min_ml) return false;
    auto last_word = line.written_name.substr(line.written_name.rfind(' ') + 1);
    if (auto unit = house_.units.find(last_word); unit.valid()) return false;
    auto id = house_.names.find(symbols::NameSpace::stock, line.name);
    if (line.name.empty() || !id.valid()) return !line.written_name.empty();
    const auto& stock = house_.specs.stock[house_.specs.index_of[id.index()]];
    return stock.effective_form() == analysis::Form::liquid || !stock.gives.empty();
  }

  void add(std::string line) {
    line = with_unit(line);
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
      open_spec().instruction_lines.push_back(number_);
    } else if (auto read = read_ingredient_line(line, house_);
               read && is_ingredient(*read, is_open && !after_blank_)) {
      add_ingredients(line);
    } else if (!is_open || (after_blank_ && has_parts)) {
      begin(name_in(line));
    } else if (after_blank_ && !has_parts && specs_.back().description.empty() && looks_like_a_name(line)) {
      // A name under a name: the first one heads the page.
      specs_.back().headings.push_back(specs_.back().name);
      specs_.back().name = name_in(line);
      specs_.back().line = number_;
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
  std::string_view numbers_;
  std::vector<std::size_t> bare_numbers_;
  std::vector<OldSpec> specs_;
  bool after_blank_ = true;
  std::size_t number_ = 0;
};

}  // namespace

PlainSpecs plain_specs(std::string_view text, const House& house, std::string_view numbers) {
  PlainReader reader(house, numbers);
  auto specs = reader.read(text);
  return {std::move(specs), reader.bare_numbers()};
}

}  // namespace gill::importer
