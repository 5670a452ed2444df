#pragma once

#include "levelswap/base/dimension.hpp"

namespace levelswap::physics {

/// A pump that fills a volume between its on and off levels while the boiler
/// takes water out of it all the time. Each result encloses the value over the
/// given ranges of the pump's flow Q, the take-off E and the volume V.

/// Starts an hour, 3600/(V/(Q − E) + V/E): most at E = Q/2, which counts when
/// the range of E holds it. Nothing taken off, never a start; Q ≤ E, never a
/// stop and so no further start: zero. No volume: no limit.
StartRate starts_per_hour(Volume volume, VolumeFlow pump, VolumeFlow take_off);

/// How long it runs to fill the volume, V/(Q − E); no limit where Q ≤ E.
Time running_time(Volume volume, VolumeFlow pump, VolumeFlow take_off);

/// How long it stands until the volume is used, V/E; no limit without take-off.
Time standing_time(Volume volume, VolumeFlow take_off);

/// What the pump brings beyond the take-off; where it is not above zero the pump never stops.
VolumeFlow pump_surplus(VolumeFlow pump, VolumeFlow take_off);

/// The volume that keeps the starts at or below a limit: 3600·E·(Q − E)/(Q·limit).
Volume volume_for_starts(StartRate limit, VolumeFlow pump, VolumeFlow take_off);

}  // namespace levelswap::physics
