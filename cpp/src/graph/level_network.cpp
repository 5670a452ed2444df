#include "levelswap/graph/level_network.hpp"

#include <algorithm>
#include <limits>

namespace levelswap {

namespace {

/// Follows the relaxed edges back far enough to stand on the cycle, then walks it once.
std::vector<int> walk_cycle(int vertices, std::span<LevelEdge const> edges, std::vector<int> const& relaxed, int at) {
    for (int i = 0; i < vertices; ++i) at = edges[static_cast<std::size_t>(relaxed[static_cast<std::size_t>(at)])].from;
    std::vector<int> cycle;
    int const start = at;
    do {
        int const e = relaxed[static_cast<std::size_t>(at)];
        cycle.push_back(e);
        at = edges[static_cast<std::size_t>(e)].from;
    } while (at != start);
    std::reverse(cycle.begin(), cycle.end());
    return cycle;
}

std::vector<std::int64_t> shortest(int vertices, std::span<LevelEdge const> edges, int root, bool reversed) {
    constexpr auto far = std::numeric_limits<std::int64_t>::max() / 4;
    std::vector<std::int64_t> d(static_cast<std::size_t>(vertices), far);
    d[static_cast<std::size_t>(root)] = 0;
    for (bool changed = true; changed;) {
        changed = false;
        for (auto const& e : edges) {
            auto const& from = d[static_cast<std::size_t>(reversed ? e.to : e.from)];
            auto& to = d[static_cast<std::size_t>(reversed ? e.from : e.to)];
            if (from < far && from + e.weight < to) {
                to = from + e.weight;
                changed = true;
            }
        }
    }
    return d;
}

}  // namespace

LevelAnswer solve_levels(int vertices, std::span<LevelEdge const> edges) {
    std::vector<std::int64_t> d(static_cast<std::size_t>(vertices), 0);
    std::vector<int> relaxed(static_cast<std::size_t>(vertices), -1);
    int last = -1;
    for (int round = 0; round <= vertices; ++round) {
        last = -1;
        for (std::size_t i = 0; i < edges.size(); ++i) {
            auto const& e = edges[i];
            auto const bound = d[static_cast<std::size_t>(e.from)] + e.weight;
            if (bound >= d[static_cast<std::size_t>(e.to)]) continue;
            d[static_cast<std::size_t>(e.to)] = bound;
            relaxed[static_cast<std::size_t>(e.to)] = static_cast<int>(i);
            last = e.to;
        }
        if (last < 0) break;
    }
    LevelAnswer answer;
    if (last >= 0) {
        answer.consistent = false;
        answer.cycle = walk_cycle(vertices, edges, relaxed, last);
        return answer;
    }
    for (auto& x : d) answer.elevation.push_back(x - d[0]);
    return answer;
}

LevelWindow window_of(int vertices, std::span<LevelEdge const> edges, int v) {
    auto const up = shortest(vertices, edges, 0, false);
    auto const down = shortest(vertices, edges, 0, true);
    return {-down[static_cast<std::size_t>(v)], up[static_cast<std::size_t>(v)]};
}

}  // namespace levelswap
