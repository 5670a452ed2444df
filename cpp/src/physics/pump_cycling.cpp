#include "levelswap/physics/pump_cycling.hpp"

#include "corners.hpp"

namespace levelswap::physics {

namespace {

// Flows in mm³/s and volumes in mm³, their quanta: whole numbers as they were
// read, so that a pump exactly as large as the take-off is seen to be that.

/// E·(Q − E)/Q = 1/(1/(Q − E) + 1/E), at a point; zero where the pump never starts or never stops.
Interval alternating(double pump, double take_off) {
    if (take_off <= 0 || take_off >= pump) return 0.0;
    Interval const e{take_off}, q{pump};
    return e * (q - e) / q;
}

/// Rising in Q; in E it rises to Q/2 and falls to Q, so its least value is at an
/// end and its greatest at the E nearest to Q/2.
Interval alternating(Interval pump, Interval take_off) {
    double const worst = std::clamp(pump.hi / 2, take_off.lo, take_off.hi);
    double const least = std::min(alternating(pump.lo, take_off.lo).lo, alternating(pump.lo, take_off.hi).lo);
    return {least, alternating(pump.hi, worst).hi};
}

Interval per_hour(Interval per_second_flow, Interval by) {
    if (per_second_flow.hi <= 0) return 0.0;
    return over_positive(Interval{3600} * per_second_flow, by);
}

}  // namespace

StartRate starts_per_hour(Volume volume, VolumeFlow pump, VolumeFlow take_off) {
    return StartRate::from_si(per_hour(alternating(pump.quanta, take_off.quanta), volume.quanta));
}

Time running_time(Volume volume, VolumeFlow pump, VolumeFlow take_off) {
    return Time::from_si(over_positive(volume.quanta, pump_surplus(pump, take_off).quanta));
}

Time standing_time(Volume volume, VolumeFlow take_off) {
    return Time::from_si(over_positive(volume.quanta, take_off.quanta));
}

VolumeFlow pump_surplus(VolumeFlow pump, VolumeFlow take_off) { return pump - take_off; }

Volume volume_for_starts(StartRate limit, VolumeFlow pump, VolumeFlow take_off) {
    return {per_hour(alternating(pump.quanta, take_off.quanta), limit.si())};
}

}  // namespace levelswap::physics
