#include "tidy/columns.h"

#include "analysis/line_parts.h"
#include "analysis/read_recipe.h"
#include "analysis/verbs.h"
#include "base/any_of.h"
#include "base/text.h"

namespace gill::tidy {

using symbols::DeclarationKind;
using syntax::LineView;
using syntax::TokenKind;
using Column = ColumnLine::Column;

namespace {

/// Properties whose value is the writer's own words.
constexpr std::string_view worded_properties[] = {"source", "guest",      "caution", "author", "station",
                                                  "notice", "right when", "was",     "tasted", "section"};

/// Steps that say all with their verb and a remark: nothing stands in the second column.
constexpr analysis::Verb whole_steps[] = {analysis::Verb::strain, analysis::Verb::double_strain,
                                          analysis::Verb::fine_strain, analysis::Verb::dump,
                                          analysis::Verb::build};

class Parter {
 public:
  Parter(const LineView& line, DeclarationKind kind, Extent extent, const Terms& terms)
      : line_(line), kind_(kind), extent_(extent), terms_(terms) {}

  ColumnLine part() const {
    if (kind_ == DeclarationKind::drink || kind_ == DeclarationKind::prep) {
      if (analysis::begins_amount(line_)) return amount();
      if (auto verb = analysis::match_verb(line_, 0)) return step(*verb);
    }
    if (auto keyword = analysis::property_keyword(line_, kind_); !keyword.empty()) return property(keyword);
    if (kind_ == DeclarationKind::prices) return price();
    if (kind_ == DeclarationKind::menu) return entry();
    return loose_line();
  }

 private:
  std::string written(std::size_t first, std::size_t last, Content content = Content::terms) const {
    return spelled(line_, first, last, content, extent_, terms_);
  }

  /// A word of the language: in small letters.
  std::string own_word(std::size_t first, std::size_t last) const {
    std::string text = written(first, last, Content::words);
    return is_spelled(extent_) ? base::lower_ascii(text) : text;
  }

  /// `swap`, `without`, `method anew`, or a line that no table knows.
  ColumnLine loose_line() const {
    if (line_.is_word(0, "method") && line_.is_word(1, "anew")) return {own_word(0, line_.size()), {}};
    if (line_.size() < 2 || line_.kind(1) == TokenKind::comma || line_.kind(0) != TokenKind::word)
      return {written(0, line_.size()), {}};
    return {own_word(0, 1), written(1, line_.size())};
  }

  ColumnLine property(std::string_view keyword) const {
    std::size_t words = analysis::match_keyword(line_, keyword);
    // `show preps       g, ml`
    bool is_longer = keyword == "show" && line_.is_word(words, "preps");
    auto content = base::is_any_of(keyword, worded_properties) ? Content::words : Content::terms;
    std::string lead = is_spelled(extent_) ? std::string(keyword) : own_word(0, words);
    if (is_longer) lead += " " + own_word(words, words + 1);
    ColumnLine line{lead, written(words + (is_longer ? 1 : 0), line_.size(), content)};
    line.is_property = true;
    return line;
  }

  /// Where the quantity from an item on ends; the item itself where none can be read.
  std::size_t quantity_end(std::size_t first, bool& has_unit) const {
    diagnostics::DiagnosticSink silent;
    std::size_t at = first;
    auto quantity = units::QuantityReader(line_, terms_.units, silent).read(at);
    if (!quantity) return first;
    has_unit = quantity->unit.valid();
    return at;
  }

  /// True where all from an item on, up to a comma, is the name of something that is poured.
  bool is_name(std::size_t first) const {
    std::size_t end = analysis::comma_or_end(line_, first);
    return end > first &&
           terms_.names.find(symbols::NameSpace::stock, syntax::name_text(line_, first, end)).valid();
  }

  ColumnLine amount() const {
    bool is_until = line_.is_word(0, "until"), has_unit = false;
    std::size_t first = is_until ? 2 : line_.is_word(0, "to") ? 1 : 0;
    std::size_t end = quantity_end(first, has_unit);
    if (end == first || end >= line_.size()) return {written(0, line_.size()), {}};
    if (line_.kind(end) == TokenKind::equals) end = std::max(end, quantity_end(end + 1, has_unit));
    // `4 sticks of rhubarb` may be a thing by that name, and `2 oz of gin` is none.
    std::size_t name = end;
    if (is_name(first + 1)) name = end = first + 1;
    if (is_spelled(extent_) && has_unit && line_.is_word(name, "of") && name + 1 < line_.size()) ++name;
    std::string lead = first > 0 ? own_word(0, first) + " " + written(first, end) : written(0, end);
    ColumnLine parted{lead, written(name, line_.size())};
    if (is_until) parted.column = Column::overflow;
    return parted;
  }

  ColumnLine step(const analysis::VerbMatch& verb) const {
    std::size_t end = verb.tokens;
    std::string lead =
        is_spelled(extent_) ? std::string(analysis::info(verb.verb).name) : own_word(0, verb.tokens);
    // `heat to        65 C`
    if ((line_.is_word(end, "to") || line_.is_word(end, "by")) &&
        units::QuantityReader::begins_quantity(line_, end + 1)) {
      lead += " " + own_word(end, end + 1);
      ++end;
    }
    bool is_whole = base::is_any_of(verb.verb, whole_steps) || line_.kind(end) == TokenKind::comma;
    auto content = analysis::info(verb.verb).takes_words ? Content::words : Content::terms;
    if (!is_whole) return {lead, written(end, line_.size(), content)};
    if (end < line_.size() && line_.kind(end) != TokenKind::comma) lead += " ";
    return {lead + written(end, line_.size(), content), {}};
  }

  ColumnLine price() const {
    std::size_t end = analysis::price_name_end(line_, terms_.units);
    return {written(0, end, Content::words), written(end, line_.size())};
  }

  ColumnLine entry() const {
    std::size_t end = analysis::entry_name_end(line_);
    bool says_price = end < line_.size() && line_.kind(end) != TokenKind::comma;
    ColumnLine parted{written(0, end, Content::words), {}, Column::entry};
    if (!says_price) {
      parted.lead += written(end, line_.size());
      return parted;
    }
    bool lacks_at = is_spelled(extent_) && !line_.is_word(end, "at");
    parted.rest = (lacks_at ? "at " : "") + written(end, line_.size());
    return parted;
  }

  const LineView& line_;
  DeclarationKind kind_;
  Extent extent_;
  const Terms& terms_;
};

}  // namespace

std::optional<DeclarationKind> kind_of(const LineView& header) {
  for (int k = 0; k <= static_cast<int>(DeclarationKind::menu); ++k)
    if (header.is_word(0, symbols::keyword_of(static_cast<DeclarationKind>(k))))
      return static_cast<DeclarationKind>(k);
  return std::nullopt;
}

std::string header_text(const LineView& line, DeclarationKind kind, Extent extent, const Terms& terms) {
  std::size_t name_end = line.size();
  for (std::size_t i = 1; i < line.size() && name_end == line.size(); ++i)
    if (kind == DeclarationKind::unit ? line.kind(i) == TokenKind::equals : i > 1 && line.is_word(i, "like"))
      name_end = i;
  bool may_spell = is_spelled(extent);
  std::string text =
      may_spell ? std::string(symbols::keyword_of(kind)) : spelled(line, 0, 1, Content::words, extent, terms);
  if (name_end > 1) text += " " + spelled(line, 1, name_end, Content::words, extent, terms);
  if (name_end == line.size()) return text;
  if (kind == DeclarationKind::unit)
    return text + (may_spell || line.space_before(name_end) ? " " : "") +
           spelled(line, name_end, line.size(), Content::terms, extent, terms);
  return text + " " + (may_spell ? "like" : std::string(line.text(name_end))) +
         (name_end + 1 < line.size() ? " " : "") +
         spelled(line, name_end + 1, line.size(), Content::words, extent, terms);
}

ColumnLine part_in_columns(const LineView& line, DeclarationKind kind, Extent extent, const Terms& terms) {
  ColumnLine parted = Parter(line, kind, extent, terms).part();
  // `gin#2`: where the columns would part it, a comment would begin.
  if (parted.rest.starts_with('#') && line.kind(1) != TokenKind::colour)
    return {spelled(line, 0, line.size(), Content::terms, extent, terms), {}};
  return parted;
}

std::size_t least_width(DeclarationKind kind, Column column) {
  // As wide as most declarations of the kind need: a new line then seldom moves the others.
  switch (kind) {
    case DeclarationKind::drink:
      return 15;
    case DeclarationKind::prep:
      return 16;
    case DeclarationKind::ingredient:
      return 10;
    case DeclarationKind::prices:
      return 21;
    case DeclarationKind::menu:
      return column == Column::entry ? 17 : 11;
    case DeclarationKind::family:
      return 10;
    case DeclarationKind::glass:
    case DeclarationKind::ice:
      return 7;
    case DeclarationKind::house:
    case DeclarationKind::unit:
      return 0;
  }
  return 0;
}

std::size_t longest_lead(DeclarationKind kind, Column column) {
  constexpr std::size_t of_words = 20, of_names = 40;
  return kind == DeclarationKind::prices || column == Column::entry ? of_names : of_words;
}

}  // namespace gill::tidy
