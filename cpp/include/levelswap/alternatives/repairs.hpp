#pragma once

#include "levelswap/verdict/judge.hpp"

#include <utility>
#include <vector>

namespace levelswap {

/// A minimal set of positions with the parts that make the verdict "fits" (or, for undecided ones, possible).
struct RepairSet {
    std::uint64_t positions = 0;
    /// Every tuple of parts that works; of parts that no rule tells apart, the 20 cheapest stand for the rest.
    std::vector<Assignment> parts;
    std::size_t total = 0;           ///< tuples, all parts counted
};

struct RepairSearch {
    std::vector<RepairSet> repairs;
    std::vector<RepairSet> undecided;
    std::size_t checks = 0;
    bool complete = true;            ///< false when the budget of checks ran out
};

struct RepairQuery {
    Assignment start;                ///< the proposed assembly
    std::uint64_t may_change = 0;    ///< positions that may take another part
    std::vector<std::pair<int, int>> not_candidates;   ///< position, part: displaced parts
    std::vector<Instance> set_aside; ///< site work
    int most_changes = 3;
};

/// All minimal repairs of at most `most_changes` positions. Each position of a set may also stay as it is, so that
/// a larger set is never worse; only sets none of whose subsets works are returned.
RepairSearch find_repairs(Judge const& judge, RepairQuery const& query);

/// Why one assembly does not fit: the first required rule that fails, or −1 with `undecided` for "cannot tell".
struct FirstFailure {
    int rule = -1;
    Truth truth = Truth::holds;
};
FirstFailure first_failure(Judge const& judge, Assignment const& parts, std::vector<Instance> const& set_aside);

/// The parts that a position accepts, and `nothing`, in the order of the catalogue.
std::vector<int> candidates_for(Judge const& judge, int position);

}  // namespace levelswap
