#include "levelswap/physics/vessel_volume.hpp"

#include "corners.hpp"

#include <algorithm>
#include <cmath>

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

/// A drum at a point. Heights in m from its lowest point.
struct Drum {
    double diameter, length;

    /// Between a level and another `gap` above it.
    [[nodiscard]] Interval band(double from, double gap) const {
        Interval const above = segment(diameter, from + gap), below = segment(diameter, from);
        return Interval{length} * at_least_zero(above - below);
    }
    /// The area below a level, without a bound on its error: for the search only.
    [[nodiscard]] double roughly_below(double level) const {
        double const r = diameter / 2, h = std::clamp(level, 0.0, diameter);
        return r * r * std::acos(1 - h / r) - (r - h) * std::sqrt(h * (diameter - h));
    }

    /// How far above `from` the level stands when `volume` has come in: a root found in plain numbers, then stepped
    /// away from until the enclosed volume is surely less, surely enough.
    [[nodiscard]] Interval rise(double from, double volume) const {
        double const top = diameter - from;
        if (volume <= 0) return 0.0;
        if (top <= 0 || band(from, top).hi < volume) return {infinite, infinite};
        double low = 0, high = top;
        for (int i = 0; i < 64 && low < high; ++i) {
            double const mid = low + (high - low) / 2;
            (length * (roughly_below(from + mid) - roughly_below(from)) < volume ? low : high) = mid;
        }
        constexpr double least_step = 1e-10;
        double under = low, over = high;
        for (double step = least_step; under > 0 && band(from, under).hi > volume; step *= 2) under = std::max(0.0, low - step);
        for (double step = least_step; band(from, over).lo < volume; step *= 2) {
            if (over >= top) return {under, infinite};
            over = std::min(top, high + step);
        }
        return {under, over};
    }
};

/// The gap that holds a volume, over a box. Narrower drums and more volume need more of it. Width is concave in height,
/// so over the starting level the gap first falls, then rises: greatest at an end, least where it lies around the middle.
Interval drum_gap(Interval diameter, Interval length, Interval from, Interval volume, bool falling) {
    auto at = [&](double d, double l, double start, double v) { return Drum{d, l}.rise(falling ? d - start : start, v); };
    double const most = std::max(at(diameter.lo, length.lo, from.lo, volume.hi).hi, at(diameter.lo, length.lo, from.hi, volume.hi).hi);
    double const d = diameter.hi, l = length.hi;
    double least = std::min(at(d, l, from.lo, volume.lo).lo, at(d, l, from.hi, volume.lo).lo);
    Interval const half = Drum{d, l}.rise(d / 2, volume.lo / 2);
    double const start = falling ? d / 2 + half.lo : d / 2 - half.lo;
    if (from.contains(start)) least = std::min(least, 2 * half.lo);
    return {least, most};
}

}  // namespace

Area round_floor(Length diameter) { return Area::from_si(pi_enclosed * square(diameter.si()) / Interval{4}); }

Volume upright_volume(Area floor, Length low, Length high) {
    Interval const height = at_least_zero(at_least_zero(high.si()) - at_least_zero(low.si()));
    return Volume::from_si(floor.si() * height);
}

Length upright_rise(Area floor, Volume volume) { return Length::from_si(over_positive(volume.si(), floor.si())); }

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

Length horizontal_cylinder_rise(Length diameter, Length length, Length from, Volume volume) {
    return Length::from_si(drum_gap(diameter.si(), length.si(), from.si(), volume.si(), false));
}

Length horizontal_cylinder_fall(Length diameter, Length length, Length from, Volume volume) {
    return Length::from_si(drum_gap(diameter.si(), length.si(), from.si(), volume.si(), true));
}

Area horizontal_cylinder_surface(Length diameter, Length length, Length level) {
    Interval const d = diameter.si(), h = level.si();
    Interval const half = exact_root(Interval{half_chord_squared(d.lo, h).lo, half_chord_squared(d.hi, h).hi});
    return Area::from_si(Interval{2} * length.si() * half);
}

}  // namespace levelswap::physics
