#include "stock/pack_words.h"

#include <algorithm>
#include <array>
#include <span>
#include <utility>
#include <vector>

#include "base/characters.h"
#include "base/text.h"

namespace gill::stock {
namespace {

/// Words are matched in small letters, without accents and without a full stop, and stand so here: `stuck` is
/// Stück. Common practice, no source.
using Words = std::span<const std::string_view>;

// Packs: cartons hold one or a case, kegs are no bottles, and fruit comes in neither of the two.
constexpr std::string_view carton_words[] = {"carton", "cartons", "pack", "packs", "pk", "pkt"};
constexpr std::string_view keg_words[] = {"keg",    "kegs",    "cask",  "drum",     "fass",
                                          "fut",    "barril",  "fusto", "casks",    "drums",
                                          "fasser", "faesser", "futs",  "barriles", "fusti"};
constexpr std::string_view bottle_and_tin_words[] = {
    "bottle",    "bottles", "btl",     "btls",       "bt",        "tin",     "tins",     "can",     "cans",
    "jar",       "jars",    "flasche", "flaschen",   "fl",        "dose",    "dosen",    "glas",    "glaser",
    "bouteille", "btle",    "bocal",   "bouteilles", "boite",     "botella", "botellas", "bot",     "lata",
    "latas",     "tarro",   "tarros",  "bottiglia",  "bottiglie", "bott",    "lattina",  "lattine", "vasetto",
    "vasetti",   "vaso",    "vasi",    "canette",    "canettes",  "bocaux"};
constexpr std::string_view other_pack_words[] = {
    "packet",   "packets",    "bag",     "bags",      "sack",       "tub",      "tubs",
    "net",      "bundle",     "unit",    "eimer",     "beutel",     "bund",     "netz",
    "schale",   "packchen",   "sachet",  "botte",     "barquette",  "filet",    "sac",
    "bolsa",    "manojo",     "malla",   "sacco",     "sacchetto",  "mazzo",    "vaschetta",
    "rete",     "bunch",      "bunches", "punnet",    "punnets",    "saco",     "cubo",
    "garrafa",  "bidon",      "pot",     "pots",      "bote",       "botes",    "barattolo",
    "latta",    "topf",       "tube",    "barattoli", "bag-in-box", "bib",      "bags-in-box",
    "secchio",  "secchi",     "seau",    "seaux",     "busta",      "buste",    "mazzetto",
    "mazzetti", "mazzi",      "brique",  "briques",   "brik",       "bric",     "bricco",
    "sachets",  "sacs",       "bolsas",  "tute",      "tuten",      "manojos",  "botas",
    "bottes",   "barquettes", "bidons",  "bidones",   "kanister",   "jerrycan", "jerrycans",
    "canister", "tanica",     "taniche", "pouch",     "pouches",    "sobre",    "sobres",
    "schalen",  "netze",      "bunde",   "reti",      "mallas",     "filets",   "vaschette",
    "cubos",    "garrafas",   "bucket",  "buckets",   "cf",         "conf",     "confez"};
constexpr std::string_view offer_words[] = {
    "case",     "cases",    "cs",       "box",      "boxes",   "crate",   "crates",   "tray",    "trays",
    "ctn",      "kiste",    "kisten",   "karton",   "steige",  "stiege",  "caisse",   "caisses", "colis",
    "plateau",  "cagette",  "caja",     "cajas",    "bandeja", "cassa",   "casse",    "cartone", "cartoni",
    "scatola",  "scatole",  "cassetta", "cassette", "vassoio", "vassoi",  "kasten",   "harasse", "harasses",
    "plateaux", "cagettes", "fardello", "fardelli", "fardo",   "fardos",  "bandejas", "steigen", "stiegen",
    "kartons",  "casier",   "casiers",  "kollo",    "colli",   "tragerl", "trager"};
constexpr std::string_view piece_words[] = {
    "pcs",    "pc",     "piece",  "pieces",   "each",    "ea",    "stk",     "stck",    "stuck",
    "stucke", "stueck", "st",     "pce",      "pces",    "unite", "unites",  "pieza",   "piezas",
    "ud",     "uds",    "unidad", "unidades", "u",       "units", "pz",      "pezzo",   "pezzi",
    "head",   "heads",  "kopf",   "kopfe",    "tete",    "tetes", "cabeza",  "cabezas", "cespo",
    "cespi",  "count",  "ct",     "cad",      "cadauno", "cda",   "cadauna", "stuks"};
constexpr std::string_view dozen_words[] = {"doz",    "dozen",   "dozens",   "dz",
                                            "dtz",    "dutzend", "douzaine", "douzaines",
                                            "docena", "docenas", "dozzina",  "dozzine"};
constexpr std::string_view filler_words[] = {
    "of",  "a",     "de", "di",   "da",    "je",     "per",    "pro", "von", "with", "en", "approx", "ca",
    "por", "price", "@",  "prix", "preis", "precio", "prezzo", "au",  "la",  "le",   "al", "in"};
/// Before what a price is of one of: `per bottle`, `je Flasche`, `price each`.
constexpr std::string_view price_words_of_one[] = {"per",  "pro",   "je",     "por",   "price",
                                                   "prix", "preis", "precio", "prezzo"};
constexpr std::array<std::pair<std::string_view, std::string_view>, 31> unit_words = {
    {{"lt", "l"},         {"lts", "l"},          {"ltr", "l"},          {"ltrs", "l"},
     {"lit", "l"},        {"liter", "l"},        {"litre", "l"},        {"litres", "l"},
     {"liters", "l"},     {"litro", "l"},        {"litros", "l"},       {"litri", "l"},
     {"gr", "g"},         {"grs", "g"},          {"gramm", "g"},        {"grammes", "g"},
     {"gramos", "g"},     {"kilo", "kg"},        {"kilos", "kg"},       {"kgs", "kg"},
     {"mls", "ml"},       {"bund", "bunch"},     {"bunde", "bunch"},    {"mazzo", "bunch"},
     {"mazzi", "bunch"},  {"mazzetto", "bunch"}, {"mazzetti", "bunch"}, {"botte", "bunch"},
     {"bottes", "bunch"}, {"manojo", "bunch"},   {"manojos", "bunch"}}};

bool is_one_of(std::string_view word, Words words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

std::string plain(std::string_view word) {
  std::string text = base::fold_without_accents(word);
  while (text.ends_with('.')) text.pop_back();
  return text;
}

/// A piece of the text: a number, a word, or a sign for times.
struct Piece {
  enum class Kind : std::uint8_t { number, unit, vessel, pieces, dozen, times } kind;
  Exact number = 0;
  units::UnitId unit;
};

class PackText {
 public:
  PackText(std::string_view text, const units::UnitTable& units, const base::CsvTable& table)
      : text_(text), units_(units), table_(table) {}

  /// Nothing where a word of it is not known.
  std::optional<std::vector<Piece>> pieces() {
    while (at_ < text_.size())
      if (!take_one()) return std::nullopt;
    return std::move(pieces_);
  }

  bool says_price_of_one() const { return says_price_of_one_; }

 private:
  static bool is_letter(char c) { return base::is_ascii_letter(c) || static_cast<unsigned char>(c) >= 0x80; }

  bool take_one() {
    char c = text_[at_];
    std::string_view rest = text_.substr(at_);
    if (c == ' ' || c == '(' || c == ')' || c == '/' || (c == '-' && !pieces_.empty())) return ++at_, true;
    if (c == '*') return add_times(1);
    if (rest.starts_with("×")) return add_times(std::string_view("×").size());
    if (base::is_digit(c)) return take_number();
    return is_letter(c) && take_word();
  }

  bool add_times(std::size_t length) {
    pieces_.push_back({Piece::Kind::times, 0, {}});
    at_ += length;
    return true;
  }

  bool take_number() {
    std::size_t end = at_;
    while (end < text_.size() && (base::is_digit(text_[end]) || text_[end] == '.' || text_[end] == ','))
      ++end;
    while (end > at_ && !base::is_digit(text_[end - 1])) --end;
    auto number = table_.number(text_.substr(at_, end - at_));
    if (!number || *number <= 0) return false;
    if (auto fraction = fraction_behind(*number, end)) number = fraction;
    pieces_.push_back({Piece::Kind::number, *number, {}});
    at_ = end;
    return true;
  }

  /// `1/2 l`, `1 1/2 kg`: less than one of what is behind it. `24/200ml` are 24 of 200 ml. Moves `end`.
  std::optional<Exact> fraction_behind(const Exact& number, std::size_t& end) const {
    const bool is_mixed = end < text_.size() && text_[end] == ' ' && number == base::floor(number);
    const std::size_t from = is_mixed ? end + 1 : at_;
    auto [fraction, length] = fraction_at(text_.substr(from));
    auto below = length > 0 ? base::parse_exact(text_.substr(text_.find('/', from) + 1,
                                                             from + length - text_.find('/', from) - 1))
                            : std::nullopt;
    // Cooks' fractions; `1/5kg` is one of 5 kg.
    const bool is_cooks = below && (*below == 2 || *below == 3 || *below == 4 || *below == 8);
    if (!is_cooks || fraction <= 0 || fraction >= 1) return std::nullopt;
    end = from + length;
    return Exact((is_mixed ? number : Exact(0)) + fraction);
  }

  bool take_word() {
    std::size_t end = at_;
    while (end < text_.size() && (is_letter(text_[end]) || text_[end] == '.') &&
           !(end > at_ && text_.substr(end).starts_with("×")))
      ++end;
    std::string word = plain(text_.substr(at_, end - at_));
    // `6x70cl`: a sign for times has a number behind it.
    if (word == "x" || (word.starts_with('x') && word.size() == 1)) return add_times(1);
    if (auto [unit, length] = unit_of_several_words(); length > end - at_)
      return at_ += length, pieces_.push_back({Piece::Kind::unit, 0, unit}), true;
    at_ = end;
    // `54 (price each)`, `6 x 70cl per bottle`.
    const bool ends_price =
        is_price_word_ && (vessel_of(word) == Vessel::pack || is_one_of(word, piece_words));
    if (ends_price && !pieces_.empty()) return says_price_of_one_ = true;
    is_price_word_ = is_one_of(word, price_words_of_one) && !pieces_.empty();
    if (is_one_of(word, filler_words)) return true;
    if (is_one_of(word, dozen_words)) return pieces_.push_back({Piece::Kind::dozen, 12, {}}), true;
    if (is_one_of(word, piece_words)) return pieces_.push_back({Piece::Kind::pieces, 0, {}}), true;
    if (auto unit = unit_of(word, units_); is_of_packs(unit) && !is_vessel_first(word, unit))
      return pieces_.push_back({Piece::Kind::unit, 0, unit}), true;
    if (vessel_of(word) == Vessel::none) return false;
    pieces_.push_back({Piece::Kind::vessel, 0, {}});
    return true;
  }

  /// `us fl oz`, `imp pint`: the most words from here on that are a unit together, and how long they are.
  std::pair<units::UnitId, std::size_t> unit_of_several_words() const {
    std::pair<units::UnitId, std::size_t> best{{}, 0};
    constexpr int max_words = 3;
    std::size_t end = at_;
    for (int words = 0; words < max_words && end < text_.size(); ++words) {
      end += words == 0 ? 0 : 1;
      if (end < text_.size() && !is_letter(text_[end])) break;
      while (end < text_.size() && (is_letter(text_[end]) || text_[end] == '.')) ++end;
      auto unit = words == 0 ? units::UnitId{} : units_.find(plain(text_.substr(at_, end - at_)));
      if (is_of_packs(unit)) best = {unit, end - at_};
      if (end < text_.size() && text_[end] != ' ') break;
    }
    return best;
  }

  /// Degrees and minutes hold nothing.
  bool is_of_packs(units::UnitId unit) const {
    if (!unit.valid()) return false;
    auto kind = units_[unit].kind;
    return kind == units::Kind::volume || kind == units::Kind::mass || kind == units::Kind::count;
  }

  /// `bunch 100 g`: an item word beside a weight only says how it comes.
  bool is_vessel_first(std::string_view word, units::UnitId unit) const {
    if (!units_[unit].is_item_word || vessel_of(word) == Vessel::none) return false;
    return std::count_if(text_.begin(), text_.end(), base::is_digit) > 0 && has_measure();
  }

  bool has_measure() const {
    for (std::size_t i = 0; i < text_.size(); ++i) {
      if (!is_letter(text_[i]) || (i > 0 && is_letter(text_[i - 1]))) continue;
      std::size_t end = i;
      while (end < text_.size() && is_letter(text_[end])) ++end;
      auto unit = unit_of(plain(text_.substr(i, end - i)), units_);
      if (is_of_packs(unit) && !units_[unit].is_item_word) return true;
    }
    return false;
  }

  std::string_view text_;
  const units::UnitTable& units_;
  const base::CsvTable& table_;
  std::size_t at_ = 0;
  bool is_price_word_ = false, says_price_of_one_ = false;
  std::vector<Piece> pieces_;
};

}  // namespace

Vessel vessel_of(std::string_view written) {
  std::string word = plain(written);
  if (is_one_of(word, offer_words)) return Vessel::offer;
  const bool is_pack = vessel_kind_of(word) != VesselKind::other || is_one_of(word, other_pack_words);
  return is_pack || word == "each" || word == "ea" ? Vessel::pack : Vessel::none;
}

VesselKind vessel_kind_of(std::string_view written) {
  const std::string word = plain(written);
  if (is_one_of(word, carton_words)) return VesselKind::carton;
  if (is_one_of(word, keg_words)) return VesselKind::keg;
  return is_one_of(word, bottle_and_tin_words) ? VesselKind::bottle_or_tin : VesselKind::other;
}

bool is_dozen_word(std::string_view word) { return is_one_of(plain(word), dozen_words); }

bool is_piece_word(std::string_view word) { return is_one_of(plain(word), piece_words); }

units::UnitId unit_of(std::string_view written, const units::UnitTable& units) {
  std::string word = plain(written);
  for (auto [other, unit] : unit_words)
    if (word == other) return units.find(std::string(unit));
  return units.find(word);
}

std::pair<Exact, std::size_t> fraction_at(std::string_view text) {
  auto digits_from = [&](std::size_t at) {
    std::size_t end = at;
    while (end < text.size() && base::is_digit(text[end])) ++end;
    return end;
  };
  std::size_t bar = digits_from(0), end = bar < text.size() && text[bar] == '/' ? digits_from(bar + 1) : 0;
  if (bar == 0 || end <= bar + 1) return {0, 0};
  auto above = base::parse_exact(text.substr(0, bar)),
       below = base::parse_exact(text.substr(bar + 1, end - bar - 1));
  if (!above || !below || *below == 0) return {0, 0};
  return {Exact(*above / *below), end};
}

namespace {

/// Of more than so many pieces a weight behind them is that of all, or of one: `110 pcs / 15 kg`.
constexpr int max_pieces_of_a_weight = 24;

std::variant<WrittenPack, NoPack> read_whole_pack(std::string_view text, const units::UnitTable& units,
                                                  const base::CsvTable& table) {
  using Kind = Piece::Kind;
  PackText pack_text(text, units, table);
  auto read = pack_text.pieces();
  if (!read || read->empty() || read->front().kind == Kind::times || read->back().kind == Kind::times)
    return NoPack::not_read;
  auto& pieces = *read;
  auto count = [&](Kind kind) {
    return std::count_if(pieces.begin(), pieces.end(),
                         [&](const Piece& piece) { return piece.kind == kind; });
  };
  // A vessel with the number before it is how many of it: of one there is nothing to say.
  const bool says_contents = count(Kind::unit) + count(Kind::pieces) + count(Kind::dozen) > 0 ||
                             count(Kind::number) > 1 ||
                             (count(Kind::number) == 1 && pieces.back().kind == Kind::number);
  if (count(Kind::vessel) > 0 && !says_contents) return NoPack::contents_missing;
  for (std::size_t i = 0; i + 1 < pieces.size(); ++i) {
    bool is_of_vessels = pieces[i].kind == Kind::number && pieces[i + 1].kind == Kind::vessel &&
                         count(Kind::number) > 1 && (i == 0 || pieces[i - 1].kind != Kind::times);
    if (!is_of_vessels) continue;
    // `12 bottles x 330 ml` says how many bottles; `2 boxes 54` does not say how many are in one of them.
    bool is_times = i + 2 < pieces.size() && pieces[i + 2].kind == Kind::times;
    if (pieces[i].number != 1 && !is_times && count(Kind::unit) == 0) return NoPack::several_vessels;
    if (pieces[i].number == 1 && !is_times) pieces.erase(pieces.begin() + static_cast<std::ptrdiff_t>(i));
  }
  const bool had_vessel = count(Kind::vessel) > 0;
  std::erase_if(pieces, [](const Piece& piece) { return piece.kind == Kind::vessel; });
  WrittenPack pack;
  pack.is_priced_by_one = pack_text.says_price_of_one();
  std::vector<Exact> factors;
  bool has_size = false, says_pieces = false;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const auto& piece = pieces[i];
    switch (piece.kind) {
      case Kind::times:
      case Kind::vessel:
        break;
      case Kind::number: {
        bool has_unit = i + 1 < pieces.size() && pieces[i + 1].kind == Kind::unit;
        if (has_unit && has_size) return NoPack::not_read;
        // `4kg ca 54 St`: what a box weighs, and how many are in it.
        const bool is_count_beside = has_size && pieces[i - 1].kind != Kind::times &&
                                     ((i + 1 < pieces.size() && pieces[i + 1].kind == Kind::pieces) ||
                                      pieces[i - 1].kind == Kind::pieces);
        if (is_count_beside && units[pack.unit].kind == units::Kind::volume) return NoPack::several_vessels;
        if (is_count_beside) break;
        if (has_unit)
          pack.number = piece.number, pack.unit = pieces[i + 1].unit, has_size = true;
        else
          factors.push_back(piece.number);
        break;
      }
      case Kind::unit:
        if (i > 0 && pieces[i - 1].kind == Kind::number) break;
        if (has_size) return NoPack::not_read;
        pack.unit = piece.unit, has_size = true;
        break;
      case Kind::pieces:
        says_pieces = true;
        break;
      case Kind::dozen:
        says_pieces = true;
        factors.push_back(piece.number);
        break;
    }
  }
  Exact product = 1;
  for (const auto& factor : factors) product *= factor;
  // `24 x 0.2` and `6 x 70` lack their unit: pieces are whole, and counted with one number.
  const bool lacks_unit =
      !has_size && (product != base::floor(product) || (factors.size() > 1 && !says_pieces));
  if (lacks_unit) return NoPack::not_read;
  // What nobody carries: the two say how much of one box there is, each in its own way.
  constexpr int max_pack_g = 200'000, max_pack_ml = 500'000;
  if (has_size && product != 1) {
    const auto kind = units[pack.unit].kind;
    const Exact all = product * pack.number * units[pack.unit].factor;
    const bool is_too_much =
        (kind == units::Kind::mass && all > max_pack_g) || (kind == units::Kind::volume && all > max_pack_ml);
    const bool is_count_and_mass =
        kind == units::Kind::mass && says_pieces && product > max_pieces_of_a_weight;
    if (is_too_much || is_count_and_mass) return NoPack::several_vessels;
  }
  if (has_size) {
    pack.packs = product;
  } else {
    pack.number = product;
    pack.is_bare_number = !says_pieces && !had_vessel;
  }
  return pack;
}

/// `15 kg (110 pcs)`, `60 Stk (15 kg)`: what a box weighs and how many are in it, of which what stands first
/// is taken; `30 (1.8 kg)` may be either. Nothing where the words in brackets belong to the rest.
std::optional<std::variant<WrittenPack, NoPack>> read_said_twice(std::string_view text,
                                                                 const units::UnitTable& units,
                                                                 const base::CsvTable& table) {
  const auto open = text.find('('), close = text.rfind(')');
  if (open == std::string_view::npos || close == std::string_view::npos || close < open || open == 0)
    return std::nullopt;
  const auto inside = base::trim(text.substr(open + 1, close - open - 1));
  const auto first = read_whole_pack(base::trim(text.substr(0, open)), units, table);
  const auto second = read_whole_pack(inside, units, table);
  const auto *one = std::get_if<WrittenPack>(&first), *other = std::get_if<WrittenPack>(&second);
  if (!one || !other || !base::trim(text.substr(close + 1)).empty()) return std::nullopt;
  auto is_measure = [&](const WrittenPack& pack) {
    return pack.unit.valid() && !units[pack.unit].is_item_word;
  };
  if (is_measure(*one) == is_measure(*other)) return std::nullopt;
  const auto& measure = is_measure(*one) ? *one : *other;
  const auto& count = is_measure(*one) ? *other : *one;
  const bool is_bare =
      count.is_bare_number && inside.find_first_not_of("0123456789") == std::string_view::npos;
  const bool is_bare_first = &count == one && count.is_bare_number;
  if (units[measure.unit].kind == units::Kind::volume)
    return is_bare ? std::optional(std::variant<WrittenPack, NoPack>(NoPack::several_vessels)) : std::nullopt;
  if (is_bare || is_bare_first) return NoPack::several_vessels;
  return *one;
}

}  // namespace

std::variant<WrittenPack, NoPack> read_pack(std::string_view text, const units::UnitTable& units,
                                            const base::CsvTable& table) {
  if (auto twice = read_said_twice(text, units, table)) return *twice;
  return read_whole_pack(text, units, table);
}

}  // namespace gill::stock
