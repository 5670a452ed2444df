#pragma once

#include "outcome.hpp"

namespace levelswap {

/// What is to be done about the mounting of one column.
struct Mounting {
    int station = -1;
    int rod = 0;                        ///< of a probe; 0: the mounting of the column
    Interval now{0};                    ///< nm above the vessel datum, as the site file states it
    std::optional<Interval> window;     ///< where it may stand; absent when the piping leaves no choice
    std::optional<double> set_to;       ///< only where it has to be moved
};

/// A site whose mountings are no longer settings: one after the other is left as it is where that fits whatever is
/// done to the rest, otherwise moved into the middle of what is left of its window.
struct SettledSite {
    Site site;
    std::vector<Mounting> mountings;
};
SettledSite settle_mountings(Case const& c);

}  // namespace levelswap
