#pragma once
#include <string_view>
#include <vector>

#include "base/csv_reader.h"
#include "costing/costing.h"
#include "model/calibration.h"

namespace gill::stock {

/// What a table says was measured, and what could not be read of it.
struct Measurements {
  std::vector<model::MeasuredOf> measured;
  std::vector<base::RowProblem> problems;
};

/// Reads measurements of drinks and preps from CSV: date and name, then what there is of before, after,
/// temperature, brix, seconds, ice and step. A cell holds a number with its unit (`108 g`), or its title says
/// the unit (`before g`); without either, weights are grams, temperatures °C and times seconds. Rows that
/// cannot be read are told and left out.
Measurements read_measurements(std::string_view bytes, const costing::House& house);

}  // namespace gill::stock
