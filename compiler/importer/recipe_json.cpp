#include "importer/recipe_json.h"

#include <algorithm>
#include <array>
#include <charconv>

#include <nlohmann/json.hpp>

#include "base/characters.h"
#include "base/csv_reader.h"
#include "base/text.h"
#include "costing/words.h"
#include "importer/spec_labels.h"

namespace gill::importer {

using costing::one_line;

namespace {

using Json = nlohmann::json;

/// What an entity of HTML stands for, without its `&` and `;`: those that recipes hold (HTML Living Standard,
/// named character references, from memory) and numbers; empty for any other.
std::string character_of(std::string_view entity) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 24> named = {
      {{"amp", "&"},    {"lt", "<"},     {"gt", ">"},     {"quot", "\""},  {"apos", "'"},   {"nbsp", " "},
       {"frac12", "½"}, {"frac14", "¼"}, {"frac34", "¾"}, {"frasl", "/"},  {"deg", "°"},    {"eacute", "é"},
       {"egrave", "è"}, {"aacute", "á"}, {"agrave", "à"}, {"ntilde", "ñ"}, {"ccedil", "ç"}, {"uuml", "ü"},
       {"ouml", "ö"},   {"auml", "ä"},   {"rsquo", "’"},  {"lsquo", "‘"},  {"ndash", "–"},  {"mdash", "—"}}};
  for (auto [name, character] : named)
    if (entity == name) return std::string(character);
  if (entity.size() < 2 || entity.front() != '#') return {};
  bool hexadecimal = entity[1] == 'x' || entity[1] == 'X';
  auto digits = entity.substr(hexadecimal ? 2 : 1);
  unsigned code = 0;
  auto [end, error] =
      std::from_chars(digits.data(), digits.data() + digits.size(), code, hexadecimal ? 16 : 10);
  if (error != std::errc() || end != digits.data() + digits.size() || code < 0x20 || code > 0x10FFFF ||
      (code >= 0xD800 && code < 0xE000))
    return {};
  std::string character;
  base::append_utf8(character, code);
  return character;
}

/// True for a tag that stands within a line: what it marks goes on with the words around it.
bool is_inline(std::string_view tag) {
  static constexpr std::array<std::string_view, 17> inline_tags = {
      "b",   "strong", "em",   "i",    "u",    "s",    "a",    "span", "small",
      "sub", "sup",    "mark", "font", "abbr", "cite", "code", "q"};
  if (tag.starts_with('/')) tag.remove_prefix(1);
  std::size_t end = 0;
  while (end < tag.size() && std::isalnum(static_cast<unsigned char>(tag[end]))) ++end;
  std::string name = base::lower_ascii(tag.substr(0, end));
  return std::find(inline_tags.begin(), inline_tags.end(), name) != inline_tags.end();
}

/// Text out of HTML: entities as characters, tags that end a line as line ends, the others gone.
std::string text_of_html(std::string_view html) {
  std::string text;
  for (std::size_t i = 0; i < html.size(); ++i) {
    if (html[i] == '<' && i + 1 < html.size() &&
        (std::isalpha(static_cast<unsigned char>(html[i + 1])) || html[i + 1] == '/')) {
      if (auto close = html.find('>', i); close != std::string_view::npos) {
        if (!is_inline(html.substr(i + 1, close - i - 1))) text += '\n';
        i = close;
        continue;
      }
    }
    if (html[i] == '&') {
      auto end = html.substr(i, 12).find(';');
      auto character =
          end == std::string_view::npos ? std::string() : character_of(html.substr(i + 1, end - 1));
      if (!character.empty()) {
        text += character;
        i += end;
        continue;
      }
    }
    text += html[i];
  }
  return text;
}

/// Text, or the text of an object's `text` or `name`, of each in a list; sections are opened, without
/// recursion.
std::vector<std::string> texts_of(const Json& root) {
  std::vector<std::string> texts;
  std::vector<const Json*> open = {&root};
  while (!open.empty()) {
    const Json* value = open.back();
    open.pop_back();
    if (value->is_string()) {
      texts.push_back(text_of_html(value->get<std::string>()));
    } else if (value->is_number()) {
      texts.push_back(value->dump());
    } else if (value->is_array()) {
      for (auto item = value->rbegin(); item != value->rend(); ++item) open.push_back(&*item);
    } else if (value->is_object()) {
      if (value->contains("itemListElement")) {
        open.push_back(&(*value)["itemListElement"]);
        if (value->contains("name")) open.push_back(&(*value)["name"]);
      } else if (value->contains("text")) {
        open.push_back(&(*value)["text"]);
      } else if (value->contains("name")) {
        open.push_back(&(*value)["name"]);
      } else {
        texts.push_back(value->dump(-1, ' ', false, Json::error_handler_t::replace));
      }
    }
  }
  return texts;
}

/// Steps told in one text: a line or a sentence each.
std::vector<std::string> split_lines(const std::vector<std::string>& texts) {
  std::vector<std::string> lines;
  for (const auto& text : texts) {
    std::size_t at = 0;
    while (at <= text.size()) {
      auto end = std::min(text.find('\n', at), text.size());
      std::string line = one_line(text.substr(at, end - at));
      if (!line.empty()) lines.push_back(line);
      at = end + 1;
    }
  }
  return lines;
}

bool is_recipe(const Json& object) {
  if (!object.is_object() || !object.contains("@type")) return false;
  auto names_recipe = [](const Json& type) {
    if (!type.is_string()) return false;
    auto name = type.get<std::string>();
    return name == "Recipe" || name.ends_with("schema.org/Recipe") || name == "schema:Recipe";
  };
  const auto& type = object["@type"];
  return names_recipe(type) || (type.is_array() && std::any_of(type.begin(), type.end(), names_recipe));
}

/// Finds the lines of strings in the text that they were read from.
class LineFinder {
 public:
  LineFinder(std::string_view json, std::size_t first_line) : json_(json), first_line_(first_line) {}

  /// The line of a string's next place in the text; that of the last one found where it is written otherwise
  /// there (an escape).
  std::size_t line_of(const Json& value) {
    if (value.is_string()) {
      auto written = value.dump(-1, ' ', false, Json::error_handler_t::replace);
      if (auto at = json_.find(written, from_); at != std::string_view::npos) {
        line_ = first_line_ + static_cast<std::size_t>(std::count(
                                  json_.begin(), json_.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
        from_ = at + written.size();
      }
    }
    return line_;
  }
  std::size_t place() const { return from_; }
  void go_back_to(std::size_t place) { from_ = place; }

 private:
  std::string_view json_;
  std::size_t first_line_, from_ = 0, line_ = first_line_;
};

/// The lines of a text, a step or a list of them, with where each stands.
std::vector<OldLine> lines_with_places(const Json& value, LineFinder& finder) {
  std::vector<OldLine> lines;
  const auto place = finder.place();
  auto add = [&](const Json& one) {
    std::size_t line = finder.line_of(one.is_object() && one.contains("text") ? one["text"] : one);
    for (auto& text : split_lines(texts_of(one))) lines.push_back({std::move(text), line});
  };
  if (value.is_array())
    for (const auto& one : value) add(one);
  else
    add(value);
  finder.go_back_to(place);
  return lines;
}

/// What it makes or how many it serves; of one drink nothing needs to be said.
void take_yield(const std::vector<OldLine>& yields, OldSpec& spec) {
  bool is_taken = false;
  for (const auto& yield : yields) {
    auto serves = serves_of(yield.text);
    if (is_taken)
      spec.remarks.push_back({"recipeYield: " + yield.text, yield.line});
    else if (!serves)
      spec.parts.push_back({yield, LabelRole::makes, yield.text});
    else if (*serves > 1)
      spec.parts.push_back({{std::to_string(*serves), yield.line}, LabelRole::serves, yield.text});
    else if (yield.text != "1")
      spec.remarks.push_back({"recipeYield: " + yield.text, yield.line});
    is_taken = is_taken || !serves || *serves > 1;
  }
}

/// Takes one property; those that Gill has no line for are left over.
void take_property(const std::string& key, const Json& value, LineFinder& finder, OldSpec& spec) {
  auto append = [&](std::vector<OldLine>& lines) {
    auto found = lines_with_places(value, finder);
    lines.insert(lines.end(), found.begin(), found.end());
  };
  if (key == "name") {
    spec.name.text = base::join(texts_of(value), " ");
  } else if (key == "description") {
    append(spec.description);
  } else if (key == "recipeIngredient" || key == "ingredients") {
    for (auto& line : lines_with_places(value, finder)) {
      std::string written = line.text;
      spec.parts.push_back({std::move(line), LabelRole::none, std::move(written)});
    }
  } else if (key == "recipeInstructions") {
    append(spec.told_steps);
  } else if (key == "recipeYield") {
    take_yield(lines_with_places(value, finder), spec);
  } else if (key == "author") {
    append(spec.authors);
  } else if (key == "keywords") {
    append(spec.tags);
  } else if (key != "@type" && key != "@context") {
    if (key == "recipeCategory") spec.categories = lines_with_places(value, finder);
    const auto place = finder.place();
    std::string words = value.is_string() ? text_of_html(value.get<std::string>())
                                          : value.dump(-1, ' ', false, Json::error_handler_t::replace);
    spec.left_over.push_back({key + ": " + words, finder.line_of(value)});
    finder.go_back_to(place);
  }
}

OldSpec recipe_of(const Json& object, LineFinder& finder) {
  OldSpec spec;
  spec.name.line = object.contains("name") ? finder.line_of(object["name"]) : finder.line_of(Json());
  for (const auto& [key, value] : object.items()) take_property(key, value, finder, spec);
  return spec;
}

void add_recipes(const Json& root, LineFinder& finder, std::vector<OldSpec>& specs) {
  std::vector<const Json*> open = {&root};
  while (!open.empty()) {
    const Json* value = open.back();
    open.pop_back();
    if (is_recipe(*value)) {
      specs.push_back(recipe_of(*value, finder));
      continue;
    }
    if (!value->is_structured()) continue;
    for (auto item = value->rbegin(); item != value->rend(); ++item) open.push_back(&*item);
  }
}

}  // namespace

bool read_recipes(std::string_view json, std::vector<OldSpec>& specs, std::size_t first_line) {
  Json root = Json::parse(json.begin(), json.end(), nullptr, false);
  if (root.is_discarded()) return false;
  LineFinder finder(json, first_line);
  add_recipes(root, finder, specs);
  return true;
}

std::vector<PageScript> json_scripts_of(std::string_view html) {
  std::vector<PageScript> scripts;
  std::string lower = base::lower_ascii(html);
  for (auto at = lower.find("<script"); at != std::string::npos; at = lower.find("<script", at + 1)) {
    auto close = lower.find('>', at), end = lower.find("</script", at);
    if (close == std::string::npos || end == std::string::npos || end < close) break;
    if (lower.substr(at, close - at).find("ld+json") != std::string::npos)
      scripts.push_back({std::string(html.substr(close + 1, end - close - 1)),
                         1 + static_cast<std::size_t>(std::count(
                                 html.begin(), html.begin() + static_cast<std::ptrdiff_t>(close), '\n'))});
  }
  return scripts;
}

}  // namespace gill::importer
