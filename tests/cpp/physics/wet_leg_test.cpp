// Outside source: tests/reference/dp_level.csv (row ids beside each check);
// 1 inH2O at 60 degF is 248.840 Pa (DPL003).
#include "levelswap/physics/wet_leg.hpp"

#include "levelswap/physics/statics.hpp"
#include "sampling.hpp"

namespace levelswap::physics {
namespace {

constexpr double inch = 0.0254, inch_of_water_60F = 248.840;

Length metres(Interval x) { return Length::from_si(x); }
Density density(Interval x) { return Density::from_si(x); }
WetLeg state(Interval taps, Interval liquid, Interval vapour, Interval leg) {
    return {metres(taps), density(liquid), density(vapour), density(leg)};
}

TEST(WetLeg, boiler_ranges_match_the_computed_rows) {
    struct {
        double taps, liquid, vapour, leg, lrv, urv, half;
    } const rows[] = {{30, 888.855, 4.9645, 993.432, -29.68, -3.14, -16.41},    // DPL010-DPL012
                      {24, 946.926, 0.9712, 988.576, -23.73, -1.00, -12.36},    // DPL013-DPL015
                      {36, 855.398, 9.1836, 993.809, -35.48, -4.99, -20.23}};   // DPL016-DPL018
    for (auto const& row : rows) {
        WetLeg const boiler = state(row.taps * inch, row.liquid, row.vapour, row.leg);
        EXPECT_NEAR(lower_range_value(boiler).si().middle() / inch_of_water_60F, row.lrv, 0.006);
        EXPECT_NEAR(upper_range_value(boiler).si().middle() / inch_of_water_60F, row.urv, 0.006);
        EXPECT_NEAR(wet_leg_difference(boiler, metres(row.taps * inch / 2)).si().middle() / inch_of_water_60F, row.half, 0.006);
    }
}

TEST(WetLeg, closed_tank_of_specific_gravity_1_1_matches_the_published_example) {
    // DPL007, DPL008: leg and contents of 1.1, leg 80 in, top of range at 60 in of head.
    double const conventional = inch * 1000 * standard_gravity;
    WetLeg const tank = state(80 * inch, 1100, 0, 1100);
    EXPECT_NEAR(lower_range_value(tank).si().middle() / conventional, -88, 1e-9);
    EXPECT_NEAR(wet_leg_difference(tank, metres(60 * inch)).si().middle() / conventional, -22, 1e-9);
}

TEST(WetLeg, open_tank_is_the_same_without_leg_and_vapour) {
    double const conventional = inch * 1000 * standard_gravity;
    WetLeg const tank = state(80 * inch, 1100, 0, 0);
    EXPECT_NEAR(lower_range_value(tank).si().middle() / conventional, 0, 1e-9);   // DPL005
    EXPECT_NEAR(upper_range_value(tank).si().middle() / conventional, 88, 1e-9);  // DPL005
    // DPL006: mounted 10 in below the first level, 60 in of range: 11 and 77.
    double const offset = mount_offset(metres(10 * inch), density(1100), density(0)).si().middle();
    EXPECT_NEAR(offset / conventional, 11, 1e-9);
    EXPECT_NEAR((offset + wet_leg_difference(tank, metres(60 * inch)).si().middle()) / conventional, 77, 1e-9);
    // DPL020: 48 in of water at 180 degF.
    EXPECT_NEAR(upper_range_value(state(48 * inch, 970.405, 0, 0)).si().middle() / inch_of_water_60F, 46.63, 0.006);
}

TEST(WetLeg, tubes_of_the_same_filling_make_no_offset) {
    EXPECT_EQ(mount_offset(metres(0.5), density(998), density(998)).si(), Interval(0.0));
    EXPECT_LT(mount_offset(metres(-0.5), density(998), density(0)).si().hi, 0);
}

TEST(WetLeg, cold_boiler_on_a_hot_range_reads_high) {
    // DPL019: half full reads 55.6 %; water and leg at 100 degF (DPL024), no steam.
    WetLeg const hot = state(0.762, 888.855, 4.9645, 993.432), cold = state(0.762, 993.054, 0, 993.432);
    EXPECT_NEAR(indicated_level(hot, cold, metres(0.381)).si().middle() / 0.762, 0.556, 0.002);
    EXPECT_NEAR(level_error(hot, cold, metres(0.381)).si().middle() / 0.762, 0.056, 0.002);
}

TEST(WetLeg, in_the_state_it_is_ranged_for_it_reads_true) {
    WetLeg const boiler = state(0.762, 888.855, 4.9645, 993.432);
    for (double h : {0.0, 0.2, 0.762}) EXPECT_NEAR(level_error(boiler, boiler, metres(h)).si().middle(), 0, 1e-12);
}

TEST(WetLeg, one_leg_in_both_states_counts_by_what_it_gains) {
    WetLeg const ranged = state(0.762, 888.855, 4.9645, 993.432), now = state(0.762, 926.1, 1.6, 993.032);
    double const apart = level_error(ranged, now, metres(0.381)).si().middle();
    EXPECT_NEAR(level_error(ranged, now, density(-0.4), metres(0.381)).si().middle(), apart, 1e-9);
    // By hand: a leg lighter by 0.4 reads 0.762·0.4/883.8905 = 0.3448 mm higher than one that stays.
    EXPECT_NEAR(apart - level_error(ranged, now, density(0), metres(0.381)).si().middle(), 0.3448e-3, 1e-7);
}

TEST(WetLeg, half_a_leg_lost_adds_more_than_half_the_level) {
    WetLeg const boiler = state(0.762, 888.855, 4.9645, 993.432);
    // By hand: 0.381·(993.432 − 4.9645)/(888.855 − 4.9645) = 0.42608 m.
    EXPECT_NEAR(lost_leg_error(boiler, boiler, metres(0.381)).si().middle(), 0.42608, 1e-5);
    EXPECT_EQ(lost_leg_error(boiler, boiler, metres(0)).si(), Interval(0.0));
    // The same as a leg whose upper half is vapour: mean density of the two.
    WetLeg const half = state(0.762, 888.855, 4.9645, (993.432 + 4.9645) / 2);
    EXPECT_NEAR(level_error(boiler, half, metres(0.1)).si().middle(), 0.42608, 1e-5);
}

TEST(WetLeg, without_taps_apart_there_is_no_difference) {
    WetLeg const nothing = state(0, 888, 5, 993);
    EXPECT_EQ(lower_range_value(nothing).si(), Interval(0.0));
    EXPECT_EQ(wet_leg_difference(nothing, metres(0)).si(), Interval(0.0));
}

TEST(WetLeg, ranges_enclose_every_point_in_them) {
    expect_encloses([](auto const& x) { return wet_leg_difference(state(x[0], x[1], x[2], x[3]), metres(x[4])).si(); },
                    {{0.6, 1.2}, {840, 1000}, {0, 10}, {980, 1000}, {0, 0.6}}, Width::tight);
    expect_encloses([](auto const& x) { return lower_range_value(state(x[0], 900, x[1], x[2])).si(); },
                    {{0.6, 1.2}, {0, 10}, {980, 1000}}, Width::tight);
    expect_encloses([](auto const& x) { return upper_range_value(state(x[0], x[1], 5, x[2])).si(); },
                    {{0.6, 1.2}, {840, 1000}, {980, 1000}}, Width::tight);
    expect_encloses([](auto const& x) { return mount_offset(metres(x[0]), density(x[1]), density(x[2])).si(); },
                    {{-1, 2}, {0, 1000}, {0, 1000}}, Width::tight);
    std::vector<Interval> const states{{0.6, 1.2}, {840, 900}, {0, 10}, {980, 1000}, {840, 1000}, {0, 10}, {980, 1000}, {0, 0.6}};
    auto now = [](auto const& x) { return state(x[0], x[4], x[5], x[6]); };
    expect_encloses([&](auto const& x) { return indicated_level(state(x[0], x[1], x[2], x[3]), now(x), metres(x[7])).si(); }, states, Width::tight, 12);
    expect_encloses([&](auto const& x) { return level_error(state(x[0], x[1], x[2], x[3]), now(x), metres(x[7])).si(); }, states, Width::tight, 12);
    expect_encloses([&](auto const& x) { return lost_leg_error(state(1, x[0], x[1], 990), state(1, 900, x[2], x[3]), metres(x[4])).si(); },
                    {{840, 900}, {0, 10}, {0, 10}, {980, 1000}, {0, 0.6}}, Width::tight);
}

}  // namespace
}  // namespace levelswap::physics
