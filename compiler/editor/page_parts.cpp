#include "editor/page_parts.h"

#include "render/markdown/page.h"

namespace gill::editor {

using namespace render::document;

namespace {

/// The first part of a kind and name, depth first.
template <typename Part>
const Part* find_part(const std::vector<Block>& blocks, const std::string& name) {
  for (const auto& block : blocks) {
    if (const auto* part = std::get_if<Part>(&block.content); part && part->name == name) return part;
    const std::vector<Block>* inner = nullptr;
    if (const auto* section = std::get_if<Section>(&block.content)) inner = &section->blocks;
    if (const auto* group = std::get_if<Group>(&block.content)) inner = &group->blocks;
    if (inner)
      if (const auto* found = find_part<Part>(*inner, name)) return found;
  }
  return nullptr;
}

void strip(Run& run) {
  for (auto& part : run.parts)
    if (auto* link = std::get_if<Link>(&part)) part = Plain{link->text};
}

void strip(std::vector<Block>& blocks);

struct Stripper {
  void operator()(Paragraph& part) const { strip(part.run); }
  void operator()(Prose&) const {}
  void operator()(List& part) const {
    for (auto& item : part.items) strip(item.run);
  }
  void operator()(FactList& part) const {
    for (auto& fact : part.facts)
      for (auto& value : fact.values) strip(value);
  }
  void operator()(Table& part) const {
    for (auto& row : part.rows)
      for (auto& cell : row) strip(cell.run);
  }
  void operator()(Notice& part) const { strip(part.blocks); }
  void operator()(Figure&) const {}
  void operator()(Section& part) const {
    strip(part.title);
    strip(part.blocks);
  }
  void operator()(Group& part) const { strip(part.blocks); }
};

void strip(std::vector<Block>& blocks) {
  std::erase_if(blocks, [](const Block& block) { return std::holds_alternative<Figure>(block.content); });
  for (auto& block : blocks) std::visit(Stripper{}, block.content);
}

}  // namespace

const Section* find_section(const std::vector<Block>& blocks, const std::string& name) {
  return find_part<Section>(blocks, name);
}

const Group* find_group(const std::vector<Block>& blocks, const std::string& name) {
  return find_part<Group>(blocks, name);
}

std::string small_markdown(Page page) {
  strip(page.subtitle);
  strip(page.blocks);
  std::string text = render::markdown::to_markdown(page, {}).text;
  return text.starts_with("# ") ? "##" + text : text;
}

}  // namespace gill::editor
