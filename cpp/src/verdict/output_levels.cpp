#include "levelswap/verdict/output_levels.hpp"

#include "wiring.hpp"

namespace levelswap {

OutputLevels output_levels(Judge const& judge, Assignment const& parts, int function, OutputRef output) {
    LevelBuilder const builder(judge, parts, false);
    return {builder.output_elevation(function, output, false), builder.output_elevation(function, output, true)};
}

}  // namespace levelswap
