#pragma once
#include "driver/compile.h"

namespace gill::driver {

/// What an update did again, and why.
struct Redone {
  enum class What : std::uint8_t {
    read_file,   ///< a file's lines became a tree
    read,        ///< a declaration's lines became its value
    worked_out,  ///< the facts of a drink or something in stock
    priced,      ///< only what it costs
    judged,      ///< every rule that looks at one drink or prep
    everything,  ///< the house was compiled from nothing
  };
  What what = What::everything;
  /// The file or the declaration; empty for `everything`.
  std::string name;
  std::string why;
};

/// One a line, for `gill dump again`.
std::string dump(const std::vector<Redone>& redone);

/// A house that stays compiled while its files change: of each edit only what it reaches is done again, and
/// the result is what compiling from nothing makes of the same files.
///
/// What one declaration was read as hangs on its lines (comments and blank lines left out), on the names that
/// were looked for while it was read, found or not, and on what its lines may see of the things that they
/// name (`analysis::ReadLog`). Facts and findings hang on that value, and on the values of all that it is
/// made of, to any depth. Where a value comes out as it was, nothing behind it is done again. What stands
/// elsewhere or has another number now is moved there (`kept/moves.h`). Rules that look across declarations
/// always run over the whole house.
class KeptHouse {
 public:
  /// `with_hands`: facts as `compile` makes them, else as `compile_for_findings`.
  explicit KeptHouse(bool with_hands = true);
  ~KeptHouse();
  KeptHouse(const KeptHouse&) = delete;
  KeptHouse& operator=(const KeptHouse&) = delete;

  /// The house as the files are now: the same object at each call, brought up to date; what was taken from it
  /// before is of the past. Null where it was asked to stop; it looks up where everything is compiled.
  const Compilation* update(const HouseFiles& house, const std::stop_token& stop = {});
  /// As it was last compiled; null before the first time.
  const Compilation* now() const;
  /// Hands over what was compiled and keeps nothing.
  std::unique_ptr<Compilation> take();
  /// What the last update did again, in its order.
  const std::vector<Redone>& redone() const { return redone_; }

 private:
  class State;
  bool with_hands_;
  std::unique_ptr<State> state_;
  std::vector<Redone> redone_;
};

}  // namespace gill::driver
