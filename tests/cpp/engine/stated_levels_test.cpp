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

}  // namespace
}  // namespace levelswap
