#pragma once

#include "levelswap/verdict/judge.hpp"

namespace levelswap {

/// The elevations at which an output acts for a function, whether or not any wiring can use it: what a swap that is
/// refused would do if it were connected all the same.
struct OutputLevels {
    Elevation falling, rising;
};
OutputLevels output_levels(Judge const& judge, Assignment const& parts, int function, OutputRef output);

}  // namespace levelswap
