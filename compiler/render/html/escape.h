#pragma once
#include <string>
#include <string_view>

namespace gill::render::html {

/// The text with `& < > " '` as references: fit for content and for quoted attributes.
std::string escape(std::string_view text);

}  // namespace gill::render::html
