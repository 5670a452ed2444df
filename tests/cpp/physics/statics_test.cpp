// Outside source: Archimedes, On the Sphere and Cylinder (a sphere is two
// thirds of its cylinder), and the textbook volume of a cap, π·h²·(3r − h)/3.
#include "levelswap/physics/statics.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

namespace levelswap::physics {
namespace {

using std::numbers::pi;

TEST(Statics, a_sphere_half_under_displaces_half_its_volume) {
    Interval const v = submerged_volume(FloatForm::sphere, 0.2, 0.0, 0.1);
    EXPECT_NEAR(v.middle(), 2.0 / 3 * pi * 1e-3, 1e-15);
    EXPECT_LT(v.width(), 1e-17);
    EXPECT_TRUE(v.contains(0.5 * full_volume(FloatForm::sphere, 0.2, 0.0).middle()));
}

TEST(Statics, a_sphere_is_two_thirds_of_its_cylinder) {
    EXPECT_NEAR(full_volume(FloatForm::sphere, 0.1, 0.0).middle(),
                2.0 / 3 * full_volume(FloatForm::cylinder, 0.1, 0.1).middle(), 1e-17);
}

TEST(Statics, draught_beyond_the_float_counts_no_more_than_the_float) {
    EXPECT_EQ(submerged_volume(FloatForm::sphere, 0.1, 0.0, 0.3), full_volume(FloatForm::sphere, 0.1, 0.0));
    EXPECT_EQ(submerged_volume(FloatForm::cylinder, 0.1, 0.2, 0.3), full_volume(FloatForm::cylinder, 0.1, 0.2));
    EXPECT_EQ(submerged_volume(FloatForm::sphere, 0.1, 0.0, -0.1), Interval(0.0));
}

TEST(Statics, a_float_asked_for_more_than_it_holds_sinks_to_its_top) {
    EXPECT_EQ(draught_for(FloatForm::sphere, 0.1, 0.0, 1.0).hi, 0.1);
    EXPECT_EQ(draught_for(FloatForm::cylinder, 0.1, 0.07, 1.0).hi, 0.07);
}

TEST(Statics, draught_undoes_submerged_volume) {
    std::mt19937 random(3);
    std::uniform_real_distribution<double> share(0.01, 0.99);
    for (int i = 0; i < 500; ++i) {
        double const d = 0.02 + 0.3 * share(random), h = 0.02 + 0.3 * share(random);
        for (FloatForm form : {FloatForm::sphere, FloatForm::cylinder}) {
            double const depth = share(random) * (form == FloatForm::sphere ? d : h);
            Interval const back = draught_for(form, d, h, submerged_volume(form, d, h, depth));
            ASSERT_TRUE(back.contains(depth));
            ASSERT_LT(back.width(), 1e-13);
        }
    }
}

TEST(Statics, draughts_of_floats_in_a_range_stay_in_the_range_of_draughts) {
    std::mt19937 random(4);
    std::uniform_real_distribution<double> share(0, 1);
    for (int i = 0; i < 300; ++i) {
        Interval const d{0.05 + 0.05 * share(random), 0.11}, h{0.06, 0.06 + 0.02 * share(random)};
        double const most = 1.2 * full_volume(FloatForm::sphere, d.hi, h).hi;
        double const v0 = most * share(random);
        Interval const v{v0, v0 + 0.1 * most * share(random)};
        for (FloatForm form : {FloatForm::sphere, FloatForm::cylinder}) {
            Interval const all = draught_for(form, d, h, v);
            for (int k = 0; k < 30; ++k) {
                double const dd = d.lo + d.width() * share(random), hh = h.lo + h.width() * share(random);
                Interval const one = draught_for(form, dd, hh, v.lo + v.width() * share(random));
                ASSERT_LE(all.lo, one.hi);
                ASSERT_GE(all.hi, one.lo);
            }
        }
    }
}

TEST(Statics, a_cylinder_floats_at_the_share_of_its_weight) {
    // A float of 0.5 kg in water of 1000 kg/m³ displaces half a litre.
    Interval const draught = draught_carrying(FloatForm::cylinder, 0.1, 0.2, 0.5 * standard_gravity, 1000.0);
    EXPECT_NEAR(draught.middle(), 0.5e-3 / (pi * 0.0025), 1e-14);
    EXPECT_NEAR(largest_buoyancy(FloatForm::cylinder, 0.1, 0.2, 1000.0).middle(), pi * 0.0025 * 0.2 * 9806.65, 1e-11);
}

TEST(Statics, waterline_is_below_the_centre_while_less_than_half_is_under) {
    EXPECT_LT(waterline_above_centre(FloatForm::sphere, 0.1, 0.0, 0.03).hi, 0);
    EXPECT_EQ(waterline_above_centre(FloatForm::cylinder, 0.1, 0.25, 0.125), Interval(0.0));
}

}  // namespace
}  // namespace levelswap::physics
