#pragma once

#include "outcome.hpp"

namespace levelswap {

/// Levels stated against the casting mark that lie far from where the geometry of this very head and float puts them:
/// remarks, since the stated level is what counts and one of the two figures is wrong.
std::vector<std::string> far_stated_levels(Case const& c, Units units);

}  // namespace levelswap
