#pragma once

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>

namespace levelswap {

/// A closed range of real numbers that encloses the true value.
///
/// Sums and products that are exact in binary stay exact: the rounding error is
/// recovered by an error-free transformation, and a bound moves outward by one
/// step only when there is one. So a zero margin between whole nanometres is
/// zero, and everything else is enclosed. Empty intervals are never made.
struct Interval {
    double lo = 0.0;
    double hi = 0.0;

    constexpr Interval() = default;
    constexpr Interval(double point) : lo(point), hi(point) {}  // NOLINT: a number is a point
    constexpr Interval(double low, double high) : lo(low), hi(high) {}

    [[nodiscard]] constexpr bool is_point() const { return lo == hi; }
    [[nodiscard]] constexpr double width() const { return hi - lo; }
    [[nodiscard]] constexpr double middle() const { return lo + 0.5 * (hi - lo); }
    [[nodiscard]] constexpr bool contains(double x) const { return lo <= x && x <= hi; }
    friend constexpr bool operator==(Interval const&, Interval const&) = default;
};

namespace rounding {

/// The neighbours of a number, as std::nextafter has them; written out because they are in every operation.
inline double step_up(double x) {
    if (!(x < std::numeric_limits<double>::infinity())) return x;
    if (x == 0) return std::numeric_limits<double>::denorm_min();
    auto const bits = std::bit_cast<std::int64_t>(x);
    return std::bit_cast<double>(x > 0 ? bits + 1 : bits - 1);
}
inline double step_down(double x) { return -step_up(-x); }

/// The error of the rounded sum s = x + y (Knuth's two-sum): exactly x + y − s.
inline double sum_error(double x, double y, double s) {
    double const yy = s - x;
    return (x - (s - yy)) + (y - yy);
}
/// The error of the rounded product p = x·y (Dekker 1971, with Veltkamp's split): exactly x·y − p, without needing a
/// fused multiply-add of the machine. Not finite where a factor is not, or is beyond 2^996: then nothing is recovered.
inline double product_error(double x, double y, double p) {
    constexpr double splitter = 134217729;  // 2^27 + 1
    double const cx = splitter * x, cy = splitter * y;
    double const xh = cx - (cx - x), yh = cy - (cy - y);
    double const xl = x - xh, yl = y - yh;
    return ((xh * yh - p) + xh * yl + xl * yh) + xl * yl;
}

inline double add_down(double x, double y) {
    double const s = x + y;
    return sum_error(x, y, s) < 0 ? step_down(s) : s;
}
inline double add_up(double x, double y) {
    double const s = x + y;
    return sum_error(x, y, s) > 0 ? step_up(s) : s;
}
inline double multiply_down(double x, double y) {
    double const p = x * y;
    return product_error(x, y, p) < 0 ? step_down(p) : p;
}
inline double multiply_up(double x, double y) {
    double const p = x * y;
    return product_error(x, y, p) > 0 ? step_up(p) : p;
}
/// x − q·y: the difference to the rounded product is exact, and what is left of the product has the last word.
inline double quotient_rest(double x, double y, double q) {
    double const p = q * y;
    return (x - p) - product_error(q, y, p);
}
inline double divide_down(double x, double y) {
    double const q = x / y;
    double const rest = quotient_rest(x, y, q);
    return (y > 0 ? rest < 0 : rest > 0) ? step_down(q) : q;
}
inline double divide_up(double x, double y) {
    double const q = x / y;
    double const rest = quotient_rest(x, y, q);
    return (y > 0 ? rest > 0 : rest < 0) ? step_up(q) : q;
}

}  // namespace rounding

inline Interval operator-(Interval x) { return {-x.hi, -x.lo}; }

inline Interval operator+(Interval x, Interval y) {
    return {rounding::add_down(x.lo, y.lo), rounding::add_up(x.hi, y.hi)};
}

inline Interval operator-(Interval x, Interval y) { return x + (-y); }

inline Interval operator*(Interval x, Interval y) {
    using namespace rounding;
    if (x.lo >= 0 && y.lo >= 0) return {multiply_down(x.lo, y.lo), multiply_up(x.hi, y.hi)};
    if (x.lo >= 0) std::swap(x, y);
    if (y.lo >= 0) return {multiply_down(x.lo, x.lo < 0 ? y.hi : y.lo), multiply_up(x.hi, x.hi < 0 ? y.lo : y.hi)};
    return {std::min({multiply_down(x.lo, y.lo), multiply_down(x.lo, y.hi), multiply_down(x.hi, y.lo),
                      multiply_down(x.hi, y.hi)}),
            std::max({multiply_up(x.lo, y.lo), multiply_up(x.lo, y.hi), multiply_up(x.hi, y.lo),
                      multiply_up(x.hi, y.hi)})};
}

/// The divisor must not contain zero: callers exclude it by the attribute's domain.
inline Interval operator/(Interval x, Interval y) {
    using namespace rounding;
    if (y.lo > 0) return {divide_down(x.lo, x.lo < 0 ? y.lo : y.hi), divide_up(x.hi, x.hi < 0 ? y.hi : y.lo)};
    return {std::min({divide_down(x.lo, y.lo), divide_down(x.lo, y.hi), divide_down(x.hi, y.lo),
                      divide_down(x.hi, y.hi)}),
            std::max({divide_up(x.lo, y.lo), divide_up(x.lo, y.hi), divide_up(x.hi, y.lo),
                      divide_up(x.hi, y.hi)})};
}

inline Interval min(Interval x, Interval y) { return {std::min(x.lo, y.lo), std::min(x.hi, y.hi)}; }
inline Interval max(Interval x, Interval y) { return {std::max(x.lo, y.lo), std::max(x.hi, y.hi)}; }
inline Interval hull(Interval x, Interval y) { return {std::min(x.lo, y.lo), std::max(x.hi, y.hi)}; }

/// Moves both bounds outward by `steps` representable numbers: for library
/// functions whose result is good to a stated number of last places.
inline Interval widened(Interval x, int steps = 2) {
    for (int i = 0; i < steps; ++i) x = {rounding::step_down(x.lo), rounding::step_up(x.hi)};
    return x;
}

Interval sqrt(Interval x);    ///< negative part cut off at 0
Interval sin(Interval x);     ///< x in radians
Interval cos(Interval x);     ///< x in radians
Interval asin(Interval x);    ///< argument cut to [−1, 1]
Interval acos(Interval x);    ///< argument cut to [−1, 1]
Interval abs(Interval x);
Interval square(Interval x);

}  // namespace levelswap
