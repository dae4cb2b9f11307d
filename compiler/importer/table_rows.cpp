#include "importer/table_rows.h"

#include <algorithm>
#include <utility>

namespace gill::importer {
namespace {

bool is_same(const OldPart& one, const OldPart& other) {
  return one.role == other.role && one.what.text == other.what.text;
}

/// What the rows of one drink say together.
class DrinkOfRows {
 public:
  explicit DrinkOfRows(PhraseReader& reader) : reader_(reader) {}

  void add(const TableRow& row) {
    ++rows_;
    amounts_.insert(amounts_.end(), row.amounts.begin(), row.amounts.end());
    for (const auto& part : row.said) said_.push_back({part, amounts_.size()});
  }

  std::vector<OldPart> parts() {
    drop_what_is_said_again();
    const bool is_in_place = is_made_row_by_row();
    std::vector<OldPart> parts, behind;
    std::size_t taken = 0;
    for (const auto& [part, after] : said_) {
      const bool stays = part.role == LabelRole::remark || (is_in_place && is_method(part));
      if (!stays) {
        behind.push_back(part);
        continue;
      }
      while (taken < after) parts.push_back(amounts_[taken++]);
      parts.push_back(part);
    }
    parts.insert(parts.end(), amounts_.begin() + static_cast<std::ptrdiff_t>(taken), amounts_.end());
    parts.insert(parts.end(), behind.begin(), behind.end());
    return parts;
  }

 private:
  /// A part, and how many amounts stand above it or beside it.
  struct Said {
    OldPart part;
    std::size_t after = 0;
  };

  static bool is_method(const OldPart& part) { return part.role == LabelRole::method; }

  /// A database writes the glass and the method beside each ingredient. Of remarks only what all rows say:
  /// two ingredients may cost alike.
  void drop_what_is_said_again() {
    std::vector<Said> once;
    for (const auto& one : said_) {
      auto same = [&](const Said& other) { return is_same(one.part, other.part); };
      const auto times = static_cast<std::size_t>(std::count_if(said_.begin(), said_.end(), same));
      const bool is_of_row = one.part.role == LabelRole::remark && times < rows_;
      if (is_of_row || std::none_of(once.begin(), once.end(), same)) once.push_back(one);
    }
    said_ = std::move(once);
  }

  bool strains(const OldPart& part) {
    auto phrases = reader_.read(part, {});
    return std::any_of(phrases.begin(), phrases.end(), [](const Phrase& one) {
      return one.kind == PhraseKind::step && one.gill.find("strain") != std::string::npos;
    });
  }

  /// A method stands beside each amount from there on.
  bool goes_on_row_by_row(std::size_t amount) {
    for (; amount < amounts_.size(); ++amount)
      if (std::none_of(said_.begin(), said_.end(),
                       [&](const Said& one) { return is_method(one.part) && one.after == amount + 1; }))
        return false;
    return true;
  }

  /// Several methods, each beside what it is done to: `muddle` beside the mint. What is strained above other
  /// amounts is the method of the whole.
  bool is_made_row_by_row() {
    const auto methods =
        std::count_if(said_.begin(), said_.end(), [](const Said& one) { return is_method(one.part); });
    return methods > 1 && std::none_of(said_.begin(), said_.end(), [&](const Said& one) {
             return is_method(one.part) && strains(one.part) && !goes_on_row_by_row(one.after);
           });
  }

  PhraseReader& reader_;
  std::size_t rows_ = 0;
  std::vector<OldPart> amounts_;
  std::vector<Said> said_;
};

}  // namespace

std::vector<JudgedLine> with_rows_joined(std::vector<JudgedLine> lines, PhraseReader& reader) {
  std::vector<JudgedLine> joined;
  for (std::size_t i = 0; i < lines.size();) {
    auto& first = lines[i];
    auto end = i + 1;
    while (end < lines.size() && !first.row.empty() && lines[end].goes_on) ++end;
    if (!first.row.empty()) {
      DrinkOfRows drink(reader);
      for (auto k = i; k < end; ++k) drink.add(lines[k].row);
      first.spec.name = first.goes_on ? std::string() : first.row.name;
      first.spec.parts = end == i + 1 ? first.row.parts : drink.parts();
    }
    joined.push_back(std::move(first));
    i = end;
  }
  return joined;
}

}  // namespace gill::importer
