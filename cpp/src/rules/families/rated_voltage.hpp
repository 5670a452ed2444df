#pragma once

// How far a supply may stand from the voltage of a plate.

#include "levelswap/base/dimension.hpp"

namespace levelswap::families {

/// The rated voltage and so many parts of it [quanta of a ratio] more, in whole quanta: equality must pass.
inline Voltage share_of(Voltage rated, Interval parts) {
    constexpr double whole = detail::quanta_per_si(Dimension::ratio);
    return {rated.quanta * (Interval{whole} + parts) / Interval{whole}};
}

}  // namespace levelswap::families
