#include "levelswap/physics/make_up.hpp"

#include "corners.hpp"
#include "levelswap/physics/statics.hpp"

namespace levelswap::physics {

namespace {

Interval const gravity{standard_gravity};

/// 34.5 lb/h, with 1 lb = 0.45359237 kg (yard and pound agreement of 1959).
Interval const kilograms_per_hour = Interval{34.5} * (Interval{45'359'237} / Interval{1e8});

}  // namespace

MassFlow evaporation(Interval boiler_horsepower) {
    return MassFlow::from_si(boiler_horsepower * kilograms_per_hour / Interval{3600});
}

MassFlow feed_demand(MassFlow evaporation, Ratio blowdown) {
    return MassFlow::from_si(over_positive(evaporation.si(), Interval{1} - blowdown.si()));
}

VolumeFlow as_volume_flow(MassFlow flow, Density density) { return VolumeFlow::from_si(flow.si() / density.si()); }

Length level_fall(MassFlow evaporation, Density water, Area surface, Time time) {
    return Length::from_si(over_positive(evaporation.si() * time.si(), water.si() * surface.si()));
}

Time time_to_fall(MassFlow evaporation, Density water, Area surface, Length height) {
    return Time::from_si(over_positive(max(water.si() * surface.si() * height.si(), 0.0), evaporation.si()));
}

GaugePressure feed_pressure(GaugePressure set, PressureDifference losses, Length lift, Density water) {
    return GaugePressure::from_si(set.si() + losses.si() + column_pressure(lift, water).si());
}

PressureDifference column_pressure(Length height, Density water) {
    return PressureDifference::from_si(height.si() * water.si() * gravity);
}

Length head(PressureDifference pressure, Density water) { return Length::from_si(pressure.si() / (water.si() * gravity)); }

Length npsh_available(AbsolutePressure surface, AbsolutePressure vapour, PressureDifference losses, Length height, Density water) {
    Interval const over_vapour = surface.si() - vapour.si() - losses.si();
    return Length::from_si(over_vapour / (water.si() * gravity) + height.si());
}

}  // namespace levelswap::physics
