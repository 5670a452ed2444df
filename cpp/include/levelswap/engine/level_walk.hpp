#pragma once

#include "levelswap/engine/engine.hpp"
#include "levelswap/verdict/judge.hpp"

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace levelswap {

/// One world: every fact that has a range takes one value of it. What outputs share (the mounting of a column, its
/// casting mark, arm, tilt and pivot) takes one value for all of them. Seed 0 is the middle of every range; every
/// other seed is another world, with the ends of the ranges drawn often. The same seed always gives the same world.
struct World {
    std::uint64_t seed = 0;
    /// Where in its range (0 to 1) the fact called (what, whose) lies.
    [[nodiscard]] double draw(int what, int whose) const;
};

/// The height of one elevation above the vessel datum in a world, in nm. `key` tells elevations apart: their index
/// in a Wiring.
double level_in(Site const& site, Elevation const& elevation, int key, World world);
/// All heights that it can have, repeatability included, in nm.
Interval level_range(Site const& site, Elevation const& elevation);

/// Something that happens as the water falls, while it is low, or as it rises again.
struct WalkEvent {
    std::string phase;       ///< "working", "falling", "low", "rising"
    std::string event;       ///< "primary low-water cut-off: contact opens"
    std::string effect;      ///< "burner off"
    std::string duty;        ///< "primary_cut_off"
    std::string level;       ///< above the vessel datum, with unit: most likely, then the range
    std::string in_glass;    ///< "yes", "no", "perhaps", "unknown", "no glass"
    double nominal = 0, lowest = 0, highest = 0;   ///< m above the vessel datum
};

/// How far the feed valve is open at a level.
struct ValvePoint {
    std::string opening;     ///< "50 % open"
    std::string level;
};

/// An assembly taken through a fall and a rise of the water with the feed shut, and through a reset that is pressed
/// too early and a power failure while it is locked out.
struct LevelWalk {
    std::vector<WalkEvent> events;
    std::vector<ValvePoint> valve;
    std::string valve_band;              ///< what the slide-wire reaches, in words
    std::vector<std::string> faults;     ///< what goes wrong on the way, in plain words; seen in the walk itself
    std::string glass;                   ///< what the glass shows, "2.25 in to 13 in"; empty when it is not known
};

/// The walk in one world. Faults are looked for in many more: one that shows only in some of them says so.
LevelWalk walk(Catalog const& catalog, Site const& site, std::vector<std::pair<std::string, std::string>> const& put,
               Units units = Units::us, World world = {});

}  // namespace levelswap
