// Outside source: tests/reference/flow.csv (row ids beside each check), and
// numbers worked by hand.
#include "levelswap/physics/make_up.hpp"

#include "sampling.hpp"

namespace levelswap::physics {
namespace {

constexpr double endless = std::numeric_limits<double>::infinity();
constexpr double pound = 0.45359237, psi = 6894.757293168361, foot = 0.3048, gallon = 3.785411784e-3;

Length metres(Interval x) { return Length::from_si(x); }
Density density(Interval x) { return Density::from_si(x); }
MassFlow flow(Interval x) { return MassFlow::from_si(x); }
Area area(Interval x) { return Area::from_si(x); }
Time seconds(Interval x) { return Time::from_si(x); }
PressureDifference pascal(Interval x) { return PressureDifference::from_si(x); }
AbsolutePressure absolute_pascal(Interval x) { return AbsolutePressure::from_si(x); }

TEST(MakeUp, hundred_boiler_horsepower_evaporate_3450_pounds_an_hour) {
    EXPECT_NEAR(evaporation(100).si().middle() * 3600 / pound, 3450, 1e-9);
    EXPECT_EQ(evaporation(0).si(), Interval(0.0));
}

TEST(MakeUp, feed_of_135_percent_matches_the_constructed_row) {
    // FLO030: 100 boiler horsepower, 135 %, water at 200 degF (963.049 kg/m³).
    Interval const q = as_volume_flow(Interval{1.35} * evaporation(100), density(963.049)).si();
    EXPECT_NEAR(q.middle() / gallon * 60, 9.65, 0.015);
}

TEST(MakeUp, one_gallon_a_minute_at_60_degrees_is_500_pounds_an_hour) {
    // FLO022: 500.23 lb/h in a gallon a minute; 999.016 kg/m³.
    EXPECT_NEAR(as_volume_flow(flow(500.23 * pound / 3600), density(999.016)).si().middle() * 60 / gallon, 1, 1e-5);
}

TEST(MakeUp, blowdown_is_a_share_of_the_feed) {
    EXPECT_NEAR(feed_demand(flow(0.9), Ratio::from_si(0.1)).si().middle(), 1.0, 1e-12);
    EXPECT_NEAR(feed_demand(flow(0.9), Ratio::from_si(0)).si().middle(), 0.9, 1e-12);
    EXPECT_EQ(feed_demand(flow(0.9), Ratio::from_si(1)).si().lo, endless);
}

TEST(MakeUp, level_falls_by_what_is_boiled_away) {
    // By hand: 0.5 kg/s for 60 s is 30 kg, of 900 kg/m³ over 2 m²: 16.667 mm.
    EXPECT_NEAR(level_fall(flow(0.5), density(900), area(2), seconds(60)).si().middle(), 30.0 / 1800, 1e-12);
    EXPECT_NEAR(time_to_fall(flow(0.5), density(900), area(2), metres(30.0 / 1800)).si().middle(), 60, 1e-9);
}

TEST(MakeUp, without_evaporation_the_level_never_falls) {
    EXPECT_EQ(level_fall(flow(0), density(900), area(2), seconds(60)).si(), Interval(0.0));
    EXPECT_EQ(time_to_fall(flow(0), density(900), area(2), metres(0.1)).si().lo, endless);
    EXPECT_EQ(time_to_fall(flow(0.5), density(900), area(2), metres(-0.1)).si(), Interval(0.0));
    EXPECT_EQ(level_fall(flow(0.5), density(900), area(0), seconds(60)).si().lo, endless);
}

TEST(MakeUp, a_foot_of_water_weighs_what_the_rows_say) {
    EXPECT_NEAR(column_pressure(metres(foot), density(1000)).si().middle() / psi, 0.43353, 5e-6);     // FLO014
    EXPECT_NEAR(column_pressure(metres(foot), density(970.405)).si().middle() / psi, 0.42070, 5e-6);  // FLO018
    EXPECT_NEAR(head(pascal(psi), density(1000)).si().middle() / foot, 2.3067, 5e-5);                 // FLO021, note
    EXPECT_NEAR(head(pascal(psi), density(999.016)).si().middle() / foot, 2.3089, 1e-4);              // FLO021, note
}

TEST(MakeUp, feed_pressure_adds_setting_losses_and_lift) {
    // By hand: 150 psi, 10 psi of losses, 5 ft of water at 970.405 kg/m³: 5·0.42070 psi.
    Interval const p = feed_pressure(GaugePressure::from_si(150 * psi), pascal(10 * psi), metres(5 * foot), density(970.405)).si();
    EXPECT_NEAR(p.middle() / psi, 162.1035, 1e-3);
    EXPECT_LT(feed_pressure(GaugePressure::from_si(0), pascal(0), metres(-1), density(1000)).si().hi, 0);
}

TEST(MakeUp, boiling_water_leaves_only_its_static_head) {
    // Surface at vapour pressure: nothing but the height, less the losses.
    Interval const n = npsh_available(absolute_pascal(101'325), absolute_pascal(101'325), pascal(0), metres(3), density(958.354)).si();
    EXPECT_NEAR(n.middle(), 3, 1e-12);
    // By hand: (101325 − 47400 − 5000)/(970.405·9.80665) + 1 = 6.1411 m at 180 degF.
    Interval const tank = npsh_available(absolute_pascal(101'325), absolute_pascal(47'400), pascal(5'000), metres(1), density(970.405)).si();
    EXPECT_NEAR(tank.middle(), 1 + 48'925 / (970.405 * 9.80665), 1e-9);
}

TEST(MakeUp, a_pump_above_boiling_water_has_negative_suction_head) {
    EXPECT_LT(npsh_available(absolute_pascal(101'325), absolute_pascal(101'325), pascal(1000), metres(-2), density(958)).si().hi, -2);
}

TEST(MakeUp, ranges_enclose_every_point_in_them) {
    expect_encloses([](auto const& x) { return evaporation(x[0]).si(); }, {{0, 800}}, Width::tight);
    expect_encloses([](auto const& x) { return feed_demand(flow(x[0]), Ratio::from_si(x[1])).si(); }, {{0, 5}, {0, 0.3}}, Width::tight);
    expect_encloses([](auto const& x) { return as_volume_flow(flow(x[0]), density(x[1])).si(); }, {{0, 5}, {840, 1000}}, Width::tight);
    expect_encloses([](auto const& x) { return level_fall(flow(x[0]), density(x[1]), area(x[2]), seconds(x[3])).si(); },
                    {{0, 5}, {840, 1000}, {0.5, 10}, {0, 120}}, Width::tight);
    expect_encloses([](auto const& x) { return time_to_fall(flow(x[0]), density(x[1]), area(x[2]), metres(x[3])).si(); },
                    {{0.1, 5}, {840, 1000}, {0.5, 10}, {0, 0.5}}, Width::tight);
    expect_encloses([](auto const& x) { return feed_pressure(GaugePressure::from_si(x[0]), pascal(x[1]), metres(x[2]), density(x[3])).si(); },
                    {{0, 1e6}, {0, 1e5}, {-2, 10}, {840, 1000}}, Width::tight);
    expect_encloses([](auto const& x) { return head(pascal(x[0]), density(x[1])).si(); }, {{-1e5, 1e6}, {840, 1000}}, Width::tight);
    expect_encloses([](auto const& x) { return npsh_available(absolute_pascal(x[0]), absolute_pascal(x[1]), pascal(x[2]), metres(x[3]), density(x[4])).si(); },
                    {{9e4, 2e5}, {1e3, 2e5}, {0, 2e4}, {-3, 5}, {900, 1000}}, Width::tight);
}

}  // namespace
}  // namespace levelswap::physics
