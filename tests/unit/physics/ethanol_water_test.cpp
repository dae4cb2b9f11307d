#include <catch2/catch.hpp>

#include <cmath>
#include <string>

#include "model/physics/ethanol_water.h"
#include "published_table.h"

using namespace gill::model;
using gill::model::testing::PublishedTable;

TEST_CASE("ethanol and water are as dense as OIML R 22 says", "[physics]") {
  const PublishedTable table("ethanol_water_formula.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const double p = table.number(row, "mass_percent") / 100;
    const double t = table.number(row, "celsius");
    INFO("mass fraction " << p << " at " << t);
    // Rows at a given strength print their mass fraction to six digits: 1e-6 of mass fraction is up to 0.0002
    // kg/m3.
    CHECK(1e3 * ethanol_water::density_g_per_ml(p, t) ==
          Approx(table.number(row, "density_kg_per_m3")).margin(0.001));
  }
}

TEST_CASE("the short way at 20 °C and the long way agree", "[physics]") {
  for (double p = 0; p <= 1.0; p += 0.01)
    CHECK(ethanol_water::density_g_per_ml(p) ==
          Approx(ethanol_water::density_g_per_ml(p, 20.0)).epsilon(1e-14));
}

TEST_CASE("independent tables of ethanol and water agree within their own digits", "[physics]") {
  const PublishedTable table("ethanol_water_published.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const std::string& source = table.text(row, "source");
    // Old tables count 1 ml as 1.000028 cm3 and so stand 0.03 kg/m3 high; the CRC table has four decimals.
    const double tolerance = source == "worked value" ? 0.01 : source == "CRC 102nd ed." ? 0.25 : 0.12;
    const double p = table.number(row, "mass_percent") / 100;
    const double t = table.number(row, "celsius");
    INFO(source << ": mass fraction " << p << " at " << t);
    CHECK(1e3 * ethanol_water::density_g_per_ml(p, t) ==
          Approx(table.number(row, "density_kg_per_m3")).margin(tolerance));
  }
}

TEST_CASE("strength and mass fraction turn into each other as the tables have them", "[physics]") {
  const PublishedTable table("ethanol_water_formula.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const double p = table.number(row, "mass_percent") / 100;
    const double q = table.number(row, "strength_percent") / 100;
    CHECK(ethanol_water::strength_from_mass_fraction(p) == Approx(q).margin(1.5e-6));
    CHECK(ethanol_water::mass_fraction_from_strength(q) == Approx(p).margin(1.5e-6));
  }
}

TEST_CASE("the USP alcoholometric table gives the same mass per cent and gravity", "[physics]") {
  // United States Pharmacopeia, alcoholometric table, 15.56 °C: per cent by volume and by weight, specific
  // gravity.
  struct Row {
    double volume_percent, mass_percent, gravity;
  };
  for (const auto& [volume_percent, mass_percent, gravity] :
       {Row{10, 8.05, 0.9866}, Row{20, 16.27, 0.9759}, Row{30, 24.67, 0.9653}}) {
    const double p = mass_percent / 100;
    const double t = 15.56;
    const double rho = ethanol_water::density_g_per_ml(p, t);
    CHECK(100 * p * rho / ethanol_water::density_g_per_ml(1, t) == Approx(volume_percent).margin(0.01));
    CHECK(rho / ethanol_water::density_g_per_ml(0, t) == Approx(gravity).margin(6e-5));
  }
}

TEST_CASE("strength goes to mass fraction and back without loss", "[physics]") {
  for (int i = 0; i <= 1000; ++i) {
    const double q = i / 1000.0;
    const double p = ethanol_water::mass_fraction_from_strength(q);
    CHECK(ethanol_water::strength_from_mass_fraction(p) == Approx(q).margin(1e-12));
  }
}

TEST_CASE("a hydrometer's density gives the mass fraction at any temperature it works at", "[physics]") {
  for (const double t : {-5.0, 0.0, 4.0, 10.0, 15.0, 20.0, 30.0, 40.0})
    for (int i = 0; i <= 100; ++i) {
      const double p = i / 100.0;
      const double rho = ethanol_water::density_g_per_ml(p, t);
      INFO(p << " at " << t);
      CHECK(ethanol_water::mass_fraction_from_density(rho, t) == Approx(p).margin(1e-9));
    }
}

TEST_CASE("densities no mixture has give pure water or pure ethanol", "[physics]") {
  CHECK(ethanol_water::mass_fraction_from_density(1.2, 20) == 0.0);
  CHECK(ethanol_water::mass_fraction_from_density(0.5, 20) == 1.0);
}

TEST_CASE("outside the range of R 22 the nearest valid point counts", "[physics]") {
  CHECK(ethanol_water::density_g_per_ml(0.4, 70) == ethanol_water::density_g_per_ml(0.4, 40));
  CHECK(ethanol_water::density_g_per_ml(0.4, -60) == ethanol_water::density_g_per_ml(0.4, -20));
  CHECK(ethanol_water::density_g_per_ml(-0.1, 20) == ethanol_water::density_g_per_ml(0, 20));
  CHECK(ethanol_water::density_g_per_ml(1.1) == ethanol_water::density_g_per_ml(1));
  CHECK(ethanol_water::mass_fraction_from_strength(1.5) == 1.0);
  CHECK(ethanol_water::mass_fraction_from_strength(-0.5) == 0.0);
}
