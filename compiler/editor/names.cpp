#include "editor/names.h"

#include <algorithm>
#include <tuple>

#include "base/text.h"

namespace gill::editor {
namespace {

/// No name has more words, and a line of thousands is not looked through for one.
constexpr std::size_t most_words = 16;

struct Word {
  std::uint32_t begin = 0, end = 0;
};

/// The words of a stretch, without the quotes around them.
std::vector<Word> words_of(std::string_view text) {
  std::vector<Word> words;
  auto is_gap = [](char c) { return c == ' ' || c == '\t' || c == '"' || c == ','; };
  for (std::uint32_t at = 0; at < text.size() && words.size() < most_words;) {
    while (at < text.size() && is_gap(text[at])) ++at;
    std::uint32_t begin = at;
    while (at < text.size() && !is_gap(text[at])) ++at;
    if (at > begin) words.push_back({begin, at});
  }
  return words;
}

std::vector<std::string> spellings_of(const symbols::Declaration& declaration) {
  std::vector<std::string> spellings = {base::fold_name(declaration.name)};
  for (const auto& alias : declaration.aliases) spellings.push_back(base::fold_name(alias.name));
  return spellings;
}

/// How long the spelling is where the words are one of them or its plural by an ending; 0 else.
std::size_t spelled_length(std::string_view text, const std::vector<std::string>& spellings) {
  std::string folded = base::fold_name(text);
  for (std::string_view ending : {"", "s", "es"})
    for (const auto& spelling : spellings)
      if (folded.size() == spelling.size() + ending.size() && folded.starts_with(spelling) &&
          folded.ends_with(ending) && text.size() > ending.size())
        return text.size() - ending.size();
  return 0;
}

auto order_of(const NamePlace& place) {
  return std::tuple(place.span.file_id, place.span.begin, place.span.end, place.declaration);
}

}  // namespace

NamePlaces::NamePlaces(const driver::Compilation& house) : house_(house) {
  add_declarations();
  add_uses();
  std::stable_sort(places_.begin(), places_.end(),
                   [](const NamePlace& a, const NamePlace& b) { return order_of(a) < order_of(b); });
  places_.erase(
      std::unique(places_.begin(), places_.end(),
                  [](const NamePlace& a, const NamePlace& b) { return order_of(a) == order_of(b); }),
      places_.end());
}

NamePlace NamePlaces::narrowed(const Span& span, DeclarationId declaration) const {
  std::string_view text = house_.sources.text(span);
  auto words = words_of(text);
  auto spellings = spellings_of(house_.names[declaration]);
  for (std::size_t first = 0; first < words.size(); ++first)
    for (std::size_t last = words.size(); last-- > first;) {
      auto run = text.substr(words[first].begin, words[last].end - words[first].begin);
      if (auto length = spelled_length(run, spellings); length > 0) {
        auto begin = span.begin + words[first].begin;
        Span name{span.file_id, begin, begin + static_cast<std::uint32_t>(length)};
        return {name, declaration, name, false, true};
      }
    }
  return {span, declaration, span, false, false};
}

void NamePlaces::add(const Span& span, DeclarationId declaration, bool declares) {
  if (!span.file_id.valid() || !declaration.valid() || span.begin == span.end) return;
  auto written = house_.sources.written(span);
  // A reading that nothing was written for: it stands nowhere.
  if (house_.sources[written.file_id].read_from.file_id.valid()) return;
  auto place = narrowed(written, declaration);
  place.declares = declares;
  // What a reading was made from may be a whole line, which is more than the name and its item word.
  bool leads = place.span.begin == written.begin;
  if (leads && house_.sources.text(written).find(',') == std::string_view::npos) place.whole = written;
  places_.push_back(place);
}

void NamePlaces::add_declarations() {
  for (std::size_t i = 0; i < house_.names.size(); ++i) {
    auto id = DeclarationId::at(i);
    const auto& declaration = house_.names[id];
    add(declaration.name_span, id, true);
    for (const auto& alias : declaration.aliases) add(alias.span, id, true);
    add(declaration.like_span, declaration.like);
  }
}

void NamePlaces::add_use(const analysis::Use& use) {
  if (use.stock.valid()) add(use.span, house_.specs[use.stock].head.declaration_id);
}

void NamePlaces::add_recipe(const analysis::Recipe& recipe) {
  for (const auto& amount : recipe.amounts) {
    for (const auto& portion : amount.portions) add_use(portion.use);
    for (const auto& alternative : amount.alternatives) add_use(alternative);
  }
  for (const auto& step : recipe.steps) {
    if (step.use) add_use(*step.use);
    for (const auto& named : step.named) add_use(named);
  }
}

void NamePlaces::add_uses() {
  for (const auto& notes : house_.specs.notes)
    for (const auto& use : notes.name_uses) add(use.span, use.declaration);
  for (const auto& stock : house_.specs.stock) {
    add_recipe(stock.recipe);
    for (const auto& given : stock.gives) add_use(given.what);
  }
  for (const auto& drink : house_.specs.drinks) {
    add_recipe(drink.recipe);
    if (drink.batched)
      for (const auto& use : drink.batched->uses) add_use(use);
  }
  for (const auto& list : house_.specs.price_lists)
    for (const auto& price : list.prices) add_use(price.use);
}

const NamePlace* NamePlaces::at(FileId file, std::uint32_t offset) const {
  auto after = std::upper_bound(places_.begin(), places_.end(), std::pair(file, offset),
                                [](const auto& place, const NamePlace& other) {
                                  return place < std::pair(other.span.file_id, other.span.begin);
                                });
  // The narrowest of those that hold the offset; names are short, so only the nearest few can.
  const NamePlace* best = nullptr;
  for (int looked = 0; after != places_.begin() && looked < 8; ++looked) {
    --after;
    if (after->span.file_id != file) break;
    if (offset > after->whole.end) continue;
    auto length = [](const NamePlace& place) { return place.span.end - place.span.begin; };
    if (!best || length(*after) < length(*best)) best = &*after;
  }
  return best;
}

Span NamePlaces::declared(DeclarationId declaration) const {
  return narrowed(house_.names[declaration].name_span, declaration).span;
}

std::vector<NamePlace> NamePlaces::of(DeclarationId declaration) const {
  std::vector<NamePlace> found;
  for (const auto& place : places_)
    if (place.declaration == declaration) found.push_back(place);
  return found;
}

}  // namespace gill::editor
