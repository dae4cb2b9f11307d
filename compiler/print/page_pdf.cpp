#include "print/page_pdf.h"

#include <cairo-pdf.h>
#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <memory>
#include <vector>

namespace gill::print {

using namespace render::document;

namespace {

// A4 (ISO 216) in points of 1/72 inch, with room to punch and to hold.
constexpr double paper_width = 210 / 25.4 * 72, paper_height = 297 / 25.4 * 72;
constexpr double margin_left = 46, margin_right = 36, margin_top = 40, margin_bottom = 46;
constexpr double column_gap = 8, row_gap = 2.5;

struct Colour {
  double red, green, blue;
};
// The book's ink, green, soft and rule.
constexpr Colour ink{0x1d / 255.0, 0x26 / 255.0, 0x22 / 255.0},
    green{0x1d / 255.0, 0x54 / 255.0, 0x41 / 255.0};
constexpr Colour soft{0x56 / 255.0, 0x61 / 255.0, 0x59 / 255.0},
    rule{0xd8 / 255.0, 0xd8 / 255.0, 0xcc / 255.0};

constexpr const char* serif = "Noto Serif, DejaVu Serif, Liberation Serif, serif";
constexpr const char* sans = "Noto Sans, DejaVu Sans, Liberation Sans, sans-serif";

/// How a stretch of text is set.
struct Style {
  const char* family = sans;
  double size = 8.5;
  bool bold = false;
  Colour colour = ink;
};

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

template <typename Type, void (*release)(Type*)>
struct Releaser {
  void operator()(Type* pointer) const { release(pointer); }
};
using Surface = std::unique_ptr<cairo_surface_t, Releaser<cairo_surface_t, cairo_surface_destroy>>;
using Context = std::unique_ptr<cairo_t, Releaser<cairo_t, cairo_destroy>>;
using Font =
    std::unique_ptr<PangoFontDescription, Releaser<PangoFontDescription, pango_font_description_free>>;

struct ReleaseLayout {
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};
using Layout = std::unique_ptr<PangoLayout, ReleaseLayout>;

class Sheet {
 public:
  Sheet(const Page& page, const Frame& frame) : page_(page), frame_(frame) {
    surface_.reset(cairo_pdf_surface_create_for_stream(append, &bytes_, paper_width, paper_height));
    // The time of printing is no part of a plan: the same plan gives the same bytes.
    cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_CREATE_DATE, "");
    cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_TITLE, page.title.c_str());
    context_.reset(cairo_create(surface_.get()));
  }

  std::optional<std::string> draw() {
    text(page_.title, {serif, 18, true, green}, 0, width());
    if (!page_.subtitle.empty()) text(plain_text(page_.subtitle), {sans, 9.5, false, soft}, 0, width());
    y_ += 6;
    blocks(page_.blocks, 0);
    end_sheet();
    cairo_surface_finish(surface_.get());
    if (cairo_status(context_.get()) != CAIRO_STATUS_SUCCESS ||
        cairo_surface_status(surface_.get()) != CAIRO_STATUS_SUCCESS)
      return std::nullopt;
    return std::move(bytes_);
  }

 private:
  static double width() { return paper_width - margin_left - margin_right; }

  Layout laid_out(const std::string& words, const Style& style, double wide, PangoAlignment align) const {
    Layout layout(pango_cairo_create_layout(context_.get()));
    Font font(pango_font_description_new());
    pango_font_description_set_family(font.get(), style.family);
    pango_font_description_set_absolute_size(font.get(), style.size * PANGO_SCALE);
    if (style.bold) pango_font_description_set_weight(font.get(), PANGO_WEIGHT_BOLD);
    pango_layout_set_font_description(layout.get(), font.get());
    if (wide > 0) {
      pango_layout_set_width(layout.get(), static_cast<int>(wide * PANGO_SCALE));
      pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
    }
    pango_layout_set_alignment(layout.get(), align);
    pango_layout_set_text(layout.get(), words.data(), static_cast<int>(words.size()));
    return layout;
  }

  static double height_of(PangoLayout* layout) {
    int height = 0;
    pango_layout_get_size(layout, nullptr, &height);
    return static_cast<double>(height) / PANGO_SCALE;
  }

  double natural_width(const std::string& words, const Style& style) const {
    int wide = 0;
    pango_layout_get_size(laid_out(words, style, 0, PANGO_ALIGN_LEFT).get(), &wide, nullptr);
    return static_cast<double>(wide) / PANGO_SCALE;
  }

  void show(PangoLayout* layout, const Colour& colour, double x, double y) {
    cairo_set_source_rgb(context_.get(), colour.red, colour.green, colour.blue);
    cairo_move_to(context_.get(), margin_left + x, y);
    pango_cairo_show_layout(context_.get(), layout);
  }

  void line(double y, const Colour& colour, double thick) {
    cairo_set_source_rgb(context_.get(), colour.red, colour.green, colour.blue);
    cairo_set_line_width(context_.get(), thick);
    cairo_move_to(context_.get(), margin_left, y);
    cairo_line_to(context_.get(), paper_width - margin_right, y);
    cairo_stroke(context_.get());
  }

  void box(double x, double y, double side) {
    cairo_set_source_rgb(context_.get(), ink.red, ink.green, ink.blue);
    cairo_set_line_width(context_.get(), 0.7);
    cairo_rectangle(context_.get(), margin_left + x + 0.5, y + 0.5, side, side);
    cairo_stroke(context_.get());
  }

  /// A new sheet where less than this is left.
  bool need(double height) {
    if (y_ + height <= paper_height - margin_bottom || y_ <= margin_top) return false;
    end_sheet();
    y_ = margin_top;
    return true;
  }

  void end_sheet() {
    ++sheet_;
    auto foot = laid_out(fmt::format("{} · {}, sheet {}", frame_.house, page_.title, sheet_),
                         {sans, 7, false, soft}, width(), PANGO_ALIGN_LEFT);
    line(paper_height - margin_bottom + 8, rule, 0.5);
    show(foot.get(), soft, 0, paper_height - margin_bottom + 12);
    cairo_show_page(context_.get());
  }

  void text(const std::string& words, const Style& style, double x, double wide) {
    auto layout = laid_out(words, style, wide, PANGO_ALIGN_LEFT);
    need(height_of(layout.get()));
    show(layout.get(), style.colour, x, y_);
    y_ += height_of(layout.get()) + row_gap;
  }

  void blocks(const std::vector<Block>& all, int level) {
    for (const auto& block : all)
      std::visit([&](const auto& content) { draw(content, level); }, block.content);
  }

  void draw(const Paragraph& paragraph, int) {
    text(plain_text(paragraph.run),
         {sans, paragraph.tone == Tone::small ? 7.5 : 8.5, false, paragraph.tone == Tone::small ? soft : ink},
         0, width());
  }
  void draw(const Prose& prose, int) { text(prose.common_mark, {}, 0, width()); }
  void draw(const List& list, int) {
    for (const auto& item : list.items) {
      need(12);
      show(laid_out("–", {}, 0, PANGO_ALIGN_LEFT).get(), ink, 0, y_);
      text(plain_text(item.run), {}, 10, width() - 10);
    }
  }
  void draw(const FactList& facts, int) {
    for (const auto& fact : facts.facts) {
      std::string words = fact.term + ": ";
      for (std::size_t i = 0; i < fact.values.size(); ++i)
        words += (i > 0 ? "; " : "") + plain_text(fact.values[i]);
      text(words, {}, 0, width());
    }
  }
  void draw(const Notice& notice, int level) {
    if (notice.blocks.empty()) return;
    text(notice.title, {sans, 8.5, true, ink}, 0, width());
    blocks(notice.blocks, level);
  }
  void draw(const Figure&, int) {}
  void draw(const Group& group, int level) { blocks(group.blocks, level); }
  void draw(const Section& section, int level) {
    // A heading does not stand alone at the foot of a sheet.
    need(level == 0 ? 90 : 45);
    y_ += level == 0 ? 8 : 3;
    text(plain_text(section.title), {serif, level == 0 ? 13.0 : 9.5, true, level == 0 ? green : ink}, 0,
         width());
    if (level == 0) line(y_, green, 0.8);
    y_ += level == 0 ? 4 : 0;
    blocks(section.blocks, level + 1);
  }

  /// Every column as wide as it would like where all fit; else the wide ones share what is left.
  std::vector<double> column_widths(const Table& table) const {
    std::size_t n = table.columns.size();
    std::vector<double> widths(n, 0);
    for (std::size_t i = 0; i < n; ++i)
      widths[i] = natural_width(table.columns[i].title, {sans, 7, true, soft});
    for (const auto& row : table.rows)
      for (std::size_t i = 0; i < std::min(n, row.size()); ++i)
        widths[i] = std::max(widths[i],
                             row[i].run.empty()
                                 ? 0
                                 : natural_width(plain_text(row[i].run), {sans, 8.5, row[i].is_header, ink}));
    double room = width() - column_gap * static_cast<double>(n - 1);
    double total = 0;
    for (double wide : widths) total += wide;
    if (total <= room) return widths;
    // Narrow columns keep their width; the others are cut in proportion.
    double fair = room / static_cast<double>(n), narrow = 0, wide_total = 0;
    for (double wide : widths) (wide <= fair ? narrow : wide_total) += wide;
    for (double& wide : widths)
      if (wide > fair) wide = std::max(24.0, wide * (room - narrow) / wide_total);
    return widths;
  }

  void titles(const Table& table, const std::vector<double>& widths) {
    bool any = std::any_of(table.columns.begin(), table.columns.end(),
                           [](const Column& column) { return !column.title.empty(); });
    if (!any) return;
    double x = 0, tall = 0;
    for (std::size_t i = 0; i < widths.size(); ++i) {
      auto layout = laid_out(table.columns[i].title, {sans, 7, true, soft}, widths[i],
                             align_of(table.columns[i].align));
      show(layout.get(), soft, x, y_);
      tall = std::max(tall, height_of(layout.get()));
      x += widths[i] + column_gap;
    }
    y_ += tall + 1;
    line(y_, rule, 0.5);
    y_ += row_gap;
  }

  static PangoAlignment align_of(Align align) {
    return align == Align::end      ? PANGO_ALIGN_RIGHT
           : align == Align::centre ? PANGO_ALIGN_CENTER
                                    : PANGO_ALIGN_LEFT;
  }

  void draw(const Table& table, int) {
    if (table.columns.empty()) return;
    auto widths = column_widths(table);
    need(48);
    y_ += 4;
    if (!table.caption.empty()) text(table.caption, {sans, 9, true, ink}, 0, width());
    titles(table, widths);
    for (const auto& row : table.rows) {
      std::vector<Layout> layouts;
      double tall = 0;
      for (std::size_t i = 0; i < std::min(row.size(), widths.size()); ++i) {
        std::string words = plain_text(row[i].run);
        layouts.push_back(laid_out(words == tick_box ? "" : words, {sans, 8.5, row[i].is_header, ink},
                                   widths[i], align_of(table.columns[i].align)));
        tall = std::max(tall, height_of(layouts.back().get()));
      }
      if (need(tall)) titles(table, widths);
      double x = 0;
      for (std::size_t i = 0; i < layouts.size(); ++i) {
        if (plain_text(row[i].run) == tick_box)
          box(x, y_ + 1, 7);
        else
          show(layouts[i].get(), ink, x, y_);
        x += widths[i] + column_gap;
      }
      y_ += tall + row_gap;
    }
    y_ += 4;
  }

  const Page& page_;
  const Frame& frame_;
  std::string bytes_;
  Surface surface_;
  Context context_;
  double y_ = margin_top;
  int sheet_ = 0;
};

}  // namespace

std::optional<std::string> page_pdf(const Page& page, const Frame& frame) {
  return Sheet(page, frame).draw();
}

}  // namespace gill::print
