#pragma once

#include "levelswap/verdict/part_numbers.hpp"

#include <array>
#include <vector>

namespace levelswap {

/// How many parts of one class stand in listed tuples; the counts take all of them.
inline constexpr std::size_t most_alike_listed = 20;

/// Groups candidates that are equal in every fact that a rule can read.
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
    PartNumbers numbers_;
    std::array<std::vector<int>, kind_count> by_kind_;
};

}  // namespace levelswap
