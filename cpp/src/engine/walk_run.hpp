#pragma once

#include "levelswap/rules/level_needs.hpp"
#include "walk_model.hpp"

#include <set>

namespace levelswap {

/// Something that goes wrong in one world.
struct Fault {
    enum class Kind : std::uint8_t {
        no_output, never_trips, never_resets, valve_cannot_close, valve_cannot_open, valve_will_not_shut, jams, fires_dry,
        out_of_order_falling, stops_below_start, stops_before_reset, alarm_before_stop, out_of_glass, below_lpwl, starts_too_often, fill_too_cold,
        restarts_alone, held_button, forgets, runs_on, live_unpowered, live_sunk,
    } kind = Kind::no_output;
    int device = -1;
    int other = -1;                    ///< the one that should have come first
    friend auto operator<=>(Fault const&, Fault const&) = default;
};

enum class Phase : std::uint8_t { working, falling, low, rising };
enum class Happens : std::uint8_t {
    power_trips, trips, resets, stays_locked, held_stays, held_closes, power_stays, power_closes, pressed_closes,
    valve_wide_open, valve_shut,
};

/// A step of the walk, in the order in which it happens.
struct Happening {
    Phase phase = Phase::falling;
    Happens what = Happens::trips;
    int device = -1;
    double level = 0;                  ///< nm above the vessel datum, where it has acted
    double tripped = 0;                ///< and where the water was when that began
    bool burner_before = false, burner_after = false;
};

struct Run {
    std::vector<Happening> happenings;
    std::set<Fault> faults;
};

/// Keys of elevations that no output has, beside the world's own.
inline constexpr int glass_key = 10000, connection_key = 20000, lpwl_key = 30000;

/// Where a device has acted as the water falls at full fire, its delay over; nm above the vessel datum.
double acts_at(Site const& site, Device const& d, World world);
/// Of a pump, or of make-up, between its two levels in one world; nothing where that is not asked.
std::optional<PumpStarts> starts_in(Site const& site, Device const& d, World world);
std::optional<ColdFill> fill_in(Site const& site, Device const& d, World world);

/// Takes the model through the fall and the rise in one world.
Run run(Site const& site, WalkModel const& model, World world);

}  // namespace levelswap
