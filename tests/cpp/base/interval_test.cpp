#include "levelswap/base/interval.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

// The second source is long double arithmetic (64-bit mantissa on x86-64): a
// result computed there and rounded must lie inside the interval.

namespace levelswap {
namespace {

using std::numbers::pi;

bool encloses(Interval x, long double value) { return static_cast<long double>(x.lo) <= value && value <= static_cast<long double>(x.hi); }

TEST(interval, a_third_lies_strictly_between_two_neighbours) {
    Interval const third = Interval{1} / Interval{3};
    EXPECT_TRUE(encloses(third, 1.0L / 3.0L));
    EXPECT_LT(third.lo, third.hi);
    EXPECT_EQ(third.hi, std::nextafter(third.lo, 1.0));
}

TEST(interval, three_times_a_third_encloses_one) {
    EXPECT_TRUE((Interval{3} * (Interval{1} / Interval{3})).contains(1));
}

TEST(interval, sums_and_products_of_whole_nanometres_stay_points) {
    Interval const half_inch{12'700'000};
    Interval const sixty_fourth{396'875};
    EXPECT_EQ(half_inch + sixty_fourth, Interval{13'096'875});
    EXPECT_EQ(half_inch - Interval{32} * sixty_fourth, Interval{0});
}

TEST(interval, a_quotient_that_is_exact_stays_a_point) {
    EXPECT_EQ(Interval{7} / Interval{2}, Interval{3.5});
    EXPECT_EQ(Interval{-7} / Interval{2}, Interval{-3.5});
    EXPECT_EQ(Interval{7} / Interval{-2}, Interval{-3.5});
}

TEST(interval, a_sum_below_the_last_place_moves_one_step_outward) {
    Interval const sum = Interval{1} + Interval{1e-30};
    EXPECT_EQ(sum.lo, 1);
    EXPECT_EQ(sum.hi, std::nextafter(1.0, 2.0));
    Interval const difference = Interval{1} - Interval{1e-30};
    EXPECT_EQ(difference.lo, std::nextafter(1.0, 0.0));
    EXPECT_EQ(difference.hi, 1);
}

TEST(interval, a_difference_of_an_interval_with_itself_holds_zero_and_both_widths) {
    EXPECT_EQ((Interval{2, 5} - Interval{2, 5}), (Interval{-3, 3}));
}

TEST(interval, products_take_the_right_corners_for_every_sign) {
    EXPECT_EQ((Interval{-2, 3} * Interval{-5, 7}), (Interval{-15, 21}));
    EXPECT_EQ((Interval{-3, -2} * Interval{5, 7}), (Interval{-21, -10}));
    EXPECT_EQ((Interval{-3, -2} * Interval{-7, -5}), (Interval{10, 21}));
    EXPECT_EQ((Interval{-6, 4} / Interval{-2, -1}), (Interval{-4, 6}));
}

TEST(interval, random_sums_products_and_quotients_enclose_the_long_double_result) {
    std::mt19937_64 random(20240607);  // fixed seed: the same numbers on every run
    std::uniform_real_distribution<double> mantissa(-1, 1);
    std::uniform_int_distribution<int> exponent(-20, 20);
    for (int i = 0; i < 20'000; ++i) {
        double const x = std::ldexp(mantissa(random), exponent(random));
        double const y = std::ldexp(mantissa(random), exponent(random));
        if (y == 0) continue;
        ASSERT_TRUE(encloses(Interval{x} + Interval{y}, static_cast<long double>(x) + y)) << x << " + " << y;
        ASSERT_TRUE(encloses(Interval{x} * Interval{y}, static_cast<long double>(x) * y)) << x << " * " << y;
        Interval const quotient = Interval{x} / Interval{y};
        ASSERT_TRUE(encloses(quotient, static_cast<long double>(x) / y)) << x << " / " << y;
        ASSERT_LE(quotient.hi, std::nextafter(quotient.lo, HUGE_VAL)) << x << " / " << y;
    }
}

TEST(interval, random_boxes_enclose_every_sampled_product) {
    std::mt19937_64 random(7);
    std::uniform_real_distribution<double> number(-10, 10);
    for (int i = 0; i < 2'000; ++i) {
        auto const [a, b] = std::minmax({number(random), number(random)});
        auto const [c, d] = std::minmax({number(random), number(random)});
        Interval const product = Interval{a, b} * Interval{c, d};
        for (double s : {0.0, 0.3, 1.0}) {
            for (double t : {0.0, 0.6, 1.0}) {
                double const x = std::min(b, a + s * (b - a));
                double const y = std::min(d, c + t * (d - c));
                ASSERT_TRUE(encloses(product, static_cast<long double>(x) * y));
            }
        }
    }
}

TEST(interval, sine_over_a_crest_reaches_one_and_over_a_trough_minus_one) {
    EXPECT_EQ(sin(Interval{1, 2}).hi, 1);
    EXPECT_LT(sin(Interval{1, 1.5}).hi, 1);
    EXPECT_EQ(sin(Interval{-2, -1}).lo, -1);
    EXPECT_GT(sin(Interval{-1.5, -1}).lo, -1);
    EXPECT_EQ(sin(Interval{0, 7}), (Interval{-1, 1}));
    EXPECT_EQ(sin(Interval{7, 8.5}).hi, 1);  // the crest at 5 pi / 2
}

TEST(interval, cosine_over_a_crest_reaches_one_and_over_a_trough_minus_one) {
    EXPECT_EQ(cos(Interval{-0.5, 0.25}).hi, 1);
    EXPECT_LT(cos(Interval{0.1, 0.25}).hi, 1);
    EXPECT_EQ(cos(Interval{3, 3.5}).lo, -1);
    EXPECT_GT(cos(Interval{2.5, 3}).lo, -1);
    EXPECT_EQ(cos(Interval{-3.5, -3}).lo, -1);
}

TEST(interval, sine_of_a_sixth_turn_encloses_one_half) {
    EXPECT_TRUE(sin(Interval{pi / 6}).contains(0.5));
    EXPECT_TRUE(cos(Interval{pi / 3}).contains(0.5));
    EXPECT_TRUE(asin(Interval{0.5}).contains(pi / 6));
    EXPECT_TRUE(acos(Interval{0.5}).contains(pi / 3));
}

TEST(interval, random_sines_and_cosines_enclose_the_long_double_result) {
    std::mt19937_64 random(11);
    std::uniform_real_distribution<double> angle(-10, 10);
    std::uniform_real_distribution<double> width(0, 7);
    for (int i = 0; i < 5'000; ++i) {
        double const low = angle(random);
        Interval const x{low, low + width(random)};
        for (double share : {0.0, 0.25, 0.5, 0.9, 1.0}) {
            double const point = std::min(x.hi, x.lo + share * x.width());
            ASSERT_TRUE(encloses(sin(x), sinl(point))) << x.lo << ' ' << x.hi;
            ASSERT_TRUE(encloses(cos(x), cosl(point))) << x.lo << ' ' << x.hi;
        }
    }
}

TEST(interval, arc_functions_cut_their_argument) {
    EXPECT_TRUE(asin(Interval{0.9, 1.5}).contains(pi / 2));
    EXPECT_TRUE(acos(Interval{-1.5, -0.9}).contains(pi));
}

TEST(interval, square_root_encloses_and_cuts_the_negative_part) {
    EXPECT_TRUE(encloses(sqrt(Interval{2}), sqrtl(2.0L)));
    EXPECT_EQ(sqrt(Interval{-4, 4}).lo, 0);
    EXPECT_TRUE(sqrt(Interval{-4, 4}).contains(2));
}

TEST(interval, square_and_absolute_value_know_that_both_signs_are_the_same_number) {
    EXPECT_EQ(abs(Interval{-3, 2}), (Interval{0, 3}));
    EXPECT_EQ(abs(Interval{-3, -2}), (Interval{2, 3}));
    EXPECT_EQ(square(Interval{-3, 2}), (Interval{0, 9}));
}

TEST(interval, hull_minimum_and_maximum_work_bound_by_bound) {
    EXPECT_EQ(hull(Interval{1, 2}, Interval{5, 6}), (Interval{1, 6}));
    EXPECT_EQ(min(Interval{1, 7}, Interval{5, 6}), (Interval{1, 6}));
    EXPECT_EQ(max(Interval{1, 7}, Interval{5, 6}), (Interval{5, 7}));
}

}  // namespace
}  // namespace levelswap
