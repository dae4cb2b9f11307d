#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "render/drawing/scene.h"

/// A page as its parts, before it is HTML, Markdown or anything else. All text is plain unless it says
/// CommonMark.
namespace gill::render::document {

// ---- inside a line

struct Plain {
  std::string text;
};
struct Strong {
  std::string text;
};
struct Emphasis {
  std::string text;
};
/// A link to another page of the book: `page` is its path without an ending (`drinks/calamanco`), empty for
/// this page.
struct Link {
  std::string text;
  std::string page;
  std::string fragment;
};
/// A number with its unit, never parted.
struct Number {
  std::string number;
  std::string unit;
  /// True for what was turned into this unit from another: told, but lighter.
  bool converted = false;
};

using Inline = std::variant<Plain, Strong, Emphasis, Link, Number>;

/// A stretch of text. The functions add to its end.
struct Run {
  std::vector<Inline> parts;

  Run() = default;
  Run(std::string text) { plain(std::move(text)); }
  Run(const char* text) : Run(std::string(text)) {}

  Run& plain(std::string text) { return add(Plain{std::move(text)}); }
  Run& strong(std::string text) { return add(Strong{std::move(text)}); }
  Run& emphasis(std::string text) { return add(Emphasis{std::move(text)}); }
  Run& link(std::string text, std::string page, std::string fragment = {}) {
    return add(Link{std::move(text), std::move(page), std::move(fragment)});
  }
  Run& number(std::string number, std::string unit, bool converted = false) {
    return add(Number{std::move(number), std::move(unit), converted});
  }
  Run& append(const Run& other) {
    parts.insert(parts.end(), other.parts.begin(), other.parts.end());
    return *this;
  }
  bool empty() const { return parts.empty(); }

 private:
  Run& add(Inline part) {
    parts.push_back(std::move(part));
    return *this;
  }
};

/// The runs with `separator` between them.
Run joined(const std::vector<Run>& runs, const std::string& separator);

/// What a run says, without how it looks.
std::string plain_text(const Run& run);

/// A box to tick with a pen; forms that draw make it a drawn one.
inline constexpr std::string_view tick_box = "☐";

// ---- blocks

struct Block;

/// How a paragraph or a list is meant to sound; forms may set it as they like.
enum class Tone : std::uint8_t { normal, lead, small };

struct Paragraph {
  Run run;
  Tone tone = Tone::normal;
};

/// CommonMark that people wrote.
struct Prose {
  std::string common_mark;
};

struct ListItem {
  Run run;
  /// CommonMark below it.
  std::string common_mark;
};

struct List {
  enum class Kind : std::uint8_t { bulleted, numbered, index } kind = Kind::bulleted;
  std::vector<ListItem> items;
};

/// A term and what holds of it, one or more.
struct Fact {
  std::string term;
  std::vector<Run> values;
};

struct FactList {
  std::vector<Fact> facts;
  Tone tone = Tone::normal;
};

struct Cell {
  Run run;
  /// CommonMark below it.
  std::string common_mark;
  std::size_t columns = 1;
  /// True for the cell that names its row.
  bool is_header = false;
  /// What it says at each of the table's further scales; empty where it says the same at all of them.
  std::vector<Run> scaled = {};
};

enum class Align : std::uint8_t { start, end, centre };

struct Column {
  std::string title;
  Align align = Align::start;
  /// True for amounts in one unit, which is the title: a reader may want some of them only.
  bool is_unit = false;
};

struct Table {
  /// Empty where the first title names what the table is of.
  std::string caption;
  std::vector<Column> columns;
  std::vector<std::vector<Cell>> rows;
  /// True for tables that may grow wider than a narrow screen and then move sideways.
  bool is_wide = false;
  /// What the amounts can be told for: `×1`, which is what is printed, and further ones where a form can
  /// switch.
  std::vector<std::string> scales = {};
  /// What to mind at the further scales.
  std::string scale_note = {};
};

/// What must not be missed. The role is told by words as well as by looks.
struct Notice {
  enum class Role : std::uint8_t { allergens, caution, error, note } role = Role::note;
  std::string title;
  std::vector<Block> blocks;
};

struct Figure {
  drawing::Scene scene;
  Run caption;
};

/// A part of the page with a heading. `name` is its kind and its anchor: plain ASCII, once a page.
struct Section {
  std::string name;
  Run title;
  std::vector<Block> blocks;
};

/// Blocks that belong together and may be set side by side with other groups.
struct Group {
  std::string name;
  std::vector<Block> blocks;
};

using BlockContent = std::variant<Paragraph, Prose, List, FactList, Table, Notice, Figure, Section, Group>;

struct Block {
  BlockContent content;
  template <typename Content>
  requires(!std::is_same_v<std::decay_t<Content>, Block>) Block(Content&& part)
      : content(std::forward<Content>(part)) {}
};

// ---- pages

/// One choice of a filter: what it is called, and how the search data name it.
struct Choice {
  std::string words;
  std::string value;
};

/// The filters of a list of drinks, for forms that can act.
struct Finder {
  std::vector<Choice> menus, families, bases, glasses;
  /// Allergens that a drink can be without a declaration of.
  std::vector<Choice> allergens;
  /// What stands beside every list that leaves out an allergen.
  std::string allergen_note;
};

struct Page {
  /// Path in the book without its ending: `drinks/calamanco`.
  std::string path;
  std::string title;
  /// What kind of page it is, for its looks: `drink`, `prep`, `index` …
  std::string kind;
  /// BCP 47.
  std::string language = "en";
  /// One line below the title.
  Run subtitle;
  std::vector<Block> blocks;
  std::optional<Finder> finder = {};
  /// The page's content for programs: schema.org, as JSON-LD; empty where there is none.
  std::string linked_data = {};
};

/// What stands on every page.
struct Frame {
  std::string house;
  /// The main pages, in order: what each is called and its path.
  std::vector<Link> navigation;
  /// The standing lines at the end of a page.
  std::vector<std::string> foot;
};

}  // namespace gill::render::document
