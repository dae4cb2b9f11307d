#pragma once
#include <cmark.h>

#include <string>

/// What readers of a cmark tree share.
namespace gill::render::prose {

struct FreeNode {
  void operator()(cmark_node* node) const { cmark_node_free(node); }
};

/// cmark gives a null pointer where a node has no such text.
inline std::string text_or_empty(const char* text) { return text ? text : ""; }

}  // namespace gill::render::prose
