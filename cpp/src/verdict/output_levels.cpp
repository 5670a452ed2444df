#include "levelswap/verdict/output_levels.hpp"

#include "wiring.hpp"

namespace levelswap {

OutputLevels output_levels(Judge const& judge, Assignment const& parts, int function, OutputRef output) {
    std::vector<Instance> const nothing_aside;
    LevelBuilder const builder(judge, parts, false, nothing_aside);
    return {builder.output_elevation(function, output, false), builder.output_elevation(function, output, true)};
}

}  // namespace levelswap
