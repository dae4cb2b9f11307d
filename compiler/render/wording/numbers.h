#pragma once
#include <string>

/// Numbers as they are printed for people: rounded to what they are good for, with a real minus sign.
namespace gill::render::wording {

/// With exactly so many decimals: `24.6`, `−5.0`.
std::string fixed(double value, int places);

/// With at most so many decimals and no trailing zeros: `22.5`, `45`.
std::string trimmed(double value, int places);

/// The value with `±` and its tolerance where that is larger than the printed digits: `24.6 ± 0.4`, else
/// `24.6`.
std::string with_tolerance(double value, double tolerance, int places);

/// Rounded to two figures, which is all that "about" says; nothing stays nothing.
double to_two_figures(double value);

}  // namespace gill::render::wording
