// Outside source: IAPWS R7-97(2012) table 5 for the enthalpies (from memory,
// held against CoolProp in peers_test.cpp), and numbers worked by hand.
#include "levelswap/physics/tank_mixing.hpp"

#include "levelswap/physics/water.hpp"
#include "sampling.hpp"

namespace levelswap::physics {
namespace {

constexpr double endless = std::numeric_limits<double>::infinity();

Temperature kelvin(Interval t) { return Temperature::from_si(t); }
AbsolutePressure pascal(Interval p) { return AbsolutePressure::from_si(p); }
Mass kilograms(Interval m) { return Mass::from_si(m); }
Volume cubic_metres(Interval v) { return Volume::from_si(v); }
AbsolutePressure const open_tank = pascal(101'325);

TEST(TankMixing, liquid_enthalpy_matches_the_check_table) {
    EXPECT_NEAR(liquid_enthalpy(kelvin(300), pascal(3e6)).middle(), 115.331273e3, 5e-4);
    EXPECT_NEAR(liquid_enthalpy(kelvin(300), pascal(80e6)).middle(), 184.142828e3, 5e-4);
    EXPECT_NEAR(liquid_enthalpy(kelvin(500), pascal(3e6)).middle(), 975.542239e3, 5e-4);
}

TEST(TankMixing, temperature_and_enthalpy_undo_each_other) {
    for (double t = 273.2; t < 500; t += 9)
        EXPECT_NEAR(liquid_temperature(liquid_enthalpy(kelvin(t), pascal(3e6)), pascal(3e6)).si().middle(), t, 1e-6);
    EXPECT_NEAR(liquid_temperature(-1e6, open_tank).si().lo, 273.15, 1e-6);
}

TEST(TankMixing, equal_masses_meet_near_the_middle) {
    // 80 and 20 degC: 50 degC, but for the specific heat of water, which differs by 0.3 %.
    EXPECT_NEAR(mixed_temperature(kilograms(100), kelvin(353.15), kilograms(100), kelvin(293.15), open_tank).si().middle(), 323.15, 0.1);
    // By hand: 3 parts of 82 degC and 1 of 10 degC: 64 degC.
    EXPECT_NEAR(mixed_temperature(kilograms(300), kelvin(355.15), kilograms(100), kelvin(283.15), open_tank).si().middle(), 337.15, 0.1);
}

TEST(TankMixing, a_mixture_with_nothing_stays_as_it_is) {
    Temperature const hot = kelvin(353.15), cold = kelvin(283.15);
    EXPECT_NEAR(mixed_temperature(kilograms(100), hot, kilograms(0), cold, open_tank).si().middle(), 353.15, 1e-6);
    EXPECT_NEAR(mixed_temperature(kilograms(0), hot, kilograms(100), cold, open_tank).si().middle(), 283.15, 1e-6);
    EXPECT_NEAR(mixed_temperature(kilograms(50), hot, kilograms(70), hot, open_tank).si().middle(), 353.15, 1e-6);
    Interval const of_nothing = mixed_temperature(kilograms(0), hot, kilograms(0), cold, open_tank).si();
    EXPECT_NEAR(of_nothing.lo, 283.15, 1e-9);
    EXPECT_NEAR(of_nothing.hi, 353.15, 1e-9);
}

TEST(TankMixing, warmer_make_up_than_the_tank_warms_it) {
    EXPECT_GT(mixed_temperature(kilograms(100), kelvin(300), kilograms(20), kelvin(350), open_tank).si().lo, 300);
}

TEST(TankMixing, a_fill_by_volume_counts_the_lighter_hot_water) {
    // 971.8 kg/m³ at 80 degC and 998.2 at 20 degC (tests/reference/dp_level.csv DPL026 is near).
    Temperature const by_volume = temperature_after_fill(cubic_metres(0.1), kelvin(353.15), cubic_metres(0.1), kelvin(293.15), open_tank);
    Temperature const by_mass = mixed_temperature(kilograms(97.18), kelvin(353.15), kilograms(99.82), kelvin(293.15), open_tank);
    EXPECT_NEAR(by_volume.si().middle(), by_mass.si().middle(), 0.01);
    EXPECT_LT(by_volume.si().hi, 323.0);
}

TEST(TankMixing, the_largest_fill_brings_the_tank_to_its_least_temperature) {
    Temperature const hot = kelvin(355), cold = kelvin(285), least = kelvin(345);
    Mass const fill = largest_fill(kilograms(400), hot, cold, least, open_tank);
    EXPECT_NEAR(mixed_temperature(kilograms(400), hot, fill, cold, open_tank).si().middle(), 345, 1e-4);
    EXPECT_EQ(largest_fill(kilograms(400), kelvin(340), cold, least, open_tank).si(), Interval(0.0));
    EXPECT_EQ(largest_fill(kilograms(400), hot, kelvin(350), least, open_tank).si().lo, endless);
}

TEST(TankMixing, preheat_is_flow_times_rise_of_enthalpy) {
    // By hand: 0.1 kg/s from 10 to 80 degC at 4.19 kJ/(kg K): 29.3 kW.
    EXPECT_NEAR(heating_power(MassFlow::from_si(0.1), kelvin(283.15), kelvin(353.15), open_tank).si().middle(), 29.33e3, 60);
    EXPECT_EQ(heating_power(MassFlow::from_si(0.1), kelvin(353.15), kelvin(283.15), open_tank).si(), Interval(0.0));
    EXPECT_EQ(heating_power(MassFlow::from_si(0), kelvin(283.15), kelvin(353.15), open_tank).si(), Interval(0.0));
}

TEST(TankMixing, ranges_enclose_every_point_in_them) {
    std::vector<Interval> const parts{{0, 500}, {300, 370}, {0, 200}, {274, 320}, {1.0e5, 1.2e5}};
    expect_encloses([](auto const& x) { return mixed_temperature(kilograms(x[0]), kelvin(x[1]), kilograms(x[2]), kelvin(x[3]), pascal(x[4])).si(); },
                    parts, Width::wider, 12);
    expect_encloses([](auto const& x) { return temperature_after_fill(cubic_metres(Interval{1e-3} * x[0]), kelvin(x[1]), cubic_metres(Interval{1e-3} * x[2]), kelvin(x[3]), pascal(x[4])).si(); },
                    parts, Width::wider, 12);
    expect_encloses([](auto const& x) { return largest_fill(kilograms(x[0]), kelvin(x[1]), kelvin(x[2]), kelvin(x[3]), pascal(x[4])).si(); },
                    {{0, 500}, {300, 370}, {274, 320}, {325, 365}, {1.0e5, 1.2e5}}, Width::wider, 12);
    expect_encloses([](auto const& x) { return heating_power(MassFlow::from_si(x[0]), kelvin(x[1]), kelvin(x[2]), pascal(x[3])).si(); },
                    {{0, 2}, {274, 340}, {300, 370}, {1.0e5, 1.2e5}}, Width::wider, 20);
    expect_encloses([](auto const& x) { return liquid_enthalpy(kelvin(x[0]), pascal(x[1])); }, {{273.15, 500}, {2e6, 5e6}}, Width::tight);
    expect_encloses([](auto const& x) { return liquid_temperature(x[0], pascal(x[1])).si(); }, {{1e4, 9e5}, {2e6, 5e6}}, Width::tight);
}

}  // namespace
}  // namespace levelswap::physics
