#pragma once

#include "levelswap/base/dimension.hpp"

namespace levelswap::physics {

/// Water in an outside column is cooler than in the boiler, so denser, and
/// stands lower: two legs of equal weight between the same taps,
///     h_column = h·(ρ_boiler − ρ_vapour)/(ρ_column − ρ_vapour).
/// The level is measured from the lower (water) connection. The column's water
/// must be denser than the vapour.
Length column_level(Length boiler_level, Density boiler, Density column, Density vapour);

/// How far the column's level is above the boiler's; negative for a cooler
/// column: everything worked from it acts early on the way down and late on
/// the way up.
Length column_shift(Length boiler_level, Density boiler, Density column, Density vapour);

}  // namespace levelswap::physics
