#pragma once

#include "levelswap/base/dimension.hpp"

#include <cstdint>

namespace levelswap::physics {

/// How much water a valve passes, after IEC 60534-2-1 (liquid, turbulent):
///     Q = C·F_P·√(Δp_sizing·ρ₀/ρ),  Δp_sizing = min(Δp, F_L²·(p₁ − F_F·p_v)).
///
/// C is a FlowCoefficient, stated as Kv or Cv; both use the same water density
/// ρ₀. Each result encloses the value over the given ranges; shares (F_L, F_P,
/// openings) are numbers, 1 is the whole. Pressures are absolute.
struct ValveStream {
    AbsolutePressure inlet;   ///< p₁, upstream of the valve
    AbsolutePressure outlet;  ///< p₂
    AbsolutePressure vapour;  ///< p_v, at the inlet temperature
    Density density;
};

/// Water at 15 degC, to which the standard refers relative densities.
inline constexpr double reference_density = 999.1;  // kg/m³

/// Critical pressure of water, 22.064 MPa (IAPWS R7-97).
inline constexpr AbsolutePressure critical_pressure{Interval{22'064'000}};

/// F_F = 0.96 − 0.28·√(p_v/p_c).
Interval critical_pressure_ratio_factor(AbsolutePressure vapour, AbsolutePressure critical = critical_pressure);

/// The drop beyond which more drop brings no more flow, (F_L/F_P)²·(p₁ −
/// F_F·p_v); zero where the water boils already. With reducers pass
/// F_LP and F_P, without them F_L and 1.
PressureDifference choked_drop(ValveStream const& stream, Interval recovery, Interval piping = 1.0,
                               AbsolutePressure critical = critical_pressure);

/// The drop that drives the flow: the actual or the choked one, whichever is
/// smaller; zero for a reversed drop, since nothing then flows forward.
PressureDifference sizing_drop(ValveStream const& stream, PressureDifference choked);

/// Flow through a valve at a sizing drop.
VolumeFlow flow_through(FlowCoefficient coefficient, PressureDifference drop, Density density, Interval piping = 1.0);

/// The product C·F_P that passes a flow; no limit at a drop of zero.
FlowCoefficient required_coefficient(VolumeFlow flow, PressureDifference drop, Density density);

/// The drop that a flow causes in a valve or any resistance with a C, not choked.
PressureDifference drop_at(VolumeFlow flow, FlowCoefficient coefficient, Density density, Interval piping = 1.0);

/// The same three for a flow by mass, which goes with √ρ: a density that is known roughly counts once.
MassFlow mass_through(FlowCoefficient coefficient, PressureDifference drop, Density density);
FlowCoefficient required_coefficient(MassFlow flow, PressureDifference drop, Density density);
PressureDifference drop_at(MassFlow flow, FlowCoefficient coefficient, Density density);

/// F_P of a valve between reducers of the same pipe size: 1/√(1 + ΣK·C²/(N₂·d⁴)),
/// ΣK = 1.5·(1 − d²/D²)², N₂ = 0.0016 (Kv, mm). A pipe that is not larger than
/// the valve counts as no reducer.
Interval piping_geometry_factor(FlowCoefficient coefficient, Length valve, Length pipe);

/// F_LP, the recovery factor of valve and inlet reducer together:
/// F_L/√(1 + F_L²·ΣK₁·C²/(N₂·d⁴)), ΣK₁ = 0.5·(1 − d²/D²)² + 1 − d⁴/D⁴.
Interval combined_recovery_factor(FlowCoefficient coefficient, Interval recovery, Length valve, Length pipe);

/// Inherent characteristics (IEC 60534-2-4): the share of the rated C at an
/// opening h, with the rangeability R > 1 between the rated and the least
/// controllable C. Linear: 1/R + (1 − 1/R)·h; equal percentage: R^(h − 1).
enum class Characteristic : std::uint8_t { linear, equal_percentage };

FlowCoefficient coefficient_at(Characteristic characteristic, FlowCoefficient rated, Interval rangeability, Interval opening);

/// The opening at which a share of the rated C passes: above 1 when the valve
/// is too small, below 0 when less is wanted than it can control.
Interval opening_for(Characteristic characteristic, Interval rangeability, FlowCoefficient rated, FlowCoefficient wanted);

}  // namespace levelswap::physics
