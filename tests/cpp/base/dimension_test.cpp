#include "levelswap/base/dimension.hpp"

#include <gtest/gtest.h>

#include <set>
#include <string>

namespace levelswap {
namespace {

TEST(dimension, rows_stand_in_the_order_of_the_enumeration) {
    for (int i = 0; i < dimension_count; ++i) EXPECT_EQ(static_cast<int>(row_of(static_cast<Dimension>(i)).dimension), i);
}

TEST(dimension, the_quantum_of_the_table_is_the_one_that_conversions_use) {
    for (int i = 0; i < dimension_count; ++i) {
        auto const d = static_cast<Dimension>(i);
        EXPECT_EQ(row_of(d).quantum, 1 / detail::quanta_per_si(d)) << row_of(d).name;
    }
}

TEST(dimension, names_are_unique) {
    std::set<std::string> names;
    for (int i = 0; i < dimension_count; ++i) EXPECT_TRUE(names.emplace(row_of(static_cast<Dimension>(i)).name).second) << i;
}

TEST(dimension, a_value_that_is_whole_in_quanta_converts_without_widening) {
    EXPECT_EQ(Length::from_si(Interval{0.5}).quanta, Interval{5e8});
    EXPECT_EQ(GaugePressure::from_si(Interval{100'000}).quanta, Interval{1e5});
    EXPECT_EQ(Length{Interval{5e8}}.si(), Interval{0.5});
}

TEST(dimension, a_value_that_is_not_whole_is_enclosed) {
    Interval const third = Length{Interval{1}}.si();
    EXPECT_LT(third.lo, third.hi);
    EXPECT_LE(static_cast<long double>(third.lo), 1e-9L);
    EXPECT_GE(static_cast<long double>(third.hi), 1e-9L);
}

TEST(dimension, gauge_pressure_and_atmosphere_make_absolute_pressure) {
    // Standard atmosphere 101325 Pa (10th General Conference on Weights and Measures, 1954).
    AbsolutePressure const absolute_pressure = absolute(GaugePressure{{1'000'000}}, AbsolutePressure{{101'325}});
    EXPECT_EQ(absolute_pressure.quanta, Interval{1'101'325});
}

TEST(dimension, lengths_add_up_exactly) {
    Length const sixty_fourth{{396'875}};
    Length sum{};
    for (int i = 0; i < 64; ++i) sum = sum + sixty_fourth;
    EXPECT_EQ(sum.quanta, Interval{25'400'000});  // 1 in = 25.4 mm, yard and pound agreement 1959
    EXPECT_EQ((sum - Interval{64} * sixty_fourth).quanta, Interval{0});
    EXPECT_EQ((-sum).quanta, Interval{-25'400'000});
}

}  // namespace
}  // namespace levelswap
