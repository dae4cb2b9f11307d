#include "print/pdf_writer.h"

#include <cairo-pdf.h>
#include <fmt/format.h>

namespace gill::print {
namespace {

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

PdfWriter::PdfWriter(const std::string& title, const std::string& author)
    : surface_(cairo_pdf_surface_create_for_stream(append, &bytes_, a4.width_pt(), a4.height_pt())),
      context_(cairo_create(surface_.get())) {
  auto tell = [&](cairo_pdf_metadata_t what, const char* words) {
    cairo_pdf_surface_set_metadata(surface_.get(), what, words);
  };
  tell(CAIRO_PDF_METADATA_TITLE, title.c_str());
  tell(CAIRO_PDF_METADATA_AUTHOR, author.c_str());
  tell(CAIRO_PDF_METADATA_CREATOR, "Gill");
  tell(CAIRO_PDF_METADATA_CREATE_DATE, "");
}

cairo_t* PdfWriter::begin_page(const Paper& paper) {
  ++page_;
  cairo_pdf_surface_set_size(surface_.get(), paper.width_pt(), paper.height_pt());
  return context_.get();
}

void PdfWriter::end_page() { cairo_show_page(context_.get()); }

void PdfWriter::add_to_outline(const std::string& words) {
  cairo_pdf_surface_add_outline(surface_.get(), CAIRO_PDF_OUTLINE_ROOT, words.c_str(),
                                fmt::format("page={} pos=[0 0]", page_).c_str(), CAIRO_PDF_OUTLINE_FLAG_OPEN);
}

std::optional<std::string> PdfWriter::finish() {
  cairo_surface_finish(surface_.get());
  bool drawn = cairo_status(context_.get()) == CAIRO_STATUS_SUCCESS &&
               cairo_surface_status(surface_.get()) == CAIRO_STATUS_SUCCESS;
  if (!drawn) return std::nullopt;
  return std::move(bytes_);
}

}  // namespace gill::print
