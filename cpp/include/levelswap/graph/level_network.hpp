#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace levelswap {

/// A difference constraint between two elevations: to − from ≤ weight, in whole nanometres.
struct LevelEdge {
    int from = 0;
    int to = 0;
    std::int64_t weight = 0;
    int tag = -1;   ///< what the edge stands for; parallel edges keep their own
};

/// The answer of a level network. Consistent exactly when there is no negative cycle.
struct LevelAnswer {
    bool consistent = true;
    std::vector<std::int64_t> elevation;   ///< one solution, vertex 0 at 0; empty when inconsistent
    std::vector<int> cycle;                ///< indices of edges on one negative cycle; empty when consistent
};

/// Solves a network of difference constraints. No root is needed: every vertex starts at zero, so that a
/// negative cycle is found wherever it lies; the relaxed edge is kept, so that parallel edges are told apart.
LevelAnswer solve_levels(int vertices, std::span<LevelEdge const> edges);

/// The window of vertex `v` against vertex 0 in a consistent network: [lo, hi] by shortest paths.
struct LevelWindow {
    std::int64_t lo = 0;
    std::int64_t hi = 0;
};
LevelWindow window_of(int vertices, std::span<LevelEdge const> edges, int v);

}  // namespace levelswap
