// Outside sources: elementary trigonometry only. The closed form of the angle
// at which a sphere meets the ceiling and the brute-force oracle below are
// written from the formulas of the swing, not from the code under test.
#include "levelswap/physics/swing.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace levelswap::physics {
namespace {

/// One world: a plain number for every fact.
struct World {
    double along, across, arm, tilt, arm_width;
    bool cylinder;
    double diameter, height, ceiling, floor, bore, axis, throat_at, throat_half, stop_low, stop_high, rest;
};

World plain_world() {
    return {-0.02, 0.0, 0.22, 0.0, 0.012, false, 0.09, 0.0, 0.12, -0.2, 0.16, 0.17, 0.05, 0.06, -0.7, 0.7, 0.0};
}

SwingFacts facts_of(World const& w) {
    return {w.along, w.across, w.arm, w.tilt, w.arm_width, w.cylinder ? FloatForm::cylinder : FloatForm::sphere,
            w.diameter, w.height, w.ceiling, w.floor, w.bore, w.axis, w.throat_at, w.throat_half, w.stop_low,
            w.stop_high, w.rest};
}

double z_of(World const& w, double t) {
    return w.along * std::sin(w.tilt) + w.across * std::cos(w.tilt) + w.arm * std::sin(t + w.tilt);
}
double x_of(World const& w, double t) {
    return w.along * std::cos(w.tilt) - w.across * std::sin(w.tilt) + w.arm * std::cos(t + w.tilt);
}

/// The farthest rim point by walking round both rims; `sign` +1 far side, −1 near side.
double rim_distance(World const& w, double t, double sign) {
    double const phi = t + w.tilt, offset = sign * (x_of(w, t) - w.axis), rho = w.diameter / 2;
    if (!w.cylinder) return std::max(0.0, offset) + rho;
    double const centre = std::max(0.0, offset + w.height / 2 * std::abs(std::sin(phi)));
    auto squared = [&](double c) {
        double const along = centre + rho * c * std::cos(phi);
        return along * along + rho * rho * (1 - c * c);
    };
    double low = -1, high = 1;  // the square is a parabola in c with its crest up: close in on it
    for (int i = 0; i < 25; ++i) {
        double const third = (high - low) / 3;
        if (squared(low + third) < squared(high - third)) low += third;
        else high -= third;
    }
    return std::sqrt(std::max({squared(low), squared(high), squared(1.0)}));
}

struct WorldGaps {
    double ceiling, floor, side, throat;
    [[nodiscard]] double least() const { return std::min({ceiling, floor, side, throat}); }
};

WorldGaps gaps_of(World const& w, double t) {
    double const phi = t + w.tilt, r = w.diameter / 2, z = z_of(w, t), x = x_of(w, t);
    double tall = r, wide = r;
    if (w.cylinder) {
        tall = w.height / 2 * std::cos(phi) + r * std::abs(std::sin(phi));
        wide = r * std::cos(phi) + w.height / 2 * std::abs(std::sin(phi));
    }
    bool const open = x - wide <= w.throat_at && std::abs(z) + tall <= w.throat_half;
    double const near = open ? w.bore / 2 - r : w.bore / 2 - rim_distance(w, t, -1);
    double const arm = std::abs((w.throat_at - w.along) * std::tan(t) + w.across) + w.arm_width / (2 * std::cos(t));
    return {w.ceiling - z - tall, z - tall - w.floor, std::min(w.bore / 2 - rim_distance(w, t, 1), near),
            w.throat_half - arm};
}

double draw(std::mt19937& random, double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
}

World random_world(std::mt19937& random, bool cylinder) {
    World w;
    w.along = draw(random, -0.05, 0.03);
    w.across = draw(random, -0.02, 0.02);
    w.arm = draw(random, 0.12, 0.4);
    w.tilt = draw(random, -0.25, 0.25);
    w.arm_width = draw(random, 0.005, 0.02);
    w.cylinder = cylinder;
    w.diameter = draw(random, 0.06, 0.12);
    w.height = draw(random, 0.05, 0.15);
    w.ceiling = draw(random, 0.08, 0.25);
    w.floor = draw(random, -0.3, -0.08);
    w.bore = w.diameter + draw(random, 0.02, 0.2);
    w.axis = w.along + w.arm + draw(random, -0.03, 0.03);
    w.throat_at = draw(random, 0.0, 0.08);
    w.throat_half = draw(random, 0.03, 0.1);
    w.stop_low = draw(random, -0.8, -0.3);
    w.stop_high = draw(random, 0.3, 0.8);
    w.rest = draw(random, -0.15, 0.15);
    return w;
}

/// The end of the free arc by small steps; 1e-4 rad each.
double walk(World const& w, double sign) {
    constexpr double step = 1e-4;
    double const stop = sign > 0 ? w.stop_high : -w.stop_low;
    double t = sign * w.rest;
    while (t < stop && gaps_of(w, sign * std::min(stop, t + step)).least() >= 0) t += step;
    return std::min(t, stop);
}

double* fact(World& w, int i) {
    double* all[] = {&w.along,   &w.across, &w.arm,  &w.tilt, &w.arm_width, &w.diameter,    &w.height,  &w.ceiling,
                     &w.floor,   &w.bore,   &w.axis, &w.throat_at, &w.throat_half, &w.stop_low, &w.stop_high, &w.rest};
    return all[i];
}
Interval* fact(SwingFacts& f, int i) {
    Interval* all[] = {&f.along,   &f.across, &f.arm,  &f.tilt, &f.arm_width, &f.diameter,    &f.height,  &f.ceiling,
                       &f.floor,   &f.bore,   &f.axis, &f.throat_at, &f.throat_half, &f.stop_low, &f.stop_high, &f.rest};
    return all[i];
}
constexpr int fact_count = 16;

SwingFacts box_around(World w, std::mt19937& random, double half) {
    SwingFacts f = facts_of(w);
    for (int i = 0; i < fact_count; ++i) {
        double const e = draw(random, 0, half);
        *fact(f, i) = {*fact(w, i) - e, *fact(w, i) + e};
    }
    return f;
}

World inside(SwingFacts& f, World w, std::mt19937& random) {
    for (int i = 0; i < fact_count; ++i) {
        Interval const range = *fact(f, i);
        int const pick = static_cast<int>(random() % 3);
        *fact(w, i) = pick == 0 ? range.lo : pick == 1 ? range.hi : draw(random, range.lo, range.hi);
    }
    return w;
}

TEST(Swing, a_sphere_meets_the_ceiling_where_the_closed_form_says) {
    World w = plain_world();
    w.tilt = 0.1;
    w.across = 0.01;
    w.throat_half = 1;
    w.bore = 2;
    double const rise = w.ceiling - w.diameter / 2 - w.along * std::sin(w.tilt) - w.across * std::cos(w.tilt);
    double const expected = std::asin(rise / w.arm) - w.tilt;
    Reach const r = reach(facts_of(w));
    EXPECT_LE(r.high.lo, expected);
    EXPECT_GE(r.high.hi, expected);
    EXPECT_LE(r.high.width(), 2e-6);
    EXPECT_EQ(r.high_by, Obstacle::ceiling);
    EXPECT_EQ(r.low_by, Obstacle::stop);
    EXPECT_EQ(r.low, Interval(-0.7));
}

TEST(Swing, the_throat_stops_the_arm_before_the_ceiling_stops_the_float) {
    World w = plain_world();
    w.throat_half = 0.02;
    w.bore = 2;
    Reach const r = reach(facts_of(w));
    EXPECT_EQ(r.high_by, Obstacle::throat);
    EXPECT_EQ(r.low_by, Obstacle::throat);
    EXPECT_NEAR(r.high.lo, -r.low.hi, 1e-6);  // no tilt, no offset: the same both ways
    double const t = r.high.lo;
    EXPECT_NEAR(0.07 * std::tan(t) + 0.006 / std::cos(t), 0.02, 1e-6);
}

TEST(Swing, the_far_wall_stops_a_float_that_comes_level) {
    World w = plain_world();
    w.rest = -0.6;
    w.throat_half = 1;
    w.axis = 0.15;
    w.bore = 0.18;  // level, the float would need 0.2 + 0.045 − 0.15 = 0.095 of 0.09
    Reach const r = reach(facts_of(w));
    EXPECT_EQ(r.high_by, Obstacle::far_wall);
    EXPECT_NEAR(r.high.lo, -std::acos((0.09 - 0.045 + 0.15 + 0.02) / 0.22), 2e-6);
}

TEST(Swing, a_piece_of_the_arc_beyond_a_blocked_one_does_not_count) {
    World w = plain_world();
    w.rest = -0.6;
    w.throat_half = 1;
    w.ceiling = 1;
    w.axis = 0.15;
    w.bore = 0.18;
    EXPECT_GE(gaps_of(w, 0.6).least(), 0);  // free again above, but not reached
    EXPECT_LT(reach(facts_of(w)).high.hi, 0);
}

TEST(Swing, a_rest_position_inside_the_floor_is_impossible) {
    World w = plain_world();
    w.floor = -0.03;
    Reach const r = reach(facts_of(w));
    EXPECT_FALSE(r.possible);
    EXPECT_FALSE(r.certain);
}

TEST(Swing, an_unknown_floor_leaves_the_rest_position_uncertain) {
    SwingFacts f = facts_of(plain_world());
    f.floor = {-0.2, -0.03};
    Reach const r = reach(f);
    EXPECT_TRUE(r.possible);
    EXPECT_FALSE(r.certain);
    EXPECT_LE(r.low.lo, -0.7 + 0.2);
    EXPECT_GE(r.low.hi, 0);
}

TEST(Swing, an_arm_that_rests_against_its_stop_is_certainly_free) {
    auto world = plain_world();
    world.floor = -0.4;
    world.stop_low = world.rest = -0.4;
    auto facts = facts_of(world);
    facts.rest = {world.rest - 1e-12, world.rest + 1e-12};  // what a conversion of equal figures leaves
    auto const r = reach(facts);
    EXPECT_TRUE(r.certain);
    EXPECT_NEAR(r.low.lo, world.stop_low, 2e-6);
    EXPECT_EQ(r.low_by, Obstacle::stop);
}

TEST(Swing, wider_facts_never_make_a_narrower_reach) {
    std::mt19937 random(5);
    for (int i = 0; i < 300; ++i) {
        World const w = random_world(random, i % 2 == 0);
        Reach const point = reach(facts_of(w));
        if (!point.possible || !point.certain) continue;
        Reach const box = reach(box_around(w, random, 0.003));
        ASSERT_TRUE(box.possible);
        EXPECT_LE(box.high.lo, point.high.hi);
        EXPECT_GE(box.high.hi, point.high.lo);
        EXPECT_LE(box.low.lo, point.low.hi);
        EXPECT_GE(box.low.hi, point.low.lo);
    }
}

TEST(Swing, reach_of_plain_numbers_agrees_with_walking_the_arc) {
    std::mt19937 random(1);
    int compared = 0, wide = 0;
    for (int i = 0; i < 600; ++i) {
        World const w = random_world(random, i % 4 == 0);
        Reach const r = reach(facts_of(w));
        double const rest_gap = gaps_of(w, w.rest).least();
        if (std::abs(rest_gap) < 1e-6) continue;
        ASSERT_EQ(r.possible, rest_gap > 0);
        ASSERT_EQ(r.certain, rest_gap > 0);
        if (rest_gap < 0) continue;
        ++compared;
        wide += r.high.width() > 2e-6 || r.low.width() > 2e-6;
        // The walk stops up to a step early.
        ASSERT_NEAR(walk(w, 1), r.high.lo, 1.2e-4) << "world " << i;
        ASSERT_NEAR(-walk(w, -1), r.low.hi, 1.2e-4) << "world " << i;
    }
    EXPECT_GT(compared, 100);
    EXPECT_EQ(wide, 0);
}

TEST(Swing, worlds_in_a_box_stay_inside_its_enclosures) {
    std::mt19937 random(2);
    constexpr double rim_walk = 1e-8;  // what the oracle's search round the rim may leave
    for (int i = 0; i < 150; ++i) {
        World const middle = random_world(random, i % 2 == 0);
        SwingFacts f = box_around(middle, random, i % 3 == 0 ? 0.0005 : 0.005);
        double const t0 = draw(random, -0.6, 0.6);
        Interval const theta{t0, t0 + draw(random, 0, 0.1)};
        Interval const z = float_height(f, theta), x = float_distance(f, theta);
        Gaps const g = gaps(f, theta);
        Interval const side = side_clearance(f);
        Reach const r = reach(f);
        for (int k = 0; k < 40; ++k) {
            World const w = inside(f, middle, random);
            double const t = draw(random, theta.lo, theta.hi);
            WorldGaps const one = gaps_of(w, t);
            ASSERT_TRUE(z.contains(z_of(w, t)));
            ASSERT_TRUE(x.contains(x_of(w, t)));
            ASSERT_TRUE(g.ceiling.contains(one.ceiling));
            ASSERT_TRUE(g.floor.contains(one.floor));
            ASSERT_TRUE(g.throat.contains(one.throat));
            ASSERT_GE(one.side, g.side.lo - 1e-12);
            ASSERT_LE(one.side, g.side.hi + rim_walk);
            double least = 1;
            for (int s = 0; s <= 50; ++s) {
                WorldGaps const here = gaps_of(w, w.stop_low + (w.stop_high - w.stop_low) * s / 50);
                least = std::min({least, here.side, here.throat});
            }
            ASSERT_GE(least, side.lo - 1e-12);
            bool const free = gaps_of(w, w.rest).least() >= 0;
            ASSERT_TRUE(!r.certain || free);
            ASSERT_TRUE(r.possible || !free);
            if (!free) continue;
            if (k % 20 == 0) {
                ASSERT_LE(walk(w, 1), r.high.hi + 2e-4);
                ASSERT_GE(walk(w, 1), r.high.lo - 2e-4);
                ASSERT_GE(-walk(w, -1), r.low.lo - 2e-4);
                ASSERT_LE(-walk(w, -1), r.low.hi + 2e-4);
            }
        }
    }
}

TEST(Swing, height_over_a_box_is_reached_at_its_corners) {
    SwingFacts f = facts_of(plain_world());
    f.arm = {0.21, 0.23};
    f.tilt = {-0.02, 0.03};
    f.along = {-0.03, -0.01};
    Interval const z = float_height(f, {0.1, 0.2});
    auto at = [](double along, double arm, double tilt, double t) { return along * std::sin(tilt) + arm * std::sin(t + tilt); };
    EXPECT_NEAR(z.hi, at(-0.01, 0.23, 0.03, 0.2), 1e-12);
    EXPECT_NEAR(z.lo, at(-0.01, 0.21, -0.02, 0.1), 1e-3);  // the lever's sign turns with the tilt
    EXPECT_LE(z.lo, at(-0.01, 0.21, -0.02, 0.1));
}

TEST(Swing, side_clearance_of_a_sphere_is_least_when_the_arm_is_level) {
    World w = plain_world();
    w.axis = 0.17;
    w.throat_half = 1;
    w.ceiling = 1;
    w.floor = -1;
    w.stop_low = -0.3;
    w.stop_high = 0.3;
    Interval const c = side_clearance(facts_of(w));
    EXPECT_NEAR(c.lo, 0.08 - 0.045 - 0.03, 2e-7);
    EXPECT_NEAR(c.hi, 0.08 - 0.045 - 0.03, 2e-7);
    EXPECT_LE(c.lo, c.hi);
}

TEST(Swing, stops_too_uncertain_for_any_common_arc_leave_no_upper_bound) {
    SwingFacts f = facts_of(plain_world());
    f.stop_low = {-0.7, 0.2};
    f.stop_high = {0.1, 0.7};
    Interval const c = side_clearance(f);
    EXPECT_NEAR(c.lo, side_clearance(facts_of(plain_world())).lo, 2e-7);
    EXPECT_TRUE(std::isinf(c.hi));
}

TEST(Swing, an_upright_cylinder_needs_half_its_height_and_a_leaning_one_its_rim) {
    World w = plain_world();
    w.cylinder = true;
    w.height = 0.1;
    Gaps const level = gaps(facts_of(w), 0.0);
    EXPECT_NEAR(level.ceiling.lo, 0.12 - 0.05, 1e-12);
    double const t = 0.3;
    Gaps const leaning = gaps(facts_of(w), t);
    EXPECT_NEAR(leaning.ceiling.lo, 0.12 - 0.22 * std::sin(t) - 0.05 * std::cos(t) - 0.045 * std::sin(t), 1e-12);
}

}  // namespace
}  // namespace levelswap::physics
