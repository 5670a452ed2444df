#pragma once

#include "levelswap/base/interval.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>

namespace levelswap::physics {

inline constexpr double infinite = std::numeric_limits<double>::infinity();

/// The hull of f over the corners of a box. It encloses f over the whole box
/// when f is monotone along each axis, in whichever direction and even if the
/// direction depends on the other axes: move any point along one axis at a
/// time, each time to the end where f is no greater (or no smaller). Where a
/// variable occurs twice this is narrower than the natural evaluation.
template <std::size_t N, class F>
Interval over_corners(std::array<Interval, N> const& box, F f) {
    Interval all{infinite, -infinite};
    for (std::size_t corner = 0; corner < (std::size_t{1} << N); ++corner) {
        std::array<Interval, N> at = box;
        bool seen = false;
        for (std::size_t i = 0; i < N; ++i) {
            bool const upper = (corner >> i) & 1;
            seen = seen || (upper && box[i].is_point());
            at[i] = upper ? box[i].hi : box[i].lo;
        }
        if (!seen) all = hull(all, f(at));
    }
    return all;
}

/// Natural logarithm and exponential; glibc's are within one unit in the last place.
inline Interval log(Interval x) { return widened({std::log(x.lo), std::log(x.hi)}); }
inline Interval exp(Interval x) { return widened({std::exp(x.lo), std::exp(x.hi)}); }

/// x / y for x ≥ 0, with "unlimited" where y is or may be zero or less.
inline Interval over_positive(Interval x, Interval y) {
    if (y.hi <= 0) return {infinite, infinite};
    Interval const low = Interval{x.lo} / Interval{y.hi};
    return {low.lo, y.lo <= 0 ? infinite : (Interval{x.hi} / Interval{y.lo}).hi};
}

/// Square root that stays exact where it is, so at 0 and at 1: the sign of r² − x
/// says on which side the rounded root r lies. Negative parts are cut off.
inline Interval exact_root(Interval x) {
    auto bound = [](double of, bool upper) {
        if (of <= 0) return 0.0;
        double const root = std::sqrt(of), rest = std::fma(root, root, -of);
        if (upper) return rest < 0 ? rounding::step_up(root) : root;
        return rest > 0 ? rounding::step_down(root) : root;
    };
    return {bound(x.lo, false), bound(x.hi, true)};
}

/// π lies between this number and the next one.
inline Interval const pi_enclosed{0x1.921fb54442d18p+1, 0x1.921fb54442d19p+1};

}  // namespace levelswap::physics
