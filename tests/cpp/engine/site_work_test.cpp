// Outside sources: none. What stood wrong before a swap and touches nothing that changes is the site's to mend
// (definition of site work), whether a rule on parts or one on levels finds it.
#include "demo_swap.hpp"

#include <gmock/gmock.h>

namespace levelswap {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::Field;
using testing::IsEmpty;
using testing::Not;

/// Its lowest permissible level may be raised above what the glass shows.
struct AtTheSite : DemoSwap {
    using DemoSwap::DemoSwap;
    void raise_lpwl() {
        Fact lpwl = *site.vessel.find(Attribute::lpwl);
        lpwl.lo = lpwl.hi = 300e6;  // 300 mm: above the foot of every glass of these sites
        site.vessel.set(Attribute::lpwl, lpwl);
    }
};

auto const too_low = Field(&Finding::rule, "levels.glass_over_lpwl");

TEST(SiteWork, a_glass_that_was_too_low_before_is_no_fault_of_the_part) {
    AtTheSite t("like_for_like");
    ASSERT_EQ(check(t.catalog, t.site, t.swap.put).outcome, Outcome::fits);
    t.raise_lpwl();
    auto const v = check(t.catalog, t.site, t.swap.put);
    EXPECT_EQ(v.before, Outcome::does_not_fit);
    EXPECT_EQ(v.outcome, Outcome::does_not_fit);
    EXPECT_THAT(v.findings, IsEmpty());
    EXPECT_THAT(v.site_work, Contains(AllOf(too_low, Field(&Finding::before, true))));
    EXPECT_EQ(v.once_site_work_is_done, Outcome::fits);
}

TEST(SiteWork, a_glass_that_the_swap_puts_in_too_low_is_a_fault_of_the_swap) {
    AtTheSite t("like_for_like");
    t.raise_lpwl();
    int const glass = t.site.find_position("primary.glass");
    ASSERT_GE(glass, 0);
    for (auto const& part : t.catalog.parts) {
        if (part.kind != Owner::gauge_glass || t.catalog.find(part.id) == t.site.positions[static_cast<std::size_t>(glass)].holds) continue;
        auto const v = check(t.catalog, t.site, {{"primary.glass", part.id}});
        EXPECT_THAT(v.site_work, Not(Contains(too_low))) << part.id;
        EXPECT_NE(v.outcome, Outcome::fits) << part.id;
    }
}

TEST(SiteWork, repairs_are_sought_with_the_fault_of_the_levels_set_aside) {
    AtTheSite t("snap_set_under_the_motor");
    auto const whole = alternatives(t.catalog, t.site, t.swap.put, 1);
    ASSERT_THAT(whole.keep, Not(IsEmpty()));
    t.raise_lpwl();
    auto const faulty = alternatives(t.catalog, t.site, t.swap.put, 1);
    ASSERT_EQ(faulty.keep.size(), whole.keep.size());
    for (std::size_t i = 0; i < whole.keep.size(); ++i) {
        EXPECT_EQ(faulty.keep[i].positions, whole.keep[i].positions);
        EXPECT_EQ(faulty.keep[i].tuples, whole.keep[i].tuples);
    }
}

}  // namespace
}  // namespace levelswap
