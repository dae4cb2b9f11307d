#include "language_server/uri.h"

#include <filesystem>

#include "base/text.h"
#include "diagnostics/sarif.h"

namespace gill::language_server {
namespace {

int digit_of(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  char lower = static_cast<char>(c | 0x20);
  return lower >= 'a' && lower <= 'f' ? lower - 'a' + 10 : -1;
}

std::string decoded(std::string_view text) {
  std::string result;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '%' && i + 2 < text.size() && digit_of(text[i + 1]) >= 0 && digit_of(text[i + 2]) >= 0) {
      result += static_cast<char>(digit_of(text[i + 1]) * 16 + digit_of(text[i + 2]));
      i += 2;
    } else {
      result += text[i];
    }
  }
  return result;
}

}  // namespace

std::optional<std::string> path_of_uri(std::string_view uri) {
  constexpr std::string_view scheme = "file://";
  if (!base::equals_ignoring_case(uri.substr(0, scheme.size()), scheme)) return std::nullopt;
  uri.remove_prefix(scheme.size());
  constexpr std::string_view here = "localhost";
  if (base::equals_ignoring_case(uri.substr(0, here.size()), here)) uri.remove_prefix(here.size());
  if (!uri.starts_with('/')) return std::nullopt;
  std::string path = decoded(uri.substr(0, uri.find_first_of("?#")));
  if (path.find('\0') != std::string::npos) return std::nullopt;
  return std::filesystem::path(path).lexically_normal().string();
}

std::string uri_of_path(std::string_view path) { return "file://" + diagnostics::path_as_uri(path); }

std::string name_of_uri(std::string_view uri) {
  auto slash = uri.find_last_of("/:");
  std::string name = decoded(slash == std::string_view::npos ? uri : uri.substr(slash + 1));
  std::erase_if(name, [](char c) { return static_cast<unsigned char>(c) < ' ' || c == '/'; });
  return name.empty() ? "untitled" : name;
}

}  // namespace gill::language_server
