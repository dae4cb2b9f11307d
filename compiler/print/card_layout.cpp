#include "print/card_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.h"
#include "print/card_body.h"
#include "print/card_head.h"
#include "render/wording/allergen_words.h"

namespace gill::print {

namespace wording = render::wording;

namespace {

// Sizes of type on a card of A6 at scale 1, in points.
constexpr double strength_pt = 8.6, foot_pt = 6.6, small_print_pt = 6.1;

/// What stands at the end of every face: what the drink comes to, whose card it is, what all cards say.
class CardFoot : CardPart {
 public:
  CardFoot(CardMeasures& measures, const Card& card) : CardPart(measures), card_(card) {}

  /// The foot of a face of so many.
  PlacedParts of_face(std::size_t face, std::size_t faces) {
    PlacedParts foot;
    foot.parts.push_back(PlacedRule{0, 0, width_, 0, 0.5, inks::rule, 0});
    double y = mm(0.8);
    auto add = [&](const std::string& words, const TextStyle& style, int max_lines) {
      auto text = set(words, style, {width_, Side::start, max_lines});
      double height = text.height;
      foot.parts.push_back(PlacedText{std::move(text), 0, y});
      y += height;
    };
    if (auto words = result_words(); !words.empty()) add(words, sans(strength_pt * size_, true), 1);
    add(wording::shared_equipment_line, sans(small_print(small_print_pt), false, inks::soft), 3);
    add(words_of(face, faces), sans(small_print(foot_pt), false, inks::soft), 2);
    foot.height = y;
    return foot;
  }

  /// As high as it can come to be: with a number of the card in it.
  double height() {
    constexpr std::size_t several = 3;
    return of_face(0, several).height + mm(1);
  }

  /// The last line alone, as a card in error has it.
  ShapedText last_line() {
    return set(words_of(0, 1), sans(foot_pt * size_, false, inks::soft), {width_, Side::start, 2});
  }

 private:
  double small_print(double size_pt) const {
    return std::max(min_small_print_pt, size_pt * std::sqrt(size_));
  }

  std::string words_of(std::size_t face, std::size_t faces) const {
    std::vector<std::string> parts = {card_.house};
    if (!card_.approved.empty()) parts.push_back(card_.approved);
    if (!shape_.printed.empty()) parts.push_back(shape_.printed);
    parts.push_back("spec " + card_.mark);
    std::size_t cards = shape_.has_back ? (faces + 1) / 2 : faces;
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

  const Card& card_;
};

/// Sets one card in one way.
class CardComposer : CardPart {
 public:
  CardComposer(CardMeasures& measures, const Card& card)
      : CardPart(measures), card_(card), head_(measures, card), foot_(measures, card) {
    layout_.type_scale = fit_.type_scale;
  }

  CardLayout compose() {
    card_.errors.empty() ? set_faces() : set_error();
    if (shape_.has_back && layout_.faces.size() % 2 == 1) layout_.faces.push_back({{}, true});
    for (auto& face : layout_.faces) move(face.parts, measures_.margin, measures_.margin);
    layout_.is_cut = measures_.is_cut;
    layout_.lacks_letters = measures_.lacks_letters;
    return std::move(layout_);
  }

 private:
  void set_faces() {
    auto first_head = head_.first();
    double foot = foot_.height(), later_head = head_.later(false).height;
    auto faces = flow(CardBody(measures_, card_).blocks(), height_ - first_head.height - foot,
                      height_ - later_head - foot);
    std::size_t front_faces = 0;
    bool in_details = false;
    for (std::size_t i = 0; i < faces.size(); ++i) {
      in_details = in_details || (!faces[i].empty() && faces[i].front().begins_face);
      front_faces += in_details ? 0 : 1;
      auto head = i == 0 ? first_head : head_.later(in_details);
      CardFace face{std::move(head.parts), shape_.has_back && i % 2 == 1};
      stack(std::move(faces[i]), 0, head.height, face.parts);
      layout_.faces.push_back(std::move(face));
    }
    layout_.front_faces = front_faces;
    layout_.goes_on = front_faces > 1 || (shape_.has_back && layout_.faces.size() > 2);
    for (std::size_t i = 0; i < layout_.faces.size(); ++i) add_foot(layout_.faces[i], i);
  }

  void add_foot(CardFace& face, std::size_t number) {
    auto foot = foot_.of_face(number, layout_.faces.size());
    move(foot.parts, 0, height_ - foot.height);
    face.parts.insert(face.parts.end(), foot.parts.begin(), foot.parts.end());
  }

  void set_error() {
    CardFace face;
    double y = -mm(1);
    auto name = head_.title();
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
    add(card_.is_empty ? "This card cannot be printed yet: its spec is not finished."
                       : "This card cannot be printed: its spec has an error.",
        sans(13 * size_, true), 4);
    if (!card_.is_empty)
      add("Ask before you pour it. An older card may be wrong as well.", sans(10.5 * size_), 4);
    for (const auto& error : card_.errors)
      if (!add(error, sans(8 * size_), 8)) break;
    measures_.is_cut = false;
    auto foot = foot_.last_line();
    double top = height_ - foot.height;
    face.parts.push_back(PlacedText{std::move(foot), 0, top});
    layout_.faces.push_back(std::move(face));
  }

  const Card& card_;
  CardHead head_;
  CardFoot foot_;
  CardLayout layout_;
};

CardLayout compose(const Typesetter& typesetter, const Card& card, const CardShape& shape,
                   const CardFit& fit) {
  CardMeasures measures(typesetter, shape, fit);
  return CardComposer(measures, card).compose();
}

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
  auto with_fit = [&](std::size_t i) { return compose(typesetter, card, shape, path_of(i)); };
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
  auto with_fit = [&](const CardFit& fit) { return compose(typesetter, card, shape, fit); };
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
