// The windows of settings, as the answer shows them: set pressures of reducing valves, tips of rods. The demo is invented;
// the ends are worked out below from its figures.
#include "demo_swap.hpp"

#include <gmock/gmock.h>

namespace levelswap {
namespace {

using namespace testing;

Verdict answer_to(std::string const& name) {
    static Catalog const catalog = read_catalog(demo);
    Swap const swap = read_swap(demo + "/swaps/" + name + ".yaml");
    return check(catalog, read_site(demo + "/swaps/" + swap.site_file, catalog), swap.put, Units::us);
}

TEST(SetPressures, the_answer_shows_the_window_and_where_it_is_read) {
    // 10 psi is the lowest it can be set to. Water of 970.4 kg/m3 (180 degF) on three quarters of a ball of 5.5 in, less
    // 350 g, on 10 in, less .12 N*m: 1.596 N*m; / (1.15 x 126.7 mm2 x 1.25 in) = 50.05 psi, less 3 psi of lock-up.
    EXPECT_THAT(answer_to("regulator_before_the_float_valve").settings,
                Contains(Pair(AllOf(StartsWith("set pressure of the pilot house reducing valve"), EndsWith("read beside it")),
                              "10 psi(g) to 47.05 psi(g)")));
}

TEST(SetPressures, an_empty_window_is_no_setting) {
    EXPECT_THAT(answer_to("regulator_window_empty").settings, Not(Contains(Pair(StartsWith("set pressure"), _))));
}

TEST(RodSettings, the_window_of_a_rod_ends_where_the_longest_rod_does) {
    // The holder at 30 in +/- .1 in takes 26 in: surely down to 30.1 - 26 = 4.1 in. The low rod may end at 3 in otherwise.
    auto const v = answer_to("rods_cut_anew");
    EXPECT_EQ(v.outcome, Outcome::fits);
    EXPECT_THAT(v.settings, Contains(Pair("tip of the low rod at primary", StartsWith("4.1 in to "))));
}

TEST(RodSettings, the_window_keeps_the_clearance_of_the_far_side) {
    // A tank floor 25.9 in below the holder leaves 25.9 in less 3 mm (pack practice): down to 30.1 - 25.782 = 4.318 in.
    DemoSwap t("rods_cut_anew");
    auto& station = *std::find_if(t.site.stations.begin(), t.site.stations.end(), [](Station const& s) { return s.name == "primary"; });
    Fact depth = *station.facts.find(Attribute::room_in);
    depth.lo = depth.hi = 25.9 * 25.4e6;
    station.facts.set(Attribute::room_in, depth);
    EXPECT_THAT(check(t.catalog, t.site, t.swap.put, Units::us).settings, Contains(Pair("tip of the low rod at primary", StartsWith("4.318 in to "))));
}

}  // namespace
}  // namespace levelswap
