// Outside source: the usual cycle of a pump on two levels, worked by hand;
// tests/cpp/physics/peers_test.cpp holds it against a simulation in time.
#include "levelswap/physics/pump_cycling.hpp"

#include "sampling.hpp"

namespace levelswap::physics {
namespace {

constexpr double endless = std::numeric_limits<double>::infinity();

Volume cubic_metres(Interval x) { return Volume::from_si(x); }
/// Litres a second, a whole number of quanta for a decimal like 0.5.
VolumeFlow flow(Interval x) { return {x * Interval{1e6}}; }

TEST(PumpCycling, half_the_pumps_flow_gives_most_starts) {
    // By hand: 100 l, 2 l/s in, 1 l/s out: 100 s to fill, 100 s to empty, 18 an hour.
    EXPECT_NEAR(starts_per_hour(cubic_metres(0.1), flow(2), flow(1)).si().middle(), 18, 1e-9);
    // 0.5 l/s: 66.7 s and 200 s, 13.5 an hour; 1.5 l/s: the same the other way round.
    EXPECT_NEAR(starts_per_hour(cubic_metres(0.1), flow(2), flow(0.5)).si().middle(), 13.5, 1e-9);
    EXPECT_NEAR(starts_per_hour(cubic_metres(0.1), flow(2), flow(1.5)).si().middle(), 13.5, 1e-9);
    Interval const range = starts_per_hour(cubic_metres(0.1), flow(2), flow({0.5, 1.5})).si();
    EXPECT_NEAR(range.lo, 13.5, 1e-9);
    EXPECT_NEAR(range.hi, 18, 1e-9);
}

TEST(PumpCycling, a_range_beside_the_half_is_worst_at_its_nearer_end) {
    Interval const low = starts_per_hour(cubic_metres(0.1), flow(2), flow({0.2, 0.5})).si();
    EXPECT_NEAR(low.hi, 13.5, 1e-9);
    Interval const high = starts_per_hour(cubic_metres(0.1), flow(2), flow({1.5, 1.9})).si();
    EXPECT_NEAR(high.hi, 13.5, 1e-9);
}

TEST(PumpCycling, starts_agree_with_the_time_of_a_whole_cycle) {
    Volume const v = cubic_metres(0.08);
    double const cycle = running_time(v, flow(2), flow(0.7)).si().middle() + standing_time(v, flow(0.7)).si().middle();
    EXPECT_NEAR(starts_per_hour(v, flow(2), flow(0.7)).si().middle(), 3600 / cycle, 1e-9);
}

TEST(PumpCycling, a_pump_no_larger_than_the_take_off_never_stops) {
    EXPECT_EQ(starts_per_hour(cubic_metres(0.1), flow(1), flow(1)).si(), Interval(0.0));
    EXPECT_EQ(starts_per_hour(cubic_metres(0.1), flow(1), flow(2)).si(), Interval(0.0));
    EXPECT_EQ(running_time(cubic_metres(0.1), flow(1), flow(1)).si().lo, endless);
    EXPECT_EQ(running_time(cubic_metres(0.1), flow(1), flow({0.5, 1})).si().hi, endless);
    EXPECT_LE(pump_surplus(flow(1), flow(1)).si().hi, 0);
    EXPECT_LT(pump_surplus(flow(1), flow(2)).si().hi, 0);
}

TEST(PumpCycling, without_take_off_it_never_starts) {
    EXPECT_EQ(starts_per_hour(cubic_metres(0.1), flow(1), flow(0)).si(), Interval(0.0));
    EXPECT_EQ(standing_time(cubic_metres(0.1), flow(0)).si().lo, endless);
}

TEST(PumpCycling, without_a_volume_starts_have_no_limit) {
    EXPECT_EQ(starts_per_hour(cubic_metres(0), flow(2), flow(1)).si().lo, endless);
    EXPECT_EQ(starts_per_hour(cubic_metres({0, 0.1}), flow(2), flow(1)).si().hi, endless);
}

TEST(PumpCycling, the_volume_for_a_limit_of_starts_gives_that_many) {
    Volume const v = volume_for_starts(StartRate::from_si(18), flow(2), flow(1));
    EXPECT_NEAR(v.si().middle(), 0.1, 1e-12);
    EXPECT_EQ(volume_for_starts(StartRate::from_si(18), flow(2), flow(0)).si(), Interval(0.0));
}

TEST(PumpCycling, ranges_enclose_every_point_in_them) {
    std::vector<Interval> const domain{{0.02, 0.5}, {0.5, 3}, {0, 3}};
    expect_encloses([](auto const& x) { return starts_per_hour(cubic_metres(x[0]), flow(x[1]), flow(x[2])).si(); }, domain, Width::wider, 200);
    expect_encloses([](auto const& x) { return volume_for_starts(StartRate::from_si(x[0]), flow(x[1]), flow(x[2])).si(); },
                    {{2, 30}, {0.5, 3}, {0, 3}}, Width::wider, 200);
    expect_encloses([](auto const& x) { return running_time(cubic_metres(x[0]), flow(x[1]), flow(x[2])).si(); },
                    {{0.02, 0.5}, {2, 3}, {0, 1.9}}, Width::tight);
    expect_encloses([](auto const& x) { return standing_time(cubic_metres(x[0]), flow(x[1])).si(); }, {{0.02, 0.5}, {0.1, 2}}, Width::tight);
}

}  // namespace
}  // namespace levelswap::physics
