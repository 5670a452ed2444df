#include "levelswap/physics/column_water.hpp"

#include "levelswap/physics/water.hpp"

#include <algorithm>

namespace levelswap::physics {

Interval column_share(AbsolutePressure pressure, Temperature column_water) {
    auto const vapour = saturated_vapour_density(pressure);
    return (saturated_liquid_density(pressure) - vapour).si() / (liquid_density(column_water, pressure) - vapour).si();
}

Length boiler_above_column(Length height, AbsolutePressure pressure, TemperatureDifference most_cooler) {
    Temperature const coolest{saturation_temperature(pressure).quanta - most_cooler.quanta};
    Interval const share = column_share(pressure, coolest);
    double const most = std::max(0.0, ((Interval{1} / share - Interval{1}) * max(height.quanta, Interval{0})).hi);
    return {{0, most}};
}

}  // namespace levelswap::physics
