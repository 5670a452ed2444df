#pragma once

#include "levelswap/physics/swing.hpp"

#include <array>
#include <limits>
#include <utility>

namespace levelswap::physics {

/// Evaluates one swing many times: what does not depend on theta is worked out
/// once.
///
/// Inside, bounds are computed in plain doubles and moved outward once at the
/// end by an a-priori bound of the rounding error (`slack` times the sum of the
/// magnitudes that took part): some thirty operations, each good to one unit in
/// the last place, so 64 units are on the safe side. This is several times
/// faster than rounding every step and just as sound.
class SwingMotion {
public:
    explicit SwingMotion(SwingFacts const& facts);

    struct Place {
        Interval x, z;
        Interval turn;      ///< theta + tilt
        Interval sin_turn;
        Interval cos_turn;
    };
    [[nodiscard]] Place place(Interval theta) const;

    /// Ceiling, floor, far wall, near wall and throat, in that order.
    static constexpr int obstacle_count = 5;
    using AllGaps = std::array<Interval, obstacle_count>;
    [[nodiscard]] AllGaps all_gaps(Interval theta) const;
    [[nodiscard]] static Obstacle obstacle(int index);

    [[nodiscard]] double length_slack() const { return slack * scale_; }
    static constexpr double slack = 64 * std::numeric_limits<double>::epsilon();

private:
    [[nodiscard]] Interval throat_gap(Interval theta) const;
    [[nodiscard]] Interval near_gap(Place const& at, Interval lean, Interval wide, Interval tall) const;
    [[nodiscard]] Interval wall_gap(Interval offset, Place const& at) const;
    [[nodiscard]] std::pair<Interval, Interval> ends_of(Place const& at, Interval tall) const;
    [[nodiscard]] std::pair<Interval, Interval> ends_from_corners(Interval theta) const;
    [[nodiscard]] bool rises_throughout(Place const& at) const;
    void tighten_by_tilt(Place& at, Interval theta) const;

    SwingFacts facts_;
    Interval pivot_x_, pivot_z_;  ///< the pivot's place for the whole range of tilt
    Interval pivot_x_middle_, pivot_z_low_, pivot_z_high_;  ///< and for its middle and ends
    Interval radius_, half_height_;
    double scale_ = 0;
};

}  // namespace levelswap::physics
