#include "swing_motion.hpp"

#include <vector>

namespace levelswap::physics {

namespace {

constexpr double finest = 2.5e-7;      // rad: the last step of a search
constexpr double longest = 1.0 / 16;   // rad: longest step when looking for a blocked angle
constexpr double least_split = 1e-6;   // rad
constexpr double close_enough = 1e-7;  // m: resolution of the side clearance

struct Worst {
    double gap;
    int index;
};

Worst worst_low(SwingMotion::AllGaps const& all) {
    Worst w{all[0].lo, 0};
    for (int i = 1; i < SwingMotion::obstacle_count; ++i)
        if (all[static_cast<std::size_t>(i)].lo < w.gap) w = {all[static_cast<std::size_t>(i)].lo, i};
    return w;
}

double worst_high(SwingMotion::AllGaps const& all) {
    double least = all[0].hi;
    for (Interval const& gap : all) least = std::min(least, gap.hi);
    return least;
}

/// An angle where a gap is open and a farther one where it is shut, closing in
/// on each other by the secant rule. After a step that stayed open the next one
/// goes twice the predicted way, and the same from the other side, so that both
/// ends come close; a bracket that shrinks too slowly is halved.
struct Bracket {
    double open, open_gap, shut, shut_gap;
    bool went_open = true;
    int slow = 0;

    [[nodiscard]] double width() const { return shut - open; }

    [[nodiscard]] double next() const {
        double const middle = open + 0.5 * width();
        if (slow >= 2 || open_gap <= shut_gap) return middle;
        double const way = width() * open_gap / (open_gap - shut_gap), rest = width() - way;
        double const angle = went_open ? open + 2 * way + 0.4 * finest : shut - 2 * rest - 0.4 * finest;
        return angle <= open || angle >= shut ? middle : angle;
    }
    void take(double angle, double gap) {
        double const before = width();
        went_open = gap >= 0;
        if (went_open) open = angle, open_gap = gap;
        else shut = angle, shut_gap = gap;
        slow = width() > 0.5 * before ? slow + 1 : 0;
    }
};

/// One direction of the search, written for angles that grow: `sign` −1 mirrors it.
struct Side {
    SwingMotion const& motion;
    double sign;

    [[nodiscard]] SwingMotion::AllGaps between(double from, double to) const {
        return motion.all_gaps(sign > 0 ? Interval{from, to} : Interval{-to, -from});
    }
    [[nodiscard]] SwingMotion::AllGaps at(double angle) const { return between(angle, angle); }

    struct Free {
        double end;
        Obstacle by;
    };

    /// The farthest angle up to `limit` such that everything from `start` to it
    /// is free for all facts. A step counts only when one evaluation over the
    /// whole of it is free; where that is too coarse to tell, steps halve.
    [[nodiscard]] Free free_until(double start, double limit) const {
        if (start >= limit || worst_low(between(start, limit)).gap >= 0) return {limit, Obstacle::stop};
        constexpr double unknown = -std::numeric_limits<double>::infinity();
        Bracket bracket{start, worst_low(at(start)).gap, limit, unknown};
        Obstacle by = Obstacle::stop;
        double step = limit - start;
        while (step >= finest && bracket.width() >= finest) {
            bool const closing = bracket.shut_gap > unknown;
            double const next = std::min(closing ? bracket.next() : limit, bracket.open + step);
            Worst const there = worst_low(at(next));
            if (there.gap < 0) {
                by = SwingMotion::obstacle(there.index);
                bracket.take(next, there.gap);
                continue;
            }
            Worst const way = worst_low(between(bracket.open, next));
            if (way.gap >= 0) {
                if (next >= limit) return {limit, Obstacle::stop};
                bracket.take(next, there.gap);
                step *= 2;
            } else {
                if (!closing) by = SwingMotion::obstacle(way.index);
                step = 0.5 * (next - bracket.open);
            }
        }
        return {bracket.open, by};
    }

    [[nodiscard]] double open_at(double angle) const { return worst_high(at(angle)); }

    /// The nearest angle found beyond `start` that is blocked for all facts, or
    /// `limit`. A blocked range narrower than a step may be passed over, which
    /// makes the bound wider, never wrong.
    [[nodiscard]] double blocked_from(double start, double limit) const {
        double open = start, gap = 0, step = finest;
        while (open < limit) {
            double const next = std::min(limit, open + step), there = open_at(next);
            if (there < 0) {
                Bracket bracket{open, gap, next, there};
                while (bracket.width() > finest) {
                    double const middle = bracket.next();
                    bracket.take(middle, open_at(middle));
                }
                return bracket.shut;
            }
            open = next;
            gap = there;
            step = std::min(4 * step, longest);
        }
        return limit;
    }

    struct End {
        Interval range;
        Obstacle by;
    };

    /// `rest` and `stop` already mirrored.
    [[nodiscard]] End find(Interval rest, Interval stop, bool certain) const {
        Free free{rest.lo, Obstacle::none};
        if (certain) free = free_until(rest.hi, stop.lo);
        double const start = std::max(rest.hi, free.end);
        double const outer = start < stop.hi ? blocked_from(start, stop.hi) : stop.hi;
        if (certain) return {{free.end, std::max(free.end, outer)}, free.by};
        return {{std::min(free.end, outer), outer}, first_in_the_way(outer, stop.hi)};
    }

    [[nodiscard]] Obstacle first_in_the_way(double angle, double limit) const {
        return angle >= limit ? Obstacle::stop : SwingMotion::obstacle(worst_low(at(angle)).index);
    }
};

/// Is the whole range free for all facts? Splits where one evaluation cannot say.
bool range_is_free(SwingMotion const& motion, Interval theta) {
    if (worst_low(motion.all_gaps(theta)).gap >= 0) return true;
    if (theta.width() < least_split || worst_low(motion.all_gaps(theta.middle())).gap < 0) return false;
    return range_is_free(motion, {theta.lo, theta.middle()}) && range_is_free(motion, {theta.middle(), theta.hi});
}

double side_low(SwingMotion::AllGaps const& all) { return std::min({all[2].lo, all[3].lo, all[4].lo}); }
double side_high(SwingMotion::AllGaps const& all) { return std::min({all[2].hi, all[3].hi, all[4].hi}); }

/// The least of the lower (or upper) side bounds over a range: pieces are split
/// until they come within `close_enough` of the least value seen at a point.
struct SideSearch {
    SwingMotion const& motion;
    Interval narrow;  ///< the arc every world has
    double seen;      ///< least lower bound at a point
    double upper;     ///< least upper bound at a point of the narrow arc

    void visit(double theta) {
        auto const all = motion.all_gaps(theta);
        seen = std::min(seen, side_low(all));
        if (narrow.contains(theta)) upper = std::min(upper, side_high(all));
    }

    [[nodiscard]] double lower(Interval arc) {
        double least = seen;
        std::vector<Interval> open{arc};
        while (!open.empty()) {
            Interval const piece = open.back();
            open.pop_back();
            double const bound = side_low(motion.all_gaps(piece));
            if (bound >= seen - close_enough || piece.width() < least_split) {
                least = std::min(least, bound);
                continue;
            }
            visit(piece.middle());
            open.push_back({piece.lo, piece.middle()});
            open.push_back({piece.middle(), piece.hi});
        }
        return least;
    }
};

}  // namespace

Reach reach(SwingFacts const& facts) {
    SwingMotion const motion(facts);
    // An arm at rest lies between its own stops, or against one of them: equal figures must not read as a doubt.
    Interval const rest = min(max(facts.rest, facts.stop_low), facts.stop_high);
    Reach result;
    result.possible = worst_high(motion.all_gaps(rest)) >= 0;
    if (!result.possible) {
        result.certain = false;
        result.low = rest.hi;
        result.high = rest.lo;
        return result;
    }
    result.certain = range_is_free(motion, rest);
    Side const up{motion, 1}, down{motion, -1};
    auto const high = up.find(rest, facts.stop_high, result.certain);
    auto const low = down.find(-rest, -facts.stop_low, result.certain);
    result.high = high.range;
    result.high_by = high.by;
    result.low = -low.range;
    result.low_by = low.by;
    return result;
}

Interval side_clearance(SwingFacts const& facts) {
    SwingMotion const motion(facts);
    Interval const wide{facts.stop_low.lo, facts.stop_high.hi};
    // The arc that every choice of facts has; when the stops are too uncertain
    // for one, it holds nothing and there is no upper bound.
    Interval const narrow{facts.stop_low.hi, facts.stop_high.lo};
    constexpr double infinite = std::numeric_limits<double>::infinity();
    SideSearch search{motion, narrow, infinite, infinite};
    for (double theta : {wide.lo, wide.hi, narrow.lo, narrow.hi}) search.visit(theta);
    // Where the arm stands level the float is deepest in the bore.
    search.visit(std::clamp(-facts.tilt.middle(), wide.lo, wide.hi));
    double const lower = search.lower(wide);
    return {lower, search.upper};
}

}  // namespace levelswap::physics
