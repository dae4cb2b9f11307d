#pragma once
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/line_parts.h"
#include "analysis/read_recipe.h"
#include "analysis/trade_forms.h"
#include "base/any_of.h"
#include "base/text.h"

namespace gill::analysis {

/// One property line's reader: the cursor stands after the keyword. `first` is true for the first line of
/// this keyword in the declaration: what `like` brought is replaced then.
template <typename Target>
struct PropertyReader {
  std::string_view keyword;
  void (*read)(LineReader& reader, Target& target, bool first);
};

/// Reads the lines of one declaration onto a target that may hold what `like` brought.
class DeclarationReader {
 public:
  /// `is_variation`: it starts from another by `like`.
  DeclarationReader(const Context& context, const syntax::File& file, const syntax::Declaration& declaration,
                    Head& head, bool is_variation)
      : context_(context), file_(file), declaration_(declaration), head_(head), is_variation_(is_variation) {
    head_.text = syntax::joined_text(context_.sources[file_.file_id], file_, declaration_.text_lines);
    // The lines below the mark are its own, in two versions.
    if (syntax::is_cut_by_merge(context_.sources[file_.file_id], file_, declaration_))
      head_.has_errors = head_.has_build_errors = head_.has_amount_errors = true;
  }

  /// Calls `line(reader, text)` for every body line that is neither bad nor `allow`, with the text lines
  /// below it.
  template <typename LineFunction>
  void each_line(LineFunction line) {
    for (const auto& body : declaration_.body) {
      if (file_.lines[body.line].kind == syntax::LineKind::bad) {
        // The line may have held an amount: what it was cannot be known.
        head_.has_errors = head_.has_build_errors = head_.has_amount_errors = true;
        continue;
      }
      syntax::LineView view(context_.sources[file_.file_id], file_, body.line);
      LineReader reader(view, context_);
      std::string text = syntax::joined_text(context_.sources[file_.file_id], file_, body.text_lines);
      if (!read_allow(reader) && !reader.failed()) line(reader, text);
      note_errors(reader);
    }
  }

  /// The same for a recipe: each line as the trade's forms read it, by `line(reader, text, implied)`. The
  /// table's own properties are left as they are.
  template <typename Target, typename LineFunction>
  void each_recipe_line(TradeForms& forms, const std::vector<PropertyReader<Target>>& properties,
                        LineFunction line) {
    each_line([&](LineReader& reader, const std::string& text) {
      const auto& written = reader.line();
      bool is_property = !match_verb(written, 0) && find_property(written, properties).first;
      // `without garnish`, `without ice, shake` change nothing where no `like` brings any.
      bool changes_nothing =
          written.is_word(1, "garnish") || written.is_word(1, "ice") || written.is_word(1, "straining");
      bool is_without = written.is_word(0, "without") && (is_variation_ || !changes_nothing);
      bool changes_another = written.is_word(0, "swap") || is_without ||
                             (written.is_word(0, "method") && written.kind(1) != syntax::TokenKind::colon);
      // `glass coupe, sesame rim` holds a step behind its comma.
      bool may_be_read =
          written.is_word(0, "keeps") || (written.is_word(0, "makes") && written.size() > 3) ||
          (written.is_word(0, "method") && written.size() > 2) ||
          (written.is_word(0, "serves") && written.size() > 1 &&
           (written.size() > 2 || written.kind(1) != syntax::TokenKind::number)) ||
          ((written.is_word(0, "glass") || written.is_word(0, "ice")) &&
           (holds_comma(written) || written.text(written.size() - 1).ends_with('.') ||
            written.text(written.size() - 1).ends_with(')'))) ||
          (written.is_word(0, "ice") &&
           (written.is_word(1, "first") || written.is_word(1, "goes") || written.is_word(1, "last"))) ||
          (written.is_word(0, "ice") && written.size() == 1) ||
          (written.is_word(0, "ice") && (written.is_word(1, "in") || written.is_word(1, "to") ||
                                         written.is_word(1, "full") || written.is_word(1, "up"))) ||
          (written.size() > 2 && is_dash(written.text(1))) || is_weighed_sugar(written);
      if ((is_property && !may_be_read) || changes_another) {
        forms.note(written);
        return line(reader, text, Implied::no);
      }
      bool first = true;
      auto read_as = forms.read(written);
      note_reading(written, read_as);
      for (const auto& read : read_as) {
        LineReader part(read.view, context_);
        std::size_t found = context_.sink.all().size();
        line(part, first ? text : std::string(), read.implied);
        note_errors(part);
        widen_mends(found, read.view, written);
        first = false;
      }
    });
  }

  /// Notes that a line is refused, and whether the build hangs on it: what is only laid on, said or kept does
  /// not.
  void note_errors(const LineReader& reader) {
    if (!reader.is_wrong()) return;
    static constexpr std::string_view aside[] = {
        "garnish", "side",   "do",     "station", "tag",    "guest", "was",    "author",
        "since",   "tasted", "status", "caution", "colour", "color", "source", "aka",
        "expect",  "allow",  "right",  "buy",     "keeps",  "par",   "takes",  "bottle"};
    head_.has_errors = true;
    bool is_aside = false;
    for (auto word : aside) is_aside = is_aside || reader.line().is_word(0, word);
    head_.has_build_errors = head_.has_build_errors || !is_aside;
  }

  /// `sugar 800 g` in a prep is an amount with its weight last; measured, sugar is a share.
  bool is_weighed_sugar(const syntax::LineView& line) const {
    if (!line.is_word(0, "sugar") || line.kind(1) != syntax::TokenKind::number) return false;
    auto unit = context_.units.match(line, 2);
    std::size_t stop = 2 + unit.tokens;
    return unit.unit.valid() &&
           (stop == line.size() || line.kind(stop) == syntax::TokenKind::comma ||
            line.is_word(stop, "and")) &&
           context_.units[unit.unit].kind == units::Kind::mass;
  }

  /// Reads the line by the table when its keyword is there; false when it is not.
  template <typename Target>
  bool read_property(LineReader& reader, const std::vector<PropertyReader<Target>>& table, Target& target) {
    auto [found, words] = find_property(reader.line(), table);
    if (!found) return false;
    reader.move_to(words);
    if (!reader.done() && reader.line().kind(reader.at()) == syntax::TokenKind::colon) {
      report_colon(reader);
      return true;
    }
    std::string said = base::lower_ascii(reader.written(reader.line().whole()));
    auto [before, first] = seen_.emplace(found->keyword, said);
    if (!first && is_said_once(found->keyword) && before->second != said) {
      reader.fail(diagnostics::Rule::bad_line, reader.line().whole(),
                  fmt::format("`{}` stands here twice, and says another thing each time", found->keyword),
                  fmt::format("Keep one of them: `{}` or `{}`.", before->second, said));
      return true;
    }
    found->read(reader, target, first);
    return true;
  }

  /// Adds a line's text to the declaration's own, so that nothing written is lost.
  void keep_text(const std::string& text) {
    if (text.empty()) return;
    if (!head_.text.empty()) head_.text += "\n\n";
    head_.text += text;
  }

 private:
  /// Keeps what a line in the trade's own words was read as, for who writes it anew.
  void note_reading(const syntax::LineView& written, const std::vector<ReadLine>& read_as) {
    bool is_itself = read_as.size() == 1 && read_as[0].view.whole() == written.whole();
    if (is_itself || head_.from_library) return;
    FormReading reading{written.whole(), {}};
    for (const auto& line : read_as)
      reading.lines.push_back({line.view.whole(), line.implied != Implied::no});
    context_.notes.forms.push_back(std::move(reading));
  }

  /// A mend that prints one part of a line anew prints the whole line: written word for word it would else
  /// take the other parts away. The findings are those from `found` on.
  void widen_mends(std::size_t found, const syntax::LineView& part, const syntax::LineView& written) {
    Span line = written.whole(), span = context_.sources.written(part.whole());
    if (part.size() == 0 || !(span.file_id == line.file_id) ||
        (span.begin <= line.begin && span.end >= line.end) || span.begin < line.begin || span.end > line.end)
      return;
    const std::string& text = context_.sources[line.file_id].text;
    // The part stands there as it is read.
    if (base::lower_ascii(std::string_view(text).substr(span.begin, part.text(0).size())) !=
        base::lower_ascii(part.text(0)))
      return;
    for (std::size_t i = found; i < context_.sink.all().size(); ++i) {
      std::string& help = context_.sink.all()[i].help;
      if (std::count(help.begin(), help.end(), '`') != 2) continue;
      std::size_t begin = help.find('`') + 1, end = help.find('`', begin);
      std::string_view code = std::string_view(help).substr(begin, end - begin);
      auto space = code.find(' ');
      std::string first = base::lower_ascii(code.substr(0, std::min(space, code.find(','))));
      if (first != "do" && first != "garnish" && first != base::lower_ascii(part.text(0))) continue;
      help.insert(end, text.substr(span.end, line.end - span.end));
      help.insert(begin, text.substr(line.begin, span.begin - line.begin));
    }
  }

  /// `glass - coupe`
  static bool is_dash(std::string_view text) { return text == "-" || text == "–" || text == "—"; }

  static bool holds_comma(const syntax::LineView& line) {
    for (std::size_t i = 0; i < line.size(); ++i)
      if (line.kind(i) == syntax::TokenKind::comma) return true;
    return false;
  }

  /// A fact that a declaration has one of: of two lines the second would take the first away in silence.
  static bool is_said_once(std::string_view keyword) {
    static constexpr std::string_view once[] = {
        "glass",    "ice",     "family", "cup",   "serves", "size",   "alcohol", "station", "status",
        "guest",    "was",     "since",  "makes", "keeps",  "opened", "par",     "batch",   "takes",
        "strength", "density", "fizz",   "pH",    "waste",  "colour", "color"};
    return base::is_any_of(keyword, once);
  }

  /// The property whose keyword begins the line, the longest, and of how many words it is.
  template <typename Target>
  static std::pair<const PropertyReader<Target>*, std::size_t> find_property(
      const syntax::LineView& line, const std::vector<PropertyReader<Target>>& table) {
    const PropertyReader<Target>* found = nullptr;
    std::size_t words = 0;
    for (const auto& property : table) {
      std::size_t n = match_keyword(line, property.keyword);
      if (n > words) found = &property, words = n;
    }
    return {found, words};
  }

  /// `allow RULE because "reason"`; true when the line is one.
  bool read_allow(LineReader& reader);

  const Context& context_;
  const syntax::File& file_;
  const syntax::Declaration& declaration_;
  Head& head_;
  const bool is_variation_;
  /// Each property that was read, with its first line.
  std::map<std::string, std::string, std::less<>> seen_;
};

/// The keywords of a table, for suggestions.
template <typename Target>
std::vector<std::string_view> keywords_of(const std::vector<PropertyReader<Target>>& table) {
  std::vector<std::string_view> words;
  for (const auto& property : table) words.push_back(property.keyword);
  return words;
}

// Each gives nothing where the line is in error, which is reported.

/// `yes` or `no`.
std::optional<bool> read_yes_no(LineReader& reader, std::string_view subject);
/// One word of a closed list, any case; reports `unknown-word` with the nearest.
std::optional<std::size_t> read_choice(LineReader& reader, std::string_view subject,
                                       const std::vector<std::string_view>& choices);
/// `30 d chilled`.
std::optional<Keeps> read_keeps(LineReader& reader);
/// `expect PROPERTY RANGE`, the cursor after `expect`.
std::optional<Expect> read_expect(LineReader& reader);
/// A comma list of allergen codes (`egg, nuts: almond`) to the end of the line.
std::vector<std::string> read_allergen_codes(LineReader& reader);
/// `#RRGGBB` or a colour word, as `#rrggbb` or the word.
std::string read_colour(LineReader& reader);
/// `PACK for PRICE [from SUPPLIER] [, code CODE]`, the cursor at the pack.
std::optional<Buy> read_buy(LineReader& reader);

// The keywords of the property lines, one function a table.
std::vector<std::string_view> house_keywords();
std::vector<std::string_view> ingredient_keywords();
std::vector<std::string_view> prep_keywords();
std::vector<std::string_view> glass_keywords();
std::vector<std::string_view> ice_keywords();
std::vector<std::string_view> family_keywords();
std::vector<std::string_view> drink_keywords();
std::vector<std::string_view> menu_keywords();

// One function a kind of declaration.
void read_house(DeclarationReader& lines, House& house);
void read_stock(DeclarationReader& lines, const Context& context, Stock& stock, bool is_variation);
void read_glass(DeclarationReader& lines, Glass& glass);
void read_ice_kind(DeclarationReader& lines, Ice& ice);
void read_family(DeclarationReader& lines, Family& family);
void read_drink(DeclarationReader& lines, const Context& context, Drink& drink, bool is_variation);
void read_price_list(DeclarationReader& lines, PriceList& list);
void read_menu(DeclarationReader& lines, Menu& menu);

}  // namespace gill::analysis
