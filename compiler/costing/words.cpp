#include "costing/words.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/characters.h"
#include "base/text.h"
#include "render/wording/numbers.h"
#include "syntax/parse.h"

namespace gill::costing {
namespace {

/// Beyond ASCII the grammar knows which signs are letters: `é` is one, a dash is none.
bool is_of_words(const std::string& name) {
  if (std::all_of(name.begin(), name.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; }))
    return true;
  source::SourceSet sources;
  diagnostics::DiagnosticSink sink;
  auto file = syntax::parse(sources.add("name", "drink " + name, false), sources, sink);
  return file.tokens.size() > 1 && file.tokens[1].kind == syntax::TokenKind::word &&
         std::all_of(file.tokens.begin(), file.tokens.end(), [](const syntax::Token& token) {
           return token.kind == syntax::TokenKind::word || token.kind == syntax::TokenKind::number;
         });
}

}  // namespace

double sells_on(const analysis::MenuEntry& entry, std::size_t weekday) {
  return entry.sells_on[weekday].value_or(entry.sells.value_or(0));
}

double sells_in_a_week(const analysis::MenuEntry& entry) {
  double portions = 0;
  for (std::size_t day = 0; day < 7; ++day) portions += sells_on(entry, day);
  return portions;
}

std::variant<analysis::MenuId, std::string> find_menu(const House& house, std::string_view name) {
  if (base::trim(name).empty()) return analysis::MenuId{};
  auto id = house.names.find(symbols::NameSpace::menu, name);
  if (id.valid()) return analysis::MenuId{house.specs.index_of[id.index()]};
  std::vector<std::string> known;
  for (const auto& menu : house.specs.menus) known.push_back("`" + menu.head.name + "`");
  if (known.empty()) return fmt::format("There is no menu called `{}`: the house declares none.", name);
  return fmt::format("There is no menu called `{}`; the house has {}.", name, base::join_with_and(known));
}

std::string_view weekday_name(std::size_t weekday) {
  static constexpr std::string_view names[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                               "Friday", "Saturday", "Sunday"};
  return names[weekday % 7];
}

std::string name_key(const std::string& name) { return base::fold_name(name); }

std::string one_line(std::string_view text) {
  std::string safe;
  for (char c : text) safe += static_cast<unsigned char>(c) < 0x20 || c == 0x7F ? ' ' : c;
  while (auto bad = base::first_bad_byte(safe)) safe.replace(*bad, 1, "?");
  return base::collapse_space(safe);
}

std::string gill_name(std::string_view written) {
  std::string name = one_line(written);
  std::replace(name.begin(), name.end(), '"', '\'');
  bool plain = !name.empty() && !base::is_digit(name.front());
  for (char c : name) {
    auto byte = static_cast<unsigned char>(c);
    plain = plain && (std::isalnum(byte) || byte >= 0x80 ||
                      std::string_view(" '-&./()").find(c) != std::string_view::npos);
  }
  std::string folded = " " + base::lower_ascii(name) + " ";
  for (std::string_view word : {" like ", " at ", " or ", " for ", " to ", " of "})
    plain = plain && folded.find(word) == std::string::npos;
  return plain && is_of_words(name) ? name : "\"" + name + "\"";
}

std::string amount_text(std::optional<double> ml, double grams, double pieces) {
  if (ml && *ml > 0) {
    if (*ml >= 999.5) return render::wording::trimmed(*ml / 1000, 2) + " l";
    return render::wording::trimmed(*ml, *ml < 10 ? 1 : 0) + " ml";
  }
  if (pieces > 0) return render::wording::trimmed(std::ceil(pieces - 1e-6), 0);
  if (grams >= 999.5) return render::wording::trimmed(grams / 1000, 2) + " kg";
  return render::wording::trimmed(grams, grams < 10 ? 1 : 0) + " g";
}

render::document::Frame desk_frame(const House& house) { return {house.specs.house.head.name, {}, {}}; }

}  // namespace gill::costing
