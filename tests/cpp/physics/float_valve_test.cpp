// Outside source: tests/reference/flow.csv, the textbook float valve of FLO026
// and FLO027 (row ids beside each check). peers_test.cpp holds it against a
// numerically integrated float.
#include "levelswap/physics/float_valve.hpp"

#include "levelswap/physics/statics.hpp"
#include "sampling.hpp"

#include <cmath>
#include <numbers>

namespace levelswap::physics {
namespace {

constexpr double inch = 0.0254, psi = 6894.757293168361;

Length metres(Interval x) { return Length::from_si(x); }
Density density(Interval x) { return Density::from_si(x); }
PressureDifference pascal(Interval x) { return PressureDifference::from_si(x); }

/// A 6 in ball of 0.5 kg on a lever of 8 to 1 over a seat of 1/2 in (FLO029).
FloatValve constructed() {
    double const bore = 0.5 * inch;
    return {FloatForm::sphere, metres(6 * inch), metres(0), Mass::from_si(0.5), metres(0.4), Moment::from_si(0),
            Area::from_si(std::numbers::pi * bore * bore / 4), metres(0.05)};
}

TEST(FloatValve, textbook_valve_lifts_as_the_published_solution) {
    // FLO026, FLO027 (worked with g 9.8): sphere of 0.1553 m, weight 9.29 N, water
    // 0.353 m below the hinge, centre 0.553·cos(45°) below it, so 38.0 mm under water.
    double const arm = 0.553 * std::sin(3 * std::numbers::pi / 4), draught = 0.1553 / 2 + (arm - 0.353);
    FloatValve valve = constructed();
    valve.diameter = metres(0.1553);
    valve.mass = Mass::from_si(9.29 / 9.8);
    valve.float_arm = metres(arm);
    double const ours = closing_moment(valve, density(1000), metres(draught)).si().middle();
    EXPECT_NEAR(ours / arm * 9.8 / standard_gravity, 6.813, 0.01);
    EXPECT_NEAR(ours * 9.8 / standard_gravity / 0.253, 10.53, 0.015);  // the seat's force at OA
}

TEST(FloatValve, half_sunk_ball_shuts_against_the_constructed_pressure) {
    EXPECT_NEAR(largest_shut_off_pressure(constructed(), density(1000), metres(3 * inch), 1).si().middle() / psi, 38.3, 0.05);  // FLO029
}

TEST(FloatValve, margin_takes_its_share_of_the_pressure) {
    double const plain = largest_shut_off_pressure(constructed(), density(1000), metres(3 * inch), 1).si().middle();
    double const careful = largest_shut_off_pressure(constructed(), density(1000), metres(3 * inch), 1.15).si().middle();
    EXPECT_NEAR(plain, 1.15 * careful, 1e-6);
}

TEST(FloatValve, it_shuts_at_half_draught_against_the_pressure_of_half_draught) {
    PressureDifference const most = largest_shut_off_pressure(constructed(), density(1000), metres(3 * inch), 1.15);
    Interval const draught = shut_off_draught(constructed(), density(1000), most, 1.15).si();
    EXPECT_NEAR(draught.middle(), 3 * inch, 1e-8);
    Interval const level = shut_off_level(constructed(), density(1000), most, 1.15, metres(1.2)).si();
    EXPECT_NEAR(level.middle(), 1.2, 1e-8);
    EXPECT_NEAR(closing_moment(constructed(), density(1000), metres(3 * inch)).si().middle(), opening_moment(constructed(), most, 1.15).si().middle(), 1e-8);
}

TEST(FloatValve, more_pressure_shuts_at_a_higher_level) {
    double const low = shut_off_level(constructed(), density(1000), pascal(10 * psi), 1.15, metres(0)).si().middle();
    double const high = shut_off_level(constructed(), density(1000), pascal(30 * psi), 1.15, metres(0)).si().middle();
    EXPECT_GT(high, low + 0.01);
}

TEST(FloatValve, too_much_pressure_leaves_no_reserve) {
    PressureDifference const whole = largest_shut_off_pressure(constructed(), density(1000), metres(6 * inch), 1);
    EXPECT_NEAR(shut_off_reserve(constructed(), density(1000), whole, 1).si().middle(), 0, 1e-6);
    EXPECT_GT(shut_off_reserve(constructed(), density(1000), pascal(0.9 * whole.si().lo), 1).si().lo, 0);
    PressureDifference const more = pascal(1.1 * whole.si().hi);
    EXPECT_LT(shut_off_reserve(constructed(), density(1000), more, 1).si().hi, 0);
    EXPECT_NEAR(shut_off_draught(constructed(), density(1000), more, 1).si().hi, 6 * inch, 1e-9);
}

TEST(FloatValve, a_float_out_of_the_water_closes_nothing) {
    EXPECT_LT(closing_moment(constructed(), density(1000), metres(0)).si().hi, 0);
    EXPECT_EQ(largest_shut_off_pressure(constructed(), density(1000), metres(0), 1).si(), Interval(0.0));
    EXPECT_EQ(largest_shut_off_pressure(constructed(), density(1000), metres(-1), 1).si(), Interval(0.0));
}

TEST(FloatValve, without_pressure_it_floats_at_its_own_weight) {
    Interval const draught = shut_off_draught(constructed(), density(1000), pascal(0), 1.15).si();
    Interval const afloat = draught_carrying(FloatForm::sphere, 6 * inch, 0.0, Interval{0.5} * Interval{standard_gravity}, 1000.0);
    EXPECT_NEAR(draught.middle(), afloat.middle(), 1e-9);
}

TEST(FloatValve, a_seat_without_area_holds_any_pressure) {
    FloatValve valve = constructed();
    valve.seat = Area::from_si(0);
    EXPECT_EQ(largest_shut_off_pressure(valve, density(1000), metres(3 * inch), 1).si().lo, std::numeric_limits<double>::infinity());
}

TEST(FloatValve, the_levers_own_weight_counts_against_closing) {
    FloatValve heavy = constructed();
    heavy.lever = Moment::from_si(0.3);
    EXPECT_NEAR(closing_moment(constructed(), density(1000), metres(0.1)).si().middle() - closing_moment(heavy, density(1000), metres(0.1)).si().middle(), 0.3, 1e-9);
    EXPECT_GT(shut_off_draught(heavy, density(1000), pascal(1e5), 1).si().lo, shut_off_draught(constructed(), density(1000), pascal(1e5), 1).si().hi);
}

/// diameter, mass, float arm, lever, seat, seat arm, then what each function adds.
FloatValve from(std::vector<Interval> const& x, FloatForm form) {
    return {form, metres(x[0]), metres(0.1), Mass::from_si(x[1]), metres(x[2]), Moment::from_si(x[3]), Area::from_si(x[4]), metres(x[5])};
}

TEST(FloatValve, ranges_enclose_every_point_in_them) {
    std::vector<Interval> const lever{{0.1, 0.2}, {0.2, 0.8}, {0.2, 0.5}, {0, 0.3}, {5e-5, 3e-4}, {0.02, 0.08}};
    auto with = [&](std::initializer_list<Interval> more) {
        auto all = lever;
        all.insert(all.end(), more);
        return all;
    };
    for (FloatForm form : {FloatForm::sphere, FloatForm::cylinder}) {
        expect_encloses([form](auto const& x) { return closing_moment(from(x, form), density(x[6]), metres(x[7])).si(); },
                        with({{950, 1000}, {0, 0.2}}), Width::tight, 15);
        expect_encloses([form](auto const& x) { return largest_shut_off_pressure(from(x, form), density(x[6]), metres(x[7]), x[8]).si(); },
                        with({{950, 1000}, {0, 0.2}, {1, 1.3}}), Width::tight, 8);
        expect_encloses([form](auto const& x) { return shut_off_draught(from(x, form), density(x[6]), pascal(x[7]), x[8]).si(); },
                        with({{950, 1000}, {0, 3e5}, {1, 1.3}}), Width::wider, 8);
        expect_encloses([form](auto const& x) { return shut_off_level(from(x, form), density(x[6]), pascal(x[7]), x[8], metres(1)).si(); },
                        with({{950, 1000}, {0, 3e5}, {1, 1.3}}), Width::wider, 8);
        expect_encloses([form](auto const& x) { return shut_off_reserve(from(x, form), density(x[6]), pascal(x[7]), x[8]).si(); },
                        with({{950, 1000}, {0, 3e5}, {1, 1.3}}), Width::wider, 8);
    }
}

}  // namespace
}  // namespace levelswap::physics
