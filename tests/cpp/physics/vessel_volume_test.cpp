// Outside source: the textbook segment of a circle; halves and wholes worked by
// hand. tests/cpp/physics/peers_test.cpp holds it against a numerical integral.
#include "levelswap/physics/vessel_volume.hpp"

#include "sampling.hpp"

#include <limits>
#include <numbers>

namespace levelswap::physics {
namespace {

using std::numbers::pi;

Length metres(Interval x) { return Length::from_si(x); }

TEST(VesselVolume, upright_tank_is_floor_times_height) {
    Area const floor = round_floor(metres(1.2));
    EXPECT_NEAR(floor.si().middle(), pi * 0.36, 1e-15);
    EXPECT_NEAR(upright_volume(floor, metres(0.3), metres(0.8)).si().middle(), pi * 0.18, 1e-12);
}

TEST(VesselVolume, whole_and_half_drum_hold_what_a_cylinder_holds) {
    EXPECT_NEAR(horizontal_cylinder_volume(metres(1.5), metres(4), metres(0), metres(1.5)).si().middle(), pi * 2.25, 1e-12);
    EXPECT_NEAR(horizontal_cylinder_volume(metres(1.5), metres(4), metres(0), metres(0.75)).si().middle(), pi * 1.125, 1e-12);
    EXPECT_NEAR(horizontal_cylinder_volume(metres(1.5), metres(4), metres(0.75), metres(9)).si().middle(), pi * 1.125, 1e-12);
}

TEST(VesselVolume, slices_add_up_to_the_whole) {
    double sum = 0;
    for (int i = 0; i < 10; ++i)
        sum += horizontal_cylinder_volume(metres(1.5), metres(4), metres(0.15 * i), metres(0.15 * (i + 1))).si().middle();
    EXPECT_NEAR(sum, pi * 2.25, 1e-11);
}

TEST(VesselVolume, nothing_is_between_levels_in_the_wrong_order) {
    EXPECT_EQ(upright_volume(Area::from_si(1), metres(0.8), metres(0.3)).si(), Interval(0.0));
    EXPECT_EQ(horizontal_cylinder_volume(metres(1.5), metres(4), metres(0.8), metres(0.3)).si(), Interval(0.0));
    EXPECT_EQ(upright_volume(Area::from_si(1), metres(-2), metres(-1)).si(), Interval(0.0));
    EXPECT_EQ(horizontal_cylinder_volume(metres(0), metres(4), metres(0), metres(1)).si(), Interval(0.0));
    EXPECT_EQ(horizontal_cylinder_volume(metres(1.5), metres(4), metres(2), metres(3)).si(), Interval(0.0));
}

TEST(VesselVolume, surface_is_widest_at_half_height_and_none_outside) {
    EXPECT_NEAR(horizontal_cylinder_surface(metres(1.5), metres(4), metres(0.75)).si().middle(), 6, 1e-12);
    EXPECT_EQ(horizontal_cylinder_surface(metres(1.5), metres(4), metres(0)).si(), Interval(0.0));
    EXPECT_EQ(horizontal_cylinder_surface(metres(1.5), metres(4), metres(1.6)).si(), Interval(0.0));
    // A range over the middle holds the widest surface; its least is at the end
    // farther from the middle: 2·4·√(0.3·1.2) = 4.8.
    Interval const over = horizontal_cylinder_surface(metres(1.5), metres(4), metres({0.3, 0.8})).si();
    EXPECT_NEAR(over.hi, 6, 1e-12);
    EXPECT_NEAR(over.lo, 4.8, 1e-12);
}

TEST(VesselVolume, half_a_drum_more_takes_the_level_from_the_middle_to_the_top) {
    Volume const half = horizontal_cylinder_volume(metres(1.5), metres(4), metres(0), metres(0.75));
    Volume const nearly_half = Volume::from_si(half.si().lo * (1 - 1e-12));
    // At the very bottom the drum has no width: there a height is less sharp than a volume.
    EXPECT_NEAR(horizontal_cylinder_rise(metres(1.5), metres(4), metres(0), nearly_half).si().middle(), 0.75, 1e-8);
    EXPECT_NEAR(horizontal_cylinder_fall(metres(1.5), metres(4), metres(0.75), nearly_half).si().middle(), 0.75, 1e-8);
    EXPECT_EQ(horizontal_cylinder_rise(metres(1.5), metres(4), metres(0.76), half).si().lo, std::numeric_limits<double>::infinity());
    EXPECT_EQ(horizontal_cylinder_fall(metres(1.5), metres(4), metres(0.74), half).si().lo, std::numeric_limits<double>::infinity());
    EXPECT_EQ(horizontal_cylinder_rise(metres(1.5), metres(4), metres(0.3), Volume::from_si(0)).si(), Interval(0.0));
}

TEST(VesselVolume, rise_and_fall_undo_the_volume_between_the_levels) {
    for (double from : {0.01, 0.2, 0.7, 1.2})
        for (double gap : {0.001, 0.05, 0.25}) {
            Volume const between = horizontal_cylinder_volume(metres(1.5), metres(4), metres(from), metres(from + gap));
            EXPECT_NEAR(horizontal_cylinder_rise(metres(1.5), metres(4), metres(from), between).si().middle(), gap, 1e-8);
            EXPECT_NEAR(horizontal_cylinder_fall(metres(1.5), metres(4), metres(from + gap), between).si().middle(), gap, 1e-8);
        }
}

TEST(VesselVolume, over_a_range_of_levels_the_gap_is_least_around_the_middle) {
    // 4·1.5·0.1 m³ about the middle of a drum 1.5 m wide: a slice hardly more than 100 mm thick; at 0.1 m from the
    // bottom the drum is 2·√(0.1·1.4) = 0.748 m wide and rising, so the slice is between 100 and 200 mm.
    Volume const slice = Volume::from_si(0.6);
    Interval const gap = horizontal_cylinder_rise(metres(1.5), metres(4), metres({0.1, 1.0}), slice).si();
    EXPECT_NEAR(gap.lo, 2 * horizontal_cylinder_rise(metres(1.5), metres(4), metres(0.75), Volume::from_si(0.3)).si().lo, 1e-12);
    EXPECT_GT(gap.lo, 0.1);
    EXPECT_LT(gap.lo, 0.1002);
    EXPECT_GT(gap.hi, 0.15);
    EXPECT_LT(gap.hi, 0.2);
}

TEST(VesselVolume, ranges_enclose_every_point_in_them) {
    expect_encloses([](auto const& x) { return upright_volume(Area::from_si(x[0]), metres(x[1]), metres(x[2])).si(); },
                    {{0.1, 3}, {-0.2, 1}, {-0.2, 2}}, Width::tight);
    expect_encloses([](auto const& x) { return horizontal_cylinder_volume(metres(x[0]), metres(x[1]), metres(x[2]), metres(x[3])).si(); },
                    {{0.5, 2}, {1, 5}, {-0.2, 1.5}, {0, 2.2}}, Width::tight);
    expect_encloses([](auto const& x) { return horizontal_cylinder_surface(metres(x[0]), metres(x[1]), metres(x[2])).si(); },
                    {{0.5, 2}, {1, 5}, {-0.2, 2.2}}, Width::wider);
    expect_encloses([](auto const& x) { return horizontal_cylinder_rise(metres(x[0]), metres(x[1]), metres(x[2]), Volume::from_si(x[3])).si(); },
                    {{0.5, 2}, {1, 5}, {-0.2, 1.5}, {0, 2}}, Width::wider);
    expect_encloses([](auto const& x) { return horizontal_cylinder_fall(metres(x[0]), metres(x[1]), metres(x[2]), Volume::from_si(x[3])).si(); },
                    {{0.5, 2}, {1, 5}, {-0.2, 1.5}, {0, 2}}, Width::wider);
}

}  // namespace
}  // namespace levelswap::physics
