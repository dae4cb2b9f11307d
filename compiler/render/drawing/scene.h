#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

/// A picture in millimetres, from the top left corner, that knows of no file format.
namespace gill::render::drawing {

struct Point {
  double x_mm = 0;
  double y_mm = 0;
};

/// What a surface or a line is drawn with. `ink` and `paper` are the page's own, dark or light.
struct Paint {
  enum class Kind : std::uint8_t { none, ink, faint, paper, colour } kind = Kind::none;
  /// `#rrggbb` where the kind is `colour`.
  std::string colour;
  double opacity = 1;

  static Paint none() { return {}; }
  static Paint ink(double opacity = 1) { return {Kind::ink, {}, opacity}; }
  static Paint faint() { return {Kind::faint, {}, 1}; }
  static Paint paper(double opacity = 1) { return {Kind::paper, {}, opacity}; }
  static Paint of(std::string colour, double opacity = 1) {
    return {Kind::colour, std::move(colour), opacity};
  }
};

struct Line {
  Paint paint;
  double width_mm = 0.25;
  /// Length of dashes and gaps; 0 for a full line.
  double dash_mm = 0;
};

/// One segment of an outline: a straight line to `to`, or a cubic curve to it by way of two handles.
struct Segment {
  Point to;
  bool is_curve = false;
  Point handle_1, handle_2;
};

struct Path {
  Point from;
  std::vector<Segment> segments;
  bool closed = false;
  Paint fill;
  Line line;
};

/// Where a mark leads, for forms that can be followed: a page of the book without its ending, and what is
/// found there.
struct Link {
  std::string page;
  std::string words;
};

struct Circle {
  Point centre;
  double radius_mm = 1;
  Paint fill;
  Line line;
  Link link = {};
};

enum class Anchor : std::uint8_t { start, middle, end };

struct Text {
  Point at;  ///< on the base line
  std::string words;
  double size_mm = 3.5;
  Anchor anchor = Anchor::start;
  Paint paint = Paint::ink();
  bool strong = false;
};

using Shape = std::variant<Path, Circle, Text>;

struct Scene {
  double width_mm = 0;
  double height_mm = 0;
  /// What the picture shows, for those who cannot see it.
  std::string title;
  std::string description;
  std::vector<Shape> shapes;

  /// True where something in it leads to a page: then it is more than a picture.
  bool leads_on() const;
  void add(Shape shape) { shapes.push_back(std::move(shape)); }
};

/// A rectangle as a path.
Path rectangle(Point corner, double width_mm, double height_mm, Paint fill, Line line);
/// A straight line from one point to another.
Path straight(Point from, Point to, Line line);
/// Straight lines through points, closed or not.
Path polyline(const std::vector<Point>& points, bool closed, Paint fill, Line line);

/// The width of a text in a plain sans serif face, as near as it can be told without the face: for layout.
double estimated_width_mm(std::string_view words, double size_mm);

}  // namespace gill::render::drawing
