#include "levelswap/physics/probe_circuit.hpp"

#include "corners.hpp"

namespace levelswap::physics {

namespace {

constexpr double reference_temperature = 298.15;  // K, 25 degC

double parallel_bound(double one, double other, bool upper) {
    if (one <= 0 || other <= 0) return 0;
    Interval const conductance = Interval{1} / Interval{one} + Interval{1} / Interval{other};
    Interval const both = over_positive(1, conductance);
    return upper ? both.hi : both.lo;
}

}  // namespace

Conductivity conductivity_at(Conductivity at_25_degC, Interval per_kelvin, Temperature temperature) {
    Interval const factor = Interval{1} + per_kelvin * (temperature.si() - Interval{reference_temperature});
    return Conductivity::from_si(at_25_degC.si() * max(factor, 0.0));
}

Resistance water_resistance(CellConstant cell_constant, Conductivity conductivity) {
    return Resistance::from_si(over_positive(cell_constant.si(), conductivity.si()));
}

CellConstant coaxial_cell_constant(Length rod, Length bore, Length wetted) {
    Interval const ratio = over_positive(bore.si(), rod.si());
    Interval const logarithm = max(log(max(ratio, 1.0)), 0.0);
    return CellConstant::from_si(over_positive(logarithm, Interval{2} * pi_enclosed * wetted.si()));
}

Resistance film_resistance(Length insulator, Length diameter, Length thickness, Conductivity film) {
    Interval const section = pi_enclosed * diameter.si() * thickness.si();
    return Resistance::from_si(over_positive(insulator.si(), film.si() * section));
}

Resistance in_parallel(Resistance one, Resistance other) {
    // Rising in both, so each bound comes from its own end.
    Interval const a = one.si(), b = other.si();
    return Resistance::from_si({parallel_bound(a.lo, b.lo, false), parallel_bound(a.hi, b.hi, true)});
}

}  // namespace levelswap::physics
