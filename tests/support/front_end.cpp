#include "support/front_end.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace gill::testing {

void FrontEnd::parse_files(const std::vector<NamedText>& texts, bool from_library) {
  for (const auto& [path, text] : texts) {
    auto id = sources.add(path, text, from_library);
    files.push_back(syntax::parse(id, sources, sink));
  }
}

void FrontEnd::run() {
  names = symbols::declare(files, sources, sink);
  units = units::build_units(names, files, sources, sink);
  specs = analysis::analyse(names, units, files, sources, "a house", sink);
  diagnostics::sort_by_place(sink.all(), sources);
}

std::vector<NamedText> texts_in(const std::string& folder) {
  const auto root = std::filesystem::path(GILL_SOURCE_DIR) / folder;
  std::vector<NamedText> texts;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(root))
    if (entry.path().extension() == ".gill")
      texts.emplace_back(entry.path().lexically_relative(root).generic_string(),
                         read_file(entry.path().string()));
  if (texts.empty()) throw std::runtime_error("no specs in " + folder);
  std::sort(texts.begin(), texts.end());
  return texts;
}

std::vector<NamedText> library_texts(const std::string& folder) {
  auto texts = texts_in("stdlib/" + folder);
  for (auto& text : texts)
    text.first = "library/" + (std::filesystem::path(folder) / text.first).generic_string();
  return texts;
}

std::string read_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

}  // namespace gill::testing
