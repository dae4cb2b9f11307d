#include "render/drawing/ice_pieces.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/text.h"

namespace gill::render::drawing {
namespace {

// CRC Handbook of Chemistry and Physics: ice at 0 °C.
constexpr double ice_density_g_per_ml = 0.9167;
// A cube where the ice does not say. Common practice.
constexpr double unstated_piece_g = 30;
// The side of a stick of ice. Common practice.
constexpr double stick_side_mm = 32;
// Smaller pieces than this are drawn as a heap of splinters.
constexpr double splinter_mm = 15;
constexpr int max_splinters = 220;

enum class PieceShape : std::uint8_t { cube, ball, stick };

PieceShape shape_of(const analysis::Ice& ice) {
  std::string name = base::fold_name(ice.head.name);
  for (std::string_view word : {"sphere", "ball"})
    if (name.find(word) != std::string::npos) return PieceShape::ball;
  for (std::string_view word : {"spear", "stick", "column"})
    if (name.find(word) != std::string::npos) return PieceShape::stick;
  return PieceShape::cube;
}

/// A number between −1 and 1 that is the same on every machine.
double scatter(unsigned seed) {
  unsigned x = seed * 2654435761u + 12345u;
  x ^= x >> 15;
  x *= 2246822519u;
  x ^= x >> 13;
  return static_cast<double>(x % 2001u) / 1000.0 - 1;
}

class IceDrawer {
 public:
  IceDrawer(Scene& scene, const GlassSection& glass, const analysis::Ice& ice, const model::InGlass& in_glass,
            double surface_mm)
      : scene_(scene), glass_(glass), ice_(ice), in_glass_(in_glass), surface_(surface_mm) {
    piece_g_ = ice.each && ice.each->number() > 0 ? ice.each->number() : unstated_piece_g;
    piece_ml_ = piece_g_ / ice_density_g_per_ml;
    edge_ = std::cbrt(piece_ml_ * 1000);
    double ice_ml = in_glass.ice_below_ml + in_glass.ice_above_ml;
    share_above_ = ice_ml > 0 ? std::clamp(in_glass.ice_above_ml / ice_ml, 0.0, 1.0) : 0.1;
  }

  void draw() {
    double count = in_glass_.ice_g / piece_g_;
    if (edge_ < splinter_mm) {
      draw_splinters();
    } else if (count < 1.75) {
      draw_one();
    } else {
      draw_heap(count);
    }
  }

 private:
  Paint fill() const { return Paint::of("#ffffff", 0.55); }
  Line line() const { return {Paint::ink(0.75), 0.2, 0}; }

  /// A rectangle turned a little about its middle; sizes in life-size millimetres.
  void add_block(double middle_mm, double height_mm, double wide_mm, double high_mm, double turn) {
    double x = glass_.axis() + middle_mm / glass_.scale(), y = glass_.y_at(height_mm);
    double w = wide_mm / glass_.scale() / 2, h = high_mm / glass_.scale() / 2;
    std::vector<Point> corners;
    for (auto [sx, sy] : {std::pair{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}) {
      double dx = sx * w, dy = sy * h;
      corners.push_back(
          {x + dx * std::cos(turn) - dy * std::sin(turn), y + dx * std::sin(turn) + dy * std::cos(turn)});
    }
    scene_.add(polyline(corners, true, fill(), line()));
  }

  double room_at(double height_mm) const {
    double rim = glass_.profile().height_mm();
    return 2 * glass_.half_width_at(std::clamp(height_mm, 0.0, rim)) * glass_.scale() - 1.5;
  }

  /// The height at which a piece of a height floats, or lies when there is too little to float in.
  double bottom_of(double high_mm) const { return std::max(0.6, surface_ - high_mm * (1 - share_above_)); }

  void draw_one() {
    PieceShape shape = shape_of(ice_);
    double part = std::cbrt(std::clamp(in_glass_.ice_g / piece_g_, 0.2, 1.0));
    if (shape == PieceShape::ball) {
      double diameter =
          std::min(std::cbrt(6 * piece_ml_ * 1000 / std::numbers::pi) * part, room_at(surface_ * 0.5));
      double middle = bottom_of(diameter) + diameter / 2;
      scene_.add(Circle{{glass_.axis(), glass_.y_at(middle)}, diameter / 2 / glass_.scale(), fill(), line()});
      return;
    }
    double wide = shape == PieceShape::stick ? stick_side_mm : edge_ * part;
    wide = std::min(wide, room_at(surface_ * 0.3) * 0.96);
    double high =
        shape == PieceShape::stick ? piece_ml_ * 1000 / (stick_side_mm * stick_side_mm) * part : edge_ * part;
    add_block(0, bottom_of(high) + high / 2, wide, high, shape == PieceShape::stick ? 0.02 : -0.07);
  }

  void draw_heap(double count) {
    double row_high = edge_ * 0.95, rim = glass_.profile().height_mm();
    // How many rows, and how many of each a cut meets.
    std::vector<int> rows;
    double left = count, height = std::max(0.0, surface_ - row_high);
    while (left > 0.3 && rows.size() < 12) {
      double room = room_at(height);
      double in_row = std::max(1.0, 0.62 * std::numbers::pi / 4 * room * room / (edge_ * edge_));
      rows.push_back(std::max(1, static_cast<int>(room / edge_)));
      left -= in_row;
      height = std::max(0.0, height - row_high);
    }
    double heap = row_high * static_cast<double>(rows.size());
    double bottom = std::max(0.5, surface_ - heap * (1 - share_above_));
    // A cube that would stand well over the rim has been left out of the glass.
    while (rows.size() > 1 && bottom + row_high * static_cast<double>(rows.size()) > rim + edge_ * 0.8)
      rows.pop_back();
    for (std::size_t row = 0; row < rows.size(); ++row) {
      double middle = bottom + row_high * (static_cast<double>(row) + 0.5);
      double room = room_at(middle);
      double wide = std::min(edge_, room / rows[row] * 0.97);
      double step = rows[row] > 1 ? (room - wide) / (rows[row] - 1) : 0;
      for (int i = 0; i < rows[row]; ++i) {
        auto seed = static_cast<unsigned>(row * 7 + static_cast<std::size_t>(i) + 3);
        double side =
            rows[row] > 1 ? -room / 2 + wide / 2 + step * i : scatter(seed + 50) * (room - wide) / 2.4;
        add_block(side, middle, wide * 0.94, edge_ * 0.9, scatter(seed) * 0.13);
      }
    }
  }

  void draw_splinters() {
    double packs = std::clamp(ice_.packs, 0.3, 0.9);
    double heap_ml = (in_glass_.ice_below_ml + in_glass_.ice_above_ml) / packs;
    double rim = glass_.profile().height_mm(), holds = glass_.profile().holds_ml();
    double dome = heap_ml > holds ? std::min(14.0, (heap_ml - holds) / 2) : 0;
    double top = std::max(glass_.profile().height_of_ml(std::min(heap_ml, holds)) + dome, surface_ + 2);
    double bottom = heap_ml < holds ? std::max(0.0, top - glass_.profile().height_of_ml(heap_ml)) : 0;
    double size = std::max(edge_, 7.0);
    int drawn = 0;
    unsigned seed = 1;
    for (double height = top - size / 2; height > bottom + size / 3 && drawn < max_splinters;
         height -= size * 0.95) {
      // A dome narrows towards its top.
      double narrow =
          height > rim ? std::sqrt(std::max(0.0, 1 - std::pow((height - rim) / (dome + 1), 2))) : 1;
      double room = room_at(height) * narrow;
      int across = std::max(1, static_cast<int>(room / size));
      for (int i = 0; i < across; ++i, ++drawn, seed += 11)
        add_splinter((room - size) * (across > 1 ? static_cast<double>(i) / (across - 1) - 0.5 : 0) +
                         scatter(seed) * size * 0.12,
                     height + scatter(seed + 1) * size * 0.15, size, seed);
    }
  }

  void add_splinter(double middle_mm, double height_mm, double size_mm, unsigned seed) {
    std::vector<Point> corners;
    for (unsigned i = 0; i < 5; ++i) {
      double angle = 2 * std::numbers::pi * (i + 0.25 * scatter(seed + i)) / 5;
      double radius = size_mm / glass_.scale() * (0.46 + 0.1 * scatter(seed + 5 + i));
      corners.push_back({glass_.axis() + middle_mm / glass_.scale() + radius * std::cos(angle),
                         glass_.y_at(height_mm) + radius * std::sin(angle)});
    }
    scene_.add(polyline(corners, true, Paint::of("#ffffff", 0.45), {Paint::ink(0.55), 0.15, 0}));
  }

  Scene& scene_;
  const GlassSection& glass_;
  const analysis::Ice& ice_;
  const model::InGlass& in_glass_;
  double surface_ = 0, piece_g_ = 30, piece_ml_ = 33, edge_ = 32, share_above_ = 0.1;
};

}  // namespace

void draw_ice(Scene& scene, const GlassSection& glass, const analysis::Ice& ice,
              const model::InGlass& in_glass, double surface_mm) {
  if (in_glass.ice_g > 0.5) IceDrawer(scene, glass, ice, in_glass, surface_mm).draw();
}

}  // namespace gill::render::drawing
