#pragma once
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "base/exact.h"

namespace gill::base {

/// JSON whose keys keep the order in which they were put in.
using Json = nlohmann::ordered_json;

/// The number, `null` where nothing is known.
Json number_or_null(const std::optional<double>& value);
Json number_or_null(const std::optional<Exact>& value);
/// The text, `null` where it is empty.
Json text_or_null(const std::string& text);

/// A document as it is printed: indented, whole numbers without a decimal point, `null` for what is no
/// number, bytes that are no UTF-8 replaced, a line end at the end.
std::string json_text(Json root);

}  // namespace gill::base
