#include "render/drawing/svg.h"

#include <fmt/format.h>

#include <cmath>

#include "render/html/escape.h"

namespace gill::render::drawing {
namespace {

/// Hundredths of a millimetre, without trailing zeros.
std::string mm(double value) {
  double rounded = std::round(value * 100) / 100;
  return fmt::format("{:g}", rounded == 0 ? 0.0 : rounded);
}

std::string point(Point at) { return mm(at.x_mm) + " " + mm(at.y_mm); }

// The page's ink and paper where no style sheet reaches.
constexpr std::string_view ink = "#1d2622", faint = "#8b938c", paper = "#fbf9f3";

class SvgWriter {
 public:
  SvgWriter(SvgUse use, std::string id, std::string root)
      : use_(use), id_(std::move(id)), root_(std::move(root)) {}

  std::string write(const Scene& scene) {
    out_ = fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" role=\"{}\" "
        "aria-labelledby=\"{}-title {}-text\" "
        "font-family=\"system-ui, 'Segoe UI', Roboto, 'Noto Sans', 'Liberation Sans', sans-serif\"",
        mm(scene.width_mm), mm(scene.height_mm),
        use_ == SvgUse::on_page && scene.leads_on() ? "group" : "img", id_, id_);
    if (use_ == SvgUse::standalone) {
      // Half as large again as life, as it stands in the book.
      out_ +=
          fmt::format(" width=\"{}mm\" height=\"{}mm\"", mm(scene.width_mm * 1.2), mm(scene.height_mm * 1.2));
    }
    out_ += ">\n";
    out_ += fmt::format("<title id=\"{}-title\">{}</title>\n<desc id=\"{}-text\">{}</desc>\n", id_,
                        html::escape(scene.title), id_, html::escape(scene.description));
    if (use_ == SvgUse::standalone)
      out_ += fmt::format("<rect width=\"{}\" height=\"{}\" fill=\"{}\"/>\n", mm(scene.width_mm),
                          mm(scene.height_mm), paper);
    for (const auto& shape : scene.shapes) std::visit([&](const auto& drawn) { write(drawn); }, shape);
    return out_ + "</svg>\n";
  }

 private:
  std::string colour_of(const Paint& paint) const {
    bool on_page = use_ == SvgUse::on_page;
    switch (paint.kind) {
      case Paint::Kind::none:
        return "none";
      case Paint::Kind::ink:
        return on_page ? "currentColor" : std::string(ink);
      case Paint::Kind::faint:
        return on_page ? "var(--faint)" : std::string(faint);
      case Paint::Kind::paper:
        return on_page ? "var(--paper)" : std::string(paper);
      case Paint::Kind::colour:
        return html::escape(paint.colour);
    }
    return "none";
  }

  void put_paint(std::string_view what, const Paint& paint) {
    out_ += fmt::format(" {}=\"{}\"", what, colour_of(paint));
    if (paint.kind != Paint::Kind::none && paint.opacity < 1)
      out_ += fmt::format(" {}-opacity=\"{}\"", what, mm(paint.opacity));
  }

  void put_line(const Line& line) {
    if (line.paint.kind == Paint::Kind::none) return;
    put_paint("stroke", line.paint);
    out_ += fmt::format(" stroke-width=\"{}\" stroke-linejoin=\"round\" stroke-linecap=\"round\"",
                        mm(line.width_mm));
    if (line.dash_mm > 0) out_ += fmt::format(" stroke-dasharray=\"{}\"", mm(line.dash_mm));
  }

  void write(const Path& path) {
    out_ += "<path d=\"M" + point(path.from);
    for (const auto& segment : path.segments) {
      if (segment.is_curve)
        out_ += "C" + point(segment.handle_1) + " " + point(segment.handle_2) + " " + point(segment.to);
      else
        out_ += "L" + point(segment.to);
    }
    out_ += path.closed ? "Z\"" : "\"";
    put_paint("fill", path.fill);
    put_line(path.line);
    out_ += "/>\n";
  }

  void write(const Circle& circle) {
    bool leads = use_ == SvgUse::on_page && !circle.link.page.empty();
    if (leads)
      out_ += fmt::format("<a href=\"{0}{1}.html\" aria-label=\"{2}\"><title>{2}</title>", root_,
                          html::escape(circle.link.page), html::escape(circle.link.words));
    out_ += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"", mm(circle.centre.x_mm),
                        mm(circle.centre.y_mm), mm(circle.radius_mm));
    put_paint("fill", circle.fill);
    put_line(circle.line);
    out_ += leads ? "/></a>\n" : "/>\n";
  }

  void write(const Text& text) {
    out_ += fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"{}\"", mm(text.at.x_mm), mm(text.at.y_mm),
                        mm(text.size_mm));
    if (text.anchor != Anchor::start)
      out_ += fmt::format(" text-anchor=\"{}\"", text.anchor == Anchor::middle ? "middle" : "end");
    if (text.strong) out_ += " font-weight=\"600\"";
    put_paint("fill", text.paint);
    out_ += fmt::format(">{}</text>\n", html::escape(text.words));
  }

  SvgUse use_;
  std::string id_;
  std::string root_;
  std::string out_;
};

}  // namespace

std::string to_svg(const Scene& scene, SvgUse use, const std::string& id, const std::string& root) {
  return SvgWriter(use, id, root).write(scene);
}

}  // namespace gill::render::drawing
