#pragma once

#include "level_words.hpp"
#include "walk_run.hpp"

namespace levelswap {

/// The walk of a case in words.
LevelWalk describe_walk(Case const& c, WalkModel const& model, Units units, World world = {});
/// What goes wrong in all of the worlds looked at, then what goes wrong in some of them.
std::vector<std::string> faults_of(Case const& c, WalkModel const& model, Units units);
/// "primary.switch_set.lower".
std::string output_label(Case const& c, OutputRef output, Assignment const& parts);
/// Whether an elevation lies inside the visible part of the glass: "yes", "no", "perhaps", "unknown"; "no glass"
/// where there is none. With the device
/// that trips there, whether it still does when that has acted.
std::string shown_by_glass(Site const& site, WalkModel const& model, Elevation const& e, Device const* falling = nullptr);
/// Levels of the feed valve between the ends of its slide-wire.
std::vector<ValvePoint> valve_points(Site const& site, Device const& slide, LevelWords const& words, World world);
/// What the slide-wire reaches; empty for anything else.
std::string valve_band(Device const& slide);

}  // namespace levelswap
