#include "editor/page_parts.h"

#include <fmt/format.h>

#include "render/drawing/svg.h"
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
  for (auto& block : blocks) std::visit(Stripper{}, block.content);
}

void take_pictures_out(std::vector<Block>& blocks) {
  std::erase_if(blocks, [](const Block& block) { return std::holds_alternative<Figure>(block.content); });
  for (auto& block : blocks) {
    if (auto* section = std::get_if<Section>(&block.content)) take_pictures_out(section->blocks);
    if (auto* group = std::get_if<Group>(&block.content)) take_pictures_out(group->blocks);
  }
}

/// Base 64 by RFC 4648, section 4.
std::string base64(std::string_view bytes) {
  constexpr std::string_view digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  for (std::size_t at = 0; at < bytes.size(); at += 3) {
    std::uint32_t three = 0;
    for (std::size_t i = 0; i < 3; ++i)
      three = three << 8 | (at + i < bytes.size() ? static_cast<unsigned char>(bytes[at + i]) : 0U);
    for (std::size_t i = 0; i < 4; ++i)
      text += at + i <= bytes.size() ? digits[three >> (18 - 6 * i) & 63] : '=';
  }
  return text;
}

/// Puts every picture where the text asks for its file.
std::string with_pictures_inside(render::markdown::WrittenPage page) {
  for (const auto& picture : page.pictures) {
    auto slash = picture.path.rfind('/');
    std::string asked =
        fmt::format("]({})", slash == std::string::npos ? picture.path : picture.path.substr(slash + 1));
    auto at = page.text.find(asked);
    if (at == std::string::npos) continue;
    auto svg = render::drawing::to_svg(*picture.scene, render::drawing::SvgUse::standalone, "picture");
    page.text.replace(at, asked.size(), fmt::format("](data:image/svg+xml;base64,{})", base64(svg)));
  }
  return std::move(page.text);
}

}  // namespace

const Section* find_section(const std::vector<Block>& blocks, const std::string& name) {
  return find_part<Section>(blocks, name);
}

const Group* find_group(const std::vector<Block>& blocks, const std::string& name) {
  return find_part<Group>(blocks, name);
}

std::string small_markdown(Page page, Pictures pictures) {
  strip(page.subtitle);
  strip(page.blocks);
  if (pictures == Pictures::left_out) take_pictures_out(page.blocks);
  std::string text = with_pictures_inside(render::markdown::to_markdown(page, {}));
  return text.starts_with("# ") ? "##" + text : text;
}

}  // namespace gill::editor
