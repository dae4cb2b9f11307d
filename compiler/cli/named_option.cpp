#include "cli/named_option.h"

#include <fmt/format.h>

#include "cli/command.h"
#include "syntax/parse.h"
#include "units/read_quantity.h"

namespace gill::cli {

std::optional<std::uint32_t> find_named(const driver::Compilation& house, symbols::NameSpace space,
                                        std::string_view noun, const std::string& name) {
  auto id = house.names.find(space, name);
  if (id.valid()) return house.specs.index_of[id.index()];
  auto near = house.names.nearest(space, name);
  refuse(fmt::format("no {} is called `{}`{}", noun, name,
                     near ? fmt::format("; did you mean `{}`?", *near) : ""));
  return std::nullopt;
}

std::optional<units::Quantity> read_quantity(const units::UnitTable& units, std::string_view option,
                                             const std::string& text) {
  // A line of Gill below a header, so that the command line reads what files read.
  source::SourceSet sources;
  diagnostics::DiagnosticSink sink;
  bool one_line = text.find_first_of("\r\n#|") == std::string::npos;
  auto file_id = sources.add("", "x\n " + (one_line ? text : std::string()), false);
  auto file = syntax::parse(file_id, sources, sink);
  std::optional<units::Quantity> quantity;
  std::size_t at = 0;
  if (file.lines.size() > 1 && file.lines[1].kind == syntax::LineKind::body) {
    syntax::LineView line(sources[file_id], file, 1);
    quantity = units::QuantityReader(line, units, sink).read(at);
    if (quantity && at == line.size()) return quantity;
    if (quantity && at < line.size()) {
      auto unknown = units.explain_unknown(line.text(at));
      refuse(fmt::format("{} `{}`: {}. {}", option, text, unknown.message, unknown.help));
      return std::nullopt;
    }
  }
  std::string why = sink.all().empty() ? "it is no quantity" : sink.all().front().message;
  std::string help =
      sink.all().empty() ? "Write a number with its unit, as in `700 ml`." : sink.all().front().help;
  refuse(fmt::format("{} `{}`: {}. {}", option, text, why, help));
  return std::nullopt;
}

}  // namespace gill::cli
