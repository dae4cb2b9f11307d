#include "print/typesetter.h"

#include <algorithm>
#include <cmath>

namespace gill::print {
namespace {

// Noto for its reach over scripts; the others where it is not installed.
constexpr const char* sans = "Noto Sans, DejaVu Sans, Droid Sans Fallback, sans-serif";
constexpr const char* serif = "Noto Serif, DejaVu Serif, Droid Sans Fallback, serif";

// Noto's lines are made tall for every script; Latin text reads better a little closer.
constexpr float line_spacing = 0.9F;

struct ReleaseAttributes {
  void operator()(PangoAttrList* list) const { pango_attr_list_unref(list); }
};
using Attributes = std::unique_ptr<PangoAttrList, ReleaseAttributes>;

struct ReleaseFont {
  void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
};
using Font = std::unique_ptr<PangoFontDescription, ReleaseFont>;

struct ReleaseOptions {
  void operator()(cairo_font_options_t* options) const { cairo_font_options_destroy(options); }
};

Font font_of(const TextStyle& style) {
  Font font(pango_font_description_new());
  pango_font_description_set_family_static(font.get(), style.letter == Letter::serif ? serif : sans);
  pango_font_description_set_absolute_size(font.get(), std::max(style.size_pt, 0.5) * PANGO_SCALE);
  pango_font_description_set_weight(font.get(), style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_style(font.get(), style.italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
  return font;
}

void add_attribute(PangoAttrList* list, PangoAttribute* attribute, std::size_t from, std::size_t to) {
  attribute->start_index = static_cast<guint>(from);
  attribute->end_index = static_cast<guint>(to);
  pango_attr_list_insert(list, attribute);
}

guint16 sixteen_bits(double share) { return static_cast<guint16>(std::lround(share * 65535)); }

PangoAlignment alignment_of(Side side) {
  switch (side) {
    case Side::start:
      return PANGO_ALIGN_LEFT;
    case Side::middle:
      return PANGO_ALIGN_CENTER;
    case Side::end:
      return PANGO_ALIGN_RIGHT;
  }
  return PANGO_ALIGN_LEFT;
}

double points(int pango_units) { return static_cast<double>(pango_units) / PANGO_SCALE; }

void shape(PangoLayout* layout, const Shaping& setting) {
  pango_layout_set_auto_dir(layout, FALSE);
  pango_layout_set_line_spacing(layout, line_spacing);
  if (setting.width <= 0) return;
  pango_layout_set_width(layout, static_cast<int>(std::floor(setting.width * PANGO_SCALE)));
  pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment(layout, alignment_of(setting.side));
  if (setting.max_lines <= 0) return;
  pango_layout_set_height(layout, -setting.max_lines);
  pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
}

/// Notes how large the words came out, and whether all of them are there.
void measure(ShapedText& set) {
  auto* layout = set.layout.get();
  PangoRectangle logical;
  pango_layout_get_extents(layout, nullptr, &logical);
  set.width = points(logical.width);
  set.height = points(logical.height);
  set.base_line = points(pango_layout_get_baseline(layout));
  set.lines = pango_layout_get_line_count(layout);
  set.is_cut = pango_layout_is_ellipsized(layout) != 0;
  set.lacks_letters = pango_layout_get_unknown_glyphs_count(layout) > 0;
}

}  // namespace

Typesetter::Typesetter() : context_(pango_font_map_create_context(pango_cairo_font_map_get_default())) {
  // A printer has no pixels to fit letters to.
  std::unique_ptr<cairo_font_options_t, ReleaseOptions> options(cairo_font_options_create());
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options(context_.get(), options.get());
  pango_cairo_context_set_resolution(context_.get(), 72);
  pango_context_set_round_glyph_positions(context_.get(), FALSE);
  pango_context_set_language(context_.get(), pango_language_from_string("en"));
  // A name in a script that runs from the right still starts where its column does.
  pango_context_set_base_dir(context_.get(), PANGO_DIRECTION_LTR);
}

ShapedText Typesetter::set(const StyledText& text, const Shaping& setting) const {
  ShapedText set;
  set.layout.reset(pango_layout_new(context_.get()), Release());
  auto* layout = set.layout.get();
  Attributes attributes(pango_attr_list_new());
  for (const auto& part : text) {
    std::size_t from = set.words.size(), to = from + part.words.size();
    set.words += part.words;
    Font font = font_of(part.style);
    const Ink& ink = part.style.ink;
    add_attribute(attributes.get(), pango_attr_font_desc_new(font.get()), from, to);
    add_attribute(
        attributes.get(),
        pango_attr_foreground_new(sixteen_bits(ink.red), sixteen_bits(ink.green), sixteen_bits(ink.blue)),
        from, to);
    if (part.words.empty()) continue;
    bool first = set.min_size_pt == 0;
    set.min_size_pt = first ? part.style.size_pt : std::min(set.min_size_pt, part.style.size_pt);
  }
  if (!text.empty()) pango_layout_set_font_description(layout, font_of(text.front().style).get());
  shape(layout, setting);
  // A name that is broken in the middle stays the name it is.
  add_attribute(attributes.get(), pango_attr_insert_hyphens_new(FALSE), 0, set.words.size());
  pango_layout_set_text(layout, set.words.data(), static_cast<int>(set.words.size()));
  pango_layout_set_attributes(layout, attributes.get());
  measure(set);
  return set;
}

ShapedText Typesetter::set(const std::string& words, const TextStyle& style, const Shaping& setting) const {
  return set(StyledText{{words, style}}, setting);
}

}  // namespace gill::print
