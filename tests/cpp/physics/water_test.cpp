// Outside source: IAPWS R7-97(2012) check tables and values computed from its
// equations, tests/reference/saturation_if97.csv (row ids beside each check).
#include "levelswap/physics/water.hpp"

#include "sampling.hpp"

namespace levelswap::physics {
namespace {

AbsolutePressure pascal(Interval p) { return AbsolutePressure::from_si(p); }
Temperature kelvin(Interval t) { return Temperature::from_si(t); }

TEST(Water, saturation_temperature_matches_the_check_table) {
    EXPECT_NEAR(saturation_temperature(pascal(0.1e6)).si().middle(), 372.755919, 5e-7);  // SAT001
    EXPECT_NEAR(saturation_temperature(pascal(1e6)).si().middle(), 453.035632, 5e-7);    // SAT002
    EXPECT_NEAR(saturation_temperature(pascal(10e6)).si().middle(), 584.149488, 5e-7);   // SAT003
}

TEST(Water, saturation_pressure_matches_the_check_table) {
    EXPECT_NEAR(saturation_pressure(kelvin(300)).si().middle(), 3536.58941, 5e-6);    // SAT004
    EXPECT_NEAR(saturation_pressure(kelvin(500)).si().middle(), 2638897.76, 5e-3);    // SAT005
    EXPECT_NEAR(saturation_pressure(kelvin(600)).si().middle(), 12344314.6, 5e-2);    // SAT006
}

TEST(Water, liquid_density_matches_the_check_table) {
    EXPECT_NEAR(1 / liquid_density(kelvin(300), pascal(3e6)).si().middle(), 0.100215168e-2, 5e-12);   // SAT007
    EXPECT_NEAR(1 / liquid_density(kelvin(300), pascal(80e6)).si().lo, 0.971180894e-3, 5e-13);    // SAT009
    EXPECT_NEAR(1 / liquid_density(kelvin(500), pascal(3e6)).si().middle(), 0.120241800e-2, 5e-12);   // SAT011
}

struct Saturated {
    double megapascal, kelvin, liquid, vapour;
};

TEST(Water, saturated_states_match_rows_computed_from_the_release) {
    // SAT020-SAT127: 0, 15, 100, 150 and 300 psi gauge with 14.696 psi of atmosphere.
    constexpr Saturated rows[] = {{0.101325, 373.1244, 958.373, 0.59763},
                                  {0.204747, 394.1047, 942.334, 1.15407},
                                  {0.790801, 443.0845, 897.522, 4.11556},
                                  {1.135539, 458.6346, 881.075, 5.80996},
                                  {2.169753, 489.6917, 844.615, 10.87694}};
    for (Saturated const& row : rows) {
        auto const p = pascal(row.megapascal * 1e6);
        EXPECT_NEAR(saturation_temperature(p).si().middle(), row.kelvin, 2e-4);
        EXPECT_NEAR(saturated_liquid_density(p).si().middle(), row.liquid, 1e-3);
        EXPECT_NEAR(saturated_vapour_density(p).si().middle(), row.vapour, 2e-5);
    }
}

TEST(Water, compression_encloses_every_temperature_and_pressure) {
    auto gain = [](auto const& x) { return compression(kelvin(x[0]), pascal(x[1]), pascal(x[2])).si(); };
    expect_encloses(gain, {{274, 420}, {1e5, 2e6}, {1e5, 8e6}}, Width::wider, 200);
    expect_encloses(gain, {{300, 350}, {1e5, 3e5}, {5e5, 8e6}}, Width::wider, 200);
    // One water in both states: its temperature, known to 65 K, hardly matters.
    Interval const known_badly = compression(kelvin({298, 363}), pascal(1.6e6), pascal(0.6e6)).si();
    EXPECT_LT(known_badly.width(), 0.05);
    EXPECT_LT(known_badly.hi, -0.42);
}

TEST(Water, a_range_of_pressure_encloses_every_pressure_in_it) {
    Interval const range{0.1e6, 1.2e6};
    Interval const t = saturation_temperature(pascal(range)).si();
    Interval const liquid = saturated_liquid_density(pascal(range)).si();
    Interval const vapour = saturated_vapour_density(pascal(range)).si();
    for (int i = 0; i <= 110; ++i) {
        auto const p = pascal(0.1e6 + i * 1e4);
        EXPECT_TRUE(t.contains(saturation_temperature(p).si().middle()));
        EXPECT_TRUE(liquid.contains(saturated_liquid_density(p).si().middle()));
        EXPECT_TRUE(vapour.contains(saturated_vapour_density(p).si().middle()));
    }
    EXPECT_NEAR(liquid.hi, saturated_liquid_density(pascal(0.1e6)).si().hi, 1e-9);
    EXPECT_NEAR(liquid.lo, saturated_liquid_density(pascal(1.2e6)).si().lo, 1e-9);
}

TEST(Water, the_densest_water_near_four_degrees_is_not_missed) {
    auto const atmosphere = pascal(101325);
    Interval const cold = liquid_density(kelvin({273.15, 290}), atmosphere).si();
    for (int i = 0; i <= 168; ++i) {
        Interval const one = liquid_density(kelvin(273.15 + 0.1 * i), atmosphere).si();
        EXPECT_LE(one.lo, cold.hi);
        EXPECT_GE(one.hi, cold.lo);
    }
    EXPECT_GT(cold.hi, liquid_density(kelvin(273.15), atmosphere).si().hi);
}

TEST(Water, temperature_and_pressure_of_saturation_undo_each_other) {
    for (double t = 280; t < 640; t += 7)
        EXPECT_NEAR(saturation_temperature(saturation_pressure(kelvin(t))).si().middle(), t, 1e-6);
}

TEST(Water, beyond_the_formulation_the_value_of_its_end_stands) {
    EXPECT_EQ(saturation_temperature(pascal(0)).quanta, saturation_temperature(pascal(600)).quanta);
    EXPECT_NEAR(saturation_temperature(pascal(30e6)).si().middle(), 647.096, 1e-3);  // critical point
    EXPECT_EQ(saturated_vapour_density(pascal(18e6)).quanta, saturated_vapour_density(pascal(17e6)).quanta);
}

}  // namespace
}  // namespace levelswap::physics
