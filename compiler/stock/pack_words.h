#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include "base/csv_reader.h"
#include "costing/costing.h"

/// The words in which suppliers write packs, in English, German, French, Spanish and Italian.
namespace gill::stock {

using namespace costing;

/// What a word for a vessel means: the pack as sold (`bottle`), or all packs of an offer (`case`).
enum class Vessel : std::uint8_t { none, pack, offer };
Vessel vessel_of(std::string_view word);

/// What a word for a vessel that is one pack is by its kind: a carton holds one or a case of them, a keg is
/// no bottle, and fruit comes in neither.
enum class VesselKind : std::uint8_t { other, carton, keg, bottle_or_tin };
VesselKind vessel_kind_of(std::string_view word);

/// `dozen`, `Dutzend`: twelve of them.
bool is_dozen_word(std::string_view word);
/// `pcs`, `each`, `Stk`: what is counted one by one.
bool is_piece_word(std::string_view word);

/// A unit of the house by a supplier's word for it: `ltr`, `kilo`, `gr`; invalid where it is none.
units::UnitId unit_of(std::string_view word, const units::UnitTable& units);

/// How much a fraction at the beginning of a text is, `1/2`, and how long it is written; no length where none
/// stands there.
std::pair<Exact, std::size_t> fraction_at(std::string_view text);

/// A pack as a supplier writes it: `6 x 70cl`, `70cl x 6`, `case 12x330ml`, `Fl. 0,75 l`, `100 pcs`, `kg`,
/// `box 54`.
struct WrittenPack {
  Exact packs = 1;
  /// The size of one; a count of pieces where there is no unit.
  Exact number = 1;
  units::UnitId unit;
  /// True where nothing says that pieces are meant: a number alone, a vessel with a number.
  bool is_bare_number = false;
  /// `6 x 70cl (per bottle)`: the price beside it is of one.
  bool is_priced_by_one = false;
};

/// Why a text is no pack.
enum class NoPack : std::uint8_t {
  not_read,
  contents_missing,  ///< vessels alone: `1 crate`
  several_vessels,   ///< `2 boxes 54`: for one of them, or for both
};

std::variant<WrittenPack, NoPack> read_pack(std::string_view text, const units::UnitTable& units,
                                            const base::CsvTable& table);

}  // namespace gill::stock
