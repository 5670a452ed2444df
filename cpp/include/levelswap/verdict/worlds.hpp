#pragma once

#include "levelswap/verdict/judge.hpp"

#include <optional>
#include <vector>

namespace levelswap {

/// What became of an assembly that the rules, each over its own box of facts, leave undecided.
struct Settled {
    Truth truth = Truth::undecided;
    bool proved = false;
    /// One world in which everything required holds: the certificate of "cannot tell".
    std::optional<Pins> world;
    /// In every world there are settings that do, though no one setting is right in all of them.
    bool once_set = false;
    /// Rules that exclude one another whatever the open facts are: the conflict of "does not fit".
    std::vector<Instance> excluding;
    std::vector<FactKey> shared;        ///< the open facts that they share
};

/// Branch and prune over the open facts: a box in which some rule fails is closed, a point at which all rules hold is
/// a certificate. All boxes closed: no world satisfies the rules together. The budget counts boxes, never seconds.
Settled settle(Judge const& judge, Assignment const& parts, std::vector<Instance> const& set_aside,
               std::size_t most_boxes = 100);

/// Does no world satisfy the rules? Proved within the budget of boxes, or "no": that one may satisfy them is not shown.
bool impossible(Judge const& judge, Assignment const& parts, std::vector<Instance> const& set_aside, std::size_t most_boxes);

}  // namespace levelswap
