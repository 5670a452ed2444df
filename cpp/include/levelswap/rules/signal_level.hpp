#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap {

/// The water level at which a transmitter signals an end of its calibration, in nm above its lower tapping. At the
/// pressure that it is calibrated for that is the end itself; at the working pressure water, steam and leg weigh
/// otherwise, and the water stands elsewhere when the signal is the same.
struct SignalLevel {
    Interval at{0};       ///< where it is, less what it strays
    double strays = 0;    ///< either way, as the working pressure varies: all of it occurs
};

/// What signal_level reads.
std::span<Slot const> signal_level_slots();

/// `operands` stand in the order of signal_level_slots.
SignalLevel signal_level(Operands const& operands, bool high_end);

}  // namespace levelswap
