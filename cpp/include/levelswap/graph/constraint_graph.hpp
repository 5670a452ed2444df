#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

namespace levelswap {

/// One requirement and the positions that its scope reads.
struct Requirement {
    std::string name;
    std::uint64_t positions = 0;
};

/// Who reads whom: positions on one side, requirements on the other, built from the scopes alone.
/// It tells what must be judged again after a change, and which pieces of an assembly have nothing to do
/// with each other.
class ConstraintGraph {
public:
    ConstraintGraph(int positions, std::vector<Requirement> requirements);
    ~ConstraintGraph();
    ConstraintGraph(ConstraintGraph&&) noexcept;
    ConstraintGraph& operator=(ConstraintGraph&&) noexcept;

    /// Indices of the requirements that read one of the positions, in canonical order.
    [[nodiscard]] std::vector<int> touched_by(std::uint64_t positions) const;
    /// Positions by independent piece: no requirement reads across two pieces. Ordered by their first position.
    [[nodiscard]] std::vector<std::uint64_t> pieces() const;
    [[nodiscard]] std::vector<Requirement> const& requirements() const;

private:
    struct Graph;
    std::unique_ptr<Graph> graph_;
};

}  // namespace levelswap
