// Outside source: tests/reference/conductivity.csv (row ids beside each check).
#include "levelswap/physics/probe_circuit.hpp"

#include "sampling.hpp"

#include <cmath>
#include <numbers>

namespace levelswap::physics {
namespace {

constexpr double endless = std::numeric_limits<double>::infinity();

Conductivity microsiemens_per_cm(Interval x) { return Conductivity::from_si(x * Interval{1e-4}); }
CellConstant per_cm(Interval x) { return CellConstant::from_si(x * Interval{100}); }
Temperature celsius(double t) { return Temperature::from_si(t + 273.15); }
Length metres(Interval x) { return Length::from_si(x); }
Resistance ohms(Interval x) { return Resistance::from_si(x); }

TEST(ProbeCircuit, resistance_is_cell_constant_over_conductivity) {
    struct {
        double cell_constant, conductivity, ohm;
    } const rows[] = {{1, 10, 100'000}, {1, 50, 20'000}, {1, 100, 10'000}, {1, 1000, 1'000}, {0.1, 1, 100'000}, {0.5, 30, 16'666.7}};  // CND070-CND075
    for (auto const& row : rows)
        EXPECT_NEAR(water_resistance(per_cm(row.cell_constant), microsiemens_per_cm(row.conductivity)).si().middle(), row.ohm, 0.05);
}

TEST(ProbeCircuit, rod_in_a_tube_has_the_cell_constant_of_coaxial_cylinders) {
    CellConstant const k = coaxial_cell_constant(metres(0.006), metres(0.040), metres(0.05));
    EXPECT_NEAR(k.si().middle(), 6.04, 0.005);                                                 // CND077
    EXPECT_NEAR(water_resistance(k, microsiemens_per_cm(50)).si().middle(), 1208, 0.5);   // CND077, note
}

TEST(ProbeCircuit, conductivity_grows_by_its_coefficient_from_25_degrees) {
    // CND057: 1.75 to 1.98 % a kelvin in natural waters.
    Interval const sixty = conductivity_at(microsiemens_per_cm(100), {0.0175, 0.0198}, celsius(60)).si();
    EXPECT_NEAR(sixty.lo, 161.25e-4, 1e-9);
    EXPECT_NEAR(sixty.hi, 169.3e-4, 1e-9);
    EXPECT_NEAR(conductivity_at(microsiemens_per_cm(100), {0.0175, 0.0198}, celsius(25)).si().middle(), 0.01, 1e-12);
    // Below 25 degrees the larger coefficient gives the smaller conductivity.
    EXPECT_NEAR(conductivity_at(microsiemens_per_cm(100), {0.0175, 0.0198}, celsius(5)).si().lo, 60.4e-4, 1e-9);
}

TEST(ProbeCircuit, conductivity_never_falls_below_zero) {
    EXPECT_EQ(conductivity_at(microsiemens_per_cm(100), 0.05, celsius(0)).si(), Interval(0.0));
}

TEST(ProbeCircuit, water_that_may_not_conduct_has_no_upper_resistance) {
    Interval const r = water_resistance(per_cm(1), microsiemens_per_cm({0, 50})).si();
    EXPECT_NEAR(r.lo, 20'000, 1e-3);
    EXPECT_EQ(r.hi, endless);
    EXPECT_EQ(water_resistance(per_cm(1), microsiemens_per_cm(0)).si().lo, endless);
    EXPECT_EQ(water_resistance(per_cm(0), microsiemens_per_cm(50)).si(), Interval(0.0));
}

TEST(ProbeCircuit, a_rod_as_thick_as_its_bore_touches_it) {
    EXPECT_NEAR(coaxial_cell_constant(metres(0.04), metres(0.04), metres(0.05)).si().hi, 0, 1e-12);
    EXPECT_NEAR(coaxial_cell_constant(metres(0.05), metres(0.04), metres(0.05)).si().hi, 0, 1e-12);
    EXPECT_EQ(coaxial_cell_constant(metres(0.006), metres(0.04), metres(0)).si().lo, endless);
}

TEST(ProbeCircuit, film_resistance_is_length_over_section_and_conductivity) {
    // By hand: 50 mm long, 20 mm round, 0.1 mm thick is 2π mm² of section; at
    // 0.1 S/m (1000 µS/cm): 0.05/(0.1 · 2π·10⁻⁶) = 79 577 Ω.
    Interval const r = film_resistance(metres(0.05), metres(0.02), metres(1e-4), microsiemens_per_cm(1000)).si();
    EXPECT_NEAR(r.middle(), 0.5e6 / (2 * std::numbers::pi), 1e-4);
    EXPECT_EQ(film_resistance(metres(0.05), metres(0.02), metres(0), microsiemens_per_cm(1000)).si().lo, endless);
}

TEST(ProbeCircuit, two_equal_paths_halve_the_resistance) {
    EXPECT_NEAR(in_parallel(ohms(20'000), ohms(20'000)).si().middle(), 10'000, 1e-6);
    EXPECT_NEAR(in_parallel(ohms(20'000), ohms(endless)).si().middle(), 20'000, 1e-6);
    EXPECT_EQ(in_parallel(ohms(0), ohms(endless)).si(), Interval(0.0));
    EXPECT_EQ(in_parallel(ohms(endless), ohms(endless)).si().lo, endless);
}

TEST(ProbeCircuit, ranges_enclose_every_point_in_them) {
    expect_encloses([](auto const& x) { return conductivity_at(Conductivity::from_si(x[0]), x[1], Temperature::from_si(x[2])).si(); },
                    {{1e-4, 1}, {0.015, 0.025}, {275, 370}}, Width::tight);
    expect_encloses([](auto const& x) { return water_resistance(CellConstant::from_si(x[0]), Conductivity::from_si(x[1])).si(); },
                    {{1, 200}, {1e-4, 1}}, Width::tight);
    expect_encloses([](auto const& x) { return coaxial_cell_constant(metres(x[0]), metres(x[1]), metres(x[2])).si(); },
                    {{0.005, 0.02}, {0.015, 0.2}, {0.01, 0.5}}, Width::tight);
    expect_encloses([](auto const& x) { return film_resistance(metres(x[0]), metres(x[1]), metres(x[2]), Conductivity::from_si(x[3])).si(); },
                    {{0.01, 0.1}, {0.01, 0.03}, {1e-5, 1e-3}, {1e-3, 1}}, Width::tight);
    expect_encloses([](auto const& x) { return in_parallel(ohms(x[0]), ohms(x[1])).si(); }, {{10, 1e5}, {10, 1e6}}, Width::tight);
}

}  // namespace
}  // namespace levelswap::physics
