#include "levelswap/base/interval.hpp"

#include <numbers>

namespace levelswap {

namespace {

// glibc's trigonometric functions are within one unit in the last place in the
// default rounding mode; two steps outward leave one in hand.
constexpr int library_steps = 2;

double cut(double x) { return std::clamp(x, -1.0, 1.0); }

Interval cut(Interval x) { return {cut(x.lo), cut(x.hi)}; }

}  // namespace

Interval sqrt(Interval x) {
    Interval const root{std::sqrt(std::max(0.0, x.lo)), std::sqrt(std::max(0.0, x.hi))};
    Interval const wide = widened(root, 1);
    return {root.lo == 0 ? 0 : wide.lo, wide.hi};
}

Interval sin(Interval x) {
    using std::numbers::pi;
    if (x.width() >= 2 * pi) return {-1, 1};
    double const a = std::sin(x.lo);
    double const b = std::sin(x.hi);
    Interval result = widened({std::min(a, b), std::max(a, b)}, library_steps);
    // Does the range hold a crest (π/2 + 2kπ) or a trough (−π/2 + 2kπ)? A range
    // that only just misses one is treated as holding it: wider, never narrower.
    auto holds = [&](double peak) {
        double const k = std::ceil((x.lo - peak) / (2 * pi) - 1e-12);
        return peak + 2 * pi * k <= x.hi + 1e-12;
    };
    if (holds(pi / 2)) result.hi = 1;
    if (holds(-pi / 2)) result.lo = -1;
    return cut(result);
}

Interval cos(Interval x) {
    using std::numbers::pi;
    if (x.width() >= 2 * pi) return {-1, 1};
    double const a = std::cos(x.lo);
    double const b = std::cos(x.hi);
    Interval result = widened({std::min(a, b), std::max(a, b)}, library_steps);
    auto holds = [&](double peak) {
        double const k = std::ceil((x.lo - peak) / (2 * pi) - 1e-12);
        return peak + 2 * pi * k <= x.hi + 1e-12;
    };
    if (holds(0)) result.hi = 1;
    if (holds(pi)) result.lo = -1;
    return cut(result);
}

Interval asin(Interval x) {
    Interval const c = cut(x);
    return widened({std::asin(c.lo), std::asin(c.hi)}, library_steps);
}

Interval acos(Interval x) {
    Interval const c = cut(x);
    return widened({std::acos(c.hi), std::acos(c.lo)}, library_steps);
}

Interval abs(Interval x) {
    if (x.lo >= 0) return x;
    if (x.hi <= 0) return -x;
    return {0, std::max(-x.lo, x.hi)};
}

Interval square(Interval x) {
    Interval const a = abs(x);
    return a * a;
}

}  // namespace levelswap
