#pragma once
/// Standard and formatting headers that nearly every source includes, compiled once for all libraries.
/// Nothing of ours belongs here: a source still includes what it uses, and builds without this file.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <variant>
#include <vector>
