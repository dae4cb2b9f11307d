#include "print/card_body.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/characters.h"

namespace gill::print {
namespace {

// Sizes of type on a card of A6 at scale 1, in points.
constexpr double step_pt = 10, right_when_pt = 10, detail_pt = 7.6, detail_title_pt = 8.4;

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
    bool begins = (base::is_digit(sentence[i]) || sentence.compare(i, blank_line.size(), blank_line) == 0) &&
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

}  // namespace

std::vector<TypeBlock> CardBody::blocks() {
  std::vector<TypeBlock> blocks;
  add_one_pour(blocks);
  add_build(blocks);
  add_method(blocks);
  add_right_when(blocks);
  if (shape_.has_back) add_back(blocks);
  if (!shape_.has_back && fit_.with_cautions && card_.cautions) add_section(blocks, *card_.cautions);
  return blocks;
}

TypeBlock CardBody::pour_block(CardAmounts& amounts, const CardPour& pour, double pad, double width) {
  TypeBlock block;
  StyledText words = {{pour.name, sans(name_pt * type_)}};
  if (!pour.remarks.empty())
    words.push_back({"  " + pour.remarks, sans(remark_pt * type_, false, inks::soft, true)});
  auto name = set(words, {width - amounts.width(), Side::start, 6});
  // The largest letters of the line decide where it stands.
  auto figure = amounts.figure();
  double base = pad + std::max(name.base_line, figure.base_line);
  double bottom = base - name.base_line + name.height;
  amounts.place(block, pour, base);
  place_on(block, std::move(name), amounts.width(), base);
  if (!pour.text.empty()) {
    auto text =
        set(pour.text, sans(note_pt * type_, false, inks::soft), {width - amounts.width(), Side::start, 8});
    double height = text.height;
    block.parts.push_back(PlacedText{std::move(text), amounts.width(), bottom});
    bottom += height;
  }
  block.height = std::max(bottom, base - figure.base_line + figure.height) + pad;
  return block;
}

void CardBody::add_one_pour(std::vector<TypeBlock>& blocks) {
  if (!card_.one_pour) return;
  CardAmounts amounts(measures_, {*card_.one_pour});
  TypeBlock block = pour_block(amounts, *card_.one_pour, mm(1), width_ - mm(3.2));
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

void CardBody::add_build(std::vector<TypeBlock>& blocks) {
  CardAmounts amounts(measures_, card_.build);
  double pad = mm(0.35) * fit_.type_scale;
  for (std::size_t i = 0; i < card_.build.size(); ++i) {
    TypeBlock block = pour_block(amounts, card_.build[i], pad, width_);
    if (i == 0) block.space_before = mm(1);
    block.parts.push_back(PlacedRule{0, block.height, width_, block.height, 0.4, inks::rule, 0});
    blocks.push_back(std::move(block));
  }
}

void CardBody::add_method(std::vector<TypeBlock>& blocks) {
  double left = mm(5.2) * std::max(1.0, fit_.type_scale);
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
      auto text = set(step.text, sans(note_pt * type_, false, inks::soft), {width_ - left, Side::start, 10});
      double height = text.height;
      block.parts.push_back(PlacedText{std::move(text), left, block.height});
      block.height += height;
    }
    block.space_before = i == 0 ? mm(2) : mm(0.5) * fit_.type_scale;
    blocks.push_back(std::move(block));
  }
}

void CardBody::add_right_when(std::vector<TypeBlock>& blocks) {
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

void CardBody::add_back(std::vector<TypeBlock>& blocks) {
  std::size_t first = blocks.size();
  add_section(blocks, card_.allergens_in_full);
  if (card_.cautions) add_section(blocks, *card_.cautions);
  if (card_.substitutes) add_section(blocks, *card_.substitutes);
  if (!card_.notes.empty()) add_section(blocks, {"Notes", {{{}, card_.notes}}});
  if (card_.picture.glass && !card_.picture.parts.empty()) add_picture(blocks);
  if (first < blocks.size()) blocks[first].begins_face = true;
}

void CardBody::add_picture(std::vector<TypeBlock>& blocks) {
  TypeBlock block;
  auto scene = std::make_shared<render::drawing::Scene>(
      render::drawing::draw_drink(card_.picture, {44, std::min(60.0 * size_, 88.0), true}).scene);
  double scale = std::min(1.25, width_ / (scene->width_mm * points_per_mm)) * fit_.back_scale;
  block.height = scene->height_mm * points_per_mm * scale;
  block.space_before = mm(2.5);
  block.parts.push_back(PlacedPicture{std::move(scene), 0, 0, scale});
  blocks.push_back(std::move(block));
}

void CardBody::add_section(std::vector<TypeBlock>& blocks, const CardSection& section) {
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

}  // namespace gill::print
