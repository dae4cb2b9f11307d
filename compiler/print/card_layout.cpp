#include "print/card_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.h"
#include "print/flow.h"
#include "render/wording/allergen_words.h"

namespace gill::print {

namespace wording = render::wording;

namespace {

// Sizes of type on a card of A6 at scale 1, in points. The amounts have figures of 3.3 mm: 20 minutes of arc
// at 570 mm, an arm's length; ISO 9241-303 asks for 16 at the least and likes 20 to 22 (from memory).
constexpr std::array<double, 4> title_pt = {22, 19.5, 17, 15};
constexpr std::array<double, 3> long_title_pt = {15, 12.5, 10.5};
constexpr double kind_pt = 8, label_pt = 6.8, first_pt = 10.5;
constexpr double amount_pt = 13.2, unit_pt = 8.6, other_amount_pt = 10.8, name_pt = 11.2, remark_pt = 8.8,
                 note_pt = 8.4;
constexpr double step_pt = 10, right_when_pt = 10, allergen_pt = 11, tab_pt = 7;
constexpr double strength_pt = 8.6, foot_pt = 6.6, small_print_pt = 6.1;
constexpr double detail_pt = 7.6, detail_title_pt = 8.4;

// Millimetres on a card of A6.
constexpr double margin_mm = 6, picture_wide_mm = 33;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// A sentence with what is measured in it (times, temperatures) in bold.
StyledText with_times_bold(const std::string& sentence, double size) {
  static const std::array<std::string_view, 10> units = {"s",  "min", "h",     "d",     "days",
                                                         "°C", "°F",  "weeks", "times", "turns"};
  StyledText text;
  auto add = [&](const std::string& words, bool bold) {
    if (!words.empty()) text.push_back({words, sans(size, bold)});
  };
  std::size_t done = 0;
  for (std::size_t i = 0; i < sentence.size();) {
    bool begins = (is_digit(sentence[i]) || sentence.compare(i, blank_line.size(), blank_line) == 0) &&
                  (i == 0 || sentence[i - 1] == ' ');
    auto space = sentence.find(' ', i);
    if (begins && space != std::string::npos) {
      auto end = sentence.find_first_of(" .,;", space + 1);
      std::string unit = sentence.substr(space + 1, end - space - 1);
      if (std::find(units.begin(), units.end(), unit) != units.end()) {
        add(sentence.substr(done, i - done), false);
        done = std::min(end, sentence.size());
        add(sentence.substr(i, done - i), true);
        i = done;
        continue;
      }
    }
    ++i;
  }
  add(sentence.substr(done), false);
  return text;
}

/// One way to set a card: how large its type and its picture are, and whether its cautions stand on the front
/// in full.
struct CardFit {
  double type_scale = 1;
  double picture_mm = 32;
  bool with_cautions = false;
  /// How large the words and the picture of the back are.
  double back_scale = 1;
};

/// Sets one card in one way.
class CardComposer {
 public:
  CardComposer(const Typesetter& typesetter, const Card& card, const CardShape& shape, const CardFit& fit)
      : typesetter_(typesetter),
        card_(card),
        shape_(shape),
        fit_(fit),
        size_(std::min(shape.paper.width_mm / a6.width_mm, shape.paper.height_mm / a6.height_mm)),
        type_(fit.type_scale * size_),
        picture_mm_(fit.picture_mm * size_),
        margin_(margin_mm * points_per_mm * size_),
        width_(shape.paper.width_pt() - 2 * margin_),
        height_(shape.paper.height_pt() - 2 * margin_) {
    layout_.type_scale = fit.type_scale;
  }

  CardLayout compose() {
    if (!card_.errors.empty()) return error_card();
    double first_head = set_first_head(), foot = foot_height();
    double later_head = set_later_head(false).height;
    auto faces = flow(body(), height_ - first_head - foot, height_ - later_head - foot);
    std::size_t front_faces = 0;
    for (std::size_t i = 0; i < faces.size(); ++i) {
      bool is_back = shape_.has_back && i % 2 == 1;
      bool is_detail = faces[i].front().begins_face || (i > 0 && in_details_);
      in_details_ = is_detail;
      front_faces += is_detail ? 0 : 1;
      add_face(std::move(faces[i]), i == 0, is_back, is_detail);
    }
    layout_.front_faces = front_faces;
    layout_.goes_on = front_faces > 1 || (shape_.has_back && layout_.faces.size() > 2);
    for (std::size_t i = 0; i < layout_.faces.size(); ++i) add_foot(layout_.faces[i], i);
    if (shape_.has_back && layout_.faces.size() % 2 == 1) layout_.faces.push_back({{}, true});
    for (auto& face : layout_.faces) move(face.parts, margin_, margin_);
    return std::move(layout_);
  }

 private:
  double mm(double length) const { return length * points_per_mm * size_; }
  double small_print() const { return std::max(min_small_print_pt, small_print_pt * std::sqrt(size_)); }

  ShapedText set(const StyledText& text, const Shaping& setting) {
    auto set = typesetter_.set(text, setting);
    note(set);
    return set;
  }
  ShapedText set(const std::string& words, const TextStyle& style, const Shaping& setting = {}) {
    return set(StyledText{{words, style}}, setting);
  }
  void note(const ShapedText& text) {
    layout_.is_cut |= text.is_cut;
    layout_.lacks_letters |= text.lacks_letters;
  }

  // ---- faces

  void add_face(std::vector<TypeBlock> blocks, bool is_first, bool is_back, bool is_detail) {
    CardFace face;
    face.is_back = is_back;
    double y = 0;
    if (is_first) {
      face.parts = first_head_;
      y = first_head_height_;
    } else {
      auto head = set_later_head(is_detail);
      face.parts = std::move(head.parts);
      y = head.height;
    }
    stack(std::move(blocks), 0, y, face.parts);
    layout_.faces.push_back(std::move(face));
  }

  /// The name as large as it goes on one line, else on up to three.
  ShapedText title() {
    for (double size : title_pt) {
      auto one_line = typesetter_.set(card_.name, serif(size * size_, true, inks::green));
      if (one_line.width > width_) continue;
      note(one_line);
      return one_line;
    }
    ShapedText smallest;
    for (double size : long_title_pt) {
      smallest =
          typesetter_.set(card_.name, serif(size * size_, true, inks::green), {width_, Side::start, 3});
      if (!smallest.is_cut) break;
    }
    note(smallest);
    return smallest;
  }

  double set_first_head() {
    auto& parts = first_head_;
    double y = -mm(1);
    auto name = title();
    y += name.height;
    parts.push_back(PlacedText{std::move(name), 0, -mm(1)});
    y = add_kind(parts, y);
    y += mm(1);
    parts.push_back(PlacedRule{0, y, width_, y, 1.2 * size_, inks::green, 0});
    y += mm(2);
    y = add_first_identities(parts, y);
    y = add_warnings(parts, y + mm(1.4));
    first_head_height_ = y + mm(1);
    return first_head_height_;
  }

  double add_kind(std::vector<Placed>& parts, double y) {
    StyledText kind;
    if (card_.is_draft) kind.push_back({"Draft: not approved", sans(kind_pt * size_, true)});
    if (!card_.kind.empty())
      kind.push_back({(kind.empty() ? "" : " · ") + card_.kind, sans(kind_pt * size_, false, inks::soft)});
    if (kind.empty()) return y;
    auto words = set(kind, {width_, Side::start, 2});
    double height = words.height;
    parts.push_back(PlacedText{std::move(words), 0, y});
    return y + height;
  }

  /// Glass, ice and garnish, with the glass drawn beside them as high as they are at the least.
  double add_first_identities(std::vector<Placed>& parts, double top) {
    double picture_room = card_.picture.glass ? picture_wide_mm * size_ * points_per_mm : 0;
    double y = add_first_words(parts, top, width_ - picture_room);
    if (!card_.picture.glass) return y;
    double high_mm = std::max(picture_mm_, (y - top) / points_per_mm);
    auto picture = card_.picture;
    picture.parts.clear();
    // The scene has its own margins: for the mark of the line on the left, for ice above the rim.
    render::drawing::Room room{picture_wide_mm * size_ - 16, high_mm - 6, false};
    auto scene = std::make_shared<render::drawing::Scene>(render::drawing::draw_drink(picture, room).scene);
    double wide = scene->width_mm * points_per_mm, high = scene->height_mm * points_per_mm;
    parts.push_back(PlacedPicture{std::move(scene), width_ - wide, top, 1});
    return std::max(y, top + high);
  }

  double add_first_words(std::vector<Placed>& parts, double top, double words_width) {
    // Three stand below their labels; more go beside them, which takes less height.
    constexpr std::size_t max_stacked = 3;
    bool stacked = card_.first.size() <= max_stacked;
    double left = stacked ? 0 : mm(12);
    double y = top;
    for (const auto& fact : card_.first) {
      auto label = set(fact.label, sans(label_pt * size_, false, inks::soft), {words_width, Side::start, 1});
      auto words = set(fact.words, sans(first_pt * type_, true), {words_width - left, Side::start, 4});
      double words_top = stacked ? y + label.height - mm(0.3) : y;
      double label_top = stacked ? y : y + words.base_line - label.base_line;
      parts.push_back(PlacedText{std::move(label), 0, label_top});
      y = words_top + words.height + mm(stacked ? 1 : 0.6);
      parts.push_back(PlacedText{std::move(words), left, words_top});
    }
    return y;
  }

  // ---- what can hurt the guest

  /// What the label of a warning looks like: the surer, the darker.
  enum class Tab : std::uint8_t { filled, framed, dashed };

  struct Warning {
    Tab tab;
    std::string label;
    std::string words;
    /// What stands behind them, less loud.
    std::string aside = {};
  };

  std::vector<Warning> warnings() const {
    const auto& allergens = card_.allergens;
    std::vector<Warning> all;
    if (!allergens.present.empty())
      all.push_back({Tab::filled, "Contains", base::join(allergens.present, ", ")});
    if (!allergens.possible.empty())
      all.push_back({Tab::framed, "May contain", base::join(allergens.possible, ", ")});
    if (!allergens.all_known) all.push_back({Tab::dashed, "Not known", not_known()});
    if (all.empty()) all.push_back({Tab::framed, "Allergens", "no part of it declares one"});
    bool in_full = shape_.has_back || fit_.with_cautions;
    if (!card_.take_care.empty())
      all.push_back({Tab::filled, "Take care", card_.take_care, in_full ? "" : "  in full in the book"});
    return all;
  }

  std::string not_known() const {
    constexpr std::size_t max_names = 3;
    const auto& silent = card_.allergens.silent;
    if (silent.empty()) return "a line could not be read; ask before you answer a guest";
    std::vector<std::string> names(
        silent.begin(), silent.begin() + static_cast<std::ptrdiff_t>(std::min(silent.size(), max_names)));
    if (silent.size() > max_names) names.push_back(fmt::format("{} more", silent.size() - max_names));
    return base::join_with_and(names) + ": read the label";
  }

  double add_warnings(std::vector<Placed>& parts, double top) {
    auto all = warnings();
    double tab_width = 0, pad = mm(1);
    std::vector<ShapedText> labels;
    for (const auto& warning : all) {
      labels.push_back(set(
          warning.label, sans(tab_pt * size_, true, warning.tab == Tab::filled ? inks::paper : inks::text)));
      tab_width = std::max(tab_width, labels.back().width + 2 * pad);
    }
    parts.push_back(PlacedRule{0, top, width_, top, 1.2 * size_, inks::text, 0});
    double y = top + mm(1);
    for (std::size_t i = 0; i < all.size(); ++i) {
      double size = allergen_pt * std::max(type_, size_ * 0.9);
      StyledText text = {{all[i].words, sans(size, true)}};
      if (!all[i].aside.empty())
        text.push_back({all[i].aside, sans(remark_pt * size_ * 0.9, false, inks::soft, true)});
      auto words = set(text, {width_ - tab_width - mm(1.8), Side::start, 5});
      double tab_height = labels[i].height + mm(0.5);
      // The label's letters stand on the line of the words.
      double tab_top = y + words.base_line - labels[i].base_line - mm(0.25);
      parts.push_back(tab(all[i].tab, tab_top, tab_width, tab_height));
      parts.push_back(PlacedText{labels[i], pad, tab_top + mm(0.25)});
      double height = words.height;
      parts.push_back(PlacedText{std::move(words), tab_width + mm(1.8), y});
      y += std::max(height, tab_height) + mm(0.5);
    }
    y += mm(0.5);
    parts.push_back(PlacedRule{0, y, width_, y, 1.2 * size_, inks::text, 0});
    return y;
  }

  PlacedPanel tab(Tab kind, double top, double width, double height) const {
    double thick = 0.8 * size_;
    switch (kind) {
      case Tab::filled:
        return {0, top, width, height, inks::text, 0, inks::text, 0};
      case Tab::framed:
        return {thick / 2, top + thick / 2, width - thick, height - thick, {}, thick, inks::text, 0};
      case Tab::dashed:
        return {thick / 2, top + thick / 2, width - thick, height - thick, {}, thick, inks::text, 2 * size_};
    }
    return {};
  }

  struct Head {
    std::vector<Placed> parts;
    double height = 0;
  };

  Head set_later_head(bool is_detail) {
    Head head;
    StyledText words = {{card_.name, serif(13 * size_, true, inks::green)},
                        {is_detail ? "" : ", continued", serif(10 * size_, false, inks::soft, true)}};
    auto name = set(words, {width_, Side::start, 3});
    double y = name.height;
    head.parts.push_back(PlacedText{std::move(name), 0, 0});
    y += mm(1);
    // What can hurt stands on every face; the back begins with it in full.
    if (is_detail)
      head.parts.push_back(PlacedRule{0, y, width_, y, 1.2 * size_, inks::green, 0});
    else
      y = add_warnings(head.parts, y);
    head.height = y + mm(1.5);
    return head;
  }

  // ---- the body

  std::vector<TypeBlock> body() {
    std::vector<TypeBlock> blocks;
    add_one_pour(blocks);
    add_build(blocks);
    add_method(blocks);
    add_right_when(blocks);
    if (shape_.has_back) add_back(blocks);
    if (!shape_.has_back && fit_.with_cautions && card_.cautions) add_section(blocks, *card_.cautions);
    return blocks;
  }

  /// The amounts of the build in columns: figures stand on each other's decimal point.
  struct Column {
    double before = 0, after = 0, unit = 0;
    bool has_fractions = false;
    double gap() const { return unit > 0 ? 2.2 : 0; }
    double width() const { return before + after + gap() + unit; }
  };

  static std::size_t point_of(const std::string& number) { return std::min(number.find('.'), number.size()); }
  /// The same within a column: where fractions stand in it, figures stand on its right edge.
  std::size_t point_in(std::size_t column, const std::string& number) const {
    return columns_[column].has_fractions ? number.size() : point_of(number);
  }

  TextStyle amount_style(std::size_t column, const CardMeasure& measure) const {
    if (column == 0) return sans(amount_pt * type_, true);
    return sans(other_amount_pt * type_, !measure.is_converted,
                measure.is_converted ? inks::soft : inks::text);
  }
  TextStyle unit_style() const { return sans(unit_pt * type_, false, inks::soft); }

  std::string before_point(std::size_t column, const CardMeasure& measure, bool about) const {
    return (about ? "≈ " : "") + measure.number.substr(0, point_in(column, measure.number));
  }
  std::string after_point(std::size_t column, const CardMeasure& measure) const {
    return measure.number.substr(point_in(column, measure.number));
  }

  void measure_columns(const std::vector<CardPour>& pours) {
    columns_.clear();
    amounts_width_ = 0;
    auto width_of = [&](const std::string& words, const TextStyle& style) {
      return words.empty() ? 0.0 : typesetter_.set(words, style).width;
    };
    columns_.resize(1);
    for (const auto& pour : pours) {
      columns_.resize(std::max(columns_.size(), pour.columns.size()));
      for (std::size_t i = 0; i < pour.columns.size(); ++i)
        columns_[i].has_fractions |= !pour.whole && pour.columns[i].number.find('/') != std::string::npos;
    }
    for (const auto& pour : pours) {
      for (std::size_t i = 0; i < pour.columns.size(); ++i) {
        if (pour.whole || pour.columns[i].empty()) continue;
        auto style = amount_style(i, pour.columns[i]);
        auto& column = columns_[i];
        column.before = std::max(column.before,
                                 width_of(before_point(i, pour.columns[i], pour.is_about && i == 0), style));
        column.after = std::max(column.after, width_of(after_point(i, pour.columns[i]), style));
        column.unit = std::max(column.unit, width_of(pour.columns[i].unit, unit_style()));
      }
      if (pour.whole && !pour.whole->number.empty() && is_digit(pour.whole->number[0]))
        columns_[0].before =
            std::max(columns_[0].before,
                     width_of(before_point(0, *pour.whole, pour.is_about), amount_style(0, *pour.whole)));
    }
    for (const auto& column : columns_)
      amounts_width_ += column.width() + (column.width() > 0 ? column_gap() : 0);
    // What stands across the columns may be wider than they are, up to two fifths of the card.
    for (const auto& pour : pours)
      if (pour.whole) {
        double rest = width_of(after_point(0, *pour.whole), amount_style(0, *pour.whole)) + 2.2 +
                      width_of(pour.whole->unit, unit_style());
        double wide = columns_[0].before + rest + column_gap();
        amounts_width_ = std::max(amounts_width_, std::min(wide, width_ * 0.4));
      }
    amounts_width_ = std::min(amounts_width_, width_ * 0.55);
  }

  double column_gap() const { return mm(2.4); }

  /// The amounts of one line, all on the base line at `base`.
  void place_amounts(TypeBlock& block, const CardPour& pour, double base) {
    if (pour.whole) {
      place_whole(block, *pour.whole, pour.is_about, base);
      return;
    }
    double left = 0;
    for (std::size_t i = 0; i < pour.columns.size(); ++i) {
      const auto& column = columns_[i];
      const auto& measure = pour.columns[i];
      auto style = amount_style(i, measure);
      if (!measure.empty()) {
        double point = left + column.before;
        auto before = set(before_point(i, measure, pour.is_about && i == 0), style);
        place_on(block, before, point - before.width, base);
        if (auto after = after_point(i, measure); !after.empty())
          place_on(block, set(after, style), point, base);
        if (!measure.unit.empty())
          place_on(block, set(measure.unit, unit_style()), point + column.after + column.gap(), base);
      }
      left += column.width() + (column.width() > 0 ? column_gap() : 0);
    }
  }

  void place_whole(TypeBlock& block, const CardMeasure& measure, bool about, double base) {
    bool is_number = !measure.number.empty() && (is_digit(measure.number[0]) || measure.number == blank_line);
    if (!is_number) {
      std::string words = measure.number + (measure.unit.empty() ? "" : " " + measure.unit);
      place_on(block,
               set(words, sans(name_pt * type_, true), {amounts_width_ - column_gap() / 2, Side::start, 1}),
               0, base);
      return;
    }
    auto style = amount_style(0, measure);
    auto before = set(before_point(0, measure, about), style);
    double x = std::max(0.0, columns_[0].before - before.width);
    double end = x + before.width;
    place_on(block, before, x, base);
    if (auto after = after_point(0, measure); !after.empty()) {
      auto set_after = set(after, style);
      place_on(block, set_after, end, base);
      end += set_after.width;
    }
    if (measure.unit.empty()) return;
    double room = amounts_width_ - column_gap() / 2 - end - 2.2;
    place_on(block, set(measure.unit, sans(unit_pt * type_, false), {std::max(room, 12.0), Side::start, 1}),
             end + 2.2, base);
  }

  static void place_on(TypeBlock& block, ShapedText text, double left, double base) {
    double top = base - text.base_line;
    block.parts.push_back(PlacedText{std::move(text), left, top});
  }

  TypeBlock pour_piece(const CardPour& pour, double pad) {
    TypeBlock block;
    StyledText words = {{pour.name, sans(name_pt * type_)}};
    if (!pour.remarks.empty())
      words.push_back({"  " + pour.remarks, sans(remark_pt * type_, false, inks::soft, true)});
    auto name = set(words, {width_ - amounts_width_, Side::start, 6});
    // The largest letters of the line decide where it stands.
    auto figure = typesetter_.set("0", sans(amount_pt * type_, true));
    double base = pad + std::max(name.base_line, figure.base_line);
    double bottom = base - name.base_line + name.height;
    place_amounts(block, pour, base);
    place_on(block, std::move(name), amounts_width_, base);
    if (!pour.text.empty()) {
      auto text =
          set(pour.text, sans(note_pt * type_, false, inks::soft), {width_ - amounts_width_, Side::start, 8});
      double height = text.height;
      block.parts.push_back(PlacedText{std::move(text), amounts_width_, bottom});
      bottom += height;
    }
    block.height = std::max(bottom, base - figure.base_line + figure.height) + pad;
    return block;
  }

  void add_one_pour(std::vector<TypeBlock>& blocks) {
    if (!card_.one_pour) return;
    measure_columns({*card_.one_pour});
    TypeBlock block = pour_piece(*card_.one_pour, mm(1));
    move(block.parts, mm(1.6), 0);
    if (!card_.bottle_words.empty()) {
      auto words = set(card_.bottle_words, sans(note_pt * type_, true), {width_ - mm(3.2), Side::start, 4});
      double height = words.height;
      block.parts.push_back(PlacedText{std::move(words), mm(1.6), block.height - mm(0.6)});
      block.height += height;
    }
    double thick = 1.2 * size_;
    block.parts.insert(block.parts.begin(),
                       PlacedPanel{thick / 2, 0, width_ - thick, block.height, {}, thick, inks::green, 0});
    block.height += mm(0.6);
    blocks.push_back(std::move(block));
  }

  void add_build(std::vector<TypeBlock>& blocks) {
    measure_columns(card_.build);
    double pad = mm(0.35) * layout_.type_scale;
    for (std::size_t i = 0; i < card_.build.size(); ++i) {
      TypeBlock block = pour_piece(card_.build[i], pad);
      if (i == 0) block.space_before = mm(1);
      block.parts.push_back(PlacedRule{0, block.height, width_, block.height, 0.4, inks::rule, 0});
      blocks.push_back(std::move(block));
    }
  }

  void add_method(std::vector<TypeBlock>& blocks) {
    double left = mm(5.2) * std::max(1.0, layout_.type_scale);
    for (std::size_t i = 0; i < card_.method.size(); ++i) {
      const auto& step = card_.method[i];
      TypeBlock block;
      auto words = set(with_times_bold(step.sentence, step_pt * type_), {width_ - left, Side::start, 8});
      auto number = set(fmt::format("{}", i + 1), sans(step_pt * type_, true, inks::green));
      block.height = words.height;
      double base = words.base_line;
      double number_left = std::max(0.0, left - mm(1.6) - number.width);
      place_on(block, std::move(number), number_left, base);
      place_on(block, std::move(words), left, base);
      if (!step.text.empty()) {
        auto text =
            set(step.text, sans(note_pt * type_, false, inks::soft), {width_ - left, Side::start, 10});
        double height = text.height;
        block.parts.push_back(PlacedText{std::move(text), left, block.height});
        block.height += height;
      }
      block.space_before = i == 0 ? mm(2) : mm(0.5) * layout_.type_scale;
      blocks.push_back(std::move(block));
    }
  }

  void add_right_when(std::vector<TypeBlock>& blocks) {
    for (std::size_t i = 0; i < card_.right_when.size(); ++i) {
      TypeBlock block;
      block.space_before = i == 0 ? mm(2) : mm(0.5);
      StyledText words;
      if (i == 0) words.push_back({"Right when  ", sans(label_pt * size_, false, inks::soft)});
      words.push_back({card_.right_when[i], serif(right_when_pt * type_, false, inks::green, true)});
      auto text = set(words, {width_, Side::start, 8});
      block.height = text.height;
      block.parts.push_back(PlacedText{std::move(text), 0, 0});
      blocks.push_back(std::move(block));
    }
  }

  // ---- the back

  void add_back(std::vector<TypeBlock>& blocks) {
    std::size_t first = blocks.size();
    add_section(blocks, card_.allergens_in_full);
    if (card_.cautions) add_section(blocks, *card_.cautions);
    if (card_.substitutes) add_section(blocks, *card_.substitutes);
    if (!card_.notes.empty()) add_section(blocks, {"Notes", {{{}, card_.notes}}});
    if (card_.picture.glass && !card_.picture.parts.empty()) add_picture(blocks);
    if (first < blocks.size()) blocks[first].begins_face = true;
  }

  void add_picture(std::vector<TypeBlock>& blocks) {
    TypeBlock block;
    auto scene = std::make_shared<render::drawing::Scene>(
        render::drawing::draw_drink(card_.picture, {44, std::min(60.0 * size_, 88.0), true}).scene);
    double scale = std::min(1.25, width_ / (scene->width_mm * points_per_mm)) * fit_.back_scale;
    block.height = scene->height_mm * points_per_mm * scale;
    block.space_before = mm(2.5);
    block.parts.push_back(PlacedPicture{std::move(scene), 0, 0, scale});
    blocks.push_back(std::move(block));
  }

  void add_section(std::vector<TypeBlock>& blocks, const CardSection& section) {
    double text_scale = shape_.has_back ? size_ * fit_.back_scale : std::max(type_, size_ * 0.9);
    TypeBlock title;
    auto words =
        set(section.title, sans(detail_title_pt * text_scale, true, inks::green), {width_, Side::start, 2});
    title.height = words.height;
    title.space_before = mm(2);
    title.keeps_next = true;
    title.parts.push_back(PlacedText{std::move(words), 0, 0});
    blocks.push_back(std::move(title));
    for (const auto& paragraph : section.paragraphs) {
      TypeBlock block;
      StyledText text;
      if (!paragraph.lead.empty()) text.push_back({paragraph.lead, sans(detail_pt * text_scale, true)});
      text.push_back({(paragraph.lead.empty() ? "" : " ") + paragraph.words, sans(detail_pt * text_scale)});
      auto set_text = set(text, {width_, Side::start, 24});
      block.height = set_text.height;
      block.space_before = mm(0.5);
      block.parts.push_back(PlacedText{std::move(set_text), 0, 0});
      blocks.push_back(std::move(block));
    }
  }

  // ---- the foot

  std::string foot_words(std::size_t face) const {
    std::vector<std::string> parts = {card_.house};
    if (!card_.approved.empty()) parts.push_back(card_.approved);
    if (!shape_.printed.empty()) parts.push_back(shape_.printed);
    parts.push_back("spec " + card_.mark);
    std::size_t cards = shape_.has_back ? (layout_.faces.size() + 1) / 2 : layout_.faces.size();
    std::size_t number = shape_.has_back ? face / 2 : face;
    if (cards > 1) parts.push_back(fmt::format("card {} of {}", number + 1, cards));
    return base::join(parts, " · ");
  }

  /// What the drink comes to; on a blank card, who practises.
  std::string result_words() const {
    if (shape_.is_blank) return "Name ________________   Date ____________";
    if (card_.strength.empty()) return {};
    return card_.strength + " · " + card_.volume + " as served";
  }

  Head set_foot(std::size_t face) {
    Head foot;
    foot.parts.push_back(PlacedRule{0, 0, width_, 0, 0.5, inks::rule, 0});
    double y = mm(0.8);
    if (auto words = result_words(); !words.empty()) {
      auto text = set(words, sans(strength_pt * size_, true), {width_, Side::start, 1});
      double height = text.height;
      foot.parts.push_back(PlacedText{std::move(text), 0, y});
      y += height;
    }
    auto shared =
        set(wording::shared_equipment_line, sans(small_print(), false, inks::soft), {width_, Side::start, 3});
    double shared_height = shared.height;
    foot.parts.push_back(PlacedText{std::move(shared), 0, y});
    y += shared_height;
    auto words = set(foot_words(face),
                     sans(std::max(min_small_print_pt, foot_pt * std::sqrt(size_)), false, inks::soft),
                     {width_, Side::start, 2});
    double height = words.height;
    foot.parts.push_back(PlacedText{std::move(words), 0, y});
    foot.height = y + height;
    return foot;
  }

  /// The foot with as much in its last line as it can come to hold.
  double foot_height() {
    auto faces = layout_.faces;
    layout_.faces.resize(3);
    double height = set_foot(0).height;
    layout_.faces = std::move(faces);
    return height + mm(1);
  }

  void add_foot(CardFace& face, std::size_t number) {
    auto foot = set_foot(number);
    move(foot.parts, 0, height_ - foot.height);
    face.parts.insert(face.parts.end(), foot.parts.begin(), foot.parts.end());
  }

  // ---- in error

  CardLayout error_card() {
    CardFace face;
    double y = -mm(1);
    auto name = title();
    y += name.height + mm(1);
    face.parts.push_back(PlacedText{std::move(name), 0, -mm(1)});
    face.parts.push_back(PlacedRule{0, y, width_, y, 2.4 * size_, inks::text, 0});
    y += mm(2.5);
    auto add = [&](const std::string& words, const TextStyle& style, int max_lines) {
      auto text = set(words, style, {width_, Side::start, max_lines});
      if (y + text.height > height_ - mm(12)) return false;
      double height = text.height;
      face.parts.push_back(PlacedText{std::move(text), 0, y});
      y += height + mm(1.6);
      return true;
    };
    add("This card cannot be printed: its spec has an error.", sans(13 * size_, true), 4);
    add("Ask before you pour it. An older card may be wrong as well.", sans(10.5 * size_), 4);
    for (const auto& error : card_.errors)
      if (!add(error, sans(8 * size_), 8)) break;
    layout_.faces.push_back(std::move(face));
    layout_.is_cut = false;
    auto foot = set(foot_words(0), sans(foot_pt * size_, false, inks::soft), {width_, Side::start, 2});
    double top = height_ - foot.height;
    layout_.faces.back().parts.push_back(PlacedText{std::move(foot), 0, top});
    move(layout_.faces.back().parts, margin_, margin_);
    if (shape_.has_back) layout_.faces.push_back({{}, true});
    return std::move(layout_);
  }

  const Typesetter& typesetter_;
  const Card& card_;
  const CardShape& shape_;
  CardFit fit_;
  double size_, type_, picture_mm_, margin_, width_, height_;
  CardLayout layout_;
  std::vector<Placed> first_head_;
  double first_head_height_ = 0;
  std::vector<Column> columns_;
  double amounts_width_ = 0;
  bool in_details_ = false;
};

/// The ways to set a card, the most generous first: type gives way to the picture as far as it is the usual,
/// then the picture to the type.
constexpr std::array<std::pair<double, double>, 12> ways = {{{1.2, 38},
                                                             {1.15, 38},
                                                             {1.1, 38},
                                                             {1.1, 32},
                                                             {1.05, 32},
                                                             {1, 32},
                                                             {1, 26},
                                                             {0.95, 26},
                                                             {0.95, 22},
                                                             {0.9, 22},
                                                             {0.85, 22},
                                                             {min_type_scale, 22}}};

/// The sizes of the back.
constexpr std::array<double, 5> back_scales = {1.1, 1, 0.92, 0.85, min_type_scale};

/// A way, and the card set in it.
struct FittedFront {
  CardFit fit;
  CardLayout layout;
};

/// The most generous way that takes no more fronts than the least generous one, found by halving: more room
/// never takes fewer.
FittedFront best_front(const Typesetter& typesetter, const Card& card, const CardShape& shape,
                       bool with_cautions) {
  auto path_of = [&](std::size_t i) { return CardFit{ways[i].first, ways[i].second, with_cautions, 1}; };
  auto with_fit = [&](std::size_t i) { return CardComposer(typesetter, card, shape, path_of(i)).compose(); };
  std::size_t first = 0, last = ways.size() - 1;
  auto best = with_fit(last);
  std::size_t min_fronts = best.front_faces;
  bool least_is_cut = best.is_cut;
  while (first < last) {
    std::size_t middle = (first + last) / 2;
    auto tried = with_fit(middle);
    if (tried.front_faces <= min_fronts && (!tried.is_cut || least_is_cut)) {
      last = middle;
      best = std::move(tried);
    } else {
      first = middle + 1;
    }
  }
  return {path_of(last), std::move(best)};
}

}  // namespace

CardLayout lay_out(const Typesetter& typesetter, const Card& card, const CardShape& shape) {
  // Below this the type is not made smaller for what the book says in full.
  constexpr double min_for_cautions = 0.95;
  auto with_fit = [&](const CardFit& fit) { return CardComposer(typesetter, card, shape, fit).compose(); };
  auto [front, best] = best_front(typesetter, card, shape, false);
  if (!card.errors.empty()) return best;
  if (shape.has_back) {
    for (double back_scale : back_scales) {
      front.back_scale = back_scale;
      auto tried = with_fit(front);
      if (back_scale == back_scales.front() || tried.faces.size() < best.faces.size())
        best = std::move(tried);
    }
    return best;
  }
  if (!card.cautions) return best;
  auto [with, layout] = best_front(typesetter, card, shape, true);
  bool goes_on_it = layout.faces.size() <= best.faces.size() &&
                    with.type_scale >= std::min(min_for_cautions, front.type_scale);
  return goes_on_it ? layout : best;
}

}  // namespace gill::print
