// Outside source: tests/reference/flow.csv, the worked examples of IEC 60534-2-1
// (row ids beside each check). peers_test.cpp holds more cases against fluids.
#include "levelswap/physics/valve_sizing.hpp"

#include "sampling.hpp"

namespace levelswap::physics {
namespace {

constexpr double endless = std::numeric_limits<double>::infinity();
constexpr double cv = 0.8649776554423018;  // in Kv, tests/reference/units.csv

AbsolutePressure pascal(Interval x) { return AbsolutePressure::from_si(x); }
PressureDifference drop(Interval x) { return PressureDifference::from_si(x); }
Density density(Interval x) { return Density::from_si(x); }
Length metres(Interval x) { return Length::from_si(x); }
Length millimetres(Interval x) { return {x * Interval{1e6}}; }
FlowCoefficient kv(Interval x) { return FlowCoefficient::from_si(x); }
VolumeFlow flow(Interval x) { return VolumeFlow::from_si(x); }

// The standard's water at 363 K, 680 to 220 kPa, 360 m³/h.
ValveStream const example{pascal(680e3), pascal(220e3), pascal(70.1e3), density(965.4)};
AbsolutePressure const example_critical = pascal(22'120e3);
VolumeFlow const example_flow = flow(0.1);

TEST(ValveSizing, globe_valve_example_is_not_choked) {
    EXPECT_NEAR(critical_pressure_ratio_factor(example.vapour, example_critical).middle(), 0.9442375, 5e-8);  // FLO002
    PressureDifference const choked = choked_drop(example, 0.9, 1.0, example_critical);
    EXPECT_NEAR(choked.si().middle(), 497.185e3, 1);  // FLO003
    PressureDifference const sizing = sizing_drop(example, choked);
    EXPECT_NEAR(sizing.si().middle(), 460e3, 1e-6);
    EXPECT_NEAR(required_coefficient(example_flow, sizing, example.density).si().middle(), 164.9955, 5e-4);  // FLO001, FLO008
}

TEST(ValveSizing, ball_valve_example_is_choked) {
    PressureDifference const choked = choked_drop(example, 0.6, 1.0, example_critical);
    EXPECT_NEAR(choked.si().middle(), 220.971e3, 1);  // FLO006
    PressureDifference const sizing = sizing_drop(example, choked);
    EXPECT_EQ(sizing.si(), choked.si());
    EXPECT_NEAR(required_coefficient(example_flow, sizing, example.density).si().middle(), 238.0582, 7e-4);  // FLO005, FLO009
}

TEST(ValveSizing, choking_begins_at_the_outlet_pressure_of_the_row) {
    // FLO010: 458887.53 Pa with FL 0.6.
    ValveStream const stream{pascal(680'000), pascal(0), pascal(69'682.893), density(965.4)};
    EXPECT_NEAR(680'000 - choked_drop(stream, 0.6, 1.0, pascal(22'048'320)).si().middle(), 458'887.53, 0.02);
}

TEST(ValveSizing, a_feed_valve_of_2_12_cv_passes_the_constructed_flow) {
    // FLO030, FLO031: 9.65 gal/min at 20 psi, water at 200 degF.
    VolumeFlow const q = flow_through(kv(2.12 * cv), drop(20 * 6894.757293168361), density(963.049));
    EXPECT_NEAR(q.si().middle() / 6.30901964e-05, 9.65, 0.02);
}

TEST(ValveSizing, one_kv_passes_a_cubic_metre_an_hour_at_one_bar) {
    EXPECT_NEAR(flow_through(kv(1), drop(1e5), density(reference_density)).si().middle() * 3600, 1, 1e-12);
    EXPECT_NEAR(flow_through(kv(cv), drop(6894.757293168361), density(reference_density)).si().middle(), 6.30901964e-05, 1e-15);
    EXPECT_NEAR(1 / cv, 1.1560992, 5e-8);  // FLO013
}

TEST(ValveSizing, flow_and_coefficient_and_drop_undo_each_other) {
    VolumeFlow const q = flow_through(kv(4), drop(8e4), density(970), 0.98);
    EXPECT_NEAR(drop_at(q, kv(4), density(970), 0.98).si().middle(), 8e4, 1e-4);
    EXPECT_NEAR(required_coefficient(q, drop(8e4), density(970)).si().middle(), 4 * 0.98, 1e-9);
}

// The standard's own water: 0.1 m3/s of 965.4 kg/m3 are 96.54 kg/s, and a range of densities counts once.
TEST(ValveSizing, a_flow_by_mass_is_sized_as_its_volume_is_and_no_wider_than_its_ends) {
    MassFlow const mass = MassFlow::from_si(96.54);
    EXPECT_NEAR(required_coefficient(mass, drop(460e3), density(965.4)).si().middle(), 164.9955, 5e-4);  // FLO001, FLO008
    EXPECT_NEAR(drop_at(mass, kv(165), density(965.4)).si().middle(), drop_at(example_flow, kv(165), density(965.4)).si().middle(), 1e-3);
    EXPECT_NEAR(mass_through(kv(165), drop(460e3), density(965.4)).si().middle(), 965.4 * flow_through(kv(165), drop(460e3), density(965.4)).si().middle(), 1e-6);
    auto const tight = [](RangeFunction const& f) { expect_encloses(f, {{1, 50}, {1e4, 1e6}, {840, 1000}}, Width::tight); };
    tight([](auto const& x) { return required_coefficient(MassFlow::from_si(x[0]), drop(x[1]), density(x[2])).si(); });
    tight([](auto const& x) { return mass_through(kv(x[0]), drop(x[1]), density(x[2])).si(); });
    expect_encloses([](auto const& x) { return drop_at(MassFlow::from_si(x[0]), kv(x[1]), density(x[2])).si(); }, {{1, 50}, {10, 200}, {840, 1000}}, Width::tight);
}

TEST(ValveSizing, a_reversed_or_missing_drop_passes_nothing) {
    ValveStream const reversed{pascal(200e3), pascal(300e3), pascal(50e3), density(970)};
    EXPECT_EQ(sizing_drop(reversed, choked_drop(reversed, 0.9)).si(), Interval(0.0));
    EXPECT_EQ(flow_through(kv(4), drop(0), density(970)).si(), Interval(0.0));
    EXPECT_EQ(flow_through(kv(4), drop(-5), density(970)).si(), Interval(0.0));
    EXPECT_EQ(required_coefficient(flow(1e-3), drop(0), density(970)).si().lo, endless);
    EXPECT_EQ(drop_at(flow(1e-3), kv(0), density(970)).si().lo, endless);
}

TEST(ValveSizing, water_that_boils_at_the_inlet_has_no_drop_left) {
    ValveStream const boiling{pascal(100e3), pascal(90e3), pascal(110e3), density(958)};
    EXPECT_EQ(choked_drop(boiling, 0.9).si(), Interval(0.0));
}

TEST(ValveSizing, an_uncertain_drop_chokes_only_at_its_upper_end) {
    ValveStream const stream{pascal({600e3, 680e3}), pascal({220e3, 400e3}), pascal(70.1e3), density(965.4)};
    Interval const sizing = sizing_drop(stream, choked_drop(stream, 0.6)).si();
    EXPECT_NEAR(sizing.lo, 192.2e3, 100);  // choked at 600 kPa, below the 200 kPa of actual drop
    EXPECT_NEAR(sizing.hi, 220.97e3, 100);
}

TEST(ValveSizing, a_pipe_no_larger_than_the_valve_is_no_reducer) {
    EXPECT_EQ(piping_geometry_factor(kv(100), millimetres(100), millimetres(100)), Interval(1.0));
    EXPECT_EQ(piping_geometry_factor(kv(100), millimetres(100), millimetres(80)), Interval(1.0));
    EXPECT_NEAR(combined_recovery_factor(kv(100), 0.9, metres(0.1), metres(0.1)).middle(), 0.9, 1e-12);
}

TEST(ValveSizing, reducers_cost_flow_and_recovery) {
    // By hand: C 100, d 80 mm, D 100 mm: ΣK = 1.5·0.36² = 0.1944, so
    // F_P = 1/√(1 + 0.1944·100²/(0.0016·80⁴)) = 0.98549. ΣK₁ = 0.5·0.36² + 1 − 0.8⁴ = 0.6552,
    // F_LP = 0.9/√(1 + 0.81·0.6552·100²/(0.0016·80⁴)) = 0.86539.
    EXPECT_NEAR(piping_geometry_factor(kv(100), metres(0.08), metres(0.1)).middle(), 0.98549, 2e-5);
    EXPECT_NEAR(combined_recovery_factor(kv(100), 0.9, metres(0.08), metres(0.1)).middle(),
                0.9 / std::sqrt(1 + 0.81 * 0.6552 * 1e4 / (0.0016 * 80 * 80 * 80 * 80.0)), 1e-9);
}

TEST(ValveSizing, openings_follow_the_inherent_characteristic) {
    // Equal percentage, rangeability 50: half open passes 1/√50 of the rated C.
    EXPECT_NEAR(coefficient_at(Characteristic::equal_percentage, kv(10), 50, 0.5).si().middle(), 10 / std::sqrt(50.0), 1e-6);
    EXPECT_NEAR(opening_for(Characteristic::equal_percentage, 50, kv(10), kv(10 / std::sqrt(50.0))).middle(), 0.5, 1e-9);
    EXPECT_NEAR(coefficient_at(Characteristic::linear, kv(10), 50, 0.5).si().middle(), 5.1, 1e-6);
    EXPECT_NEAR(opening_for(Characteristic::linear, 50, kv(10), kv(5.1)).middle(), 0.5, 1e-9);
    for (auto c : {Characteristic::linear, Characteristic::equal_percentage}) {
        EXPECT_NEAR(coefficient_at(c, kv(10), 30, 1).si().middle(), 10, 1e-9);
        EXPECT_NEAR(coefficient_at(c, kv(10), 30, 0).si().middle(), 10.0 / 30, 1e-9);
        EXPECT_NEAR(opening_for(c, 30, kv(10), kv(10)).middle(), 1, 1e-12);
        EXPECT_GT(opening_for(c, 30, kv(10), kv(12)).lo, 1);         // too small a valve
        EXPECT_LT(opening_for(c, 30, kv(10), kv(0.2)).hi, 0);        // below what it controls
        EXPECT_LT(opening_for(c, 30, kv(10), kv(0)).hi, 0);
    }
}

TEST(ValveSizing, ranges_enclose_every_point_in_them) {
    auto stream = [](auto const& x) { return ValveStream{pascal(x[0]), pascal(x[1]), pascal(x[2]), density(950)}; };
    expect_encloses([](auto const& x) { return critical_pressure_ratio_factor(pascal(x[0])); }, {{1e3, 1e6}}, Width::tight);
    expect_encloses([&](auto const& x) { return choked_drop(stream(x), x[3], x[4], pascal(x[5])).si(); },
                    {{1e5, 2e6}, {1e5, 1e6}, {1e3, 1e6}, {0.5, 0.95}, {0.9, 1}, {22.0e6, 22.2e6}}, Width::tight, 30);
    expect_encloses([&](auto const& x) { return sizing_drop(stream(x), choked_drop(stream(x), x[3])).si(); },
                    {{1e5, 2e6}, {1e5, 1e6}, {1e3, 1e5}, {0.5, 0.95}}, Width::tight);
    expect_encloses([](auto const& x) { return flow_through(kv(x[0]), drop(x[1]), density(x[2]), x[3]).si(); },
                    {{0.1, 50}, {0, 5e5}, {900, 1000}, {0.9, 1}}, Width::tight);
    expect_encloses([](auto const& x) { return required_coefficient(flow(x[0]), drop(x[1]), density(x[2])).si(); },
                    {{0, 1e-2}, {1e3, 5e5}, {900, 1000}}, Width::tight);
    expect_encloses([](auto const& x) { return drop_at(flow(x[0]), kv(x[1]), density(x[2]), x[3]).si(); },
                    {{0, 1e-2}, {0.5, 50}, {900, 1000}, {0.9, 1}}, Width::tight);
    expect_encloses([](auto const& x) { return piping_geometry_factor(kv(x[0]), metres(x[1]), metres(x[2])); },
                    {{1, 100}, {0.05, 0.1}, {0.05, 0.2}}, Width::tight);
    expect_encloses([](auto const& x) { return combined_recovery_factor(kv(x[0]), x[3], metres(x[1]), metres(x[2])); },
                    {{1, 100}, {0.05, 0.1}, {0.05, 0.2}, {0.5, 0.95}}, Width::tight);
    for (auto c : {Characteristic::linear, Characteristic::equal_percentage}) {
        expect_encloses([c](auto const& x) { return coefficient_at(c, kv(x[0]), x[1], x[2]).si(); }, {{1, 50}, {10, 100}, {0, 1}}, Width::tight);
        expect_encloses([c](auto const& x) { return opening_for(c, x[0], kv(x[1]), kv(x[2])); }, {{10, 100}, {1, 50}, {0.1, 60}}, Width::tight);
    }
}

}  // namespace
}  // namespace levelswap::physics
