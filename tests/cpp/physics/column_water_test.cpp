// Outside sources: densities of IAPWS-IF97 (tests/reference/saturation_if97.csv); the shifts worked in the trade's
// list of failed replacements: 250 mm in the boiler reads about 240 mm at 10 psig and 233 mm at 250 psig when the
// column's water is 60 K cooler.
#include "levelswap/physics/column_water.hpp"
#include "levelswap/physics/water.hpp"

#include <gtest/gtest.h>

namespace levelswap::physics {
namespace {

constexpr double psi = 6894.757293168;   // 0.45359237 kg × 9.80665 m/s² / (0.0254 m)²

AbsolutePressure gauge_psi(double p) { return AbsolutePressure::from_si((p + 14.696) * psi); }
Temperature cooler_by(AbsolutePressure p, double kelvin) {
    return Temperature::from_si(saturation_temperature(p).si() - Interval{kelvin});
}

TEST(ColumnWater, a_leg_60_kelvin_cooler_reads_low_as_in_the_worked_values) {
    for (auto const& [pressure, reads] : {std::pair{10.0, 240.0}, std::pair{250.0, 233.0}}) {
        auto const share = column_share(gauge_psi(pressure), cooler_by(gauge_psi(pressure), 60));
        EXPECT_NEAR(250 * share.lo, reads, 0.75) << pressure;   // "about", in whole millimetres
        EXPECT_NEAR(250 * share.hi, reads, 0.75) << pressure;
    }
}

TEST(ColumnWater, the_boiler_stands_higher_by_what_the_column_reads_low) {
    for (auto const& [pressure, reads] : {std::pair{10.0, 240.0}, std::pair{250.0, 233.0}}) {
        auto const above = boiler_above_column(Length::from_si(reads / 1000), gauge_psi(pressure), TemperatureDifference::from_si(60));
        EXPECT_EQ(above.quanta.lo, 0) << pressure;
        EXPECT_NEAR(above.si().hi, (250 - reads) / 1000, 0.0008) << pressure;
    }
}

TEST(ColumnWater, a_saturated_column_reads_true) {
    auto const p = gauge_psi(150);
    EXPECT_TRUE(column_share(p, saturation_temperature(p)).contains(1));
    EXPECT_NEAR(boiler_above_column(Length::from_si(.2), p, TemperatureDifference::from_si(0)).si().hi, 0, 1e-6);
}

TEST(ColumnWater, no_height_has_no_shift) {
    auto const above = boiler_above_column(Length::from_si({-.1, 0}), gauge_psi(150), TemperatureDifference::from_si(60));
    EXPECT_EQ(above.quanta, (Interval{0, 0}));
}

}  // namespace
}  // namespace levelswap::physics
