#include "watch/site.h"

#include <fmt/format.h>

#include "base/fingerprint.h"
#include "diagnostics/render.h"
#include "render/book/book.h"
#include "render/html/escape.h"
#include "watch/style_sheets.h"

namespace gill::watch {

using render::html::escape;

namespace {

// The most troubles that a page tells; the terminal tells all.
constexpr std::size_t max_reported = 20;

/// Asks to be told of the next build. Pages run no script that stands in them, so it is a file of its own.
constexpr std::string_view reloading_path = ".gill/reload.js";
constexpr std::string_view reloading_script =
    "(() => {\n"
    "  const {seen} = document.currentScript.dataset;\n"
    "  new EventSource(\"/.gill/builds\").onmessage = (built) => {\n"
    "    if (built.data !== seen) location.reload();\n"
    "  };\n"
    "})();\n";

/// Only `gill watch` puts it in a page.
std::string reloading_element(const std::string& version) {
  return fmt::format("<script src=\"/{}\" data-seen=\"{}\"></script>", reloading_path, version);
}

bool is_page(const std::string& path) { return path.ends_with(".html"); }

/// Puts the note where the page begins and the script where it ends.
std::string with_note(std::string page, const std::string& note, const std::string& script) {
  auto end = page.rfind("</body>");
  page.insert(end == std::string::npos ? page.size() : end, script);
  if (note.empty()) return page;
  auto body = page.find("<body");
  auto begin = body == std::string::npos ? body : page.find('>', body);
  page.insert(begin == std::string::npos ? 0 : begin + 1, note);
  return page;
}

std::map<std::string, std::string> book_of(const driver::Compilation& house, bool drafts) {
  auto input = house.book_input();
  std::map<std::string, std::string> files;
  for (auto& file : render::make_book(input, render::Form::html, drafts))
    files[file.path] = std::move(file.content);
  return files;
}

bool is_blank(const std::string& text) { return text.find_first_not_of(" \t\r\n") == std::string::npos; }

}  // namespace

std::shared_ptr<const Site> SiteKeeper::update(const driver::HouseFiles& house) {
  const auto& compiled = *kept_.update(house);
  std::vector<std::string> troubles;
  for (const auto& finding : compiled.findings)
    if (finding.severity == diagnostics::Severity::error)
      troubles.push_back(diagnostics::render_text({finding}, compiled.sources, false));
  for (const auto& file : house.files)
    if (is_blank(file.text) && filled_[file.path])
      troubles.push_back(fmt::format("{} is empty at the moment.\n", file.path));
  auto now = book_of(compiled, drafts_);
  auto site = publish(now, troubles);
  if (troubles.empty()) {
    good_ = std::move(now);
    filled_.clear();
  } else {
    // What could be made is the last that is known of it.
    for (auto& [path, content] : now) good_[path] = std::move(content);
  }
  for (const auto& file : house.files)
    if (!is_blank(file.text)) filled_[file.path] = true;
  return site;
}

std::shared_ptr<const Site> SiteKeeper::cannot_read(const std::string& why) {
  return publish({}, {why + ".\n"});
}

std::string SiteKeeper::banner(const std::vector<std::string>& troubles, bool is_old) const {
  if (troubles.empty()) return {};
  std::string text = fmt::format("<style>{}</style><div class=\"watch-note\" role=\"alert\"><strong>",
                                 base::text_of(style_sheets(), "banner.css"));
  text += is_old ? "This page is kept as it last was: what it tells of cannot be read at the moment."
                 : "The house has errors. What they touch is marked where it would stand.";
  text += "</strong><pre>";
  for (std::size_t i = 0; i < troubles.size() && i < max_reported; ++i) text += escape(troubles[i]);
  if (troubles.size() > max_reported) text += fmt::format("… and {} more.\n", troubles.size() - max_reported);
  return text + "</pre></div>";
}

std::shared_ptr<const Site> SiteKeeper::publish(const std::map<std::string, std::string>& now,
                                                const std::vector<std::string>& troubles) {
  auto site = std::make_shared<Site>();
  site->files = now;
  if (!troubles.empty()) site->files.insert(good_.begin(), good_.end());
  base::Fingerprint fingerprint;
  for (const auto& [path, content] : site->files) fingerprint.add(path), fingerprint.add(content);
  for (const auto& trouble : troubles) fingerprint.add(trouble);
  site->version = fmt::format("{:016x}", fingerprint.value());
  auto script = reloading_element(site->version), new_note = banner(troubles, false),
       old_note = banner(troubles, true);
  for (auto& [path, content] : site->files)
    if (is_page(path))
      content = with_note(std::move(content), now.contains(path) ? new_note : old_note, script);
  site->files[std::string(reloading_path)] = reloading_script;
  return site;
}

std::string missing_page(const Site& site) {
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>Not in the book</title></head>"
      "<body><p>There is no such page in the book now. If it comes, it will show here.</p>"
      "<p><a href=\"/\">To the front of the book</a></p>{}</body></html>\n",
      reloading_element(site.version));
}

}  // namespace gill::watch
