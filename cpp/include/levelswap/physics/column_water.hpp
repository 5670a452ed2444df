#pragma once

#include "levelswap/base/dimension.hpp"

namespace levelswap::physics {

/// Water in an outside column stands lower than in a saturated boiler when it is cooler, so denser: both legs
/// with the steam above them weigh the same, h_column / h_boiler = (ρ_boiler − ρ_vapour) / (ρ_column − ρ_vapour),
/// heights above the water connection. Encloses that quotient; 1 where the column is saturated too.
Interval column_share(AbsolutePressure pressure, Temperature column_water);

/// How much higher than in the column the boiler's water stands, for a height in the column above the water
/// connection (never less than 0), while the column's water is anything from saturated to so much cooler.
Length boiler_above_column(Length height_in_column, AbsolutePressure pressure, TemperatureDifference most_cooler);

}  // namespace levelswap::physics
