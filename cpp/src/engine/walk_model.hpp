#pragma once

#include "levelswap/engine/level_walk.hpp"
#include "levelswap/rules/output_reach.hpp"
#include "levelswap/verdict/output_levels.hpp"
#include "outcome.hpp"

namespace levelswap {

/// Facts that something is worked out from, as a rule of levels reads them: of one world, or of all.
struct WorldFacts {
    Operands operands;
    std::vector<Slot> slots;           ///< of the operands
    bool known = true;                 ///< none of those that count is without any bound
    int whose = -1;                    ///< draws the facts that are not the vessel's apart

    /// One value for each fact that is one value not exactly known; what varies keeps all its values.
    [[nodiscard]] Operands in(World world) const;
};

/// How late a contact follows the level.
struct Delay {
    Interval time{0};                  ///< ms
    bool at_full_fire = true;          ///< the water falls meanwhile; false: nothing fires under it
    WorldFacts facts;

    /// How far the water falls from `from` (nm above the datum) until the contact has acted, the most of what occurs.
    [[nodiscard]] double fall(double from, World world) const;
    [[nodiscard]] Interval fall(Interval from) const;
};

/// One function with the output that performs it, as the walk sees it. Nothing here depends on the kind of part.
struct Device {
    int function = -1;
    Duty duty = Duty::primary_cut_off;
    OutputRef output;                  ///< position −1: no output is left for it
    /// A contact that opens or closes as the water falls, a slide-wire or signal, a valve that its own float moves.
    enum class Acts : std::uint8_t { opens, closes, slides, feeds } acts = Acts::opens;
    OutputLevels levels;
    OutputReach reach;
    Truth sinks = Truth::holds, lifts = Truth::holds;   ///< the float has the force, with nothing to spare
    Truth jams = Truth::fails;         ///< the float meets a side inside the head's own arc
    Truth manual = Truth::fails;       ///< stays as it tripped until reset is pressed
    Truth held_closes = Truth::fails;  ///< a held reset button closes it while the water is low
    Truth forgets = Truth::fails;      ///< a power failure clears the lockout
    Truth trips_wet = Truth::fails;    ///< a power failure locks it out although the water is up
    Truth live_unpowered = Truth::fails, live_sunk = Truth::fails;   ///< a burner contact closed in that state
    Truth shuts = Truth::holds;        ///< a float valve, against the supply
    Interval shuts_against{0}, supply{0};                            ///< Pa across its seat: what it can, what it must
    std::optional<Delay> delay;        ///< absent: it acts at its level
    std::optional<WorldFacts> starts, fill;                          ///< of a pump or make-up between its levels
    std::optional<Elevation> water_connection, steam_connection;     ///< of its column

    [[nodiscard]] bool wired() const { return output.position >= 0; }
    [[nodiscard]] bool cut_off() const { return is_cut_off(duty); }
    [[nodiscard]] bool has_contact() const { return acts == Acts::opens || acts == Acts::closes; }
    [[nodiscard]] int falling_key() const { return 2 * function; }
    [[nodiscard]] int rising_key() const { return 2 * function + 1; }
};

struct Glass {
    Elevation low, high;
};

/// What the water acts on.
struct WalkModel {
    std::vector<Device> devices;
    bool has_glass = false;
    std::optional<Glass> glass;        ///< absent when there is none, or nobody knows where it begins
    std::optional<Elevation> lpwl;     ///< lowest permissible level of a boiler without a glass, where it is known
};

/// The wiring of the verdict; where there is none, each function on the first output of the right form that is left.
WalkModel walk_model(Case const& c);

/// All levels at which a device may have acted as the water falls at full fire: its trip, less what falls meanwhile.
Interval acting_range(Site const& site, Device const& d);

}  // namespace levelswap
