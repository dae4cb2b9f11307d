#include "print/page_pdf.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <vector>

#include "print/painter.h"
#include "print/pdf_writer.h"
#include "render/prose/common_mark.h"

namespace gill::print {

using namespace render::document;

namespace {

// Points on A4, with room to punch and to hold.
constexpr double margin_left = 46, margin_right = 36, page_margin_top = 40, page_margin_bottom = 46;
constexpr double column_gap = 8, row_gap = 2.5;

const TextStyle plain = sans(8.5);

class Sheet {
 public:
  Sheet(const Page& page, const Frame& frame)
      : page_(page), frame_(frame), writer_(page.title, frame.house) {}

  std::optional<std::string> draw() {
    text(page_.title, serif(18, true, inks::green), 0, width());
    if (!page_.subtitle.empty()) text(plain_text(page_.subtitle), sans(9.5, false, inks::soft), 0, width());
    y_ += 6;
    blocks(page_.blocks, 0);
    end_sheet();
    return writer_.finish();
  }

 private:
  static double width() { return a4.width_pt() - margin_left - margin_right; }
  static double lowest() { return a4.height_pt() - page_margin_bottom; }

  double natural_width(const std::string& words, const TextStyle& style) const {
    return typesetter_.set(words, style).width;
  }

  void show(ShapedText text, double x, double y) {
    parts_.emplace_back(PlacedText{std::move(text), margin_left + x, y});
  }
  void line(double y, const Ink& ink, double thick) {
    parts_.emplace_back(PlacedRule{margin_left, y, a4.width_pt() - margin_right, y, thick, ink, 0});
  }
  void box(double x, double y, double side) {
    parts_.emplace_back(PlacedPanel{margin_left + x + 0.5, y + 0.5, side, side, {}, 0.7, inks::text, 0});
  }

  /// A new sheet where less than this is left.
  bool need(double height) {
    if (y_ + height <= lowest() || y_ <= page_margin_top) return false;
    end_sheet();
    y_ = page_margin_top;
    return true;
  }

  void end_sheet() {
    ++sheet_;
    auto foot = typesetter_.set(fmt::format("{} · {}, sheet {}", frame_.house, page_.title, sheet_),
                                sans(7, false, inks::soft), {width(), Side::start, 2});
    line(lowest() + 8, inks::rule, 0.5);
    show(std::move(foot), 0, lowest() + 12);
    paint(writer_.begin_page(a4), typesetter_, parts_);
    writer_.end_page();
    parts_.clear();
  }

  void text(const std::string& words, const TextStyle& style, double x, double wide) {
    auto set = typesetter_.set(words, style, {wide, Side::start, 0});
    double height = set.height;
    need(height);
    show(std::move(set), x, y_);
    y_ += height + row_gap;
  }

  void blocks(const std::vector<Block>& all, int level) {
    for (const auto& block : all)
      std::visit([&](const auto& content) { draw(content, level); }, block.content);
  }

  void draw(const Paragraph& paragraph, int) {
    switch (paragraph.tone) {
      case Tone::lead:
        // What leads does not stand alone at the foot of a sheet.
        need(60);
        return text(plain_text(paragraph.run), sans(9, true, inks::text), 0, width());
      case Tone::normal:
        return text(plain_text(paragraph.run), plain, 0, width());
      case Tone::small:
        return text(plain_text(paragraph.run), sans(7.5, false, inks::soft), 0, width());
    }
  }
  void draw(const Prose& prose, int) {
    text(render::prose::to_plain_text(prose.common_mark), plain, 0, width());
  }
  void draw(const List& list, int) {
    const bool is_numbered = list.kind == List::Kind::numbered;
    const double indent = is_numbered ? 14 : 10;
    for (std::size_t i = 0; i < list.items.size(); ++i) {
      need(12);
      show(typesetter_.set(is_numbered ? fmt::format("{}.", i + 1) : "–", plain), 0, y_);
      text(plain_text(list.items[i].run), plain, indent, width() - indent);
    }
  }
  void draw(const FactList& facts, int) {
    for (const auto& fact : facts.facts) {
      std::string words = fact.term + ": ";
      for (std::size_t i = 0; i < fact.values.size(); ++i) {
        if (i > 0) words += "; ";
        words += plain_text(fact.values[i]);
      }
      text(words, plain, 0, width());
    }
  }
  void draw(const Notice& notice, int level) {
    if (notice.blocks.empty()) return;
    text(notice.title, sans(8.5, true, inks::text), 0, width());
    blocks(notice.blocks, level);
  }
  void draw(const Figure&, int) {}
  void draw(const Group& group, int level) { blocks(group.blocks, level); }
  void draw(const Section& section, int level) {
    // A heading does not stand alone at the foot of a sheet.
    need(level == 0 ? 90 : 45);
    y_ += level == 0 ? 8 : 3;
    text(plain_text(section.title),
         serif(level == 0 ? 13.0 : 9.5, true, level == 0 ? inks::green : inks::text), 0, width());
    if (level == 0) line(y_, inks::green, 0.8);
    y_ += level == 0 ? 4 : 0;
    blocks(section.blocks, level + 1);
  }

  /// Every column as wide as it would like where all fit; else the wide ones share what is left.
  std::vector<double> column_widths(const Table& table) const {
    std::size_t n = table.columns.size();
    std::vector<double> widths(n, 0);
    for (std::size_t i = 0; i < n; ++i)
      widths[i] = natural_width(table.columns[i].title, sans(7, true, inks::soft));
    for (const auto& row : table.rows)
      for (std::size_t i = 0; i < std::min(n, row.size()); ++i)
        widths[i] = std::max(
            widths[i], row[i].run.empty()
                           ? 0
                           : natural_width(plain_text(row[i].run), sans(8.5, row[i].is_header, inks::text)));
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
      auto title = typesetter_.set(table.columns[i].title, sans(7, true, inks::soft),
                                   {widths[i], side_of(table.columns[i].align), 0});
      tall = std::max(tall, title.height);
      show(std::move(title), x, y_);
      x += widths[i] + column_gap;
    }
    y_ += tall + 1;
    line(y_, inks::rule, 0.5);
    y_ += row_gap;
  }

  static Side side_of(Align align) {
    return align == Align::end ? Side::end : align == Align::centre ? Side::middle : Side::start;
  }

  void draw(const Table& table, int) {
    if (table.columns.empty()) return;
    auto widths = column_widths(table);
    need(48);
    y_ += 4;
    if (!table.caption.empty()) text(table.caption, sans(9, true, inks::text), 0, width());
    titles(table, widths);
    for (const auto& row : table.rows) {
      std::vector<ShapedText> cells;
      double tall = 0;
      for (std::size_t i = 0; i < std::min(row.size(), widths.size()); ++i) {
        std::string words = plain_text(row[i].run);
        if (words == tick_box) words.clear();
        cells.push_back(typesetter_.set(words, sans(8.5, row[i].is_header, inks::text),
                                        {widths[i], side_of(table.columns[i].align), 0}));
        tall = std::max(tall, cells.back().height);
      }
      if (need(tall)) titles(table, widths);
      double x = 0;
      for (std::size_t i = 0; i < cells.size(); ++i) {
        if (plain_text(row[i].run) == tick_box)
          box(x, y_ + 1, 7);
        else
          show(std::move(cells[i]), x, y_);
        x += widths[i] + column_gap;
      }
      y_ += tall + row_gap;
    }
    y_ += 4;
  }

  const Page& page_;
  const Frame& frame_;
  Typesetter typesetter_;
  PdfWriter writer_;
  std::vector<Placed> parts_;
  double y_ = page_margin_top;
  int sheet_ = 0;
};

}  // namespace

std::optional<std::string> page_pdf(const Page& page, const Frame& frame) {
  return Sheet(page, frame).draw();
}

}  // namespace gill::print
