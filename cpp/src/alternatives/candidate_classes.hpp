#pragma once

#include "levelswap/verdict/judge.hpp"

#include <array>
#include <vector>

namespace levelswap {

/// How many parts of one class stand in listed tuples; the counts take all of them.
inline constexpr std::size_t most_alike_listed = 20;

/// Groups candidates that are equal in every fact that a rule can read. Apart stay: the part that the site holds
/// (what was measured there is about it, and its wires stay), and floats that a switch set names.
class CandidateClasses {
public:
    explicit CandidateClasses(Judge const& judge);
    /// The parts that a position accepts, and `nothing`, in the order of the catalogue.
    [[nodiscard]] std::vector<int> accepted(int position) const;
    /// Classes in the order of their first parts; the parts of each in the order of the catalogue.
    [[nodiscard]] std::vector<std::vector<int>> of(int position, std::vector<int> const& parts) const;
    /// The cheapest of a class, then in the order of the catalogue: the tuples listed first are made of them.
    [[nodiscard]] std::vector<int> cheapest(std::vector<int> const& alike, std::size_t most) const;

private:
    [[nodiscard]] double cost(int part) const;

    Judge const& judge_;
    bool cost_counts_ = false;   ///< a house rule looks at it
    std::vector<int> first_;     ///< by part: the first one of its class
    std::array<std::vector<int>, kind_count> by_kind_;
};

}  // namespace levelswap
