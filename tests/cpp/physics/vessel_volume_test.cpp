// Outside source: the textbook segment of a circle; halves and wholes worked by
// hand. tests/cpp/physics/peers_test.cpp holds it against a numerical integral.
#include "levelswap/physics/vessel_volume.hpp"

#include "sampling.hpp"

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

TEST(VesselVolume, ranges_enclose_every_point_in_them) {
    expect_encloses([](auto const& x) { return upright_volume(Area::from_si(x[0]), metres(x[1]), metres(x[2])).si(); },
                    {{0.1, 3}, {-0.2, 1}, {-0.2, 2}}, Width::tight);
    expect_encloses([](auto const& x) { return horizontal_cylinder_volume(metres(x[0]), metres(x[1]), metres(x[2]), metres(x[3])).si(); },
                    {{0.5, 2}, {1, 5}, {-0.2, 1.5}, {0, 2.2}}, Width::tight);
    expect_encloses([](auto const& x) { return horizontal_cylinder_surface(metres(x[0]), metres(x[1]), metres(x[2])).si(); },
                    {{0.5, 2}, {1, 5}, {-0.2, 2.2}}, Width::wider);
}

}  // namespace
}  // namespace levelswap::physics
