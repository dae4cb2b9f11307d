#include "editor/completion.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "analysis/allergen_lists.h"
#include "analysis/verbs.h"
#include "base/text.h"
#include "editor/language_words.h"
#include "editor/snippets.h"
#include "editor/typed_line.h"
#include "editor/words.h"
#include "model/allergen_words.h"

namespace gill::editor {

using analysis::VerbInfo;
using symbols::DeclarationKind;
using symbols::NameSpace;
using syntax::TokenKind;
using Offer = Completion::Kind;

namespace {

class Completer {
 public:
  Completer(const HouseView& view, const TypedLine& typed, bool snippets)
      : view_(view), typed_(typed), line_(typed.view()), snippets_(snippets) {}

  Completions complete() {
    if (typed_.is_prose()) return {};
    if (typed_.is_header())
      header();
    else if (typed_.kind())
      body(*typed_.kind());
    return std::move(result_);
  }

 private:
  /// True where the cursor is in the n-th token, or behind white space where the n-th will be.
  bool is_typing(std::size_t token) const {
    return line_.size() == (typed_.at_new_word() ? token : token + 1);
  }

  void from(std::size_t token) { result_.begin = typed_.place_of(token); }
  void add(Completion item) { result_.items.push_back(std::move(item)); }
  void add_words(std::initializer_list<std::string_view> words) {
    for (auto word : words) add({Offer::word, std::string(word), {}});
  }

  // ---- headers

  void header() {
    if (is_typing(0)) {
      from(0);
      for (const auto& snippet : declaration_snippets())
        add(snippets_ ? Completion{Offer::snippet, std::string(snippet.keyword), std::string(snippet.words),
                                   std::string(snippet.text)}
                      : Completion{Offer::word, std::string(snippet.keyword), std::string(snippet.words),
                                   std::string(snippet.keyword) + " "});
      return;
    }
    if (!typed_.kind()) return;
    for (std::size_t i = line_.size(); i-- > 2;)
      if (line_.is_word(i, "like") && (i + 1 < line_.size() || typed_.at_new_word()))
        return names(symbols::name_space_of(*typed_.kind()), i + 1);
    if (line_.size() > 1 && (line_.size() > 2 || typed_.at_new_word())) {
      from(line_.size() - (typed_.at_new_word() ? 0 : 1));
      add({Offer::word, "like", "takes over what another one says"});
    }
  }

  // ---- names

  void names(NameSpace space, std::size_t first_token) {
    from(first_token);
    add_names(space);
  }

  struct Candidate {
    DeclarationId id;
    const std::string* name = nullptr;
    int rank = 0;
  };

  /// What fits the letters typed so far: the house's own first, then what it uses, then the rest of the
  /// library; of each what begins so before what holds it.
  void add_names(NameSpace space) {
    constexpr std::size_t most = 300;
    auto fitting = candidates(space);
    std::stable_sort(fitting.begin(), fitting.end(),
                     [](const Candidate& a, const Candidate& b) { return a.rank < b.rank; });
    result_.has_more = fitting.size() > most;
    for (std::size_t i = 0; i < fitting.size() && i < most; ++i) add_name(fitting[i]);
  }

  std::vector<Candidate> candidates(NameSpace space) const {
    constexpr int ranks_of_match = 3, of_library = 2;
    std::string typed = typed_words();
    std::vector<Candidate> fitting;
    std::set<std::string> seen;
    auto consider = [&](DeclarationId id, const std::string& name, int rank) {
      std::string folded = base::fold_name(name);
      // The house's own hides the library's of that name.
      if (auto match = match_of(folded, typed);
          match && !name.empty() && seen.insert(std::move(folded)).second)
        fitting.push_back({id, &name, rank * ranks_of_match + *match});
    };
    const auto& table = view_.house().names;
    for (bool library : {false, true})
      for (std::size_t i = 0; i < table.size(); ++i) {
        auto id = DeclarationId::at(i);
        const auto& declaration = table[id];
        if (declaration.from_library != library || symbols::name_space_of(declaration.kind) != space)
          continue;
        int rank = !library ? 0 : is_used(id) ? 1 : of_library;
        consider(id, declaration.name, rank);
        for (const auto& alias : declaration.aliases) consider(id, alias.name, rank);
      }
    return fitting;
  }

  bool is_used(DeclarationId id) const {
    auto stock = view_.stock(id);
    if (!stock) return false;
    const auto& users = view_.book().usage().direct(*stock);
    return !users.drinks.empty() || !users.preps.empty();
  }

  /// The letters that are typed of what is being completed.
  std::string typed_words() const {
    std::string words;
    for (std::size_t i = 0; i < line_.size(); ++i)
      if (typed_.place_of(i) >= result_.begin)
        words += (words.empty() ? "" : " ") + std::string(line_.text(i));
    std::erase(words, '"');
    return base::fold_name(words);
  }

  void add_name(const Candidate& candidate) {
    const auto& declaration = view_.house().names[candidate.id];
    std::string detail = detail_of(candidate.id);
    if (*candidate.name != declaration.name)
      detail = declaration.name + (detail.empty() ? "" : ", " + detail);
    bool is_prep = declaration.kind == DeclarationKind::prep;
    add({is_prep ? Offer::prep : Offer::name, written(*candidate.name), std::move(detail), {}, candidate.id});
  }

  /// A name as a line takes it: in quotes where it holds what would end it.
  static std::string written(const std::string& name) {
    bool is_plain =
        name.find_first_of(",#=|:") == std::string::npos && name.find(" or ") == std::string::npos;
    return is_plain ? name : "\"" + name + "\"";
  }

  std::string detail_of(DeclarationId id) const {
    std::vector<std::string> words;
    const auto& declaration = view_.house().names[id];
    if (auto stock = view_.stock(id)) {
      const auto& spec = view_.specs()[*stock];
      words.push_back(spec.is_prep ? "prep" : std::string(analysis::name_of(spec.kind)));
      words.push_back(figures_in_brief(view_, *stock));
      auto users = view_.book().usage().direct(*stock).drinks.size();
      if (users > 0) words.push_back(fmt::format("in {} {}", users, users == 1 ? "drink" : "drinks"));
    } else if (auto drink = view_.drink(id)) {
      words.push_back(figures_in_brief(view_, *drink));
    }
    if (declaration.from_library) words.push_back("library");
    std::erase(words, std::string());
    return base::join(words, ", ");
  }

  // ---- bodies

  void body(DeclarationKind kind) {
    if (line_.size() == 0 || is_typing(0)) return line_start(kind);
    if (is_property(kind)) return;
    if (is_recipe(kind)) return recipe_line(kind == DeclarationKind::prep);
    if (kind == DeclarationKind::menu && !has_word("at")) return names(NameSpace::drink, 0);
    if (kind == DeclarationKind::prices && !has_number()) return names(NameSpace::stock, 0);
    if (kind == DeclarationKind::ingredient && line_.is_word(0, "gives")) return amount(1);
  }

  bool has_word(std::string_view word) const {
    for (std::size_t i = 0; i < line_.size(); ++i)
      if (line_.is_word(i, word)) return true;
    return false;
  }

  bool has_number() const {
    for (std::size_t i = 0; i < line_.size(); ++i)
      if (line_.kind(i) == TokenKind::number) return true;
    return false;
  }

  void line_start(DeclarationKind kind) {
    from(0);
    if (line_.size() == 0 || line_.kind(0) != TokenKind::number) {
      if (kind == DeclarationKind::menu) add_names(NameSpace::drink);
      if (kind == DeclarationKind::prices) add_names(NameSpace::stock);
      for (auto word : line_words(kind))
        add({Offer::property, std::string(word), word == allow_word ? "RULE because \"reason\"" : ""});
      if (is_recipe(kind)) add_steps(kind == DeclarationKind::prep);
    }
  }

  void add_steps(bool in_prep) {
    for (const auto& verb : analysis::all_verbs()) {
      if (in_prep ? !verb.in_prep : !verb.in_drink) continue;
      std::string detail = "step";
      if (verb.usual_s > 0) detail += fmt::format(", {} s where no time is written", verb.usual_s);
      add({Offer::step, std::string(verb.name), detail});
    }
  }

  /// Lines whose first word says what follows; true where this is one.
  bool is_property(DeclarationKind kind) {
    auto at = [&](std::string_view word) { return line_.is_word(0, word); };
    if (at("allow")) return rules(), true;
    if (kind == DeclarationKind::drink && at("glass")) return glasses(), true;
    if (kind == DeclarationKind::drink && at("cup")) return names(NameSpace::glass, 1), true;
    if (kind == DeclarationKind::drink && at("family")) return names(NameSpace::family, 1), true;
    if ((kind == DeclarationKind::drink || kind == DeclarationKind::family) && at("ice"))
      return names(NameSpace::ice, 1), add_words({"none"}), true;
    if (kind == DeclarationKind::drink && at("status"))
      return from(1), add_words({"approved", "draft", "retired"}), true;
    if (at("expect")) return expectations(), true;
    if (kind == DeclarationKind::family && at("method")) return from(1), add_steps(false), true;
    if (at("allergen") && kind != DeclarationKind::house) return allergens(), true;
    if (kind == DeclarationKind::ingredient || kind == DeclarationKind::prep) return is_stock_property();
    return false;
  }

  bool is_stock_property() {
    if (line_.is_word(0, "kind")) {
      from(1);
      for (int i = 1; i <= static_cast<int>(analysis::StockKind::garnish); ++i)
        add({Offer::word, std::string(analysis::name_of(static_cast<analysis::StockKind>(i))), {}});
      return true;
    }
    if (line_.is_word(0, "form")) return from(1), add_words({"liquid", "solid", "powder"}), true;
    if (line_.is_word(0, "origin")) {
      from(line_.is_word(1, "may") ? line_.size() - (typed_.at_new_word() ? 0 : 1) : 1);
      for (int i = 0; i <= static_cast<int>(analysis::Origin::animal); ++i)
        add({Offer::word, std::string(analysis::name_of(static_cast<analysis::Origin>(i))), {}});
      return add_words({"not known"}), true;
    }
    if (line_.is_word(0, "keeps") || line_.is_word(0, "opened")) {
      if (line_.size() < 3) return true;
      from(3);
      return add_words({"ambient", "chilled", "frozen"}), true;
    }
    return false;
  }

  void rules() {
    if (!is_typing(1)) return;
    from(1);
    for (auto rule : diagnostics::all_rules()) {
      const auto& info = diagnostics::info(rule);
      if (info.severity != diagnostics::Severity::error)
        add({Offer::rule, std::string(info.name), std::string(info.summary),
             std::string(info.name) + " because \""});
    }
  }

  void glasses() {
    if (auto comma = last_comma()) {
      from(*comma + 1);
      return add_words({"chilled", "frozen", "warmed"});
    }
    names(NameSpace::glass, 1);
  }

  void expectations() {
    if (!is_typing(1)) return;
    from(1);
    for (int i = 0; i <= static_cast<int>(analysis::Property::vegetarian); ++i)
      add({Offer::word, std::string(analysis::name_of(static_cast<analysis::Property>(i))), {}});
  }

  void allergens() {
    from(1);
    if (const auto* list = analysis::find_allergen_list(view_.specs().house.allergen_list))
      for (auto entry : list->entries)
        add({Offer::word, model::allergen_as_written(entry), model::allergen_words(entry)});
    add_words({"none", "may"});
  }

  std::optional<std::size_t> last_comma() const {
    for (std::size_t i = line_.size(); i-- > 0;)
      if (line_.kind(i) == TokenKind::comma) return i;
    return std::nullopt;
  }

  // ---- recipes

  void recipe_line(bool in_prep) {
    auto verb = analysis::match_verb(line_, 0);
    if (!verb) return is_amount_start(0) ? amount(0) : typed_start(in_prep);
    const auto& info = analysis::info(verb->verb);
    for (std::size_t i = verb->tokens; i < line_.size(); ++i)
      if (line_.is_word(i, "with") && info.takes_ice) return ice_of_step(i + 1);
    if (info.name_slot != VerbInfo::Name::never) {
      if (info.takes_amount || info.takes_count) return amount(verb->tokens);
      return names(NameSpace::stock, verb->tokens);
    }
    if (info.takes_ice && typed_.at_new_word()) from(line_.size()), add_words({"with"});
  }

  /// Two words of a keyword or a step (`double str…`).
  void typed_start(bool in_prep) {
    from(0);
    for (auto word : line_words(in_prep ? DeclarationKind::prep : DeclarationKind::drink))
      add({Offer::property, std::string(word), {}});
    add_steps(in_prep);
  }

  bool is_amount_start(std::size_t at) const {
    return line_.kind(at) == TokenKind::number || line_.kind(at) == TokenKind::dashed_mixed ||
           line_.kind(at) == TokenKind::dashed_range || line_.is_word(at, "about") ||
           line_.is_word(at, "until") || line_.is_word(at, "to");
  }

  void ice_of_step(std::size_t at) {
    auto last = line_.size() > 0 ? line_.size() - (typed_.at_new_word() ? 0 : 1) : 0;
    names(NameSpace::ice, line_.kind(at) == TokenKind::number ? std::max(at + 1, last) : at);
  }

  /// `60 ml NAME, remark`, from the number on.
  void amount(std::size_t at) {
    if (auto comma = last_comma()) return behind_comma(*comma + 1);
    while (at < line_.size() && !line_.is_word(at, "until") && line_.kind(at) == TokenKind::word &&
           is_amount_start(at))
      ++at;
    if (at >= line_.size() || line_.kind(at) == TokenKind::word) return names(NameSpace::stock, at);
    while (at < line_.size() && line_.kind(at) != TokenKind::word) ++at;
    auto unit = view_.house().units.match(line_, at);
    bool is_unit_done = unit.unit.valid() && (at + unit.tokens < line_.size() || typed_.at_new_word());
    if (is_unit_done) return names(NameSpace::stock, at + unit.tokens);
    from(at);
    add_units();
    add_names(NameSpace::stock);
  }

  void behind_comma(std::size_t at) {
    if (line_.is_word(at, "or") && (at + 1 < line_.size() || typed_.at_new_word()))
      return names(NameSpace::stock, at + 1);
    from(at);
    add_words({"chilled", "frozen", "hot", "optional", "or"});
  }

  void add_units() {
    const auto& units = view_.house().units;
    for (std::size_t i = 0; i < units.size(); ++i) {
      const auto& unit = units[units::UnitId::at(i)];
      bool measures = unit.kind == units::Kind::volume || unit.kind == units::Kind::mass ||
                      unit.is_item_word || unit.kind == units::Kind::part;
      if (measures && !unit.symbol.empty())
        add({Offer::unit, unit.symbol,
             unit.is_item_word ? "a piece" : std::string(units::noun_of(unit.kind))});
    }
  }

  const HouseView& view_;
  const TypedLine& typed_;
  const syntax::LineView& line_;
  bool snippets_;
  Completions result_;
};

}  // namespace

Completions complete(const HouseView& view, std::string_view text, std::uint32_t offset, bool snippets) {
  TypedLine typed(text, offset);
  auto completions = Completer(view, typed, snippets).complete();
  if (completions.items.empty()) completions.begin = offset;
  return completions;
}

}  // namespace gill::editor
