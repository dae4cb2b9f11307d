#pragma once
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "costing/name_finder.h"
#include "costing/words.h"
#include "importer/import_specs.h"
#include "importer/old_spec.h"

namespace gill::importer {

/// Writes old specs as Gill text. What cannot be understood stands as a comment where it stood, and is told.
class SpecWriter {
 public:
  /// `file` is named in the text's first line.
  SpecWriter(const House& house, const std::string& file);

  void write(const OldSpec& spec);
  /// A line of a file that could not be read at all.
  void write_comment(std::string_view line) { lines_.push_back({"# " + one_line(line), 0, 0, false}); }
  /// Reads the text back; a line in error becomes a comment, a drink whose header is in error whole.
  void comment_out_errors(const CheckText& check);

  std::string text() const;
  /// What a person must look at, by the lines of the old spec.
  const std::vector<base::RowProblem>& findings() const { return findings_; }

 private:
  /// One line of Gill on its way out.
  struct OutLine {
    std::string text;
    std::size_t source_line = 0;
    std::size_t drink = 0;
    bool is_header = false;
  };

  void add(std::string text, std::size_t source_line, bool is_header = false) {
    lines_.push_back({std::move(text), source_line, drink_, is_header});
  }
  void keep(const std::string& text, std::size_t line, std::string why) {
    add("  # " + one_line(text), line);
    findings_.push_back({line, std::move(why)});
  }
  std::string unused_name(const std::string& name, std::size_t line);
  void ingredient(const std::string& text, std::size_t line);
  void method(const OldSpec& spec, const std::string& glass);
  void step(const std::string& clause, std::size_t line, const std::string& glass);
  void garnish(const std::string& words, std::size_t line);
  std::string find_glass(const OldSpec& spec) const;
  bool comment_out(OutLine& line);

  const House& house_;
  NameFinder finder_;
  std::set<std::string> names_;
  std::vector<std::string> poured_;
  std::vector<OutLine> lines_;
  std::vector<base::RowProblem> findings_;
  std::size_t drink_ = 0;
};

}  // namespace gill::importer
