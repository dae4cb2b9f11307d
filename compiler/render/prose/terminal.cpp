#include "render/prose/terminal.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "base/text.h"
#include "render/prose/cmark_nodes.h"

namespace gill::render::prose {
namespace {

constexpr std::string_view bold = "\x1b[1m", underlined = "\x1b[4m", plain = "\x1b[0m";
constexpr std::size_t code_indent = 4;
constexpr std::size_t bullet_columns = 2;

class TerminalWriter {
 public:
  explicit TerminalWriter(const TerminalStyle& style) : style_(style) {}

  std::string run(std::string_view text) {
    std::unique_ptr<cmark_node, FreeNode> tree(
        cmark_parse_document(text.data(), text.size(), CMARK_OPT_DEFAULT | CMARK_OPT_VALIDATE_UTF8));
    blocks(tree.get(), 0, false);
    return std::move(out_);
  }

 private:
  /// The blocks inside another, each after an empty line but the first; in a tight list without it.
  void blocks(cmark_node* parent, std::size_t indent, bool tight) {
    for (cmark_node* node = cmark_node_first_child(parent); node; node = cmark_node_next(node)) {
      if (cmark_node_previous(node) && !tight) out_ += '\n';
      block(node, indent);
    }
  }

  void block(cmark_node* node, std::size_t indent) {
    switch (cmark_node_get_type(node)) {
      case CMARK_NODE_HEADING:
        return wrap(in_style(bold, inlines(node)), indent);
      case CMARK_NODE_CODE_BLOCK:
        return code(text_or_empty(cmark_node_get_literal(node)), indent + code_indent);
      case CMARK_NODE_LIST:
        return list(node, indent);
      case CMARK_NODE_PARAGRAPH:
        return wrap(inlines(node), indent);
      case CMARK_NODE_THEMATIC_BREAK:
        out_ += '\n';
        return;
      case CMARK_NODE_HTML_BLOCK:
        return wrap(text_or_empty(cmark_node_get_literal(node)), indent);
      default:
        return blocks(node, indent, false);
    }
  }

  void list(cmark_node* node, std::size_t indent) {
    bool numbered = cmark_node_get_list_type(node) == CMARK_ORDERED_LIST;
    bool tight = cmark_node_get_list_tight(node) != 0;
    int number = cmark_node_get_list_start(node);
    for (cmark_node* item = cmark_node_first_child(node); item; item = cmark_node_next(item)) {
      if (cmark_node_previous(item) && !tight) out_ += '\n';
      std::string mark = numbered ? fmt::format("{}. ", number++) : std::string("- ");
      std::size_t begin = out_.size();
      blocks(item, indent + (numbered ? mark.size() : bullet_columns), tight);
      // The first line of the item begins with the mark in place of its indent.
      if (out_.size() >= begin + indent + mark.size()) out_.replace(begin + indent, mark.size(), mark);
    }
  }

  void code(std::string_view text, std::size_t indent) {
    for (std::size_t begin = 0; begin < text.size();) {
      std::size_t end = std::min(text.find('\n', begin), text.size());
      if (end > begin) out_.append(indent, ' ').append(text.substr(begin, end - begin));
      out_ += '\n';
      begin = end + 1;
    }
  }

  std::string in_style(std::string_view style, const std::string& words) const {
    return style_.styled ? std::string(style) + words + std::string(plain) : words;
  }

  /// The words of a block's inline parts.
  std::string inlines(cmark_node* parent) const {
    std::string words;
    for (cmark_node* node = cmark_node_first_child(parent); node; node = cmark_node_next(node)) {
      switch (cmark_node_get_type(node)) {
        case CMARK_NODE_SOFTBREAK:
        case CMARK_NODE_LINEBREAK:
          words += ' ';
          break;
        case CMARK_NODE_CODE:
          words += "`" + text_or_empty(cmark_node_get_literal(node)) + "`";
          break;
        case CMARK_NODE_STRONG:
          words += in_style(bold, inlines(node));
          break;
        case CMARK_NODE_EMPH:
          words += in_style(underlined, inlines(node));
          break;
        case CMARK_NODE_LINK:
          words += inlines(node) + after_link(node);
          break;
        case CMARK_NODE_TEXT:
        case CMARK_NODE_HTML_INLINE:
          words += text_or_empty(cmark_node_get_literal(node));
          break;
        default:
          words += inlines(node);
      }
    }
    return words;
  }

  std::string after_link(cmark_node* node) const {
    if (!style_.after_link) return {};
    std::string more = style_.after_link(text_or_empty(cmark_node_get_url(node)));
    return more.empty() ? more : fmt::format(" ({})", more);
  }

  /// What a word measures on a terminal: styles take no column.
  static std::size_t columns_of(std::string_view word) {
    std::string bare;
    for (std::size_t i = 0; i < word.size(); ++i) {
      if (word[i] == '\x1b') {
        i = std::min(word.find('m', i), word.size());
        continue;
      }
      bare += word[i];
    }
    return base::display_width(bare);
  }

  void wrap(const std::string& words, std::size_t indent) {
    std::size_t at = 0;
    for (std::size_t begin = 0; begin < words.size();) {
      std::size_t end = std::min(words.find(' ', begin), words.size());
      auto word = std::string_view(words).substr(begin, end - begin);
      begin = end + 1;
      if (word.empty()) continue;
      std::size_t columns = columns_of(word);
      if (at > 0 && at + 1 + columns > style_.width) {
        out_ += '\n';
        at = 0;
      }
      if (at == 0) {
        out_.append(indent, ' ');
        at = indent;
      } else {
        out_ += ' ';
        ++at;
      }
      out_ += word;
      at += columns;
    }
    out_ += '\n';
  }

  const TerminalStyle& style_;
  std::string out_;
};

}  // namespace

std::string to_terminal(std::string_view text, const TerminalStyle& style) {
  return TerminalWriter(style).run(text);
}

}  // namespace gill::render::prose
