// Outside source: Boost.Graph's Bellman-Ford, used here as a peer with a root that reaches every vertex.
#include "levelswap/graph/level_network.hpp"

// Boost 1.74's edge iterators raise this under g++ 12 at -O1 and above, although they are system headers.
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/bellman_ford_shortest_paths.hpp>
#include <gtest/gtest.h>

#include <numeric>
#include <random>

namespace levelswap {
namespace {

std::int64_t weight_of(std::vector<LevelEdge> const& edges, std::vector<int> const& cycle) {
    return std::accumulate(cycle.begin(), cycle.end(), std::int64_t{0},
                           [&](std::int64_t sum, int e) { return sum + edges[static_cast<std::size_t>(e)].weight; });
}

void expect_closed(std::vector<LevelEdge> const& edges, std::vector<int> const& cycle) {
    ASSERT_FALSE(cycle.empty());
    for (std::size_t i = 0; i < cycle.size(); ++i)
        EXPECT_EQ(edges[static_cast<std::size_t>(cycle[i])].to,
                  edges[static_cast<std::size_t>(cycle[(i + 1) % cycle.size()])].from);
}

/// The peer: an added root reaches every vertex at no cost; weight and distance are both int64.
bool peer_says_consistent(int vertices, std::vector<LevelEdge> const& edges) {
    using Peer = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, boost::no_property,
                                       boost::property<boost::edge_weight_t, std::int64_t>>;
    Peer g(static_cast<std::size_t>(vertices) + 1);
    for (auto const& e : edges)
        boost::add_edge(static_cast<std::size_t>(e.from), static_cast<std::size_t>(e.to), e.weight, g);
    for (int v = 0; v < vertices; ++v) boost::add_edge(static_cast<std::size_t>(vertices), static_cast<std::size_t>(v), std::int64_t{0}, g);
    std::vector<std::int64_t> distance(boost::num_vertices(g));
    return boost::bellman_ford_shortest_paths(
        g, static_cast<int>(boost::num_vertices(g)),
        boost::root_vertex(static_cast<std::size_t>(vertices)).distance_map(distance.data()).weight_map(get(boost::edge_weight, g)));
}

TEST(LevelNetwork, a_negative_cycle_that_no_root_reaches_is_found) {
    std::vector<LevelEdge> const edges{{0, 1, 5, 0}, {2, 3, -2, 1}, {3, 2, 1, 2}};
    auto const answer = solve_levels(4, edges);
    EXPECT_FALSE(answer.consistent);
    expect_closed(edges, answer.cycle);
    EXPECT_LT(weight_of(edges, answer.cycle), 0);
}

TEST(LevelNetwork, of_two_parallel_edges_the_tighter_one_is_named) {
    std::vector<LevelEdge> const edges{{0, 1, 10, 0}, {0, 1, 3, 1}, {1, 0, -4, 2}};
    auto const answer = solve_levels(2, edges);
    ASSERT_FALSE(answer.consistent);
    EXPECT_NE(std::find(answer.cycle.begin(), answer.cycle.end(), 1), answer.cycle.end());
    EXPECT_EQ(std::find(answer.cycle.begin(), answer.cycle.end(), 0), answer.cycle.end());
}

TEST(LevelNetwork, the_cycle_reported_is_negative_even_when_the_last_edge_relaxed_lies_off_it) {
    std::vector<LevelEdge> const edges{{0, 1, -1, 0}, {1, 0, 0, 1}, {1, 2, -100, 2}, {2, 3, -100, 3}};
    auto const answer = solve_levels(4, edges);
    ASSERT_FALSE(answer.consistent);
    expect_closed(edges, answer.cycle);
    EXPECT_EQ(weight_of(edges, answer.cycle), -1);
}

TEST(LevelNetwork, a_zero_cycle_is_consistent_and_one_nanometre_less_is_not) {
    std::vector<LevelEdge> edges{{0, 1, 25'400'000, 0}, {1, 0, -25'400'000, 1}};
    EXPECT_TRUE(solve_levels(2, edges).consistent);
    edges[1].weight -= 1;
    EXPECT_FALSE(solve_levels(2, edges).consistent);
}

TEST(LevelNetwork, the_window_is_what_the_constraints_leave) {
    // 3 <= x1 <= 9, x2 - x1 >= 2, x2 <= 8
    std::vector<LevelEdge> const edges{{0, 1, 9, 0}, {1, 0, -3, 1}, {2, 1, -2, 2}, {0, 2, 8, 3}};
    auto const w = window_of(3, edges, 1);
    EXPECT_EQ(w.lo, 3);
    EXPECT_EQ(w.hi, 6);
}

TEST(LevelNetwork, random_networks_agree_with_the_peer_and_certify_themselves) {
    std::mt19937 random(20261125);
    int consistent = 0, inconsistent = 0;
    for (int trial = 0; trial < 2000; ++trial) {
        int const n = 2 + static_cast<int>(random() % 8);
        std::vector<LevelEdge> edges;
        for (int e = 0, m = static_cast<int>(random() % 20); e < m; ++e)
            edges.push_back({static_cast<int>(random() % static_cast<unsigned>(n)), static_cast<int>(random() % static_cast<unsigned>(n)),
                             static_cast<std::int64_t>(random() % 21) - 6, e});
        auto const answer = solve_levels(n, edges);
        ASSERT_EQ(answer.consistent, peer_says_consistent(n, edges)) << "trial " << trial;
        if (answer.consistent) {
            ++consistent;
            for (auto const& e : edges)
                EXPECT_LE(answer.elevation[static_cast<std::size_t>(e.to)] - answer.elevation[static_cast<std::size_t>(e.from)], e.weight);
        } else {
            ++inconsistent;
            expect_closed(edges, answer.cycle);
            EXPECT_LT(weight_of(edges, answer.cycle), 0);
        }
    }
    EXPECT_GT(consistent, 200);
    EXPECT_GT(inconsistent, 200);
}

}  // namespace
}  // namespace levelswap
