// Outside source: two legs of equal weight between the same taps (hydrostatics);
// densities of IAPWS-IF97 from tests/reference/saturation_if97.csv.
// tests/cpp/physics/peers_test.cpp holds the same against CoolProp.
#include "levelswap/physics/column_shift.hpp"

#include "sampling.hpp"

namespace levelswap::physics {
namespace {

Length metres(Interval x) { return Length::from_si(x); }
Density density(Interval x) { return Density::from_si(x); }

TEST(ColumnShift, legs_weigh_the_same_over_the_level_and_the_steam_on_top) {
    // 150 psi gauge: 881.075 and 5.80996 kg/m³; a column at about 100 degC: 958.4.
    double const h = 0.4, taps = 0.6;
    double const column = column_level(metres(h), density(881.075), density(958.4), density(5.80996)).si().middle();
    EXPECT_NEAR(h * 881.075 + (taps - h) * 5.80996, column * 958.4 + (taps - column) * 5.80996, 1e-6);
    EXPECT_NEAR(column, 0.36753, 1e-5);
    EXPECT_NEAR(column_shift(metres(h), density(881.075), density(958.4), density(5.80996)).si().middle(), column - h, 1e-12);
}

TEST(ColumnShift, a_column_as_hot_as_the_boiler_stands_level) {
    EXPECT_EQ(column_shift(metres(0.4), density(900), density(900), density(5)).si(), Interval(0.0));
    EXPECT_NEAR(column_level(metres(0.4), density(900), density(900), density(5)).si().middle(), 0.4, 1e-12);
}

TEST(ColumnShift, a_column_hotter_than_the_boiler_stands_higher) {
    EXPECT_GT(column_shift(metres(0.4), density(950), density(900), density(5)).si().lo, 0);
}

TEST(ColumnShift, there_is_none_at_the_water_connection_and_it_turns_below_it) {
    EXPECT_EQ(column_shift(metres(0), density(880), density(950), density(5)).si(), Interval(0.0));
    EXPECT_GT(column_shift(metres(-0.1), density(880), density(950), density(5)).si().lo, 0);
}

TEST(ColumnShift, ranges_enclose_every_point_in_them) {
    std::vector<Interval> const domain{{-0.2, 0.8}, {820, 960}, {900, 1000}, {0, 15}};
    expect_encloses([](auto const& x) { return column_level(metres(x[0]), density(x[1]), density(x[2]), density(x[3])).si(); }, domain, Width::tight);
    expect_encloses([](auto const& x) { return column_shift(metres(x[0]), density(x[1]), density(x[2]), density(x[3])).si(); }, domain, Width::tight);
}

}  // namespace
}  // namespace levelswap::physics
