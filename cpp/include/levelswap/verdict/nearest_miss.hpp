#pragma once

#include "levelswap/verdict/judge.hpp"

namespace levelswap {

/// Where no output can serve a function, what the nearest one is judged by: one of the right form before any other, then
/// the one that fails the fewest rules, then by the least share of what is asked. Null when one can, or there is none.
std::vector<Judged> const* nearest_miss(Judge const& judge, Assignment const& parts,
                                        std::vector<std::pair<OutputRef, std::vector<Judged>>> const& options);

}  // namespace levelswap
