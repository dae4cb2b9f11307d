#pragma once
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/trade_forms.h"
#include "base/text.h"
#include "source/source_file.h"
#include "syntax/parse.h"

/// What a form of the trade is read as.
namespace gill::analysis {

/// A line that is being written anew, with where each of its words comes from.
struct Reading {
  std::string text;
  std::vector<source::ReadFrom> parts;
  Implied implied = Implied::no;

  Reading& say(std::string_view words) {
    if (words.empty()) return *this;
    if (!text.empty() && words.front() != ',') text += ' ';
    text += words;
    return *this;
  }
  /// Words as they were written; nothing where there are none.
  Reading& copy(const syntax::LineView& line, std::size_t first, std::size_t last) {
    if (last <= first) return *this;
    if (!text.empty()) text += ' ';
    auto begin = static_cast<std::uint32_t>(text.size());
    text += base::collapse_space(line.raw(first, last));
    parts.push_back({begin, static_cast<std::uint32_t>(text.size()), line.span(first, last)});
    return *this;
  }
  /// The first bytes of one token as they were written; nothing where they are none.
  Reading& copy_start(const syntax::LineView& line, std::size_t token, std::size_t bytes) {
    if (bytes == 0) return *this;
    if (!text.empty()) text += ' ';
    auto begin = static_cast<std::uint32_t>(text.size());
    text += line.text(token).substr(0, bytes);
    auto span = line.span(token, token + 1);
    span.end = span.begin + static_cast<std::uint32_t>(bytes);
    parts.push_back({begin, static_cast<std::uint32_t>(text.size()), span});
    return *this;
  }
};

/// Several lines that one form stands for, in their order.
using Readings = std::vector<Reading>;
/// Nothing where the form does not stand there.
using Match = std::optional<Readings>;

inline Reading say(std::string_view words) { return Reading().say(words); }
/// A property that a step says in passing.
inline Reading implied(std::string_view words) {
  Reading reading = say(words);
  reading.implied = Implied::named;
  return reading;
}
/// Over ice, whichever the drink is served on.
inline Reading over_ice() {
  Reading reading = say("ice cubed");
  reading.implied = Implied::any_ice;
  return reading;
}

}  // namespace gill::analysis
