#pragma once

#include "levelswap/base/interval.hpp"

#include <cstdint>
#include <string_view>

namespace levelswap {

/// What a quantity measures. Gauge and absolute pressure are different
/// dimensions, and so are a temperature and a temperature difference: mixing
/// them does not compile (tests/must_not_compile).
enum class Dimension : std::uint8_t {
    length,
    angle,
    pressure_gauge,
    pressure_absolute,
    pressure_difference,
    temperature,
    temperature_difference,
    mass,
    moment,
    force,
    current,
    voltage,
    apparent_power,
    power,          ///< of a motor
    heat_flow,
    frequency,
    resistance,
    time,
    mass_flow,
    area,
    density,
    lift_per_angle,
    volume,
    volume_flow,
    conductivity,
    cell_constant,
    flow_coefficient,
    start_rate,
    ratio,
    count,
    money,
};

inline constexpr int dimension_count = static_cast<int>(Dimension::money) + 1;

/// One row of the table of dimensions: every fact is stored as a whole number
/// of quanta, so that thresholds are sharp and sums of lengths are exact.
struct DimensionRow {
    Dimension dimension;
    std::string_view name;      ///< as printed and as used in the schema
    double quantum;             ///< one quantum in the SI unit
    std::string_view si_unit;   ///< the SI unit
    std::string_view quantum_name;
};

DimensionRow const& row_of(Dimension dimension);

/// A quantity of one dimension, enclosed by an interval in quanta.
template <Dimension D>
struct Measure {
    Interval quanta;

    [[nodiscard]] static Measure from_si(Interval si);
    [[nodiscard]] Interval si() const;

    friend Measure operator+(Measure x, Measure y) { return {x.quanta + y.quanta}; }
    friend Measure operator-(Measure x, Measure y) { return {x.quanta - y.quanta}; }
    friend Measure operator-(Measure x) { return {-x.quanta}; }
    friend Measure operator*(Interval k, Measure x) { return {k * x.quanta}; }
};

namespace detail {
constexpr double quanta_per_si(Dimension d) {
    switch (d) {
        case Dimension::length: return 1e9;                  // nm
        case Dimension::angle: return 1e6;                   // µrad
        case Dimension::pressure_gauge:
        case Dimension::pressure_absolute:
        case Dimension::pressure_difference: return 1;       // Pa
        case Dimension::temperature:
        case Dimension::temperature_difference: return 1e3;  // mK
        case Dimension::mass: return 1e6;                    // mg
        case Dimension::moment: return 1e6;                  // µN·m
        case Dimension::force: return 1e6;                   // µN
        case Dimension::current: return 1e6;                 // µA
        case Dimension::voltage: return 1e3;                 // mV
        case Dimension::apparent_power: return 1e3;          // mVA
        case Dimension::power: return 1e3;                   // mW
        case Dimension::heat_flow: return 1e3;               // mW
        case Dimension::frequency: return 1e3;               // mHz
        case Dimension::resistance: return 1e3;              // mΩ
        case Dimension::time: return 1e3;                    // ms
        case Dimension::mass_flow: return 1e6;               // mg/s
        case Dimension::area: return 1e6;                    // mm²
        case Dimension::density: return 1e3;                 // g/m³
        case Dimension::lift_per_angle: return 1e9;          // nm/rad
        case Dimension::volume: return 1e9;                  // mm³
        case Dimension::volume_flow: return 1e9;             // mm³/s
        case Dimension::conductivity: return 1e9;            // nS/m
        case Dimension::cell_constant: return 1e6;           // 1/Mm
        case Dimension::flow_coefficient: return 1e6;        // millionths of a Kv
        case Dimension::start_rate: return 1e6;              // millionths of a start an hour
        case Dimension::ratio: return 1e6;                   // ppm
        case Dimension::count: return 1;
        case Dimension::money: return 100;
    }
    return 1;
}
}  // namespace detail

/// Every factor is a power of ten that a double holds exactly, so the
/// conversion rounds once, outward.
template <Dimension D>
Measure<D> Measure<D>::from_si(Interval si) {
    return {si * Interval{detail::quanta_per_si(D)}};
}
template <Dimension D>
Interval Measure<D>::si() const {
    return quanta / Interval{detail::quanta_per_si(D)};
}

using Length = Measure<Dimension::length>;
using Angle = Measure<Dimension::angle>;
using GaugePressure = Measure<Dimension::pressure_gauge>;
using AbsolutePressure = Measure<Dimension::pressure_absolute>;
using PressureDifference = Measure<Dimension::pressure_difference>;
using Temperature = Measure<Dimension::temperature>;
using TemperatureDifference = Measure<Dimension::temperature_difference>;
using Mass = Measure<Dimension::mass>;
using Moment = Measure<Dimension::moment>;
using Force = Measure<Dimension::force>;
using Current = Measure<Dimension::current>;
using Voltage = Measure<Dimension::voltage>;
using ApparentPower = Measure<Dimension::apparent_power>;
using Power = Measure<Dimension::power>;
using HeatFlow = Measure<Dimension::heat_flow>;
using Frequency = Measure<Dimension::frequency>;
using Resistance = Measure<Dimension::resistance>;
using Time = Measure<Dimension::time>;
using MassFlow = Measure<Dimension::mass_flow>;
using Area = Measure<Dimension::area>;
using Density = Measure<Dimension::density>;
using LiftPerAngle = Measure<Dimension::lift_per_angle>;
using Volume = Measure<Dimension::volume>;
using VolumeFlow = Measure<Dimension::volume_flow>;
using Conductivity = Measure<Dimension::conductivity>;
using CellConstant = Measure<Dimension::cell_constant>;
/// Cubic metres an hour of water at a drop of 1 bar (Kv): the trade's unit, and
/// not the SI's, so that a Kv that a maker states is a whole number of quanta.
using FlowCoefficient = Measure<Dimension::flow_coefficient>;
/// Starts an hour: in seconds a limit of six an hour would not be exact.
using StartRate = Measure<Dimension::start_rate>;
using Ratio = Measure<Dimension::ratio>;
using Count = Measure<Dimension::count>;

/// Gauge pressure plus the local atmosphere is the absolute pressure: the only
/// way from one to the other.
inline AbsolutePressure absolute(GaugePressure gauge, AbsolutePressure atmosphere) {
    return {gauge.quanta + atmosphere.quanta};
}

}  // namespace levelswap
