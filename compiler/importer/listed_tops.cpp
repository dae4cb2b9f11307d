#include "importer/listed_tops.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "costing/words.h"

namespace gill::importer {
namespace {

bool may_top(const Phrase& phrase) {
  return (phrase.kind == PhraseKind::step || phrase.kind == PhraseKind::pour) &&
         phrase.gill.starts_with("top");
}

/// Takes the amount of the thing out of the lines; empty where none lists it.
std::string take_listed(const std::vector<std::vector<Phrase>*>& lines, const std::string& thing,
                        const PhraseReader& reader) {
  for (auto* line : lines) {
    auto listed = std::find_if(line->begin(), line->end(), [&](const Phrase& one) {
      return one.kind == PhraseKind::amount && one.asks.empty() && reader.poured_thing_of(one.gill) == thing;
    });
    if (listed == line->end()) continue;
    auto gill = listed->gill;
    line->erase(listed);
    return gill;
  }
  return {};
}

}  // namespace

void pour_listed_tops(const std::vector<std::vector<Phrase>*>& lines, const PhraseReader& reader) {
  for (auto* line : lines)
    for (std::size_t i = 0; i < line->size(); ++i) {
      if (!may_top((*line)[i])) continue;
      auto thing = reader.topped_thing_of((*line)[i].gill);
      auto listed = thing.empty() ? std::string() : take_listed(lines, thing, reader);
      if (listed.empty()) continue;
      // The amount may have stood before it on the same line.
      auto& top = *std::find_if(line->begin(), line->end(), [&](const Phrase& one) {
        return may_top(one) && reader.topped_thing_of(one.gill) == thing;
      });
      top.doubt =
          fmt::format("`{}` is taken for the `{}` of the list; where both go in, write the amount apart.",
                      costing::one_line(top.written), base::collapse_space(listed));
      top.gill = "top  " + listed;
    }
}

}  // namespace gill::importer
