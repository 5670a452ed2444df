#include "levelswap/physics/tank_mixing.hpp"

#include "corners.hpp"
#include "levelswap/physics/water.hpp"

namespace levelswap::physics {

namespace {

Interval enthalpy(Interval kelvin, AbsolutePressure pressure) {
    return liquid_enthalpy(Temperature::from_si(kelvin), pressure);
}

/// At one pair of masses and temperatures.
Interval mixed(Interval m1, Interval t1, Interval m2, Interval t2, AbsolutePressure pressure) {
    Interval const mass = m1 + m2;
    if (mass.lo <= 0) return hull(t1, t2);
    Interval const heat = m1 * enthalpy(t1, pressure) + m2 * enthalpy(t2, pressure);
    // A mixture lies between what it is mixed from, however wide the pressure.
    Interval const found = liquid_temperature(heat / mass, pressure).si();
    Interval const between = hull(t1, t2);
    return {std::clamp(found.lo, between.lo, between.hi), std::clamp(found.hi, between.lo, between.hi)};
}

}  // namespace

Temperature mixed_temperature(Mass tank, Temperature hot, Mass make_up, Temperature cold, AbsolutePressure pressure) {
    // Rising in both temperatures; in each mass towards its own temperature.
    std::array<Interval, 4> const box{tank.si(), hot.si(), make_up.si(), cold.si()};
    return Temperature::from_si(over_corners(box, [&](auto const& at) {
        return mixed(at[0], at[1], at[2], at[3], pressure);
    }));
}

Temperature temperature_after_fill(Volume in_tank, Temperature hot, Volume make_up, Temperature cold, AbsolutePressure pressure) {
    // A warmer part is lighter too, but by less than 0.1 % a kelvin: over the
    // hundred kelvin of a tank the mixture still gets warmer with either part.
    std::array<Interval, 4> const box{in_tank.si(), hot.si(), make_up.si(), cold.si()};
    return Temperature::from_si(over_corners(box, [&](auto const& at) {
        auto mass = [&](Interval volume, Interval kelvin) {
            return volume * liquid_density(Temperature::from_si(kelvin), pressure).si();
        };
        return mixed(mass(at[0], at[1]), at[1], mass(at[2], at[3]), at[3], pressure);
    }));
}

Mass largest_fill(Mass tank, Temperature hot, Temperature cold, Temperature least, AbsolutePressure pressure) {
    std::array<Interval, 4> const box{tank.si(), hot.si(), cold.si(), least.si()};
    return Mass::from_si(over_corners(box, [&](auto const& at) {
        Interval const h = enthalpy(at[3], pressure);
        return over_positive(at[0] * max(enthalpy(at[1], pressure) - h, 0.0), h - enthalpy(at[2], pressure));
    }));
}

HeatFlow heating_power(MassFlow make_up, Temperature cold, Temperature hold, AbsolutePressure pressure) {
    Interval const rise = liquid_enthalpy(hold, pressure) - liquid_enthalpy(cold, pressure);
    return HeatFlow::from_si(make_up.si() * max(rise, 0.0));
}

}  // namespace levelswap::physics
