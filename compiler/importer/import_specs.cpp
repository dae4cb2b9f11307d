#include "importer/import_specs.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <set>

#include <nlohmann/json.hpp>

#include "base/text.h"
#include "costing/name_finder.h"
#include "costing/words.h"
#include "importer/ingredient_line.h"

namespace gill::importer {
namespace {

using Json = nlohmann::json;

/// A drink on its way in: what was written, in order.
struct Source {
  std::string name;
  std::vector<std::string> description, ingredients, instructions, authors, tags;
  /// Lines that belong to nothing else, and properties that Gill has no line for.
  std::vector<std::string> left_over;
  std::string glass;
  double serves = 1;
  /// Where it stands, for findings: lines of the ingredients, or 0.
  std::vector<std::size_t> ingredient_lines;
  std::size_t line = 0;
};

/// One line of Gill on its way out.
struct OutLine {
  std::string text;
  std::size_t source_line = 0;
  std::size_t drink = 0;
  bool is_header = false;
};

/// Words as a remark behind a comma, where they can stand there.
bool is_plain_remark(const std::string& words) {
  return !words.empty() && words.size() < 60 && std::all_of(words.begin(), words.end(), [](char c) {
    auto byte = static_cast<unsigned char>(c);
    return std::isalpha(byte) || byte >= 0x80 || c == ' ' || c == '-' || c == '\'';
  });
}

class Writer {
 public:
  Writer(const House& house, const std::string& file)
      : house_(house), finder_(house, symbols::NameSpace::stock) {
    add(fmt::format("# Brought in from {}. What could not be understood stands as a comment where it stood.",
                    one_line(file)),
        0);
    add("# An ounce is what the house says it is: 30 ml unless a house line reads `ounce us oz`.", 0);
  }

  void write(const Source& source);
  std::vector<OutLine>& lines() { return lines_; }
  std::vector<base::RowProblem>& findings() { return findings_; }

 private:
  void add(std::string text, std::size_t source_line, bool is_header = false) {
    lines_.push_back({std::move(text), source_line, drink_, is_header});
  }
  void keep(const std::string& text, std::size_t line, std::string why) {
    add("  # " + one_line(text), line);
    findings_.push_back({line, std::move(why)});
  }
  std::string unused_name(const std::string& name, std::size_t line);
  void ingredient(const std::string& text, std::size_t line);
  void method(const Source& source);
  std::string find_glass(const Source& source) const;

  const House& house_;
  NameFinder finder_;
  std::set<std::string> names_;
  std::vector<std::string> poured_;
  std::vector<OutLine> lines_;
  std::vector<base::RowProblem> findings_;
  std::size_t drink_ = 0;
};

std::string Writer::unused_name(const std::string& name, std::size_t line) {
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

void Writer::ingredient(const std::string& text, std::size_t line_number) {
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
std::string Writer::find_glass(const Source& source) const {
  std::string all = " " + base::fold_name(source.glass);
  for (const auto& step : source.instructions) all += " " + base::fold_name(step);
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

/// Method lines that the instructions surely mean; the instructions stand above as text, whole.
void Writer::method(const Source& source) {
  std::string all;
  for (const auto& step : source.instructions) all += " " + base::fold_name(step) + ".";
  std::replace_if(
      all.begin(), all.end(),
      [](char c) { return std::string_view(",:!()").find(c) != std::string_view::npos; }, ' ');
  std::replace(all.begin(), all.end(), ';', '.');
  auto says = [&](std::string_view words) { return all.find(words) != std::string::npos; };
  bool dry = says("dry shake") || says("shake without ice");
  bool shakes = says("shake ") || says("shake.") || says("shaken");
  if (says("muddle")) add("  muddle", source.line);
  if (dry)
    add("  dry shake" + seconds_after(all, says("dry shake") ? "dry shake" : "without ice"), source.line);
  std::string without_dry = all;
  if (auto at = without_dry.find("dry shake"); at != std::string::npos) without_dry.erase(at, 9);
  if (shakes && (!dry || without_dry.find("shake") != std::string::npos))
    add("  shake" + seconds_after(without_dry, "shake"), source.line);
  bool stirs = says("stir ") || says("stirred") || says("stir.");
  bool strains = says("strain");
  if (stirs && !shakes && strains) add("  stir" + seconds_after(all, "stir"), source.line);
  if (says("blend")) add("  blend", source.line);
  if (says("double strain") || says("double-strain") || says("fine strain") || says("fine-strain"))
    add("  double strain", source.line);
  else if (strains)
    add("  strain", source.line);
  else if (says("build") && !shakes)
    add("  build", source.line);
  for (const auto& pour : poured_) add(pour, source.line);
  std::size_t at = all.find("garnish");
  if (at == std::string::npos) return;
  std::size_t end = all.find_first_of(".;", at);
  std::string words = all.substr(at + 7, end - at - 7);
  for (std::string_view first : {" with ", ": ", " "})
    if (words.starts_with(first)) {
      words.erase(0, first.size());
      break;
    }
  for (std::string_view first : {"a ", "an ", "the "})
    if (words.starts_with(first)) words.erase(0, first.size());
  auto line = read_ingredient_line("1 " + words, house_);
  if (line && !line->name.empty())
    add("  garnish  " + line->name, source.line);
  else if (!base::trim(words).empty())
    keep("garnish " + words, source.line,
         fmt::format("The garnish `{}` is nothing that is declared.", one_line(words)));
}

void Writer::write(const Source& source) {
  ++drink_;
  poured_.clear();
  add("", 0);
  add("drink " + gill_name(unused_name(one_line(source.name), source.line)), source.line, true);
  auto text = [&](const std::string& words) {
    std::string line = one_line(words);
    add(line.empty() ? "  |" : "  | " + line, source.line);
  };
  for (const auto& words : source.description) text(words);
  if (!source.description.empty() && !source.instructions.empty()) text("");
  for (const auto& words : source.instructions) text(words);
  if (auto glass = find_glass(source); !glass.empty())
    add("  glass  " + glass, source.line);
  else if (!source.glass.empty())
    keep("glass: " + source.glass, source.line,
         fmt::format("No glass is called `{}`.", one_line(source.glass)));
  if (source.serves > 1) add(fmt::format("  serves  {}", static_cast<int>(source.serves)), source.line);
  for (const auto& author : source.authors)
    add("  author  \"" + base::join({one_line(author)}, "") + "\"", source.line);
  for (std::size_t i = 0; i < source.ingredients.size(); ++i)
    ingredient(source.ingredients[i],
               i < source.ingredient_lines.size() ? source.ingredient_lines[i] : source.line);
  std::size_t before = lines_.size();
  method(source);
  if (lines_.size() == before && !source.ingredients.empty())
    findings_.push_back(
        {source.line,
         fmt::format("No method could be read for `{}`; add `shake 12 s`, `double strain` and so on.",
                     one_line(source.name))});
  for (const auto& words : source.tags) add("  # keyword: " + one_line(words), source.line);
  for (const auto& words : source.left_over)
    keep(words, source.line,
         fmt::format("Kept as a comment in `{}`: {}", one_line(source.name), one_line(words)));
}

// ---- JSON-LD

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

/// Text out of HTML: entities as characters, tags as line ends.
std::string text_of_html(std::string_view html) {
  std::string text;
  for (std::size_t i = 0; i < html.size(); ++i) {
    if (html[i] == '<' && i + 1 < html.size() &&
        (std::isalpha(static_cast<unsigned char>(html[i + 1])) || html[i + 1] == '/')) {
      if (auto close = html.find('>', i); close != std::string_view::npos) {
        text += '\n';
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
std::vector<std::string> texts_of(const Json& value) {
  std::vector<std::string> texts;
  std::vector<const Json*> open = {&value};
  while (!open.empty()) {
    const Json* one = open.back();
    open.pop_back();
    if (one->is_string()) {
      texts.push_back(text_of_html(one->get<std::string>()));
    } else if (one->is_number()) {
      texts.push_back(one->dump());
    } else if (one->is_array()) {
      for (auto item = one->rbegin(); item != one->rend(); ++item) open.push_back(&*item);
    } else if (one->is_object()) {
      if (one->contains("itemListElement")) {
        open.push_back(&(*one)["itemListElement"]);
        if (one->contains("name")) open.push_back(&(*one)["name"]);
      } else if (one->contains("text")) {
        open.push_back(&(*one)["text"]);
      } else if (one->contains("name")) {
        open.push_back(&(*one)["name"]);
      } else {
        texts.push_back(one->dump(-1, ' ', false, Json::error_handler_t::replace));
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

/// How many it serves: the first number of `recipeYield`.
double serves_of(const std::vector<std::string>& yields) {
  for (const auto& text : yields)
    for (std::size_t i = 0; i < text.size(); ++i)
      if (std::isdigit(static_cast<unsigned char>(text[i]))) {
        double number = 0;
        for (; i < text.size() && std::isdigit(static_cast<unsigned char>(text[i])) && number < 10000; ++i)
          number = number * 10 + (text[i] - '0');
        return number;
      }
  return 1;
}

Source recipe_of(const Json& object) {
  Source source;
  for (const auto& [key, value] : object.items()) {
    auto texts = texts_of(value);
    if (key == "name") {
      source.name = base::join(texts, " ");
    } else if (key == "description") {
      source.description = split_lines(texts);
    } else if (key == "recipeIngredient" || key == "ingredients") {
      auto lines = split_lines(texts);
      source.ingredients.insert(source.ingredients.end(), lines.begin(), lines.end());
    } else if (key == "recipeInstructions") {
      source.instructions = split_lines(texts);
    } else if (key == "recipeYield") {
      source.serves = serves_of(texts);
      if (source.serves <= 1) {
        for (const auto& text : texts)
          if (text != "1") source.left_over.push_back("recipeYield: " + text);
      }
    } else if (key == "author") {
      source.authors = texts;
    } else if (key == "keywords") {
      source.tags = texts;
    } else if (key != "@type" && key != "@context") {
      source.left_over.push_back(key + ": " +
                                 (value.is_string()
                                      ? value.get<std::string>()
                                      : value.dump(-1, ' ', false, Json::error_handler_t::replace)));
    }
  }
  return source;
}

/// Every recipe in a JSON text, however it is wrapped.
void add_recipes(const Json& root, std::vector<Source>& sources) {
  std::vector<const Json*> open = {&root};
  while (!open.empty()) {
    const Json* one = open.back();
    open.pop_back();
    if (is_recipe(*one)) {
      sources.push_back(recipe_of(*one));
      continue;
    }
    if (!one->is_structured()) continue;
    for (auto item = one->rbegin(); item != one->rend(); ++item) open.push_back(&*item);
  }
}

/// The scripts of JSON-LD in a page.
std::vector<std::string> scripts_of(std::string_view html) {
  std::vector<std::string> scripts;
  std::string lower = base::lower_ascii(html);
  for (auto at = lower.find("<script"); at != std::string::npos; at = lower.find("<script", at + 1)) {
    auto close = lower.find('>', at), end = lower.find("</script", at);
    if (close == std::string::npos || end == std::string::npos || end < close) break;
    if (lower.substr(at, close - at).find("ld+json") != std::string::npos)
      scripts.emplace_back(html.substr(close + 1, end - close - 1));
  }
  return scripts;
}

// ---- plain lines

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

std::vector<Source> plain_sources(std::string_view text, const House& house) {
  std::vector<Source> sources;
  bool open = false, after_blank = true;
  std::size_t number = 0, at = 0;
  auto begin = [&](const std::string& name) {
    sources.emplace_back();
    sources.back().name = name;
    sources.back().line = number;
    open = true;
  };
  while (at < text.size()) {
    auto end = std::min(text.find('\n', at), text.size());
    std::string line = one_line(text.substr(at, end - at));
    at = end + 1;
    ++number;
    if (line.empty()) {
      after_blank = true;
      continue;
    }
    std::string folded = base::fold_name(line);
    bool has_parts = open && (!sources.back().ingredients.empty() || !sources.back().instructions.empty());
    auto labelled = [&](std::string_view label) {
      return folded.starts_with(label) ? one_line(line.substr(label.size())) : std::string();
    };
    if (auto glass = labelled("glass:"); open && !glass.empty()) {
      sources.back().glass = glass;
    } else if (begins_method(folded)) {
      if (!open) begin("");
      auto method = labelled("method:");
      sources.back().instructions.push_back(method.empty() ? line : method);
    } else if (auto read = read_ingredient_line(line, house);
               read && is_ingredient(*read, open && !after_blank)) {
      if (!open) begin("");
      for (const auto& part : parted(line, house)) {
        sources.back().ingredients.push_back(part);
        sources.back().ingredient_lines.push_back(number);
      }
    } else if (!open || (after_blank && has_parts)) {
      std::string name = line;
      while (!name.empty() && (name.front() == '#' || name.front() == '*' || name.front() == ' '))
        name.erase(0, 1);
      while (!name.empty() && (name.back() == ':' || name.back() == '*' || name.back() == ' '))
        name.pop_back();
      begin(name.empty() ? line : name);
    } else if (!has_parts) {
      sources.back().description.push_back(line);
    } else {
      sources.back().left_over.push_back(line);
    }
    after_blank = false;
  }
  return sources;
}

std::string joined(const std::vector<OutLine>& lines) {
  std::string text;
  for (const auto& line : lines) text += line.text + "\n";
  return text;
}

/// Reads the result back; a line in error becomes a comment, a drink whose header is in error whole.
void quiet_errors(Writer& writer, const CheckText& check) {
  auto& lines = writer.lines();
  for (int round = 0; round < 20; ++round) {
    auto errors = check(joined(lines));
    bool changed = false;
    for (const auto& error : errors) {
      if (error.line == 0 || error.line > lines.size()) continue;
      auto& line = lines[error.line - 1];
      auto quiet = [&](OutLine& one) {
        if (one.text.empty() || base::trim(one.text).starts_with("#")) return;
        one.text = "  # " + std::string(base::trim(one.text));
        changed = true;
      };
      if (line.is_header) {
        for (auto& one : lines)
          if (one.drink == line.drink) quiet(one);
      } else {
        quiet(line);
      }
      if (changed)
        writer.findings().push_back(
            {line.source_line, fmt::format("`{}` stands as a comment: {}",
                                           base::trim(std::string_view(line.text).substr(
                                               std::min<std::size_t>(4, line.text.size()))),
                                           error.message)});
    }
    if (!changed) return;
  }
}

}  // namespace

ImportedSpecs import_specs(std::string_view file_bytes, const std::string& file, const House& house,
                           const CheckText& check) {
  std::string decoded = base::to_utf8(file_bytes);
  std::string_view bytes = decoded;
  std::vector<Source> sources;
  std::vector<base::RowProblem> unreadable;
  auto begins = bytes.find_first_not_of(" \t\r\n");
  char first = begins == std::string_view::npos ? ' ' : bytes[begins];
  auto read_json = [&](std::string_view text) {
    Json root = Json::parse(text.begin(), text.end(), nullptr, false);
    if (root.is_discarded()) return false;
    add_recipes(root, sources);
    return true;
  };
  bool plain = false;
  if (first == '{' || first == '[') {
    if (!read_json(bytes))
      unreadable.push_back({1, "This begins like JSON and is none; it is kept as a comment, whole."});
  } else if (first == '<') {
    auto scripts = scripts_of(bytes);
    for (const auto& script : scripts)
      if (!read_json(script))
        unreadable.push_back({1, "A script of JSON-LD in the page is no JSON; it was left out."});
    if (sources.empty())
      unreadable.push_back(
          {1, "The page holds no schema.org `Recipe`; copy its lines into a plain text file."});
  } else {
    plain = true;
    sources = plain_sources(bytes, house);
  }
  Writer writer(house, file);
  for (const auto& source : sources) writer.write(source);
  if (sources.empty() && !plain) {
    if (unreadable.empty())
      unreadable.push_back({1, "There is no object of `@type` `Recipe` in it; it is kept as a comment."});
    std::size_t at = 0;
    while (at < bytes.size()) {
      auto end = std::min(bytes.find('\n', at), bytes.size());
      writer.lines().push_back({"# " + one_line(bytes.substr(at, end - at)), 0, 0, false});
      at = end + 1;
    }
  }
  quiet_errors(writer, check);
  ImportedSpecs result;
  result.text = joined(writer.lines());
  result.findings = std::move(unreadable);
  result.findings.insert(result.findings.end(), writer.findings().begin(), writer.findings().end());
  std::stable_sort(result.findings.begin(), result.findings.end(),
                   [](const base::RowProblem& a, const base::RowProblem& b) { return a.line < b.line; });
  result.drinks = sources.size();
  return result;
}

}  // namespace gill::importer
