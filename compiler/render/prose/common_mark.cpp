#include "render/prose/common_mark.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <memory>

#include "base/text.h"
#include "render/prose/cmark_nodes.h"

namespace gill::render::prose {
namespace {

struct FreeIterator {
  void operator()(cmark_iter* iterator) const { cmark_iter_free(iterator); }
};
struct FreeText {
  void operator()(char* text) const { std::free(text); }
};
using Tree = std::unique_ptr<cmark_node, FreeNode>;
using Iterator = std::unique_ptr<cmark_iter, FreeIterator>;
using Text = std::unique_ptr<char, FreeText>;

constexpr int deepest_heading = 6;

/// Puts another node in the place of one, with that one's children.
void replace(cmark_node* node, cmark_node* other) {
  cmark_node_insert_before(node, other);
  while (cmark_node* child = cmark_node_first_child(node)) cmark_node_append_child(other, child);
  cmark_node_unlink(node);
  cmark_node_free(node);
}

void replace_with_text(cmark_node* node, const std::string& words, bool in_paragraph) {
  cmark_node* text = cmark_node_new(CMARK_NODE_TEXT);
  cmark_node_set_literal(text, words.c_str());
  cmark_node* other = text;
  if (in_paragraph) {
    other = cmark_node_new(CMARK_NODE_PARAGRAPH);
    cmark_node_append_child(other, text);
  }
  cmark_node_insert_before(node, other);
  cmark_node_unlink(node);
  cmark_node_free(node);
}

bool stands_in_link(cmark_node* node) {
  while ((node = cmark_node_parent(node)))
    if (cmark_node_get_type(node) == CMARK_NODE_LINK) return true;
  return false;
}

/// A link to the picture, or its words where a link would stand in a link.
void replace_image(cmark_node* node) {
  bool in_link = stands_in_link(node);
  cmark_node* other = cmark_node_new(in_link ? CMARK_NODE_EMPH : CMARK_NODE_LINK);
  std::string url = text_or_empty(cmark_node_get_url(node));
  if (!in_link) cmark_node_set_url(other, is_harmless_link(url) ? url.c_str() : "");
  replace(node, other);
}

void make_harmless(cmark_node* node, int heading_level) {
  switch (cmark_node_get_type(node)) {
    case CMARK_NODE_HTML_BLOCK:
      replace_with_text(node, base::collapse_space(text_or_empty(cmark_node_get_literal(node))), true);
      return;
    case CMARK_NODE_HTML_INLINE:
      replace_with_text(node, text_or_empty(cmark_node_get_literal(node)), false);
      return;
    case CMARK_NODE_IMAGE:
      replace_image(node);
      return;
    case CMARK_NODE_LINK:
      if (!is_harmless_link(text_or_empty(cmark_node_get_url(node)))) cmark_node_set_url(node, "");
      return;
    case CMARK_NODE_HEADING:
      cmark_node_set_heading_level(
          node, std::min(deepest_heading, cmark_node_get_heading_level(node) + heading_level - 1));
      return;
    default:
      return;
  }
}

Tree parse(std::string_view text, int heading_level) {
  Tree tree(cmark_parse_document(text.data(), text.size(), CMARK_OPT_DEFAULT | CMARK_OPT_VALIDATE_UTF8));
  Iterator iterator(cmark_iter_new(tree.get()));
  // A node is changed as it is left: the walk is past it and its children by then.
  for (cmark_event_type event; (event = cmark_iter_next(iterator.get())) != CMARK_EVENT_DONE;) {
    cmark_node* node = cmark_iter_get_node(iterator.get());
    bool leaf = cmark_node_get_type(node) == CMARK_NODE_HTML_BLOCK ||
                cmark_node_get_type(node) == CMARK_NODE_HTML_INLINE;
    if (event == CMARK_EVENT_EXIT || leaf) make_harmless(node, heading_level);
  }
  return tree;
}

std::string taken(char* text) { return text_or_empty(Text(text).get()); }

}  // namespace

bool is_harmless_link(std::string_view url) {
  static constexpr std::array<std::string_view, 3> schemes = {"http", "https", "mailto"};
  auto colon = url.find_first_of(":/?#");
  if (colon == std::string_view::npos || url[colon] != ':') return true;
  std::string scheme = base::lower_ascii(url.substr(0, colon));
  return std::find(schemes.begin(), schemes.end(), scheme) != schemes.end();
}

std::string to_html(std::string_view text, int heading_level) {
  Tree tree = parse(text, heading_level);
  return taken(cmark_render_html(tree.get(), CMARK_OPT_DEFAULT));
}

std::string to_markdown(std::string_view text, int heading_level) {
  Tree tree = parse(text, heading_level);
  return taken(cmark_render_commonmark(tree.get(), CMARK_OPT_DEFAULT, 0));
}

std::string to_plain_text(std::string_view text) {
  Tree tree = parse(text, 1);
  Iterator iterator(cmark_iter_new(tree.get()));
  std::string words;
  for (cmark_event_type event; (event = cmark_iter_next(iterator.get())) != CMARK_EVENT_DONE;) {
    cmark_node* node = cmark_iter_get_node(iterator.get());
    if (event == CMARK_EVENT_ENTER) words += text_or_empty(cmark_node_get_literal(node));
    bool is_break = cmark_node_get_type(node) == CMARK_NODE_SOFTBREAK ||
                    cmark_node_get_type(node) == CMARK_NODE_LINEBREAK;
    if (is_break || (event == CMARK_EVENT_EXIT && cmark_node_get_type(node) == CMARK_NODE_PARAGRAPH))
      words += ' ';
  }
  return base::collapse_space(words);
}

}  // namespace gill::render::prose
