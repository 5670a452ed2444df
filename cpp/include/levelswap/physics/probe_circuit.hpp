#pragma once

#include "levelswap/base/dimension.hpp"

namespace levelswap::physics {

/// What a probe relay measures: the resistance of the water, and of the film
/// on a fouled insulator beside it. Each result encloses the value over the
/// given ranges; water that may not conduct at all has no upper limit
/// (infinity). Conductivities, cell constants and sizes must be above zero or
/// equal to it, never below.

/// Conductivity at a temperature, from that at 25 degC: σ₂₅·(1 + α·(T − 25 °C)).
/// α is in 1/K, about 0.0175 to 0.0198 for natural waters (Hayashi, Environ.
/// Monit. Assess. 96 (2004) 119); the straight line holds near 25 degC only.
/// Where it would fall below zero the conductivity is zero.
Conductivity conductivity_at(Conductivity at_25_degC, Interval per_kelvin, Temperature temperature);

/// R = K/σ, the definition of the cell constant (ASTM D1125).
Resistance water_resistance(CellConstant cell_constant, Conductivity conductivity);

/// Cell constant of a rod in the axis of a round bore, wetted over a length:
/// ln(D/d)/(2·π·L), the textbook resistance between coaxial cylinders. A rod as
/// thick as its bore touches it: zero.
CellConstant coaxial_cell_constant(Length rod, Length bore, Length wetted);

/// Resistance along a film on an insulator, from rod to holder: a thin tube of
/// length L round the diameter d, L/(σ·π·d·t).
Resistance film_resistance(Length insulator, Length diameter, Length thickness, Conductivity film);

/// Two paths to ground beside each other: 1/(1/R₁ + 1/R₂).
Resistance in_parallel(Resistance one, Resistance other);

}  // namespace levelswap::physics
