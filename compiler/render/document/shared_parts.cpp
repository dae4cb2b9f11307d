#include "render/document/shared_parts.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "render/wording/build_lines.h"
#include "render/wording/method_lines.h"
#include "render/wording/numbers.h"
#include "render/wording/statements.h"

namespace gill::render::document {

using analysis::StockId;

namespace {

/// `rye whiskey`, with the part in batch said where it applies.
Cell name_cell(const BookIndex& index, const wording::BuildLine& line, bool in_batch) {
  Cell cell;
  cell.is_header = true;
  cell.run = index.link_to(line.stock, line.name);
  auto remarks = line.remarks;
  if (in_batch) remarks.insert(remarks.begin(), "in the batch");
  if (!remarks.empty()) cell.run.plain(" ").emphasis(base::join(remarks, ", "));
  cell.common_mark = line.text;
  return cell;
}

std::vector<Cell> measure_cells(const wording::BuildLine& line) {
  std::vector<Cell> cells;
  std::string about = line.is_about || line.is_solved ? "about " : "";
  if (line.whole) {
    Cell cell;
    cell.columns = std::max<std::size_t>(1, line.columns.size());
    cell.run.number(line.whole->number == "not worked out" ? line.whole->number : about + line.whole->number,
                    line.whole->unit);
    cells.push_back(std::move(cell));
    return cells;
  }
  for (std::size_t i = 0; i < line.columns.size(); ++i) {
    Cell cell;
    if (line.columns[i])
      cell.run.number(i == 0 ? about + line.columns[i]->number : line.columns[i]->number,
                      line.columns[i]->unit, line.converted[i]);
    cells.push_back(std::move(cell));
  }
  return cells;
}

}  // namespace

void add_statements(std::vector<Block>& blocks, const BookIndex& index,
                    const std::vector<model::Statement>& statements) {
  for (const auto& line : wording::statement_lines(statements, index.specs()))
    blocks.push_back(Paragraph{Run().strong(line), Tone::normal});
}

std::vector<Scale> scales_of(double makes, const std::string& whole_unit) {
  std::vector<Scale> scales = {{"×1", 1}, {"×2", 2}, {"×10", 10}};
  if (makes > 0) scales.push_back({"1 " + whole_unit, 1000 / makes});
  return scales;
}

namespace {

using Row = std::vector<Cell>;

std::vector<Row> build_rows(const BookIndex& index, const wording::RecipeContext& recipe,
                            const std::vector<StockId>& in_batch) {
  std::vector<Row> rows;
  for (const auto& line : wording::build_lines(recipe)) {
    auto cells = measure_cells(line);
    bool batched = std::find(in_batch.begin(), in_batch.end(), line.stock) != in_batch.end();
    cells.push_back(name_cell(index, line, batched));
    rows.push_back(std::move(cells));
  }
  return rows;
}

/// Puts what the cells of one more scale say beside those of the first.
void add_scale(std::vector<Row>& rows, const std::vector<Row>& more) {
  for (std::size_t row = 0; row < rows.size() && row < more.size(); ++row)
    for (std::size_t cell = 0; cell < rows[row].size() && cell < more[row].size(); ++cell)
      rows[row][cell].scaled.push_back(more[row][cell].run);
}

/// Forgets the scales of cells that say the same at all of them.
void drop_equal(std::vector<Row>& rows) {
  for (auto& row : rows)
    for (auto& cell : row)
      if (std::all_of(cell.scaled.begin(), cell.scaled.end(),
                      [&](const Run& run) { return plain_text(run) == plain_text(cell.run); }))
        cell.scaled.clear();
}

}  // namespace

Table build_table(const BookIndex& index, const wording::RecipeContext& recipe, const std::string& caption,
                  const std::vector<StockId>& in_batch, const std::vector<Scale>& scales) {
  Table table;
  table.caption = caption;
  for (auto id : recipe.show) table.columns.push_back({index.units()[id].symbol, Align::end, true});
  if (table.columns.empty()) table.columns.push_back({"Amount", Align::end});
  table.columns.push_back({"What", Align::start});
  table.rows = build_rows(index, recipe, in_batch);
  for (const auto& scale : scales) {
    table.scales.push_back(scale.words);
    if (scale.factor == 1) continue;
    wording::RecipeContext many = recipe;
    many.scale = scale.factor;
    add_scale(table.rows, build_rows(index, many, in_batch));
  }
  drop_equal(table.rows);
  return table;
}

List method_list(const wording::RecipeContext& recipe) {
  List list;
  list.kind = List::Kind::numbered;
  for (auto& line : wording::method_lines(recipe))
    list.items.push_back({Run(std::move(line.sentence)), std::move(line.text)});
  return list;
}

namespace {

/// `is_empty`: nothing goes in yet, which is no error.
template <typename Id>
Notice error_notice_of(const BookIndex& index, Id id) {
  const bool valid = index.facts()[id].valid, is_empty = index.facts()[id].is_empty;
  Notice notice{Notice::Role::error, is_empty ? "This spec is not finished" : "This spec has an error", {}};
  if (!index.is_in_error(id)) return notice;
  if (is_empty) {
    notice.blocks.push_back(Paragraph{Run("Nothing goes into it yet."), Tone::normal});
    return notice;
  }
  std::string words = valid ? "A line of this spec, or of something in it, could not be read or does not "
                              "hold. What stands here may be "
                              "incomplete."
                            : "An amount of this spec, or of something in it, is in error. Figures that rest "
                              "on it are not worked out; what "
                              "could be read stands here.";
  notice.blocks.push_back(Paragraph{Run(words), Tone::normal});
  List list;
  for (const auto* error : index.errors_of(id)) {
    const auto& file = index.input().sources[error->span.file_id];
    std::string message = error->message;
    std::erase(message, '`');
    list.items.push_back(
        {Run(fmt::format("{}, line {}: {}.", file.path, file.place_of(error->span).line, message)), {}});
  }
  if (!list.items.empty()) notice.blocks.push_back(std::move(list));
  notice.blocks.push_back(Paragraph{Run("Ask before you pour it."), Tone::normal});
  return notice;
}

}  // namespace

Notice error_notice(const BookIndex& index, analysis::DrinkId id) { return error_notice_of(index, id); }
Notice error_notice(const BookIndex& index, analysis::StockId id) { return error_notice_of(index, id); }

void add_fact(FactList& facts, const std::string& term, Run value) {
  if (!value.empty()) facts.facts.push_back({term, {std::move(value)}});
}

void add_figure(FactList& facts, const model::FigureRow& figure, double value, double tolerance, bool valid) {
  Run run;
  if (valid)
    run.number(wording::with_tolerance(value, tolerance, figure.places), std::string(figure.unit));
  else
    run.plain("not worked out");
  facts.facts.push_back({std::string(figure.term), {std::move(run)}});
}

Run joined_with_and(const std::vector<Run>& runs) {
  Run all;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    if (i > 0) all.plain(i + 1 == runs.size() ? " and " : ", ");
    all.append(runs[i]);
  }
  return all;
}

void add_section(std::vector<Block>& blocks, const std::string& name, const std::string& title,
                 std::vector<Block> parts) {
  if (!parts.empty()) blocks.push_back(Section{name, Run(title), std::move(parts)});
}

}  // namespace gill::render::document
