#include "levelswap/graph/constraint_graph.hpp"

#include <bit>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/connected_components.hpp>

namespace levelswap {

namespace {

// vecS for the edges: two scopes that read the same position are two edges, and both must stay.
using Bipartite = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS>;

}  // namespace

struct ConstraintGraph::Graph {
    int positions = 0;
    std::vector<Requirement> requirements;
    Bipartite edges;   ///< vertices: positions first, then requirements
};

ConstraintGraph::ConstraintGraph(int positions, std::vector<Requirement> requirements)
    : graph_(std::make_unique<Graph>()) {
    graph_->positions = positions;
    graph_->edges = Bipartite(static_cast<std::size_t>(positions) + requirements.size());
    for (std::size_t r = 0; r < requirements.size(); ++r)
        for (std::uint64_t rest = requirements[r].positions; rest; rest &= rest - 1)
            boost::add_edge(static_cast<std::size_t>(std::countr_zero(rest)), static_cast<std::size_t>(positions) + r,
                            graph_->edges);
    graph_->requirements = std::move(requirements);
}

ConstraintGraph::~ConstraintGraph() = default;
ConstraintGraph::ConstraintGraph(ConstraintGraph&&) noexcept = default;
ConstraintGraph& ConstraintGraph::operator=(ConstraintGraph&&) noexcept = default;

std::vector<Requirement> const& ConstraintGraph::requirements() const { return graph_->requirements; }

std::vector<int> ConstraintGraph::touched_by(std::uint64_t positions) const {
    std::vector<bool> touched(graph_->requirements.size(), false);
    for (std::uint64_t rest = positions; rest; rest &= rest - 1) {
        auto const p = static_cast<std::size_t>(std::countr_zero(rest));
        if (p >= static_cast<std::size_t>(graph_->positions)) break;
        auto const [first, last] = boost::adjacent_vertices(p, graph_->edges);
        for (auto it = first; it != last; ++it) touched[*it - static_cast<std::size_t>(graph_->positions)] = true;
    }
    std::vector<int> out;
    for (std::size_t r = 0; r < touched.size(); ++r)
        if (touched[r]) out.push_back(static_cast<int>(r));
    return out;
}

std::vector<std::uint64_t> ConstraintGraph::pieces() const {
    std::vector<int> component(boost::num_vertices(graph_->edges));
    if (component.empty()) return {};
    int const n = boost::connected_components(graph_->edges, component.data());
    std::vector<std::uint64_t> piece(static_cast<std::size_t>(n), 0);
    for (int p = 0; p < graph_->positions; ++p)
        piece[static_cast<std::size_t>(component[static_cast<std::size_t>(p)])] |= std::uint64_t{1} << p;
    std::vector<std::uint64_t> out;
    for (int p = 0; p < graph_->positions; ++p) {
        auto const mine = piece[static_cast<std::size_t>(component[static_cast<std::size_t>(p)])];
        if (std::countr_zero(mine) == p) out.push_back(mine);
    }
    return out;
}

}  // namespace levelswap
