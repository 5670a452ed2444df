#pragma once

#include "outcome.hpp"

namespace levelswap {

/// Levels stated against the casting mark that lie far from where the geometry of this very head and float puts them:
/// remarks, since the stated level is what counts and one of the two figures is wrong.
std::vector<std::string> far_stated_levels(Case const& c, Units units);

/// Levels, as mounted now, that the highest glass may not show, and a normal water level outside the band in which the
/// feed holds the water: remarks, common practice without a source.
std::vector<std::string> levels_out_of_sight(Case const& c, Units units);

}  // namespace levelswap
