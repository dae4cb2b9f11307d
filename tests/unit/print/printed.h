#pragma once
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "print/cards.h"
#include "support/fixture.h"
#include "unit/render/rendered_house.h"

/// What the tests of print share: houses, and a look into a PDF with poppler's programs, which know nothing
/// of Gill.
namespace gill::testing {

inline bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

inline const RenderedHouse& demo_house() {
  static const RenderedHouse house(texts_in("specs"));
  return house;
}

inline std::vector<analysis::DrinkId> drinks_of(const RenderedHouse& house) {
  std::vector<analysis::DrinkId> drinks;
  for (std::size_t i = 0; i < house.compiled.specs.drinks.size(); ++i)
    if (!house.compiled.specs.drinks[i].head.from_library) drinks.push_back(analysis::DrinkId::at(i));
  return drinks;
}

inline print::PrintedCards cards_of(const RenderedHouse& house, const print::CardOptions& options) {
  auto input = house.input();
  auto cards = print::print_cards(input, drinks_of(house), options);
  REQUIRE(cards);
  return std::move(*cards);
}

/// A PDF in a file, for as long as a program reads it.
class PdfFile {
 public:
  explicit PdfFile(const std::string& bytes) {
    path_ = (std::filesystem::temp_directory_path() / "gill-print-XXXXXX").string();
    int file = mkstemp(path_.data());
    REQUIRE(file >= 0);
    ::close(file);
    std::ofstream(path_, std::ios::binary) << bytes;
  }
  ~PdfFile() { std::filesystem::remove(path_); }
  PdfFile(const PdfFile&) = delete;
  PdfFile& operator=(const PdfFile&) = delete;

  /// What `pdftotext`, `pdfinfo` or `pdffonts` says of it.
  std::string told_by(const std::string& program, const std::string& after = {}) const {
    std::string command = program + " '" + path_ + "' " + after + " 2>&1";
    FILE* pipe = popen(command.c_str(), "r");
    REQUIRE(pipe);
    std::string said;
    char buffer[4096];
    while (std::size_t count = std::fread(buffer, 1, sizeof buffer, pipe)) said.append(buffer, count);
    INFO(command << "\n" << said << "\nIt is part of the Debian package poppler-utils.");
    REQUIRE(pclose(pipe) == 0);
    return said;
  }
  std::string text(const std::string& options = {}) const { return told_by("pdftotext " + options, "-"); }

 private:
  std::string path_;
};

/// Every word on its face, none on another.
inline void expect_words_keep_apart(const print::CardReport& card, const print::Paper& paper,
                                    const std::string& what) {
  for (std::size_t i = 0; i < card.words.size(); ++i) {
    const auto& a = card.words[i];
    INFO(what << ": `" << a.words << "` at " << a.left_mm << ", " << a.top_mm << " mm, " << a.width_mm
              << " by " << a.height_mm);
    // Half a millimetre within the edge, where a knife may stray.
    bool on_card = a.left_mm >= 0.5 && a.top_mm >= 0.5 && a.left_mm + a.width_mm <= paper.width_mm - 0.5 &&
                   a.top_mm + a.height_mm <= paper.height_mm - 0.5;
    CHECK(on_card);
    for (std::size_t j = i + 1; j < card.words.size(); ++j) {
      const auto& b = card.words[j];
      if (a.face != b.face) continue;
      // The room of a line is taller than its letters by a third; letters must not touch.
      double high = std::min(a.top_mm + a.height_mm * 0.85, b.top_mm + b.height_mm * 0.85) -
                    std::max(a.top_mm + a.height_mm * 0.15, b.top_mm + b.height_mm * 0.15);
      double wide = std::min(a.left_mm + a.width_mm, b.left_mm + b.width_mm) - std::max(a.left_mm, b.left_mm);
      if (high > 0.3 && wide > 0.3)
        FAIL_CHECK("it meets `" << b.words << "` at " << b.left_mm << ", " << b.top_mm << " mm");
    }
  }
}

}  // namespace gill::testing
