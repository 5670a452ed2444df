#pragma once

#include "parts_hash.hpp"
#include "wiring.hpp"

#include <array>
#include <unordered_map>

namespace levelswap {

/// What is known of one (function, output) pair.
struct PairGist {
    bool judged = false;
    Truth truth = Truth::holds;
    std::uint64_t open = 0;   ///< positions read by the first rule that does not hold, or by all of them
};

/// What is known of one output's elevations.
struct Heights {
    int id = 0;
    Elevation falling, rising;
};

struct WiringMemo::Entries {
    /// By function, position, and the parts of the station, the circuit and the line: one for each output there.
    std::unordered_map<std::vector<int>, std::vector<PairGist>, PartsHash> pairs;
    /// By function, output and the parts of the station.
    std::unordered_map<std::vector<int>, Heights, PartsHash> heights;
    /// By the heights of every function and what else the levels read.
    std::unordered_map<std::vector<int>, WiringGist, PartsHash> levels;
    /// By pair rule, output, function and the parts that the rule reads.
    std::unordered_map<std::vector<int>, Truth, PartsHash> rules;
    std::vector<int> order;   ///< the pair rules, those that sweep the float's arc last
    std::vector<int> key, rule_key;   ///< kept for their memory
};

/// Connects functions to outputs: the wirings sit inside the verdict, so all that can work are tried in canonical
/// order, and levels and independence are judged for each. Remembers by parts.
class WiringSearch {
public:
    /// One reason that keeps each wiring from holding, or all of them: for a search that also wants what may fit.
    enum class Reasons : std::uint8_t { one, all };

    WiringSearch(Judge const& judge, Assignment const& parts, std::vector<Instance> const& set_aside,
                 WiringMemo::Entries& memo, bool assume = false, Reasons reasons = Reasons::one);

    WiringGist run();
    [[nodiscard]] std::size_t tried() const { return count_; }
    /// False when the budget was spent before every wiring was tried, none of them that holds among them.
    [[nodiscard]] bool tried_all() const { return !cut_short_; }
    /// The outputs of the best wiring, by function; none when some function has no possible output, or no wiring
    /// was worth completing: then the first complete one.
    [[nodiscard]] std::optional<std::vector<OutputRef>> best() const;
    /// Every output that the function may have, in canonical order.
    [[nodiscard]] std::vector<OutputRef> candidates(int function) const;

private:
    struct Choice {
        OutputRef output;
        PairGist pair;
    };
    /// Lists what can perform a function; false when nothing can.
    bool list(int function);
    [[nodiscard]] bool unchanged(int position) const;
    [[nodiscard]] bool frozen(int function) const;
    PairGist const& pair(int function, OutputRef output);
    [[nodiscard]] PairGist judge_pair(int function, OutputRef output);
    Truth pair_truth(Instance const& instance, std::uint64_t reads);
    void search(std::size_t function, Truth so_far, std::uint64_t open);
    void complete(Truth so_far, std::uint64_t open);
    bool first_complete(std::size_t function, std::vector<OutputRef>& chosen) const;
    [[nodiscard]] WiringGist levels();
    [[nodiscard]] WiringGist levels_without_outputs();
    [[nodiscard]] Heights const& heights(int function, OutputRef output);
    [[nodiscard]] bool aside(Instance rule, int function, OutputRef output) const;

    Judge const& judge_;
    Assignment const& parts_;
    std::vector<Instance> const& set_aside_;
    WiringMemo::Entries& memo_;
    bool assume_;
    Reasons reasons_;
    std::vector<std::vector<Choice>> choices_;   ///< by function, those that do not fail
    std::uint64_t failing_ = 0;                  ///< positions read by what rules out the others
    std::vector<OutputRef> chosen_, best_output_;
    WiringGist best_{Truth::fails, 0};
    std::size_t count_ = 0;
    bool cut_short_ = false;
};

}  // namespace levelswap
