#pragma once

#include "levelswap/base/dimension.hpp"

namespace levelswap::physics {

/// Properties of water and steam after IAPWS-IF97: the saturation line (region
/// 4), liquid (region 1) and saturated steam (region 2).
///
/// Each function encloses the formulation's value over the given range; the
/// bounds are moved outward by 1e-12 of the value, well above the rounding of
/// the sums. The uncertainty of the formulation itself (0.02 % or less in the
/// density of steam) is not added. Arguments outside the range are cut to it:
/// the saturation line runs from 273.15 K to the critical point, densities from
/// 273.15 K to 623.15 K (16.529 MPa), where regions 1 and 2 end. Pressures are
/// absolute: add the local atmosphere to a gauge pressure first.
Temperature saturation_temperature(AbsolutePressure pressure);
AbsolutePressure saturation_pressure(Temperature temperature);
Density saturated_liquid_density(AbsolutePressure pressure);
Density saturated_vapour_density(AbsolutePressure pressure);

/// Liquid at a temperature and pressure. Where the pressure is too low for
/// liquid to last, the density of saturated liquid at that temperature.
Density liquid_density(Temperature temperature, AbsolutePressure pressure);

/// How much denser liquid of one temperature is at the one pressure than at the
/// other; negative where it expands. Within 1 % of the narrowest enclosure.
Density compression(Temperature temperature, AbsolutePressure from, AbsolutePressure to);

/// Specific enthalpy [J/kg] of liquid, from 273.15 K to 500 K; arguments
/// beyond are cut to that, and a pressure too low for liquid to saturation.
Interval liquid_enthalpy(Temperature temperature, AbsolutePressure pressure);

/// The temperature of liquid of a specific enthalpy [J/kg], in the same range.
Temperature liquid_temperature(Interval enthalpy, AbsolutePressure pressure);

}  // namespace levelswap::physics
