#pragma once

#include "levelswap/base/interval.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <functional>
#include <limits>
#include <random>
#include <vector>

namespace levelswap::physics {

/// A function of several ranges, in SI units.
using RangeFunction = std::function<Interval(std::vector<Interval> const&)>;

enum class Width { tight, wider };

inline double nearly(double x) { return 1e-9 * std::abs(x) + 1e-15; }

/// Takes random boxes inside `domain`; every point tried in a box, its corners
/// among them, must have a value inside the box's enclosure. `tight` asks
/// besides that the corners reach both bounds, to nine figures.
inline void expect_encloses(RangeFunction const& f, std::vector<Interval> const& domain, Width width, int boxes = 60) {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> share(0, 1);
    auto inside = [&](Interval x) { return x.lo + (x.hi - x.lo) * share(random); };
    for (int i = 0; i < boxes; ++i) {
        std::vector<Interval> box;
        for (Interval const& whole : domain) {
            double const one = inside(whole), other = share(random) < 0.2 ? one : inside(whole);
            box.emplace_back(std::min(one, other), std::max(one, other));
        }
        Interval const all = f(box);
        Interval seen{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
        std::size_t const corners = std::size_t{1} << box.size();
        for (std::size_t k = 0; k < corners + 40; ++k) {
            std::vector<Interval> point;
            for (std::size_t n = 0; n < box.size(); ++n)
                point.emplace_back(k >= corners ? inside(box[n]) : (k >> n) & 1 ? box[n].hi : box[n].lo);
            Interval const one = f(point);
            ASSERT_LE(all.lo, one.hi) << "box " << i << ", point " << k;
            ASSERT_GE(all.hi, one.lo) << "box " << i << ", point " << k;
            seen = hull(seen, one);
        }
        if (width == Width::tight) {
            ASSERT_GE(all.lo, seen.lo - nearly(seen.lo)) << "box " << i;
            ASSERT_LE(all.hi, seen.hi + nearly(seen.hi)) << "box " << i;
        }
    }
}

}  // namespace levelswap::physics
