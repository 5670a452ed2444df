#include "swing_motion.hpp"

#include <cmath>
#include <numbers>

namespace levelswap::physics {

namespace {

using std::numbers::pi;
constexpr double infinite = std::numeric_limits<double>::infinity();

// Interval steps without rounding; SwingMotion widens once at the end.
Interval sum(Interval x, Interval y) { return {x.lo + y.lo, x.hi + y.hi}; }
Interval difference(Interval x, Interval y) { return {x.lo - y.hi, x.hi - y.lo}; }
Interval product(Interval x, Interval y) {
    if (x.is_point() && y.is_point()) return x.lo * y.lo;
    double const a = x.lo * y.lo, b = x.lo * y.hi, c = x.hi * y.lo, d = x.hi * y.hi;
    return {std::min(std::min(a, b), std::min(c, d)), std::max(std::max(a, b), std::max(c, d))};
}
Interval magnitude(Interval x) {
    if (x.lo >= 0) return x;
    if (x.hi <= 0) return {-x.hi, -x.lo};
    return {0, std::max(-x.lo, x.hi)};
}
Interval cut_at_zero(Interval x) { return {std::max(0.0, x.lo), std::max(0.0, x.hi)}; }
Interval common(Interval x, Interval y) { return {std::max(x.lo, y.lo), std::min(x.hi, y.hi)}; }
double greatest(Interval x) { return std::max(std::abs(x.lo), std::abs(x.hi)); }

bool holds(Interval range, double peak) {
    double const turns = std::ceil((range.lo - peak) / (2 * pi) - 1e-12);
    return peak + 2 * pi * turns <= range.hi + 1e-12;
}

struct SinCos {
    Interval sin, cos;
};

SinCos sin_cos(Interval x) {
    double const s = std::sin(x.lo), c = std::cos(x.lo);
    if (x.is_point()) return {s, c};
    double const s2 = std::sin(x.hi), c2 = std::cos(x.hi);
    SinCos r{{std::min(s, s2), std::max(s, s2)}, {std::min(c, c2), std::max(c, c2)}};
    if (holds(x, 0)) r.cos.hi = 1;
    if (x.lo > -pi / 2 && x.hi < pi / 2) return r;
    if (holds(x, pi / 2)) r.sin.hi = 1;
    if (holds(x, -pi / 2)) r.sin.lo = -1;
    if (holds(x, pi)) r.cos.lo = -1;
    return r;
}

/// The farthest rim point from the bore axis, in plan: a disc of radius `rim`
/// whose centre is `offset` ≥ 0 from the axis, leaning by `sine` and `cosine`.
/// It is the greatest value over c in [−1, 1] of
///     offset² + 2·offset·rim·c·cosine + rim²·(1 − c²·sine²),
/// a parabola in c with its crest at c = offset·cosine / (rim·sine²). The result
/// grows with offset and rim and falls with the lean.
double farthest_rim(double offset, double rim, double sine, double cosine) {
    if (offset * cosine >= rim * sine * sine) return offset + rim * cosine;
    double const stretched = offset / sine;
    return std::sqrt(stretched * stretched + rim * rim);
}

}  // namespace

SwingMotion::SwingMotion(SwingFacts const& facts) : facts_(facts) {
    auto pivot_x = [&](Interval tilt) {
        SinCos const t = sin_cos(tilt);
        return difference(product(facts.along, t.cos), product(facts.across, t.sin));
    };
    auto pivot_z = [&](Interval tilt) {
        SinCos const t = sin_cos(tilt);
        return sum(product(facts.along, t.sin), product(facts.across, t.cos));
    };
    pivot_x_ = pivot_x(facts.tilt);
    pivot_z_ = pivot_z(facts.tilt);
    if (!facts.tilt.is_point()) {
        pivot_x_middle_ = pivot_x(facts.tilt.middle());
        pivot_z_low_ = pivot_z(facts.tilt.lo);
        pivot_z_high_ = pivot_z(facts.tilt.hi);
    }
    radius_ = {0.5 * facts.diameter.lo, 0.5 * facts.diameter.hi};
    if (facts.form == FloatForm::cylinder) half_height_ = {0.5 * facts.height.lo, 0.5 * facts.height.hi};
    scale_ = greatest(facts.along) + greatest(facts.across) + 8 * greatest(facts.arm) + radius_.hi + half_height_.hi;
}

SwingMotion::Place SwingMotion::place(Interval theta) const {
    Interval const turn = sum(theta, facts_.tilt);
    SinCos const t = sin_cos(turn);
    Place at;
    at.turn = turn;
    at.sin_turn = t.sin;
    at.cos_turn = t.cos;
    at.x = sum(pivot_x_, product(facts_.arm, t.cos));
    at.z = sum(pivot_z_, product(facts_.arm, t.sin));
    if (!facts_.tilt.is_point()) tighten_by_tilt(at, theta);
    return at;
}

/// dz/dtilt = x and dx/dtilt = −z. While x > 0 and the arm is short of
/// vertical, z grows with both tilt and theta: its bounds are at the corners.
/// x is bounded by the mean value theorem around the middle tilt.
void SwingMotion::tighten_by_tilt(Place& at, Interval theta) const {
    if (at.x.lo > 0 && at.turn.lo > -pi / 2 && at.turn.hi < pi / 2) {
        Interval const low = sum(pivot_z_low_, product(facts_.arm, at.sin_turn.lo));
        Interval const high = sum(pivot_z_high_, product(facts_.arm, at.sin_turn.hi));
        at.z = common(at.z, {low.lo, high.hi});
    }
    double const middle = facts_.tilt.middle();
    Interval const offset = difference(facts_.tilt, middle);
    Interval const cosine = sin_cos(sum(theta, middle)).cos;
    Interval const centre = sum(pivot_x_middle_, product(facts_.arm, cosine));
    at.x = common(at.x, difference(centre, product(at.z, offset)));
}

Interval SwingMotion::wall_gap(Interval offset, Place const& at) const {
    Interval const half_bore{0.5 * facts_.bore.lo, 0.5 * facts_.bore.hi};
    Interval const out = cut_at_zero(offset);
    Interval far = sum(out, radius_);
    if (facts_.form == FloatForm::cylinder) {
        Interval const sine = magnitude(at.sin_turn);
        Interval const cosine = cut_at_zero(at.cos_turn);
        far = {farthest_rim(out.lo, radius_.lo, sine.hi, cosine.lo),
               farthest_rim(out.hi, radius_.hi, sine.lo, cosine.hi)};
    }
    double const extra = length_slack() + slack * greatest(facts_.axis);
    return {half_bore.lo - far.hi - extra, half_bore.hi - far.lo + extra};
}

/// A float that is partly in the opening is not against the near wall: there is
/// none at its height. The opening is taken as `throat_half` high as far as
/// `throat_at`.
Interval SwingMotion::near_gap(Place const& at, Interval lean, Interval wide, Interval tall) const {
    Interval const axis = facts_.axis;
    Interval const near = wall_gap(sum(difference(axis, at.x), lean), at);
    Interval const nose = difference(at.x, wide);
    Interval const reach_up = sum(magnitude(at.z), tall);
    double const extra = length_slack();
    bool const may_open = nose.lo <= facts_.throat_at.hi + extra && reach_up.lo <= facts_.throat_half.hi + extra;
    if (!may_open) return near;
    Interval const open = wall_gap(0.0, at);
    bool const does_open = nose.hi <= facts_.throat_at.lo - extra && reach_up.hi <= facts_.throat_half.lo - extra;
    return does_open ? open : Interval{std::min(near.lo, open.lo), std::max(near.hi, open.hi)};
}

/// ±((s − a)·tan θ + b) + w/(2·cos θ) has a derivative that changes sign at most
/// once, from minus to plus, so its greatest value over a range is at an end.
Interval SwingMotion::throat_gap(Interval theta) const {
    if (theta.lo <= -pi / 2 || theta.hi >= pi / 2) return {-infinite, facts_.throat_half.hi};
    Interval const lever = difference(facts_.throat_at, facts_.along);
    double most = 0, shrink = 0, grown = 1;
    Interval tangent{infinite, -infinite};
    for (double end : {theta.lo, theta.hi}) {
        double const cosine = std::cos(end), t = std::sin(end) / cosine;
        Interval const middle = magnitude(sum(product(lever, t), facts_.across));
        most = std::max(most, middle.hi + 0.5 * facts_.arm_width.hi / cosine);
        tangent = {std::min(tangent.lo, t), std::max(tangent.hi, t)};
        shrink = std::max(shrink, cosine);
        grown = std::max(grown, 1 / cosine);
        if (theta.is_point()) break;
    }
    if (theta.contains(0)) shrink = 1;
    double const least = magnitude(sum(product(lever, tangent), facts_.across)).lo + 0.5 * facts_.arm_width.lo / shrink;
    double const extra =
        slack * grown * (greatest(facts_.throat_at) + greatest(facts_.along) + greatest(facts_.across) + most);
    return {facts_.throat_half.lo - most - extra, facts_.throat_half.hi - least + extra};
}

SwingMotion::AllGaps SwingMotion::all_gaps(Interval theta) const {
    Place const at = place(theta);
    Interval const sine = magnitude(at.sin_turn);
    Interval tall = radius_, wide = radius_, lean = 0.0;
    if (facts_.form == FloatForm::cylinder) {
        Interval const cosine = magnitude(at.cos_turn);
        lean = product(half_height_, sine);
        tall = sum(product(half_height_, cosine), product(radius_, sine));
        wide = sum(product(radius_, cosine), lean);
    }
    auto const [above, below] = theta.is_point() || facts_.form == FloatForm::sphere || !rises_throughout(at)
                                    ? ends_of(at, tall)
                                    : ends_from_corners(theta);
    return {above, below, wall_gap(sum(difference(at.x, facts_.axis), lean), at), near_gap(at, lean, wide, tall),
            throat_gap(theta)};
}

std::pair<Interval, Interval> SwingMotion::ends_of(Place const& at, Interval tall) const {
    double const extra = length_slack();
    auto outward = [&](Interval x, double low_size, double high_size) {
        return Interval{x.lo - extra - slack * std::abs(low_size), x.hi + extra + slack * std::abs(high_size)};
    };
    return {outward(difference(facts_.ceiling, sum(at.z, tall)), facts_.ceiling.lo, facts_.ceiling.hi),
            outward(difference(difference(at.z, tall), facts_.floor), facts_.floor.hi, facts_.floor.lo)};
}

/// Do both the top and the bottom of a cylinder rise with theta, all through?
/// Their slopes are arm·cos φ ∓ (h/2)·sin φ ± (d/2)·cos φ, where the sign of the
/// last term turns with φ.
bool SwingMotion::rises_throughout(Place const& at) const {
    return facts_.arm.lo * at.cos_turn.lo > half_height_.hi * greatest(at.sin_turn) + radius_.hi;
}

std::pair<Interval, Interval> SwingMotion::ends_from_corners(Interval theta) const {
    auto at_angle = [this](double angle) {
        Place const at = place(angle);
        return ends_of(at, sum(product(half_height_, magnitude(at.cos_turn)), product(radius_, magnitude(at.sin_turn))));
    };
    auto const low = at_angle(theta.lo), high = at_angle(theta.hi);
    return {{high.first.lo, low.first.hi}, {low.second.lo, high.second.hi}};
}

Obstacle SwingMotion::obstacle(int index) {
    constexpr std::array order{Obstacle::ceiling, Obstacle::floor, Obstacle::far_wall, Obstacle::near_wall,
                               Obstacle::throat};
    return order.at(static_cast<std::size_t>(index));
}

Interval float_height(SwingFacts const& facts, Interval theta) {
    SwingMotion const motion(facts);
    Interval const z = motion.place(theta).z;
    return {z.lo - motion.length_slack(), z.hi + motion.length_slack()};
}

Interval float_distance(SwingFacts const& facts, Interval theta) {
    SwingMotion const motion(facts);
    Interval const x = motion.place(theta).x;
    return {x.lo - motion.length_slack(), x.hi + motion.length_slack()};
}

Gaps gaps(SwingFacts const& facts, Interval theta) {
    auto const all = SwingMotion(facts).all_gaps(theta);
    return {all[0], all[1], min(all[2], all[3]), all[4]};
}

}  // namespace levelswap::physics
