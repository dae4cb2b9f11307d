#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "driver/compile.h"
#include "print/label_sheet.h"

/// What the commands that print share.
namespace gill::cli {

/// The drinks that are asked for: those named, then those of a menu in its order; without either all, by
/// their names. Retired ones only when named, drafts when named or asked for. Nothing, with the reason on
/// standard error, where a name is not known.
std::optional<std::vector<analysis::DrinkId>> chosen_drinks(const driver::Compilation& house,
                                                            const std::vector<std::string>& only,
                                                            const std::string& menu, bool drafts);

/// 21 labels on A4, as any stationer has them.
inline constexpr std::string_view usual_label_sheet = "63.5x38.1mm/3x7";
/// The sheet of labels that was written; nothing, with what to write on standard error, where it is none.
std::optional<print::LabelSheet> read_sheet(const std::string& written);

/// The date that is printed, as `2026-11-25`; empty for none. `dated` is a date or `today`; where it is
/// empty, the second that SOURCE_DATE_EPOCH names (the reproducible builds project's specification), if it is
/// set. Nothing, with the reason on standard error, where it is no date.
std::optional<std::string> date_of_printing(const std::string& dated);

}  // namespace gill::cli
