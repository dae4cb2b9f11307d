#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "model/facts.h"
#include "render/book/book.h"
#include "render/facts/facts_json.h"
#include "support/fixture.h"

namespace gill::testing {

/// A house that is evaluated, so that its book and its facts can be asked for.
class RenderedHouse {
 public:
  explicit RenderedHouse(std::string_view text)
      : RenderedHouse(std::vector<NamedText>{{"house.gill", std::string(text)}}) {}
  explicit RenderedHouse(const std::vector<NamedText>& files)
      : compiled(compile_files(files)),
        facts(model::evaluate(compiled.specs, compiled.units, compiled.sink)) {}

  std::vector<render::OutputFile> book(render::Form form = render::Form::both, bool drafts = false) const {
    return render::make_book(input(), form, drafts);
  }

  render::BookInput input() const {
    return {compiled.specs, facts, compiled.units, compiled.names, compiled.sources, findings(), suppressed};
  }

  /// One file of the book; empty when the book has none of that path.
  std::string page(std::string_view path, render::Form form = render::Form::both) const {
    for (auto& file : book(form))
      if (file.path == path) return file.content;
    return {};
  }

  std::vector<std::string> paths(render::Form form, bool drafts = false) const {
    std::vector<std::string> paths;
    for (auto& file : book(form, drafts)) paths.push_back(file.path);
    return paths;
  }

  render::FactsInput facts_input(std::string only = {}) const {
    return {compiled.specs, facts, compiled.units, compiled.names, compiled.sources, std::move(only)};
  }

  const std::vector<diagnostics::Diagnostic>& findings() const { return compiled.sink.all(); }

  Compiled compiled;
  model::HouseFacts facts;
  std::vector<diagnostics::Diagnostic> suppressed;
};

}  // namespace gill::testing
