#pragma once

#include "wiring.hpp"

#include <array>
#include <unordered_map>

namespace levelswap {

struct KeyHash {
    std::size_t operator()(std::vector<int> const& key) const {
        std::size_t h = key.size();
        for (int k : key) h = (h ^ static_cast<std::size_t>(k + 7)) * 0x9e3779b97f4a7c15ull, h ^= h >> 29;
        return h;
    }
};

/// What is known of one (function, output) pair: its truth, and what the first rule that does not hold reads.
struct PairGist {
    bool judged = false;
    Truth truth = Truth::holds;
    std::uint64_t open = 0;   ///< positions read by that rule
};

/// What is known of one output's elevations.
struct Heights {
    int id = 0;
    Elevation falling, rising;
};

struct WiringMemo::Entries {
    /// By function, position, and the parts of the station and the circuit: one for each output of the set.
    std::unordered_map<std::vector<int>, std::vector<PairGist>, KeyHash> pairs;
    /// By output and the parts of the station.
    std::unordered_map<std::vector<int>, Heights, KeyHash> heights;
    /// By the heights of every function and what else the levels read.
    std::unordered_map<std::vector<int>, WiringGist, KeyHash> levels;
    /// By pair rule, output, function and the parts that the rule reads.
    std::unordered_map<std::vector<int>, Truth, KeyHash> rules;
    std::vector<int> order;   ///< the pair rules, those that sweep the float's arc last
    std::vector<int> key, rule_key;   ///< kept for their memory
};

/// The wiring search for searches of repairs: stops at the first reason and remembers by parts.
class GistSearch {
public:
    GistSearch(Judge const& judge, Assignment const& parts, std::vector<Instance> const& set_aside, WiringMemo::Entries& memo);
    WiringGist run();

private:
    struct Choice {
        OutputRef output;
        PairGist const* pair;
    };
    /// Lists what can perform a function; false when nothing can.
    bool list(int function);
    void list_at(int function, int position, int only);
    [[nodiscard]] bool unchanged(int position) const;
    [[nodiscard]] PairGist judge_pair(int function, OutputRef output);
    Truth pair_truth(Instance const& instance, std::uint64_t reads);
    void search(std::size_t function, Truth so_far, std::uint64_t open);
    [[nodiscard]] Truth together(std::size_t f, std::size_t g) const;
    [[nodiscard]] WiringGist levels();
    [[nodiscard]] WiringGist levels_without_outputs();
    [[nodiscard]] bool frozen(int function) const;
    [[nodiscard]] Heights const& heights(int function, OutputRef output);
    [[nodiscard]] bool aside(int rule, std::size_t function) const;

    Judge const& judge_;
    Assignment const& parts_;
    std::vector<Instance> const& set_aside_;
    WiringMemo::Entries& memo_;
    std::vector<std::vector<Choice>> choices_;   ///< by function, those that do not fail
    std::uint64_t failing_ = 0;                  ///< positions read by what rules out the others
    std::vector<OutputRef> chosen_;
    WiringGist best_{Truth::fails, 0};
    std::size_t count_ = 0;
};

}  // namespace levelswap
