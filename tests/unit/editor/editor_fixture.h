#pragma once
#include <string>
#include <string_view>

#include "editor/house_view.h"

/// A house of one file as an editor asks of it; places are found by the words that stand there.
struct EditedHouse {
  explicit EditedHouse(std::string written)
      : text(std::move(written)),
        view(gill::driver::compile({"bench", {{"bench.gill", text}}})),
        file(*view.file("bench.gill")) {}

  /// The offset of the n-th (from 0) stretch of these words.
  std::uint32_t at(std::string_view words, int n = 0) const {
    auto found = text.find(words);
    for (; n > 0 && found != std::string::npos; --n) found = text.find(words, found + 1);
    return static_cast<std::uint32_t>(found);
  }
  std::string words_of(const gill::source::Span& span) const {
    return std::string(view.house().sources.text(span));
  }

  std::string text;
  gill::editor::HouseView view;
  const gill::syntax::File& file;
};
