#include "print/painter.h"

#include <charconv>
#include <string_view>

#include "print/paper.h"

namespace gill::print {

namespace drawing = render::drawing;
using drawing::Paint;

namespace {

void use(cairo_t* context, const Ink& ink, double opacity = 1) {
  cairo_set_source_rgba(context, ink.red, ink.green, ink.blue, opacity);
}

void use_dashes(cairo_t* context, double length) {
  if (length > 0)
    cairo_set_dash(context, &length, 1, 0);
  else
    cairo_set_dash(context, nullptr, 0, 0);
}

/// `#rrggbb`; paper where it is none.
Ink ink_of(std::string_view colour) {
  if (colour.size() != 7 || colour[0] != '#') return inks::paper;
  auto share = [&](std::size_t at) {
    int value = 255;
    std::from_chars(colour.data() + at, colour.data() + at + 2, value, 16);
    return value / 255.0;
  };
  return {share(1), share(3), share(5)};
}

Ink ink_of(const Paint& paint) {
  switch (paint.kind) {
    case Paint::Kind::none:
    case Paint::Kind::paper:
      return inks::paper;
    case Paint::Kind::ink:
      return inks::text;
    case Paint::Kind::faint:
      return inks::faint;
    case Paint::Kind::colour:
      return ink_of(paint.colour);
  }
  return inks::text;
}

/// Draws the shapes of a scene; the context is scaled so that its unit is the scene's millimetre.
class ScenePainter {
 public:
  ScenePainter(cairo_t* context, const Typesetter& typesetter) : context_(context), typesetter_(typesetter) {}

  void paint(const drawing::Path& path) {
    cairo_new_path(context_);
    cairo_move_to(context_, path.from.x_mm, path.from.y_mm);
    for (const auto& segment : path.segments) {
      if (segment.is_curve)
        cairo_curve_to(context_, segment.handle_1.x_mm, segment.handle_1.y_mm, segment.handle_2.x_mm,
                       segment.handle_2.y_mm, segment.to.x_mm, segment.to.y_mm);
      else
        cairo_line_to(context_, segment.to.x_mm, segment.to.y_mm);
    }
    if (path.closed) cairo_close_path(context_);
    fill_and_stroke(path.fill, path.line);
  }

  void paint(const drawing::Circle& circle) {
    constexpr double full_turn = 6.283185307179586;
    cairo_new_path(context_);
    cairo_arc(context_, circle.centre.x_mm, circle.centre.y_mm, circle.radius_mm, 0, full_turn);
    cairo_close_path(context_);
    fill_and_stroke(circle.fill, circle.line);
  }

  void paint(const drawing::Text& text) {
    // Set at its size in millimetres: here the millimetre is the unit.
    TextStyle style{Letter::sans, text.size_mm, text.strong, false, ink_of(text.paint)};
    auto set = typesetter_.set(text.words, style);
    double left = text.at.x_mm;
    if (text.anchor == drawing::Anchor::middle) left -= set.width / 2;
    if (text.anchor == drawing::Anchor::end) left -= set.width;
    cairo_move_to(context_, left, text.at.y_mm - set.base_line);
    pango_cairo_show_layout(context_, set.layout.get());
  }

 private:
  void fill_and_stroke(const Paint& fill, const drawing::Line& line) {
    if (fill.kind != Paint::Kind::none) {
      use(context_, ink_of(fill), fill.opacity);
      cairo_fill_preserve(context_);
    }
    if (line.paint.kind != Paint::Kind::none) {
      use(context_, ink_of(line.paint), line.paint.opacity);
      cairo_set_line_width(context_, line.width_mm);
      use_dashes(context_, line.dash_mm);
      cairo_stroke_preserve(context_);
    }
    cairo_new_path(context_);
  }

  cairo_t* context_;
  const Typesetter& typesetter_;
};

class Painter {
 public:
  Painter(cairo_t* context, const Typesetter& typesetter) : context_(context), typesetter_(typesetter) {}

  void paint(const PlacedText& placed) {
    use(context_, inks::text);
    cairo_move_to(context_, placed.left, placed.top);
    pango_cairo_show_layout(context_, placed.text.layout.get());
  }

  void paint(const PlacedRule& rule) {
    use(context_, rule.ink);
    cairo_set_line_width(context_, rule.thickness);
    use_dashes(context_, rule.dash);
    cairo_move_to(context_, rule.left, rule.top);
    cairo_line_to(context_, rule.right, rule.bottom);
    cairo_stroke(context_);
  }

  void paint(const PlacedPanel& panel) {
    cairo_rectangle(context_, panel.left, panel.top, panel.width, panel.height);
    if (panel.fill) {
      use(context_, *panel.fill);
      cairo_fill_preserve(context_);
    }
    if (panel.thickness > 0) {
      use(context_, panel.ink);
      cairo_set_line_width(context_, panel.thickness);
      use_dashes(context_, panel.dash);
      cairo_stroke_preserve(context_);
    }
    cairo_new_path(context_);
  }

  void paint(const PlacedPicture& picture) {
    paint_scene(context_, typesetter_, *picture.scene, picture.left, picture.top, picture.scale);
  }

 private:
  cairo_t* context_;
  const Typesetter& typesetter_;
};

}  // namespace

void paint(cairo_t* context, const Typesetter& typesetter, const std::vector<Placed>& all) {
  Painter painter(context, typesetter);
  for (const auto& placed : all) std::visit([&](const auto& part) { painter.paint(part); }, placed);
}

void paint_scene(cairo_t* context, const Typesetter& typesetter, const drawing::Scene& scene, double left,
                 double top, double scale) {
  cairo_save(context);
  cairo_translate(context, left, top);
  cairo_scale(context, scale * points_per_mm, scale * points_per_mm);
  ScenePainter painter(context, typesetter);
  for (const auto& shape : scene.shapes) std::visit([&](const auto& drawn) { painter.paint(drawn); }, shape);
  cairo_restore(context);
}

}  // namespace gill::print
