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

/// The relay that was put in may be left out: what is taken out is no repair, but how it was is worth a word.
TEST(LeftOver, where_nothing_works_it_is_said_that_it_fits_as_it_was) {
    DemoSwap const d("one_relay_for_both_cut_offs");
    auto const a = alternatives(d.catalog, d.site, d.swap.put, 3, false, Units::us, WhichRepairs::both);
    ASSERT_TRUE(a.keep.empty() && a.release.empty());
    EXPECT_TRUE(a.fits_as_it_was);
    auto const text = render_text(a);
    EXPECT_NE(text.find("As it was before the swap, it fits."), std::string::npos) << text;
    for (auto const& row : a.ruled_out)   // in words, not by the id of a rule
        EXPECT_TRUE(row.nearest_miss.find(", not so: ") != std::string::npos || row.nearest_miss.find(", not known: ") != std::string::npos) << row.nearest_miss;
    DemoSwap const wrong("wrong_before_the_swap");
    EXPECT_FALSE(alternatives(wrong.catalog, wrong.site, wrong.swap.put, 3, false, Units::us, WhichRepairs::both).fits_as_it_was);
}

/// A second control in a spare hole, that no function is connected to: it fits, and nobody must think that it guards.
TEST(LeftOver, a_part_that_works_nothing_is_told_so) {
    DemoSwap const d("lockout_in_the_hostel");
    auto const v = check(d.catalog, d.site, {{"side.float_control", "hostel control"}}, Units::us);
    ASSERT_EQ(v.outcome, Outcome::fits);
    EXPECT_NE(v.reason.find("hostel control at side.float_control works nothing"), std::string::npos) << v.reason;
    EXPECT_TRUE(check(d.catalog, d.site, d.swap.put, Units::us).reason.empty());
}

TEST(LeftOver, steam_without_a_place_for_a_glass_asks_for_the_glass_alone) {
    DemoSwap d("lockout_in_the_hostel");
    Fact steam = *d.site.vessel.find(Attribute::vessel_service);
    steam.may = std::uint64_t{1} << find_choice(row_of(Attribute::vessel_service).choices, "steam");
    d.site.vessel.set(Attribute::vessel_service, steam);
    auto const v = check(d.catalog, d.site, {{"primary.probe_holder", "twin single rod holder"}}, Units::us);
    auto const asks = [&](std::string_view fact) {
        return std::count_if(v.questions.begin(), v.questions.end(), [&](Question const& q) { return q.rule == "levels.cut_off_visible" && q.fact.starts_with(fact); });
    };
    EXPECT_EQ(asks("gauge glass (site)"), 1);
    EXPECT_EQ(asks(""), 1);
}

}  // namespace
