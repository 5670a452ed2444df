// The demo is invented: these tests hold the sheet against the verdict and the walk.
#include "engine/json_writer.hpp"
#include "engine/level_words.hpp"
#include "engine/mountings.hpp"
#include "levelswap/engine/sheet.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

namespace levelswap {
namespace {

namespace fs = std::filesystem;
using Put = std::vector<std::pair<std::string, std::string>>;
using ::testing::HasSubstr;

fs::path demo() { return fs::path(LEVELSWAP_SOURCE_DIR) / "demo_catalog"; }

Catalog const& catalog() {
    static Catalog const c = read_catalog(demo().string());
    return c;
}

Site site_of(std::string const& name) { return read_site((demo() / "sites" / (name + ".yaml")).string(), catalog()); }

/// The power house has two columns that may be moved; its own parts fit as they stand.
TEST(Sheet, a_mounting_that_fits_is_left_as_it_is_and_its_window_is_told) {
    auto const s = sheet(catalog(), site_of("power_house"), {});
    ASSERT_EQ(s.outcome, Outcome::fits);
    ASSERT_EQ(s.mountings.size(), 2u);
    for (auto const& m : s.mountings) {
        EXPECT_EQ(m.action, "leave it as it is") << m.station;
        EXPECT_THAT(m.window, HasSubstr(" to ")) << m.station;
    }
}

TEST(Sheet, a_column_that_has_to_move_gets_a_height_at_which_every_requirement_holds) {
    auto site = site_of("power_house");
    auto& secondary = *std::find_if(site.stations.begin(), site.stations.end(),
                                    [](Station const& s) { return s.name == "secondary"; });
    Fact low = *secondary.facts.find(Attribute::mounting);
    low.lo = low.hi = 63.5e6;   // 2.5 in: the secondary acts below the glass
    secondary.facts.set(Attribute::mounting, low);
    auto const s = sheet(catalog(), site, {});
    ASSERT_EQ(s.outcome, Outcome::fits);
    EXPECT_THAT(s.mountings.back().action, HasSubstr("move it to"));
    EXPECT_TRUE(s.walk.faults.empty());

    auto const settled = settle_mountings(Case(catalog(), site, {}));
    ASSERT_TRUE(settled.mountings.back().set_to);
    EXPECT_TRUE(settled.mountings.back().window->contains(*settled.mountings.back().set_to));
    EXPECT_EQ(Judge(catalog(), settled.site).truth(installed(settled.site)), Truth::holds);
}

TEST(Sheet, what_acts_otherwise_than_before_is_listed_with_both_values) {
    auto const site = site_of("coal_wharf");
    Put const put = {{"primary.head", "quay head"}, {"primary.switch_set", "tide slide set"}, {"primary.column", "deep column"}};
    auto const s = sheet(catalog(), site, put);
    EXPECT_EQ(s.differences, (std::vector<std::string>{"modulating feed: rising at 8.09 in, was 6.23 in"}));
    EXPECT_EQ(sheet(catalog(), site, {}).differences,
              (std::vector<std::string>{"nothing: every level and every reset is as it was"}));
}

TEST(Sheet, every_function_of_the_site_has_a_level_a_circuit_and_a_state) {
    for (auto const* name : {"north_quay", "power_house", "coal_wharf"}) {
        auto const site = site_of(name);
        auto const s = sheet(catalog(), site, {});
        EXPECT_EQ(s.levels.size(), site.functions.size()) << name;
        EXPECT_EQ(s.wiring.size(), site.functions.size()) << name;
        EXPECT_EQ(s.states.size(), site.functions.size()) << name;
    }
}

TEST(Sheet, a_motor_behind_a_contactor_is_told_with_its_overload) {
    auto const s = sheet(catalog(), site_of("north_quay"), {});
    auto const pump = std::find_if(s.wiring.begin(), s.wiring.end(), [](auto const& w) { return w.circuit == "pump"; });
    ASSERT_NE(pump, s.wiring.end());
    EXPECT_THAT(pump->load, HasSubstr("coil of winch contactor (72 VA to 88 VA inrush"));
    EXPECT_THAT(pump->load, HasSubstr("the contactor switches a motor, 0.5 hp, 230 V, number of phases 3"));
    EXPECT_THAT(pump->protection, HasSubstr("motor overload in winch contactor"));
}

TEST(LevelWords, ranges_are_rounded_outward_and_points_are_not_widened) {
    LevelWords const us(Units::us), si(Units::si);
    EXPECT_EQ(us.range({25.5e6, 50.7e6}), "1 in to 2 in");       // 1.0039 in and 1.9961 in
    EXPECT_EQ(us.range({25.4e6, 50.8e6}), "1 in to 2 in");       // exactly
    EXPECT_EQ(us.range({25.3e6, 50.9e6}), "0.99 in to 2.01 in");
    EXPECT_EQ(si.range({10.2e6, 19.7e6}), "10 mm to 20 mm");
    EXPECT_EQ(si.range(Interval{177.8e6}), "178 mm");
    EXPECT_EQ(us.level(0, {-5e9, 5e9}), "not known");
}

/// RFC 8259 section 7 gives the escapes.
TEST(JsonWriter, quotes_backslashes_and_control_characters_are_escaped) {
    JsonWriter json;
    json.text("a \"b\" \\ \n\t\x01 é");
    EXPECT_EQ(json.take(), "\"a \\\"b\\\" \\\\ \\n\\t\\u0001 é\"");
    JsonWriter numbers;
    numbers.list(std::vector<double>{0.1234567, -0.0, 2.0}, [&](double x) { numbers.number(x); });
    EXPECT_EQ(numbers.take(), "[0.123457,0,2]");
}

}  // namespace
}  // namespace levelswap
