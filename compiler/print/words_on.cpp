#include "print/words_on.h"

namespace gill::print {

std::vector<WordsOnCard> words_on(std::size_t face, const std::vector<Placed>& parts) {
  std::vector<WordsOnCard> words;
  for (const auto& part : parts)
    if (const auto* placed = std::get_if<PlacedText>(&part))
      words.push_back({face, placed->text.words, placed->left / points_per_mm, placed->top / points_per_mm,
                       placed->text.width / points_per_mm, placed->text.height / points_per_mm,
                       placed->text.min_size_pt});
  return words;
}

}  // namespace gill::print
