#pragma once

#include "levelswap/base/dimension.hpp"

namespace levelswap::physics {

/// How much water the boiler takes, how fast its level falls without it, and
/// the pressure that it takes to bring it in. Each result encloses the value
/// over the given ranges.

/// Evaporation from boiler horsepower: 34.5 lb/h each, from and at 212 degF
/// (the definition). A lower feed temperature evaporates less, so this is on
/// the safe side for supply.
MassFlow evaporation(Interval boiler_horsepower);

/// Feed that makes up for evaporation and a blowdown stated as a share of the
/// feed: E/(1 − share). A share of one or more has no limit.
MassFlow feed_demand(MassFlow evaporation, Ratio blowdown);

/// The same flow as a volume.
VolumeFlow as_volume_flow(MassFlow flow, Density density);

/// How far the level falls in a time without feed: E·t/(ρ·A), A the free
/// surface of the water.
Length level_fall(MassFlow evaporation, Density water, Area surface, Time time);

/// How long the water lasts over a height, ρ·A·h/E; no limit without evaporation.
Time time_to_fall(MassFlow evaporation, Density water, Area surface, Length height);

/// Gauge pressure at the pump to feed against: the highest safety-valve
/// setting, the losses on the way and the lift to the water level.
GaugePressure feed_pressure(GaugePressure set, PressureDifference losses, Length lift, Density water);

/// The pressure of a column and its height: p = ρ·g·h.
PressureDifference column_pressure(Length height, Density water);
Length head(PressureDifference pressure, Density water);

/// Net positive suction head available at the pump, above its centre line:
/// (p_surface − p_vapour − losses)/(ρ·g) + height of the surface above the
/// pump, negative below it.
Length npsh_available(AbsolutePressure surface, AbsolutePressure vapour, PressureDifference losses, Length height, Density water);

}  // namespace levelswap::physics
