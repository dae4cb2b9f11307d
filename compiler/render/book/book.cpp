#include "render/book/book.h"

#include <algorithm>

#include "render/document/find_data.h"
#include "render/document/hands_page.h"
#include "render/document/pages.h"
#include "render/drawing/svg.h"
#include "render/html/book_files.h"
#include "render/html/page.h"
#include "render/markdown/page.h"
#include "render/wording/allergen_words.h"

namespace gill::render {
namespace {

/// `has_hands`: the house measured something.
document::Frame frame_of(const document::BookIndex& index, bool has_hands) {
  document::Frame frame;
  frame.house = index.house().head.name;
  frame.navigation = {{"Drinks", "index", {}},          {"Preps", "preps", {}},
                      {"Allergens", "allergens", {}},   {"Balance", "balance", {}},
                      {"Inspection", "inspection", {}}, {"Glossary", "glossary", {}}};
  if (has_hands) frame.navigation.push_back({"Hands", "hands", {}});
  frame.foot = {wording::evaluated_line, wording::shared_equipment_line};
  for (const auto& notice : index.house().notices) frame.foot.push_back(notice);
  return frame;
}

/// Nothing where the house measured nothing.
model::Calibration calibration_of(const BookInput& input) {
  auto measured = model::measurements_of(input.specs);
  if (measured.empty()) return {};
  return model::calibrate(input.specs, input.units, input.facts, std::move(measured));
}

class BookBuilder {
 public:
  BookBuilder(const BookInput& input, Form form, bool drafts)
      : form_(form),
        index_(input, drafts),
        calibration_(calibration_of(input)),
        frame_(frame_of(index_, !calibration_.measured.empty())) {}

  std::vector<OutputFile> build() {
    add(document::index_page(index_));
    add(document::prep_list_page(index_));
    add(document::inspection_page(index_));
    add(document::balance_page(index_));
    add(document::allergens_page(index_));
    add(document::glossary_page(index_));
    if (!calibration_.measured.empty()) add(document::hands_page(index_, calibration_));
    for (auto id : index_.drinks()) add(document::drink_page(index_, id));
    for (auto id : index_.preps()) add(document::prep_page(index_, id));
    for (auto id : index_.ingredients()) add(document::ingredient_page(index_, id));
    if (writes_html()) {
      for (const auto& file : html::book_files())
        files_.push_back({std::string(file.path), std::string(file.text)});
      files_.push_back({"find.js", document::find_data(index_)});
    }
    std::sort(files_.begin(), files_.end(),
              [](const OutputFile& a, const OutputFile& b) { return a.path < b.path; });
    return std::move(files_);
  }

 private:
  bool writes_html() const { return form_ == Form::html || form_ == Form::both; }

  void add(const document::Page& page) {
    if (writes_html()) files_.push_back({page.path + ".html", html::to_html(page, frame_)});
    if (form_ == Form::html) return;
    auto tables = form_ == Form::commonmark ? markdown::Tables::as_lists : markdown::Tables::as_tables;
    auto written = markdown::to_markdown(page, frame_, tables);
    files_.push_back({page.path + ".md", std::move(written.text)});
    for (const auto& picture : written.pictures)
      files_.push_back(
          {picture.path, drawing::to_svg(*picture.scene, drawing::SvgUse::standalone, "picture")});
  }

  Form form_;
  document::BookIndex index_;
  model::Calibration calibration_;
  document::Frame frame_;
  std::vector<OutputFile> files_;
};

}  // namespace

std::vector<OutputFile> make_book(const BookInput& input, Form form, bool drafts) {
  return BookBuilder(input, form, drafts).build();
}

std::string page_alone(const BookInput& input, analysis::DrinkId id) {
  document::BookIndex index(input, true);
  return html::to_html_alone(document::drink_page(index, id), frame_of(index, false));
}

std::string page_alone(const BookInput& input, analysis::StockId id) {
  document::BookIndex index(input, true);
  auto page = input.specs[id].is_prep ? document::prep_page(index, id) : document::ingredient_page(index, id);
  return html::to_html_alone(page, frame_of(index, false));
}

}  // namespace gill::render
