#include "levelswap/physics/statics.hpp"

#include <numbers>

namespace levelswap::physics {

namespace {

/// π lies between this number and the next one.
Interval const pi{std::numbers::pi, rounding::step_up(std::numbers::pi)};

/// A cap of height h of a sphere: π·h²·(3·d/2 − h)/3.
Interval cap(double diameter, double draught) {
    Interval const h = std::clamp(draught, 0.0, diameter);
    return pi * square(h) * (Interval{1.5} * Interval{diameter} - h) / Interval{3.0};
}

Interval sphere(double diameter) { return cap(diameter, diameter); }

Interval disc(Interval diameter) { return pi * square(diameter) / Interval{4.0}; }

/// Closes in on the draught of a sphere until the bounds are next to each other.
Interval cap_draught(double diameter, double volume) {
    if (volume <= 0) return 0.0;
    if (volume >= sphere(diameter).hi) return diameter;
    Interval h{0, diameter};
    for (int i = 0; i < 60; ++i) {
        double const middle = h.middle();
        Interval const tried = cap(diameter, middle);
        if (tried.hi <= volume) h.lo = middle;
        else if (tried.lo >= volume) h.hi = middle;
        else break;
    }
    return h;
}

/// The diameter of the sphere that holds `volume`, rounded up, within `range`.
double snug_diameter(Interval range, double volume) {
    double low = range.lo, high = range.hi;
    for (int i = 0; i < 60; ++i) {
        double const middle = low + 0.5 * (high - low);
        (sphere(middle).hi <= volume ? low : high) = middle;
    }
    return high;
}

/// With the diameter the draught falls, but a sphere that is wholly under is as
/// deep as its diameter: the deepest is the one that just holds the volume.
Interval sphere_draught(Interval diameter, Interval volume) {
    double const low = std::min(cap_draught(diameter.lo, volume.lo).lo, cap_draught(diameter.hi, volume.lo).lo);
    bool const sinks = volume.hi >= sphere(diameter.lo).lo;
    double const high = sinks ? snug_diameter(diameter, volume.hi) : cap_draught(diameter.lo, volume.hi).hi;
    return {low, high};
}

}  // namespace

Interval submerged_volume(FloatForm form, Interval diameter, Interval height, Interval draught) {
    Interval const depth = max(draught, 0.0);
    if (form == FloatForm::cylinder) return disc(diameter) * min(depth, height);
    return {cap(diameter.lo, depth.lo).lo, cap(diameter.hi, depth.hi).hi};
}

Interval full_volume(FloatForm form, Interval diameter, Interval height) {
    if (form == FloatForm::cylinder) return disc(diameter) * height;
    return {sphere(diameter.lo).lo, sphere(diameter.hi).hi};
}

Interval draught_for(FloatForm form, Interval diameter, Interval height, Interval volume) {
    if (form == FloatForm::cylinder) return min(max(volume, 0.0) / disc(diameter), height);
    return sphere_draught(diameter, volume);
}

Interval largest_buoyancy(FloatForm form, Interval diameter, Interval height, Interval density) {
    return full_volume(form, diameter, height) * density * Interval{standard_gravity};
}

Interval draught_carrying(FloatForm form, Interval diameter, Interval height, Interval force, Interval density) {
    return draught_for(form, diameter, height, force / (density * Interval{standard_gravity}));
}

Interval waterline_above_centre(FloatForm form, Interval diameter, Interval height, Interval draught) {
    return draught - Interval{0.5} * (form == FloatForm::cylinder ? height : diameter);
}

}  // namespace levelswap::physics
