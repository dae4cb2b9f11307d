#pragma once
#include <limits>
#include <vector>

#include "analysis/specs.h"

namespace gill::analysis {

/// What a line may see of a thing in stock that it names. Readers see no more, so that a new price or a new
/// text of an ingredient reaches no line that names it.
struct StockFace {
  struct {
    const std::string& name;
    bool from_library;
  } head;
  bool is_prep;
  StockKind kind;
  const std::map<UnitId, Quantity>& each;
  const std::vector<Gives>& gives;
  const std::optional<Quantity>& fizz;
  const std::optional<Form>& form;

  Form effective_form() const;
};

/// A thing in stock at which a line looked, and whether it had been read by then.
struct SeenStock {
  StockId stock;
  bool is_read = false;
  auto operator<=>(const SeenStock&) const = default;
};

/// Where each declaration comes in the order of reading; `never_read` for those in a circle of `like`.
using ReadingOrder = std::vector<std::uint32_t>;
inline constexpr std::uint32_t never_read = std::numeric_limits<std::uint32_t>::max();

/// The declarations as a line of one of them sees them: what comes later in the order of reading is not known
/// yet, but for its name.
class SpecsInReach {
 public:
  SpecsInReach(const Specs& specs, const ReadingOrder& order)
      : house(specs.house), index_of(specs.index_of), specs_(specs), order_(order) {}

  const House& house;
  const std::vector<std::uint32_t>& index_of;

  StockFace operator[](StockId id) const;
  const Glass& operator[](GlassId id) const { return specs_[id]; }

  /// The declaration at that place of the order is read now; what it looks at is noted in `seen` unless that
  /// is null.
  void begin(std::uint32_t place, std::vector<SeenStock>* seen) { place_ = place, seen_ = seen; }
  bool is_read(StockId id) const { return order_[specs_[id].head.declaration_id.index()] < place_; }

 private:
  const Specs& specs_;
  const ReadingOrder& order_;
  std::uint32_t place_ = 0;
  std::vector<SeenStock>* seen_ = nullptr;
};

}  // namespace gill::analysis
