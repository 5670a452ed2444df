#include "levelswap/physics/float_valve.hpp"

#include "corners.hpp"
#include "levelswap/physics/statics.hpp"

namespace levelswap::physics {

namespace {

Interval const gravity{standard_gravity};

Moment moment_at(FloatValve const& valve, Density water, Interval volume) {
    Interval const lift = (water.si() * volume - valve.mass.si()) * gravity;
    return Moment::from_si(lift * valve.float_arm.si() - valve.lever.si());
}

}  // namespace

Moment closing_moment(FloatValve const& valve, Density water, Length draught) {
    return moment_at(valve, water,
                     submerged_volume(valve.form, valve.diameter.si(), valve.height.si(), draught.si()));
}

Moment opening_moment(FloatValve const& valve, PressureDifference across, Interval margin) {
    return Moment::from_si(margin * across.si() * valve.seat.si() * valve.seat_arm.si());
}

PressureDifference largest_shut_off_pressure(FloatValve const& valve, Density water, Length draught, Interval margin) {
    auto const under = Volume::from_si(submerged_volume(valve.form, valve.diameter.si(), valve.height.si(), draught.si()));
    return largest_shut_off_pressure(valve, water, under, margin);
}

PressureDifference largest_shut_off_pressure(FloatValve const& valve, Density water, Volume under, Interval margin) {
    Interval const closing = max(moment_at(valve, water, under.si()).si(), 0.0);
    return PressureDifference::from_si(over_positive(closing, margin * valve.seat.si() * valve.seat_arm.si()));
}

Length shut_off_draught(FloatValve const& valve, Density water, PressureDifference across, Interval margin) {
    Interval const against = opening_moment(valve, across, margin).si() + valve.lever.si();
    Interval const force = valve.mass.si() * gravity + against / valve.float_arm.si();
    return Length::from_si(draught_carrying(valve.form, valve.diameter.si(), valve.height.si(), max(force, 0.0), water.si()));
}

Length shut_off_level(FloatValve const& valve, Density water, PressureDifference across, Interval margin, Length centre) {
    Interval const draught = shut_off_draught(valve, water, across, margin).si();
    return centre + Length::from_si(waterline_above_centre(valve.form, valve.diameter.si(), valve.height.si(), draught));
}

Moment shut_off_reserve(FloatValve const& valve, Density water, PressureDifference across, Interval margin) {
    Interval const whole = full_volume(valve.form, valve.diameter.si(), valve.height.si());
    return moment_at(valve, water, whole) - opening_moment(valve, across, margin);
}

}  // namespace levelswap::physics
