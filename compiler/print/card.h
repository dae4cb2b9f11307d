#pragma once
#include <optional>
#include <string>
#include <vector>

#include "render/document/book_index.h"
#include "render/drawing/drink_picture.h"
#include "render/wording/allergens_in_words.h"

/// What a staff card says, before it is set in type.
namespace gill::print {

/// One amount in a column of the card: `22.5` `ml`. Both are empty where a column has nothing to say.
struct CardMeasure {
  std::string number;
  std::string unit;
  bool is_converted = false;
  bool empty() const { return number.empty() && unit.empty(); }
};

/// One line of the build.
struct CardPour {
  /// One for each column of the house.
  std::vector<CardMeasure> columns;
  /// What stands across all columns instead: `2` `dashes`.
  std::optional<CardMeasure> whole;
  bool is_about = false;
  std::string name;
  std::string remarks;
  /// What the writer put below the line.
  std::string text;
};

struct CardStep {
  std::string sentence;
  std::string text;
};

/// A label with its words: `Glass` `rocks, chilled`.
struct CardFact {
  std::string label;
  std::string words;
};

/// A paragraph of the back, with its lead in bold: `Raw egg.` `It is …`.
struct CardParagraph {
  std::string lead;
  std::string words;
};

/// A part of the back under its heading.
struct CardSection {
  std::string title;
  std::vector<CardParagraph> paragraphs;
};

struct Card {
  analysis::DrinkId drink;
  std::string name;
  /// `egg sour · shaking well`.
  std::string kind;
  std::string house;
  /// Nothing goes into the drink yet: `errors` says so, and nothing is wrong with it.
  bool is_empty = false;
  bool is_draft = false;
  /// Why it cannot be printed; empty when it can. Nothing below holds then.
  std::vector<std::string> errors;

  /// First: glass, ice, garnish, what stands beside it, for how many.
  std::vector<CardFact> first;
  render::wording::AllergensInWords allergens;
  /// `raw egg, nutmeg`; empty when there is nothing.
  std::string take_care;

  /// Second: what is poured and done.
  std::vector<CardPour> build;
  /// The one pour where the drink is batched, and what stands beside it.
  std::optional<CardPour> one_pour;
  std::string bottle_words;
  std::vector<CardStep> method;

  /// Third: what it should look like and come to.
  std::vector<std::string> right_when;
  std::string strength, volume;
  render::drawing::DrinkPicture picture;

  /// For the back.
  CardSection allergens_in_full;
  std::optional<CardSection> cautions, substitutes;
  std::string notes;

  /// `approved 2026-03-17`; empty where the spec says nothing.
  std::string approved;
  /// Six digits that change with anything that the card says, and with nothing else.
  std::string mark;
};

/// The card of a drink; one with errors says so and no more.
Card card_of(const render::document::BookIndex& index, analysis::DrinkId id);

/// The same card with its amounts, times and temperatures left out: lines to write on stand in their places.
/// It keeps its mark, and loses what its text would give away.
Card blank(Card card);

/// What is written where a number was left out.
extern const std::string blank_line;

}  // namespace gill::print
