#pragma once

#include "levelswap/engine/level_walk.hpp"
#include "levelswap/rules/output_reach.hpp"
#include "levelswap/verdict/output_levels.hpp"
#include "outcome.hpp"

namespace levelswap {

/// One function with the output that performs it, as the walk sees it. Nothing here depends on the kind of part.
struct Device {
    int function = -1;
    Duty duty = Duty::primary_cut_off;
    OutputRef output;                  ///< position −1: no output is left for it
    enum class Acts : std::uint8_t { opens, closes, slides } acts = Acts::opens;
    OutputLevels levels;
    OutputReach reach;
    Truth sinks = Truth::holds, lifts = Truth::holds;   ///< the float has the force, with nothing to spare
    Truth jams = Truth::fails;         ///< the float meets a side inside the head's own arc
    Truth manual = Truth::fails;       ///< stays as it tripped until reset is pressed
    Truth held_closes = Truth::fails;  ///< a held reset button closes it while the water is low
    Truth forgets = Truth::fails;      ///< a power failure clears the lockout
    Truth trips_wet = Truth::fails;    ///< a power failure locks it out although the water is up
    Truth live_unpowered = Truth::fails, live_sunk = Truth::fails;   ///< a burner contact closed in that state
    std::optional<Elevation> water_connection, steam_connection;     ///< of its column

    [[nodiscard]] bool wired() const { return output.position >= 0; }
    [[nodiscard]] bool cut_off() const { return is_cut_off(duty); }
    [[nodiscard]] int falling_key() const { return 2 * function; }
    [[nodiscard]] int rising_key() const { return 2 * function + 1; }
};

struct Glass {
    Elevation low, high;
};

/// What the water acts on.
struct WalkModel {
    std::vector<Device> devices;
    std::optional<Glass> glass;        ///< absent when there is none, or nobody knows where it begins
};

/// The wiring of the verdict; where there is none, each function on the first output of the right form that is left.
WalkModel walk_model(Case const& c);

}  // namespace levelswap
