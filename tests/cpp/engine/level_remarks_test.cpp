// A level stated against the casting mark counts; the answer warns where geometry puts it elsewhere. Half an inch between
// the two: common practice, no source. The demo is invented.
#include "demo_swap.hpp"

#include <gmock/gmock.h>

namespace levelswap {
namespace {

using namespace testing;

std::vector<std::string> warnings(DemoSwap const& t) {
    std::vector<std::string> found;
    for (auto const& r : check(t.catalog, t.site, t.swap.put).remarks)
        if (r.find("geometry puts it at") != std::string::npos) found.push_back(r);
    return found;
}

TEST(StatedLevels, a_level_stated_far_from_where_geometry_puts_it_is_told) {
    DemoSwap t("like_for_like");
    EXPECT_THAT(warnings(t), IsEmpty());
    auto& head = t.of_part("quay head");
    Fact mark = *head.find(Attribute::mark);
    mark.lo = mark.hi = 40e6;  // 40 mm above the centre of the face, where the catalogue has 0
    head.set(Attribute::mark, mark);
    // The stage set's burner contact: -50 mm +/- 3 mm from the mark.
    EXPECT_THAT(warnings(t), Contains(AllOf(HasSubstr("lower"), HasSubstr("falling"), HasSubstr("stated -0.5118 in to -0.2756 in above the face centre"))));
}

void set_point(FactTable& owner, Attribute a, double nm) {
    Fact f = *owner.find(a);
    f.lo = f.hi = nm;
    owner.set(a, f);
}

TEST(LevelsOutOfSight, a_level_above_what_the_glass_shows_is_told) {
    DemoSwap t("like_for_like");
    auto const above = HasSubstr("out of sight there");
    EXPECT_THAT(check(t.catalog, t.site, t.swap.put).remarks, Not(Contains(above)));
    for (auto& part : t.catalog.parts)
        if (part.kind == Owner::gauge_glass && part.facts.find(Attribute::visible_high)) set_point(part.facts, Attribute::visible_high, 60e6);
    EXPECT_THAT(check(t.catalog, t.site, t.swap.put).remarks, Contains(above));
}

TEST(LevelsOutOfSight, a_normal_level_outside_the_band_of_the_pump_is_told) {
    DemoSwap t("like_for_like");
    auto const outside = HasSubstr("lies outside the band in which the pump holds the water");
    EXPECT_THAT(check(t.catalog, t.site, t.swap.put).remarks, Not(Contains(outside)));
    set_point(t.site.vessel, Attribute::nwl, 500e6);
    EXPECT_THAT(check(t.catalog, t.site, t.swap.put).remarks, Contains(outside));
}

}  // namespace
}  // namespace levelswap
