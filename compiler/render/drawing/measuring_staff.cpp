#include "render/drawing/measuring_staff.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"

namespace gill::render::drawing {
namespace {

constexpr double bar_mm = 3.2;
constexpr double letter_mm = 3.3;
constexpr double line_mm = 4.1;
constexpr double gap_mm = 1.6;
constexpr double leader_mm = 2.6;
constexpr std::size_t max_lines = 3;

double total_of(const std::vector<StaffPart>& parts) {
  double total = 0;
  for (const auto& part : parts) total += part.volume_ml;
  return total;
}

/// The words in lines no wider than so much; what does not fit in three lines ends in an ellipsis.
std::vector<std::string> wrapped(const std::string& words, double width_mm) {
  std::vector<std::string> lines;
  std::string line;
  std::size_t begin = 0;
  while (begin < words.size()) {
    auto end = std::min(words.find(' ', begin), words.size());
    std::string word = words.substr(begin, end - begin);
    std::string longer = line.empty() ? word : line + " " + word;
    if (!line.empty() && estimated_width_mm(longer, letter_mm) > width_mm) {
      lines.push_back(line);
      line = word;
    } else {
      line = longer;
    }
    begin = end + 1;
  }
  if (!line.empty()) lines.push_back(line);
  if (lines.size() > max_lines) {
    lines.resize(max_lines);
    lines.back() += " …";
  }
  return lines;
}

/// What is written beside a part: its amount, strong, then its name.
struct Label {
  std::string amount;
  std::vector<std::string> lines;
  double height_mm() const { return line_mm * static_cast<double>(lines.size()); }
};

Label label_of(const StaffPart& part, double width_mm) {
  Label label{part.amount,
              wrapped(part.amount.empty() ? part.name : part.amount + " " + part.name, width_mm)};
  return label;
}

std::vector<Label> labels_of(const std::vector<StaffPart>& parts, double width_mm) {
  std::vector<Label> labels;
  for (const auto& part : parts) labels.push_back(label_of(part, width_mm));
  return labels;
}

/// A step of the scale that gives some four to ten marks.
double step_for(double total_ml) {
  double step = 5;
  for (double next : {10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0})
    if (total_ml / step > 8) step = next;
  while (total_ml / step > 40) step *= 10;
  return step;
}

class StaffDrawer {
 public:
  StaffDrawer(Scene& scene, const std::vector<StaffPart>& parts, const StaffPlace& place)
      : scene_(scene), parts_(parts), place_(place), total_(total_of(parts)) {}

  void draw() {
    if (total_ <= 0) return;
    draw_scale();
    draw_bar();
    draw_labels();
  }

 private:
  double y_of(double ml) const { return place_.ground_mm - ml / total_ * place_.height_mm; }
  double bar_left() const { return place_.left_mm; }
  double bar_right() const { return place_.left_mm + bar_mm; }
  static Line thin() { return {Paint::ink(), 0.2, 0}; }

  void draw_scale() {
    double step = step_for(total_);
    for (int i = 0; i * step <= total_ + 1e-9; ++i) {
      double y = y_of(i * step);
      scene_.add(straight({bar_left() - 1.4, y}, {bar_left(), y}, thin()));
      scene_.add(Text{
          {bar_left() - 2, y + 1}, fmt::format("{:g}", i * step), 2.7, Anchor::end, Paint::ink(0.8), false});
    }
    double unit_y = y_of(total_) - 2.2;
    scene_.add(Text{{bar_left() + bar_mm / 2, unit_y}, "ml", 2.7, Anchor::middle, Paint::ink(0.8), false});
  }

  void draw_bar() {
    double from = 0;
    bool dark = true;
    for (const auto& part : parts_) {
      double top = y_of(from + part.volume_ml), high = y_of(from) - top;
      Paint fill = part.is_melt || !dark ? Paint::paper() : Paint::ink(0.85);
      scene_.add(rectangle({bar_left(), top}, bar_mm, high, fill, thin()));
      if (part.is_melt) draw_hatch(top, high);
      dark = !dark;
      from += part.volume_ml;
    }
  }

  /// Slanting lines within a piece of the bar.
  void draw_hatch(double top, double high) {
    for (double y = top + high - 0.9; y > top - bar_mm + 0.3; y -= 1.3) {
      double left = bar_left(), low = y + bar_mm;
      double start = std::min(low, top + high), end = std::max(y, top);
      if (start <= end) continue;
      scene_.add(
          straight({left + (low - start), start}, {left + (low - end), end}, {Paint::ink(0.7), 0.15, 0}));
    }
  }

  void draw_labels() {
    double text_left = bar_right() + leader_mm + 0.8;
    auto labels = labels_of(parts_, place_.right_mm - text_left);
    auto tops = label_tops(labels);
    double from = 0;
    for (std::size_t i = 0; i < parts_.size(); ++i) {
      double middle = y_of(from + parts_[i].volume_ml / 2);
      double label_middle = tops[i] + line_mm / 2;
      scene_.add(polyline(
          {{bar_right() + 0.3, middle}, {bar_right() + 1.1, middle}, {bar_right() + leader_mm, label_middle}},
          false, Paint::none(), {Paint::ink(0.6), 0.15, 0}));
      for (std::size_t line = 0; line < labels[i].lines.size(); ++line)
        scene_.add(Text{{text_left, tops[i] + line_mm * static_cast<double>(line) + line_mm * 0.78},
                        labels[i].lines[line],
                        letter_mm,
                        Anchor::start,
                        Paint::ink(),
                        false});
      from += parts_[i].volume_ml;
    }
  }

  /// The tops of the labels: each beside its part, pushed apart where they would touch, within the limits.
  std::vector<double> label_tops(const std::vector<Label>& labels) const {
    std::vector<double> tops(labels.size());
    double from = 0, floor = place_.bottom_limit_mm;
    for (std::size_t i = 0; i < labels.size(); ++i) {
      double middle = y_of(from + parts_[i].volume_ml / 2);
      double high = labels[i].height_mm();
      tops[i] = std::min(middle - line_mm / 2, floor - high);
      floor = tops[i] - gap_mm;
      from += parts_[i].volume_ml;
    }
    double ceiling = place_.top_limit_mm;
    for (std::size_t i = labels.size(); i-- > 0;) {
      tops[i] = std::max(tops[i], ceiling);
      ceiling = tops[i] + labels[i].height_mm() + gap_mm;
    }
    return tops;
  }

  Scene& scene_;
  const std::vector<StaffPart>& parts_;
  const StaffPlace& place_;
  double total_ = 0;
};

}  // namespace

double height_of_labels_mm(const std::vector<StaffPart>& parts, double label_width_mm) {
  double high = 0;
  for (const auto& label : labels_of(parts, label_width_mm - leader_mm - 0.8))
    high += label.height_mm() + gap_mm;
  return high;
}

void draw_staff(Scene& scene, const std::vector<StaffPart>& parts, const StaffPlace& place) {
  StaffDrawer(scene, parts, place).draw();
}

}  // namespace gill::render::drawing
