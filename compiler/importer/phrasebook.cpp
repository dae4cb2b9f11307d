#include "importer/phrasebook.h"

#include <fmt/format.h>

#include <exception>

#include "base/text.h"

namespace gill::importer {
namespace {

/// A small declaration of three lines with the words as its last.
std::string try_out(PhraseUse use, const std::string& phrase, std::size_t number) {
  switch (use) {
    case PhraseUse::prep_line:
      return fmt::format("prep \"Phrase {}\"\n\n  {}\n", number, phrase);
    case PhraseUse::drink_line:
      return fmt::format("drink \"Phrase {}\"\n\n  {}\n", number, phrase);
    case PhraseUse::sized_line:
      return fmt::format("drink \"Phrase {}\"\n  size 90 ml\n  {}\n", number, phrase);
    case PhraseUse::glass:
      return fmt::format("drink \"Phrase {}\"\n\n  glass  {}\n", number, phrase);
    case PhraseUse::ice:
      return fmt::format("drink \"Phrase {}\"\n\n  ice  {}\n", number, phrase);
    case PhraseUse::garnish:
      return fmt::format("drink \"Phrase {}\"\n\n  garnish  {}\n", number, phrase);
  }
  return {};
}

/// What is no line of a recipe whatever the language says: comments and text, and what would quiet a finding
/// that nobody has seen.
bool is_never_read(const std::string& phrase) {
  return phrase.empty() || phrase.front() == '#' || phrase.front() == '|' ||
         base::fold_name(phrase).starts_with("allow ");
}

}  // namespace

bool Phrasebook::reads(PhraseUse use, const std::string& phrase) {
  if (is_never_read(phrase)) return false;
  Question question{use, phrase};
  if (auto answer = answers_.find(question); answer != answers_.end()) return answer->second.empty();
  open_.insert(std::move(question));
  return false;
}

std::string Phrasebook::why_not(PhraseUse use, const std::string& phrase) const {
  auto answer = answers_.find({use, phrase});
  return answer == answers_.end() ? std::string() : answer->second;
}

bool Phrasebook::ask() {
  if (open_.empty()) return false;
  ask(std::vector<Question>(open_.begin(), open_.end()));
  open_.clear();
  return true;
}

void Phrasebook::ask(const std::vector<Question>& questions) {
  std::string text;
  for (std::size_t i = 0; i < questions.size(); ++i)
    text += try_out(questions[i].first, questions[i].second, i + 1);
  std::vector<base::RowProblem> errors;
  try {
    errors = check_(text);
  } catch (const std::exception&) {
    ask_in_halves(questions);
    return;
  }
  for (const auto& question : questions) answers_[question].clear();
  // Each stands on three lines, the words on the last.
  constexpr std::size_t lines_each = 3;
  for (const auto& error : errors)
    if (error.line > 0 && error.line % lines_each == 0 && error.line / lines_each <= questions.size())
      answers_[questions[error.line / lines_each - 1]] = error.message;
}

/// One of the questions broke the reading off: what cannot be read at all is not read, and the others are.
void Phrasebook::ask_in_halves(const std::vector<Question>& questions) {
  if (questions.size() == 1) {
    answers_[questions.front()] = "it breaks the reading off.";
    return;
  }
  auto middle = questions.begin() + static_cast<std::ptrdiff_t>(questions.size() / 2);
  ask({questions.begin(), middle});
  ask({middle, questions.end()});
}

}  // namespace gill::importer
