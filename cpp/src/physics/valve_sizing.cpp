#include "levelswap/physics/valve_sizing.hpp"

#include "corners.hpp"

namespace levelswap::physics {

namespace {

Interval const bar{1e5};
Interval const hour{3600};

/// N₂ of IEC 60534-2-1 table 1 for Kv and millimetres. Sizes are taken in
/// nanometres, their quanta, so that equal sizes are seen to be equal; a
/// millimetre's fourth power is 10¹² twice.
Interval const n2 = Interval{16} / Interval{1e4};
Interval const millimetre_squared{1e12};

/// F_F·p_v = 0.96·p_v − 0.28·p_v·√(p_v/p_c), at a point. Rising in p_v up to p_c
/// (slope 0.96 − 0.42·√(p_v/p_c)) and in p_c.
Interval vapour_bound(double vapour, double critical) {
    Interval const v{std::max(0.0, vapour)};
    Interval const root = exact_root(v / Interval{critical});
    return v * (Interval{96} - Interval{28} * root) / Interval{100};
}

/// √(Δp/bar·ρ₀/ρ): the flow in m³/h of a Kv of 1.
Interval flow_of_one(PressureDifference drop, Density density) {
    return exact_root(max(drop.si(), 0.0) / bar * (Interval{reference_density} / density.si()));
}

/// √(Δp/bar·ρ₀·ρ): the flow in kg/h of a Kv of 1.
Interval mass_flow_of_one(PressureDifference drop, Density density) {
    return exact_root(max(drop.si(), 0.0) / bar * (Interval{reference_density} * density.si()));
}

/// ΣK·C²/(N₂·d⁴) where ΣK/d⁴ falls with the valve's size d and rises with the
/// pipe's D: the sums below in 1/d² and 1/D², at a point.
template <class Sum>
Interval reducer_term(FlowCoefficient coefficient, Length valve, Length pipe, Sum sum) {
    auto at = [&](double d, double wider) {
        if (wider <= d) return Interval{0.0};
        Interval const u = Interval{1} / square(Interval{d}), v = Interval{1} / square(Interval{wider});
        return max(sum(u, v), 0.0);
    };
    Interval const d = valve.quanta, wider = pipe.quanta;
    Interval const over_d4{at(d.hi, wider.lo).lo, at(d.lo, wider.hi).hi};
    return over_d4 * millimetre_squared * millimetre_squared * square(coefficient.si()) / n2;
}

/// h = 1 + ln(φ)/ln(R); falls without limit towards a φ of zero.
Interval equal_percentage_opening(Interval share, Interval rangeability) {
    Interval const logarithm = log(max(share, 0.0));
    return Interval{1} + logarithm / log(rangeability);
}

/// h = φ + (φ − 1)/(R − 1), which is (φ·R − 1)/(R − 1): rising in φ, monotone in R.
Interval linear_opening(Interval share, Interval rangeability) {
    return over_corners(std::array{share, rangeability}, [](auto const& at) {
        return at[0] + (at[0] - Interval{1}) / (at[1] - Interval{1});
    });
}

/// 1/R + (1 − 1/R)·h = h + (1 − h)/R.
Interval linear_share(Interval opening, Interval rangeability) {
    return over_corners(std::array{opening, rangeability}, [](auto const& at) {
        return at[0] + (Interval{1} - at[0]) / at[1];
    });
}

}  // namespace

Interval critical_pressure_ratio_factor(AbsolutePressure vapour, AbsolutePressure critical) {
    Interval const root = exact_root(vapour.si() / critical.si());
    return (Interval{96} - Interval{28} * root) / Interval{100};
}

PressureDifference choked_drop(ValveStream const& stream, Interval recovery, Interval piping, AbsolutePressure critical) {
    Interval const v = stream.vapour.si(), c = critical.si();
    Interval const bound{vapour_bound(v.lo, c.lo).lo, vapour_bound(v.hi, c.hi).hi};
    Interval const room = max(stream.inlet.si() - bound, 0.0);
    return PressureDifference::from_si(square(recovery / piping) * room);
}

PressureDifference sizing_drop(ValveStream const& stream, PressureDifference choked) {
    Interval const actual = stream.inlet.si() - stream.outlet.si();
    return PressureDifference::from_si(max(min(actual, choked.si()), 0.0));
}

VolumeFlow flow_through(FlowCoefficient coefficient, PressureDifference drop, Density density, Interval piping) {
    return VolumeFlow::from_si(coefficient.si() * piping * flow_of_one(drop, density) / hour);
}

FlowCoefficient required_coefficient(VolumeFlow flow, PressureDifference drop, Density density) {
    return FlowCoefficient::from_si(over_positive(max(flow.si(), 0.0) * hour, flow_of_one(drop, density)));
}

PressureDifference drop_at(VolumeFlow flow, FlowCoefficient coefficient, Density density, Interval piping) {
    Interval const kv = over_positive(max(flow.si(), 0.0) * hour, coefficient.si() * piping);
    return PressureDifference::from_si(square(kv) * bar * (density.si() / Interval{reference_density}));
}

MassFlow mass_through(FlowCoefficient coefficient, PressureDifference drop, Density density) {
    return MassFlow::from_si(coefficient.si() * mass_flow_of_one(drop, density) / hour);
}

FlowCoefficient required_coefficient(MassFlow flow, PressureDifference drop, Density density) {
    return FlowCoefficient::from_si(over_positive(max(flow.si(), 0.0) * hour, mass_flow_of_one(drop, density)));
}

PressureDifference drop_at(MassFlow flow, FlowCoefficient coefficient, Density density) {
    Interval const kilograms = over_positive(max(flow.si(), 0.0) * hour, coefficient.si());
    return PressureDifference::from_si(square(kilograms) * bar / (density.si() * Interval{reference_density}));
}

Interval piping_geometry_factor(FlowCoefficient coefficient, Length valve, Length pipe) {
    Interval const term = reducer_term(coefficient, valve, pipe, [](Interval u, Interval v) {
        return Interval{1.5} * square(u - v);
    });
    return Interval{1} / exact_root(Interval{1} + term);
}

Interval combined_recovery_factor(FlowCoefficient coefficient, Interval recovery, Length valve, Length pipe) {
    Interval const term = reducer_term(coefficient, valve, pipe, [](Interval u, Interval v) {
        return Interval{0.5} * square(u - v) + square(u) - square(v);
    });
    // 1/√(1/F_L² + term), with F_L once.
    return Interval{1} / exact_root(Interval{1} / square(recovery) + term);
}

FlowCoefficient coefficient_at(Characteristic characteristic, FlowCoefficient rated, Interval rangeability, Interval opening) {
    Interval const share = characteristic == Characteristic::linear
                               ? linear_share(opening, rangeability)
                               : exp((opening - Interval{1}) * log(rangeability));
    return FlowCoefficient::from_si(rated.si() * share);
}

Interval opening_for(Characteristic characteristic, Interval rangeability, FlowCoefficient rated, FlowCoefficient wanted) {
    Interval const share = over_positive(wanted.si(), rated.si());
    return characteristic == Characteristic::linear ? linear_opening(share, rangeability)
                                                    : equal_percentage_opening(share, rangeability);
}

}  // namespace levelswap::physics
