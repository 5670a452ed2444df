// A function for which the new part has no output left: what is said of it.
#include "demo_swap.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

namespace {

using namespace levelswap;

TEST(LeftOver, a_part_with_one_output_for_four_functions_is_told_so_first) {
    DemoSwap const d("one_contact_for_four_duties");
    auto const v = check(d.catalog, d.site, d.swap.put, Units::us);
    ASSERT_FALSE(v.findings.empty());
    auto const& first = v.findings.front();
    EXPECT_EQ(first.rule, "roles.output");
    EXPECT_EQ(first.subject, "primary low-water cut-off, pump control, low-level alarm and high-level alarm");
    EXPECT_EQ(first.required, "4");
    EXPECT_EQ(first.available, "1");
    EXPECT_NE(v.reason.find("number of outputs left is 1, needs 4"), std::string::npos) << v.reason;
}

TEST(LeftOver, what_still_works_does_not_name_one_output_twice) {
    DemoSwap const d("one_contact_for_four_duties");
    auto const v = check(d.catalog, d.site, d.swap.put, Units::us);
    std::set<std::string> outputs;
    for (auto const& line : v.works) EXPECT_TRUE(outputs.insert(line.substr(line.find(" on "))).second) << line;
    EXPECT_FALSE(outputs.empty());
}

/// The bell contact of the new set opens as the water falls: the pump and the low alarm then want the same other one.
TEST(LeftOver, two_functions_that_ask_one_form_lack_an_output_of_it) {
    DemoSwap d("one_contact_for_four_duties");
    auto& set = d.catalog.parts[static_cast<std::size_t>(d.catalog.find("twin stage set"))];
    auto of = [&](std::string const& name) -> FactTable& {
        return std::find_if(set.outputs.begin(), set.outputs.end(), [&](auto const& o) { return o.name == name; })->facts;
    };
    of("bell").set(Attribute::acts, *of("lower").find(Attribute::acts));
    auto const v = check(d.catalog, d.site, {{"primary.switch_set", "twin stage set"}}, Units::us);
    ASSERT_FALSE(v.findings.empty());
    auto const& first = v.findings.front();
    EXPECT_EQ(first.subject, "pump control and low-level alarm");
    EXPECT_EQ(first.quantity, "number of outputs of the right form left");
    EXPECT_EQ(first.required, "2");
    EXPECT_EQ(first.available, "1");
}

}  // namespace
