#include "render/html/escape.h"

namespace gill::render::html {

std::string escape(std::string_view text) {
  std::string result;
  result.reserve(text.size() + text.size() / 8);
  for (char c : text) {
    switch (c) {
      case '&':
        result += "&amp;";
        break;
      case '<':
        result += "&lt;";
        break;
      case '>':
        result += "&gt;";
        break;
      case '"':
        result += "&quot;";
        break;
      case '\'':
        result += "&#39;";
        break;
      default:
        result += c;
    }
  }
  return result;
}

}  // namespace gill::render::html
