#include "render/document/hands_page.h"

#include <fmt/format.h>

#include "base/text.h"
#include "render/document/shared_parts.h"
#include "render/drawing/hands_chart.h"
#include "render/wording/hands_words.h"
#include "render/wording/numbers.h"

namespace gill::render::document {

namespace {

using model::Calibration;
using model::CalibrationFinding;
using model::CalibrationPoint;

class HandsPageBuilder {
 public:
  HandsPageBuilder(const BookIndex& index, const Calibration& calibration, const std::string& table)
      : index_(index), calibration_(calibration), table_(table) {}

  Page build() {
    Page page;
    page.path = "hands";
    page.title = "Hands and ice";
    page.kind = "hands";
    page.subtitle = Run("What this house measured, beside what is usual");
    add_findings(page.blocks);
    add_lines(page.blocks);
    add_chart(page.blocks);
    add_points(page.blocks);
    add_left_out(page.blocks);
    add_next(page.blocks);
    return page;
  }

 private:
  const model::MeasuredOf& measured_of(std::size_t index) const { return calibration_.measured[index]; }

  Run name_of(std::size_t measured) const {
    const auto& of = measured_of(measured);
    Run run = of.drink.valid() ? index_.link_to(of.drink) : index_.link_to(of.prep);
    return run.plain(", " + of.measurement.date);
  }

  std::string place_of(std::size_t measured) const {
    return wording::place_of(measured_of(measured), index_.input().sources, table_);
  }

  void add_findings(std::vector<Block>& blocks) const {
    if (calibration_.findings.empty()) {
      blocks.push_back(
          Paragraph{Run(calibration_.measured.empty()
                            ? "Nothing is measured yet, so nothing is changed."
                            : "What is measured does not decide anything yet, so nothing is changed."),
                    Tone::normal});
      return;
    }
    List list;
    for (const auto& finding : calibration_.findings)
      list.items.push_back({Run(wording::sentence_of(finding)), {}});
    add_section(blocks, "hands-found", "What was found", {std::move(list)});
  }

  void add_lines(std::vector<Block>& blocks) const {
    auto lines = model::house_lines(calibration_);
    if (lines.empty()) return;
    std::string text = "    house " + index_.house().head.name + "\n";
    for (const auto& line : lines) text += "      " + line + "\n";
    add_section(blocks, "lines", "Lines for the house",
                {Paragraph{Run("With these in the house, every drink follows:"), Tone::normal}, Prose{text}});
  }

  void add_chart(std::vector<Block>& blocks) const {
    std::vector<drawing::HandsRow> rows;
    for (std::size_t f = 0; f < calibration_.findings.size(); ++f) {
      const auto& finding = calibration_.findings[f];
      if (finding.what == CalibrationFinding::What::ice_temperature) continue;
      drawing::HandsRow row{wording::name_of(finding), finding.value, finding.width, {}};
      for (const auto& point : calibration_.points)
        if (point.finding == f)
          row.marks.push_back({wording::name_of(measured_of(point.measured), index_.specs()), point.factor,
                               point.factor_error, point.is_outlier});
      rows.push_back(std::move(row));
    }
    if (rows.empty()) return;
    Figure figure;
    figure.scene = drawing::draw_hands_chart(rows);
    figure.scene.title = "Measurements beside the usual";
    figure.scene.description =
        "Each measurement by the factor that it speaks for, and what was found of all of "
        "them. The table below says the same in figures.";
    figure.caption =
        Run("Dots: one measurement, with its error. Band: where the next drink lies. Crosses: left out.");
    add_section(blocks, "chart", "Beside the usual", {std::move(figure)});
  }

  void add_points(std::vector<Block>& blocks) const {
    if (calibration_.points.empty()) return;
    Table table;
    table.caption = "Each beside the model";
    table.is_wide = true;
    table.columns = {{"Measured", Align::start}, {"Where", Align::start},  {"Read", Align::end},
                     {"Usual", Align::end},      {"As found", Align::end}, {"Factor by it", Align::end}};
    for (const auto& point : calibration_.points) {
      Cell name;
      name.is_header = true;
      name.run = name_of(point.measured);
      Cell factor;
      if (point.finding) factor.run = Run(fmt::format("{:.2f} ± {:.2f}", point.factor, point.factor_error));
      if (point.is_outlier) factor.run.plain(", left out");
      auto cell = [](std::string words) {
        Cell made;
        made.run = Run(std::move(words));
        return made;
      };
      table.rows.push_back({std::move(name), cell(place_of(point.measured)),
                            cell(wording::amount_of(point, point.value)),
                            cell(wording::amount_of(point, point.usual)),
                            cell(wording::amount_of(point, point.found)), std::move(factor)});
    }
    add_section(blocks, "measured", "What was measured", {std::move(table)});
  }

  void add_left_out(std::vector<Block>& blocks) const {
    List list;
    for (const auto& point : calibration_.points) {
      if (!point.is_outlier) continue;
      list.items.push_back(
          {Run(fmt::format("{}: ", place_of(point.measured)))
               .append(name_of(point.measured))
               .plain(fmt::format(" read {}, and the others say {}. Look at the line, or measure it again.",
                                  wording::amount_of(point, point.value),
                                  wording::amount_of(point, point.found))),
           {}});
    }
    for (const auto& unused : calibration_.unused)
      list.items.push_back({Run(fmt::format("{}: ", place_of(unused.measured)))
                                .append(name_of(unused.measured))
                                .plain(": " + unused.reason),
                            {}});
    if (!list.items.empty()) add_section(blocks, "left-out", "Left out", {std::move(list)});
  }

  void add_next(std::vector<Block>& blocks) const {
    List list{List::Kind::numbered, {}};
    for (const auto& next : calibration_.next)
      list.items.push_back({Run(wording::sentence_of(next, index_.specs())), {}});
    if (!list.items.empty()) add_section(blocks, "next", "What to measure next", {std::move(list)});
  }

  const BookIndex& index_;
  const Calibration& calibration_;
  const std::string& table_;
};

}  // namespace

Page hands_page(const BookIndex& index, const model::Calibration& calibration, const std::string& table) {
  return HandsPageBuilder(index, calibration, table).build();
}

}  // namespace gill::render::document
