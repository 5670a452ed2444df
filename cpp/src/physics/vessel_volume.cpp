#include "levelswap/physics/vessel_volume.hpp"

#include "corners.hpp"

namespace levelswap::physics {

namespace {

Interval at_least_zero(Interval x) { return max(x, 0.0); }

/// The segment of a circle below a level, at a point.
Interval segment(double diameter, double level) {
    if (diameter <= 0 || level <= 0) return 0.0;
    if (level >= diameter) return pi_enclosed * square(Interval{diameter}) / Interval{4};
    Interval const r = Interval{diameter} / Interval{2}, below = r - Interval{level};
    Interval const chord = exact_root(Interval{level} * (Interval{diameter} - Interval{level}));
    return at_least_zero(square(r) * acos(below / r) - below * chord);
}

/// Half the chord squared, h·(d − h), over a range of levels at one diameter.
Interval half_chord_squared(double diameter, Interval level) {
    auto at = [&](double h) { return at_least_zero(Interval{h} * (Interval{diameter} - Interval{h})); };
    Interval const ends = hull(at(level.lo), at(level.hi));
    return level.contains(diameter / 2) ? hull(ends, at(diameter / 2)) : ends;
}

}  // namespace

Area round_floor(Length diameter) { return Area::from_si(pi_enclosed * square(diameter.si()) / Interval{4}); }

Volume upright_volume(Area floor, Length low, Length high) {
    Interval const height = at_least_zero(at_least_zero(high.si()) - at_least_zero(low.si()));
    return Volume::from_si(floor.si() * height);
}

Volume horizontal_cylinder_volume(Length diameter, Length length, Length low, Length high) {
    // The width at a height grows with the diameter: each axis is monotone.
    std::array<Interval, 3> const box{diameter.si(), low.si(), high.si()};
    Interval const section = over_corners(box, [](auto const& at) {
        double const d = std::max(0.0, at[0].lo);
        double const from = std::clamp(at[1].lo, 0.0, d), to = std::clamp(at[2].lo, 0.0, d);
        return from < to ? at_least_zero(segment(d, to) - segment(d, from)) : Interval{0.0};
    });
    return Volume::from_si(length.si() * section);
}

Area horizontal_cylinder_surface(Length diameter, Length length, Length level) {
    Interval const d = diameter.si(), h = level.si();
    Interval const half = exact_root(Interval{half_chord_squared(d.lo, h).lo, half_chord_squared(d.hi, h).hi});
    return Area::from_si(Interval{2} * length.si() * half);
}

}  // namespace levelswap::physics
