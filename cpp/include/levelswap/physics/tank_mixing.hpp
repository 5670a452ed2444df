#pragma once

#include "levelswap/base/dimension.hpp"

namespace levelswap::physics {

/// What cold make-up does to a feed tank. Heat is counted as the enthalpy of
/// IAPWS-IF97 at the tank's pressure; each result encloses the value over the
/// given ranges. The tank is well mixed and loses no heat meanwhile.

/// Temperature after two masses have mixed: h = (m₁·h₁ + m₂·h₂)/(m₁ + m₂).
/// Of no water at all only the two temperatures are known.
Temperature mixed_temperature(Mass tank, Temperature hot, Mass make_up, Temperature cold, AbsolutePressure pressure);

/// Temperature after a fill, from volumes: that in the tank when filling starts
/// (at the lower probe) and that of the make-up as it comes in.
Temperature temperature_after_fill(Volume in_tank, Temperature hot, Volume make_up, Temperature cold, AbsolutePressure pressure);

/// The make-up that may come in at once before the tank falls to `least`:
/// m·(h_hot − h_least)/(h_least − h_cold). Zero when the tank is at or below it
/// already, no limit when the make-up is not colder than it.
Mass largest_fill(Mass tank, Temperature hot, Temperature cold, Temperature least, AbsolutePressure pressure);

/// Preheat to hold a temperature against a steady make-up, m·(h_hold − h_cold);
/// none when the make-up is no colder. On/off filling needs the same on average.
HeatFlow heating_power(MassFlow make_up, Temperature cold, Temperature hold, AbsolutePressure pressure);

}  // namespace levelswap::physics
