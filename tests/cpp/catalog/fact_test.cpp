// Outside sources: the oracle is linear interpolation at sampled temperatures, written from the
// definition (ASME B16.5, 2.3: linear interpolation between listed temperatures; clause from memory).
// The figures of the curves are invented.
#include "levelswap/catalog/fact.hpp"

#include <gtest/gtest.h>

#include <random>

namespace levelswap {
namespace {

Curve const hump{{{100, 10}, {200, 30}, {300, 5}, {400, 20}}};

long double oracle(Curve const& curve, long double t) {
    auto const& p = curve.points;
    if (t > p.back().first) return 0;
    if (t <= p.front().first) return p.front().second;
    std::size_t i = 1;
    while (t > p[i].first) ++i;
    return p[i - 1].second + (static_cast<long double>(p[i].second) - p[i - 1].second) * (t - p[i - 1].first) /
                                 (static_cast<long double>(p[i].first) - p[i - 1].first);
}

TEST(curve, a_listed_temperature_has_exactly_its_listed_rating) {
    for (auto const& [t, p] : hump.points) EXPECT_EQ(hump.at(t), Interval(p));
}

TEST(curve, below_the_coldest_point_the_rating_of_the_coldest_point_holds) {
    EXPECT_EQ(hump.at(-50), Interval(10));
    EXPECT_EQ(hump.at({-50, 100}), Interval(10));
}

TEST(curve, above_the_hottest_point_there_is_no_rating) {
    EXPECT_EQ(hump.at(400), Interval(20));
    EXPECT_EQ(hump.at(std::nextafter(400, 500)), Interval(0));
    EXPECT_EQ(hump.at({350, 401}), Interval(0, 20));
}

TEST(curve, an_interval_over_a_hump_reaches_its_top_and_its_foot) {
    EXPECT_EQ(hump.at({150, 350}), Interval(5, 30));
    EXPECT_EQ(hump.at({150, 250}), Interval(17.5, 30));
}

TEST(curve, a_single_point_is_a_rating_up_to_its_temperature) {
    Curve const single{{{200, 30}}};
    EXPECT_EQ(single.at({0, 200}), Interval(30));
    EXPECT_EQ(single.at({201, 300}), Interval(0));
}

TEST(curve, the_enclosure_holds_every_sample_and_is_reached_by_some) {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> step(0.1, 50), value(0, 1e6);
    for (int round = 0; round < 200; ++round) {
        Curve curve;
        double t = step(random);
        for (int i = 0; i < 5; ++i) curve.points.emplace_back(t += step(random), value(random));
        double const lo = step(random) * 5, hi = lo + step(random);
        Interval const found = curve.at({lo, hi});
        long double least = 1e9, most = -1;
        for (int i = 0; i <= 2000; ++i) {
            long double const sample = oracle(curve, lo + (static_cast<long double>(hi) - lo) * i / 2000);
            EXPECT_LE(found.lo, sample);
            EXPECT_GE(found.hi, sample);
            least = std::min(least, sample);
            most = std::max(most, sample);
        }
        // The steepest line rises 1e6 in 0.1; between two samples it moves by hi − lo over 2000 at most.
        long double const slack = 1e6L / 0.1L * (hi - lo) / 2000;
        EXPECT_LE(least - found.lo, slack);
        EXPECT_LE(found.hi - most, slack);
    }
}

TEST(unknown_fact, a_quantity_spans_its_domain_in_quanta) {
    Fact const fact = unknown_fact(Attribute::flange_circle);  // .02 m to 1 m, in nm
    EXPECT_EQ(fact.nature, Fact::Nature::unknown);
    EXPECT_EQ(fact.lo, 2e7);
    EXPECT_EQ(fact.hi, 1e9);
}

TEST(unknown_fact, a_choice_may_be_any_word_and_a_set_need_hold_none) {
    EXPECT_EQ(unknown_fact(Attribute::flange_face).may, 0b1111u);
    Fact const services = unknown_fact(Attribute::service);
    EXPECT_EQ(services.must, 0u);
    EXPECT_EQ(services.may, 0b1111u);
    EXPECT_EQ(unknown_fact(Attribute::rating).curve, nullptr);
}

TEST(fact_table, every_attribute_of_every_owner_starts_unknown) {
    for (int o = 0; o < owner_count; ++o) {
        FactTable const table(static_cast<Owner>(o));
        EXPECT_EQ(static_cast<int>(table.all().size()), slot_count(static_cast<Owner>(o)));
        for (AttributeRow const& row : attributes()) {
            Fact const* fact = table.find(row.id);
            ASSERT_EQ(fact != nullptr, belongs(row, static_cast<Owner>(o))) << row.name;
            if (fact != nullptr) { EXPECT_TRUE(fact->same_for_rules(unknown_fact(row.id))) << row.name; }
        }
    }
}

TEST(fact_table, setting_an_attribute_of_another_owner_is_a_usage_error) {
    FactTable table(Owner::float_);
    EXPECT_THROW(table.set(Attribute::bore, unknown_fact(Attribute::bore)), UsageError);
}

TEST(same_for_rules, origin_does_not_count_and_everything_else_does) {
    Fact x = unknown_fact(Attribute::bore);
    Fact y = x;
    y.origin = std::make_shared<Origin const>(Origin{{"a.yaml", 1, 1, 1}, "6 in", "measured", true});
    EXPECT_TRUE(x.same_for_rules(y));
    x.curve = std::make_shared<Curve const>(hump);
    EXPECT_FALSE(x.same_for_rules(y));
    y.curve = std::make_shared<Curve const>(hump);
    EXPECT_TRUE(x.same_for_rules(y));
    for (int change = 0; change < 6; ++change) {
        Fact z = y;
        if (change == 0) z.nature = Fact::Nature::none;
        if (change == 1) z.lo += 1;
        if (change == 2) z.hi -= 1;
        if (change == 3) z.must = 1;
        if (change == 4) z.may = 1;
        if (change == 5) z.reference = "ball float";
        EXPECT_FALSE(z.same_for_rules(y)) << change;
    }
}

}  // namespace
}  // namespace levelswap
