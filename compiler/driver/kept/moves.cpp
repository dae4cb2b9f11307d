#include "driver/kept/moves.h"

#include <algorithm>

#include "driver/kept/walk.h"

namespace gill::driver::kept {

using source::Span;

void Moves::add_line(Span old, source::FileId now_file, std::uint32_t now_begin) {
  lines_[old.file_id].push_back({old.begin, old.end, now_file, now_begin});
}

void Moves::sort_lines() {
  for (auto& [file, lines] : lines_)
    std::sort(lines.begin(), lines.end(), [](const Line& a, const Line& b) { return a.begin < b.begin; });
}

void Moves::apply(Span& span) const {
  auto file = lines_.find(span.file_id);
  if (file == lines_.end()) return;
  auto after = std::upper_bound(file->second.begin(), file->second.end(), span.begin,
                                [](std::uint32_t wanted, const Line& line) { return wanted < line.begin; });
  if (after == file->second.begin()) return;
  const Line& line = *(after - 1);
  if (span.begin > line.end) return;
  span = {line.file, line.now + (span.begin - line.begin), line.now + (span.end - line.begin)};
}

namespace {

template <typename Tag>
void renumber(base::Id<Tag>& id, const NewIds<Tag>& now) {
  if (id.valid()) id = id.index() < now.size() ? now[id.index()] : base::Id<Tag>{};
}

/// Brings each place and each id up to date.
class Update {
 public:
  explicit Update(const Moves& moves) : moves_(moves) {}

  void operator()(Span& span) const { moves_.apply(span); }
  void operator()(symbols::DeclarationId& id) const { put(id, moves_.declarations); }
  void operator()(analysis::StockId& id) const { put(id, moves_.stock); }
  void operator()(analysis::GlassId& id) const { put(id, moves_.glasses); }
  void operator()(analysis::IceId& id) const { put(id, moves_.ices); }
  void operator()(analysis::FamilyId& id) const { put(id, moves_.families); }
  void operator()(analysis::DrinkId& id) const { put(id, moves_.drinks); }
  void operator()(analysis::PriceListId& id) const { put(id, moves_.price_lists); }
  // Where units change, nothing is kept.
  void operator()(units::UnitId&) const {}

 private:
  template <typename Tag>
  void put(base::Id<Tag>& id, const NewIds<Tag>& now) const {
    if (moves_.renumbers) renumber(id, now);
  }
  const Moves& moves_;
};

template <typename Value>
void update(Value& value, const Moves& moves) {
  Walker(Update(moves)).walk(value);
}

}  // namespace

void Moves::apply(analysis::House& house) const { update(house, *this); }
void Moves::apply(analysis::Stock& stock) const { update(stock, *this); }
void Moves::apply(analysis::Glass& glass) const { update(glass, *this); }
void Moves::apply(analysis::Ice& ice) const { update(ice, *this); }
void Moves::apply(analysis::Family& family) const { update(family, *this); }
void Moves::apply(analysis::Drink& drink) const { update(drink, *this); }
void Moves::apply(analysis::PriceList& list) const { update(list, *this); }
void Moves::apply(analysis::Menu& menu) const { update(menu, *this); }
void Moves::apply(model::DrinkFacts& facts) const { update(facts, *this); }
void Moves::apply(std::vector<analysis::StockId>& ids) const { update(ids, *this); }

void Moves::apply(model::StockFacts& facts) const { update(facts, *this); }

void Moves::apply(std::vector<diagnostics::Diagnostic>& findings) const {
  for (auto& finding : findings) {
    apply(finding.span);
    for (auto& related : finding.related) apply(related.span);
    if (finding.fix)
      for (auto& edit : finding.fix->edits) apply(edit.span);
    if (!renumbers || finding.subject == diagnostics::no_subject) continue;
    symbols::DeclarationId subject{finding.subject};
    renumber(subject, declarations);
    finding.subject = subject.value;
  }
}

void Moves::apply(analysis::ReadingNotes& notes) const {
  update(notes.forms, *this);
  update(notes.name_uses, *this);
}

void Moves::apply(analysis::ReadLog& log, const std::deque<syntax::File>& readings,
                  source::SourceSet& sources) const {
  apply(log.findings);
  if (renumbers) update(log.seen, *this);
  if (!moves_lines()) return;
  for (std::size_t reading : log.readings)
    sources.move_origin(readings[reading].file_id, [&](Span& span) { apply(span); });
}

namespace {

template <typename Value>
std::vector<analysis::StockId> named_in(const Value& value) {
  std::vector<analysis::StockId> named;
  auto note = [&](const auto& part) {
    if constexpr (std::same_as<std::remove_cvref_t<decltype(part)>, analysis::StockId>)
      if (part.valid()) named.push_back(part);
  };
  Walker(note).walk(value);
  std::sort(named.begin(), named.end());
  named.erase(std::unique(named.begin(), named.end()), named.end());
  return named;
}

}  // namespace

std::vector<analysis::StockId> stock_named_in(const analysis::Drink& drink) { return named_in(drink); }
std::vector<analysis::StockId> stock_named_in(const analysis::Stock& stock) { return named_in(stock); }

}  // namespace gill::driver::kept
