#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.h"
#include "symbols/renamed.h"
#include "symbols/symbol_table.h"
#include "syntax/line_view.h"

namespace gill::symbols {

using diagnostics::DiagnosticSink;
using diagnostics::Rule;
using syntax::LineView;
using syntax::TokenKind;

/// Fills a name table: first all headers and aliases, then what is `like` what.
class Declarer {
 public:
  Declarer(const std::vector<syntax::File>& files, const source::SourceSet& sources, DiagnosticSink& sink)
      : files_(files), sources_(sources), sink_(sink) {}

  SymbolTable declare() {
    for (std::size_t f = 0; f < files_.size(); ++f)
      for (std::size_t d = 0; d < files_[f].declarations.size(); ++d) read_header(f, d);
    resolve_likes();
    order();
    return std::move(table_);
  }

  /// Takes the places of one file's headers into `known`; false where anything but places differs.
  bool renew(SymbolTable& known, std::size_t f) {
    auto first = matched(known, f, is_same);
    if (!first) return false;
    take(known, *first);
    return true;
  }

  /// The same where one name differs, too; gives the numbers of the old and the new one.
  std::optional<std::array<std::uint64_t, 2>> rename(SymbolTable& known, std::size_t f) {
    auto first = matched(known, f, [](const Declaration& a, const Declaration& b) {
      return is_same(a, b) ||
             (is_named_alike(a, b) && a.kind != DeclarationKind::house && a.kind != DeclarationKind::unit);
    });
    if (!first) return std::nullopt;
    std::optional<Renaming> renamed;
    for (std::size_t i = 0; i < table_.declarations_.size(); ++i) {
      const auto id = DeclarationId::at(*first + i);
      const auto &before = known[id], &now = table_.declarations_[i];
      if (before.name == now.name) continue;
      // Two that take each other's place are no matter of one after the other.
      if (renamed) return std::nullopt;
      renamed = {id, name_space_of(now.kind), base::fold_name(before.name), base::fold_name(now.name)};
    }
    if (!renamed || renamed->was == renamed->is || !is_free(known, *renamed)) return std::nullopt;
    const auto space = static_cast<std::size_t>(renamed->space);
    known.names_of_house_[space].erase(renamed->was);
    known.names_of_house_[space].emplace(renamed->is, renamed->id);
    known.index_[space].reset();
    take(known, *first);
    return std::array{number_of(renamed->space, renamed->was), number_of(renamed->space, renamed->is)};
  }

 private:
  struct Renaming {
    DeclarationId id;
    NameSpace space;
    std::string was, is;
  };

  /// Where the file's declarations begin in `known`, as many as it has now, each the same to `is_alike`;
  /// nothing where they are not, or a header is in error.
  template <typename Compare>
  std::optional<std::size_t> matched(const SymbolTable& known, std::size_t f, Compare is_alike) {
    for (std::size_t d = 0; d < files_[f].declarations.size(); ++d) read_header(f, d);
    auto of_file = [&](const Declaration& declaration) { return declaration.file_index == f; };
    auto first = std::find_if(known.declarations_.begin(), known.declarations_.end(), of_file);
    auto last = std::find_if_not(first, known.declarations_.end(), of_file);
    if (!sink_.all().empty() || static_cast<std::size_t>(last - first) != table_.declarations_.size() ||
        !std::equal(first, last, table_.declarations_.begin(), is_alike))
      return std::nullopt;
    return static_cast<std::size_t>(first - known.declarations_.begin());
  }

  void take(SymbolTable& known, std::size_t first) {
    for (auto& declaration : table_.declarations_) {
      auto& place = known.declarations_[first++];
      declaration.like = place.like;
      place = std::move(declaration);
    }
  }

  /// True where the old name is nobody else's, the new one nobody's, and nothing starts from the declaration.
  static bool is_free(const SymbolTable& known, const Renaming& renaming) {
    const auto space = static_cast<std::size_t>(renaming.space);
    const auto &house = known.names_of_house_[space], &library = known.names_of_library_[space];
    auto old = house.find(renaming.was);
    return old != house.end() && old->second == renaming.id && !house.contains(renaming.is) &&
           !library.contains(renaming.was) && !library.contains(renaming.is) &&
           std::none_of(known.declarations_.begin(), known.declarations_.end(),
                        [&](const Declaration& one) { return one.like == renaming.id; });
  }

  /// True where two headers say the same, wherever they stand.
  static bool is_same(const Declaration& a, const Declaration& b) {
    return a.name == b.name && is_named_alike(a, b);
  }

  /// The same but for the name itself.
  static bool is_named_alike(const Declaration& a, const Declaration& b) {
    auto same_name = [](const Alias& one, const Alias& other) { return one.name == other.name; };
    return a.kind == b.kind && a.like_name == b.like_name && a.declaration_index == b.declaration_index &&
           a.definition_item == b.definition_item &&
           std::equal(a.aliases.begin(), a.aliases.end(), b.aliases.begin(), b.aliases.end(), same_name);
  }

  struct PendingLike {
    DeclarationId id;
    std::string name;
  };

  LineView view(std::size_t f, std::uint32_t line) const {
    return LineView(sources_[files_[f].file_id], files_[f], line);
  }

  void read_header(std::size_t f, std::size_t d) {
    LineView line = view(f, files_[f].declarations[d].header);
    auto kind = read_keyword(line);
    if (!kind) return;
    Declaration declaration{*kind, {}, {}, sources_[files_[f].file_id].from_library, f, d, {}, {}, {}, {}, 0};
    std::size_t end = find_name_end(line, *kind);
    if (!read_name(line, *kind, end, declaration)) return;
    if (*kind == DeclarationKind::unit && !find_definition(line, end, declaration)) return;
    auto id = DeclarationId::at(table_.declarations_.size());
    if (line.is_word(end, "like")) {
      if (end + 1 == line.size()) {
        sink_.add(Rule::bad_line, line.span(end),
                  "`like` names the declaration to start from, and nothing follows it",
                  fmt::format("Write `{} {} like NAME`, or leave `like` out.", keyword_of(*kind),
                              declaration.name));
      } else {
        declaration.like_span = line.span(end + 1, line.size());
        declaration.like_name = syntax::name_text(line, end + 1, line.size());
        pending_.push_back({id, declaration.like_name});
      }
    }
    read_alias_lines(f, d, declaration);
    table_.declarations_.push_back(std::move(declaration));
    enter(id, table_.declarations_.back().name, table_.declarations_.back().name_span);
    for (const auto& alias : table_.declarations_.back().aliases) enter(id, alias.name, alias.span);
  }

  std::optional<DeclarationKind> read_keyword(const LineView& line) {
    if (line.size() == 0) return std::nullopt;
    for (int k = 0; k <= static_cast<int>(DeclarationKind::menu); ++k) {
      auto kind = static_cast<DeclarationKind>(k);
      if (!line.is_word(0, keyword_of(kind))) continue;
      if (line.kind(1) == TokenKind::colon) {
        sink_.add(Rule::bad_line, line.span(1), "no colon stands after a keyword",
                  fmt::format("Write `{} NAME`.", keyword_of(kind)));
        return std::nullopt;
      }
      return kind;
    }
    if (syntax::is_merge_mark(line)) {
      sink_.add(
          Rule::bad_line, line.whole(),
          "git's mark of a merge: two versions of these lines stand here, one after the other",
          "Keep one of the two, and delete the lines that begin with `<<<<<<<`, `=======` and `>>>>>>>`.");
      return std::nullopt;
    }
    base::NearestWord nearest(base::lower_ascii(line.text(0)));
    for (int k = 0; k <= static_cast<int>(DeclarationKind::menu); ++k)
      nearest.consider(keyword_of(static_cast<DeclarationKind>(k)),
                       keyword_of(static_cast<DeclarationKind>(k)));
    std::string help = nearest.best() ? fmt::format("Did you mean `{}`? ", *nearest.best())
                                      : "A declaration begins with house, unit, ingredient, prep, glass, "
                                        "ice, family, drink, prices or menu. ";
    sink_.add(Rule::unknown_word, line.span(0),
              fmt::format("`{}` starts no declaration", base::collapse_space(line.text(0))),
              help + "A line of a declaration's body is indented.");
    return std::nullopt;
  }

  /// The item at which the name ends: `=` for a unit, the first `like` with something on both sides, or the
  /// end.
  static std::size_t find_name_end(const LineView& line, DeclarationKind kind) {
    for (std::size_t i = 1; i < line.size(); ++i) {
      if (kind == DeclarationKind::unit && line.kind(i) == TokenKind::equals) return i;
      if (kind != DeclarationKind::unit && i > 1 && line.is_word(i, "like")) return i;
    }
    return line.size();
  }

  bool read_name(const LineView& line, DeclarationKind kind, std::size_t end, Declaration& declaration) {
    declaration.name_span = end > 1 ? line.span(1, end) : line.span(0);
    if (end <= 1) {
      if (kind == DeclarationKind::house) return true;
      sink_.add(Rule::bad_line, line.span(0),
                fmt::format("{} {} needs a name", base::article(keyword_of(kind)), keyword_of(kind)),
                fmt::format("Write it after the keyword: `{} NAME`.", keyword_of(kind)));
      return false;
    }
    std::size_t bad = 0;
    if (!syntax::is_plain_name(line, 1, end, bad)) {
      report_bad_name(line, bad, base::collapse_space(line.raw(1, end)));
      return false;
    }
    declaration.name = syntax::name_text(line, 1, end);
    if (!declaration.name.empty()) return true;
    sink_.add(Rule::bad_line, line.span(1, end), "a name cannot be empty",
              "Write a name between the quotes.");
    return false;
  }

  void report_bad_name(const LineView& line, std::size_t bad, const std::string& name) {
    if (line.kind(bad) == TokenKind::curly_string)
      sink_.add(Rule::bad_line, line.span(bad), "a name stands in straight quotes, not typographic ones",
                "Write \"…\" with the plain double quote.");
    else if (line.kind(bad) == TokenKind::open_string)
      sink_.add(Rule::bad_line, line.span(bad), "this quote is not closed on its line",
                "Add the closing \".");
    else
      sink_.add(Rule::bad_line, line.span(bad),
                fmt::format("`{}` cannot stand in a name without quotes", line.text(bad)),
                fmt::format("Write the whole name in double quotes: \"{}\".", name));
  }

  bool find_definition(const LineView& line, std::size_t end, Declaration& declaration) {
    if (line.kind(end) == TokenKind::equals && end + 1 < line.size()) {
      declaration.definition_item = end + 1;
      return true;
    }
    sink_.add(Rule::bad_line, line.whole(),
              fmt::format("the unit `{}` says nothing of its size", declaration.name),
              fmt::format("Write `unit {} = QUANTITY`, such as `unit {} = 0.8 ml ± 40 %`.", declaration.name,
                          declaration.name));
    return false;
  }

  void read_alias_lines(std::size_t f, std::size_t d, Declaration& declaration) {
    for (const auto& body : files_[f].declarations[d].body) {
      LineView line = view(f, body.line);
      // A colon after it is reported with the other lines of the body.
      if (!line.is_word(0, "aka") || (line.size() > 1 && line.kind(1) == TokenKind::colon)) continue;
      for (std::size_t first = 1; first < line.size();) {
        std::size_t last = first;
        while (last < line.size() && line.kind(last) != TokenKind::comma) ++last;
        std::size_t bad = 0;
        if (last > first && !syntax::is_plain_name(line, first, last, bad)) {
          report_bad_name(line, bad, base::collapse_space(line.raw(first, last)));
          break;
        }
        if (last > first)
          declaration.aliases.push_back({syntax::name_text(line, first, last), line.span(first, last)});
        first = last + 1;
      }
    }
  }

  void enter(DeclarationId id, const std::string& name, source::Span span) {
    const Declaration& declaration = table_.declarations_[id.index()];
    auto space = static_cast<std::size_t>(name_space_of(declaration.kind));
    auto& names = declaration.from_library ? table_.names_of_library_[space] : table_.names_of_house_[space];
    // A house has one `house` declaration, whatever it is called.
    std::string key = declaration.kind == DeclarationKind::house ? std::string() : base::fold_name(name);
    auto [found, added] = names.try_emplace(key, id);
    if (added || found->second == id) return;
    const Declaration& first = table_.declarations_[found->second.index()];
    bool is_house = declaration.kind == DeclarationKind::house;
    auto& finding =
        sink_.add(Rule::duplicate_name, span,
                  is_house ? std::string("a house is declared once, and this is the second time")
                           : fmt::format("`{}` is declared twice", name),
                  is_house ? "Put all its lines under one `house`."
                  : declaration.kind == DeclarationKind::unit || declaration.kind != first.kind
                      ? "Give one of them another name."
                      : fmt::format("Give one of them another name, or write `{} NEW NAME like {}`.",
                                    keyword_of(declaration.kind), first.name));
    finding.related.push_back({first.name_span, fmt::format("`{}` is declared here first", first.name)});
  }

  void resolve_likes() {
    for (const auto& [id, name] : pending_) {
      Declaration& declaration = table_.declarations_[id.index()];
      auto space = name_space_of(declaration.kind);
      DeclarationId target = table_.find(space, name);
      // `ingredient honey like honey` in a house starts from the library's; and the library's own stand on
      // its own, whatever a house calls by their names.
      if (target == id || declaration.from_library) target = find_in_library(space, name, target);
      if (!target.valid()) {
        auto near = table_.nearest(space, name);
        sink_.add(Rule::unknown_name, declaration.like_span,
                  fmt::format("no {} is called `{}`", noun_of(space), name),
                  near ? fmt::format("Did you mean `{}`?", *near) : "Declare it, or correct the name.");
      } else if (table_.declarations_[target.index()].kind != declaration.kind) {
        sink_.add(Rule::unknown_name, declaration.like_span,
                  fmt::format("`{}` is {} {}, and this is {} {}", name,
                              base::article(keyword_of(table_.declarations_[target.index()].kind)),
                              keyword_of(table_.declarations_[target.index()].kind),
                              base::article(keyword_of(declaration.kind)), keyword_of(declaration.kind)),
                  "`like` starts from a declaration of the same kind.");
      } else {
        declaration.like = target;
      }
    }
  }

  /// The library's declaration of that name; `otherwise` where it has none.
  DeclarationId find_in_library(NameSpace space, const std::string& name, DeclarationId otherwise) const {
    const auto& names = table_.names_of_library_[static_cast<std::size_t>(space)];
    auto found = names.find(base::fold_name(name));
    return found != names.end() ? found->second : otherwise;
  }

  /// Puts every declaration after what it is like, without recursion; reports circles once.
  void order() {
    enum class State : std::uint8_t { fresh, open, done, broken };
    std::vector<State> states(table_.declarations_.size(), State::fresh);
    std::vector<DeclarationId> chain;
    for (std::size_t i = 0; i < table_.declarations_.size(); ++i) {
      chain.clear();
      DeclarationId at = DeclarationId::at(i);
      while (at.valid() && states[at.index()] == State::fresh) {
        states[at.index()] = State::open;
        chain.push_back(at);
        at = table_.declarations_[at.index()].like;
      }
      bool broken = at.valid() && states[at.index()] != State::done;
      if (at.valid() && states[at.index()] == State::open) report_cycle(at);
      for (auto id = chain.rbegin(); id != chain.rend(); ++id) {
        states[id->index()] = broken ? State::broken : State::done;
        if (!broken) table_.order_.push_back(*id);
      }
    }
  }

  void report_cycle(DeclarationId start) {
    std::vector<std::string> names;
    DeclarationId at = start;
    do {
      const Declaration& declaration = table_.declarations_[at.index()];
      if (names.size() < 6) names.push_back(fmt::format("`{}`", declaration.name));
      at = declaration.like;
    } while (at != start);
    const Declaration& declaration = table_.declarations_[start.index()];
    sink_.add(Rule::name_cycle, declaration.like_span,
              fmt::format("`{}` is like itself, by way of {}", declaration.name, base::join(names, ", ")),
              "Write one of them out in full instead of `like`.");
  }

  const std::vector<syntax::File>& files_;
  const source::SourceSet& sources_;
  DiagnosticSink& sink_;
  SymbolTable table_;
  std::vector<PendingLike> pending_;
};

SymbolTable declare(const std::vector<syntax::File>& files, const source::SourceSet& sources,
                    DiagnosticSink& sink) {
  return Declarer(files, sources, sink).declare();
}

bool renew_places(SymbolTable& names, std::size_t file_index, const std::vector<syntax::File>& files,
                  const source::SourceSet& sources) {
  DiagnosticSink silent;
  return Declarer(files, sources, silent).renew(names, file_index);
}

std::optional<std::array<std::uint64_t, 2>> take_new_name(SymbolTable& names, std::size_t file_index,
                                                          const std::vector<syntax::File>& files,
                                                          const source::SourceSet& sources) {
  DiagnosticSink silent;
  return Declarer(files, sources, silent).rename(names, file_index);
}

}  // namespace gill::symbols
