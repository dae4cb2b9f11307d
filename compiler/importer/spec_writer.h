#pragma once
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "importer/import_specs.h"
#include "importer/old_spec.h"
#include "importer/phrase_reader.h"

namespace gill::importer {

/// Writes old specs as Gill text. What cannot be understood stands as a comment where it stood, and is told.
class SpecWriter {
 public:
  /// `file` is named in the text's first line.
  SpecWriter(PhraseReader& reader, const std::string& file);

  void write(const OldSpec& spec);
  /// A line of a file that could not be read at all.
  void write_comment(std::string_view line);
  /// Reads the text back; a line in error becomes a comment, a drink whose header is in error whole.
  void comment_out_errors(const CheckText& check);

  std::string text() const;
  /// What a person must look at, by the lines of the old spec.
  const std::vector<base::RowProblem>& findings() const { return findings_; }
  /// Lines with a number, no unit and something that is poured.
  const std::set<std::size_t>& bare_numbers() const { return bare_numbers_; }
  /// Words that the language asks about, with the lines on which they stand.
  const std::map<std::string, std::set<std::size_t>>& asked() const { return asked_; }

 private:
  /// One line of Gill on its way out.
  struct OutLine {
    std::string text;
    std::size_t source_line = 0;
    std::size_t drink = 0;
    bool is_header = false;
    /// What is read back in its place where it waits for an answer; empty elsewhere.
    std::string answered = {};
  };
  using Lines = std::vector<OutLine>;
  /// A line of a spec with what was read of it.
  struct ReadPart {
    OldPart part;
    std::vector<Phrase> phrases;
    /// Its words stand as the drink's text already.
    bool is_told = false;
  };

  OutLine line(std::string text, std::size_t source_line, bool is_header = false) const {
    return {std::move(text), source_line, drink_, is_header, {}};
  }
  void tell(std::size_t source_line, std::string message) {
    findings_.push_back({source_line, std::move(message)});
  }
  std::string unused_name(const OldLine& name);
  static OldSpec with_line_of_name(OldSpec spec);
  void keep_one_glass();
  void write_head(const OldSpec& spec);
  std::vector<ReadPart> read_parts(const OldSpec& spec);
  static std::vector<ReadPart> in_order_of_work(std::vector<ReadPart> parts);
  void write_part(const ReadPart& part);
  void write_phrase(const Phrase& phrase, const ReadPart& part);
  Lines& lines_for(const Phrase& phrase);
  void tell_unread(const ReadPart& part);
  void keep_lost_words(const ReadPart& part, std::size_t body_begin);
  void write_glass_state();
  void ask_for_size(const OldSpec& spec, const std::vector<ReadPart>& parts);
  std::string answered_text() const;
  void tell_what_is_missing(const OldSpec& spec, const std::vector<ReadPart>& parts);
  void write_left_over(const OldSpec& spec);
  void flush();
  bool comment_out(OutLine& line);

  PhraseReader& reader_;
  std::set<std::string> names_;
  std::set<std::size_t> bare_numbers_;
  std::map<std::string, std::set<std::size_t>> asked_;
  Lines lines_;
  /// Of the spec that is being written, in the order in which they come out.
  Lines glasses_, body_, pours_, garnishes_;
  /// `frozen glass`: the state, and where it was written.
  std::vector<std::pair<Phrase, std::size_t>> glass_states_;
  std::vector<base::RowProblem> findings_;
  std::size_t drink_ = 0;
  /// A step stands below the line that is being written.
  bool pours_wait_ = false;
};

}  // namespace gill::importer
