#pragma once

#include "levelswap/verdict/judge.hpp"

#include <optional>
#include <vector>

namespace levelswap {

/// A fact as a rule on the wiring reads it. Open: it may have more than one value, and a measurement could narrow it.
struct ReadFact {
    Slot slot;
    Stand stand;
    FactKey key;
    Fact const* fact = nullptr;   ///< of the judge that was asked
};

/// What all levels of a wiring hang on and that is open: a fact as often as it is read.
std::vector<ReadFact> open_facts_of_levels(Judge const& judge, Assignment const& parts, std::vector<OutputRef> const& outputs);
/// What one requirement between two levels may hang on: what is open of it, or all.
std::vector<ReadFact> facts_of_level(Judge const& judge, Assignment const& parts, Wiring const& wiring, LevelRule const& rule, bool open);
/// The same of a rule on two functions together.
std::vector<ReadFact> facts_of_pair(Judge const& judge, Assignment const& parts, Wiring const& wiring, Judged const& rule, bool open);

/// The same outputs in other worlds: all requirements, alone and together.
Wiring levels_of(Judge const& judge, Assignment const& parts, std::vector<OutputRef> const& outputs);
/// One requirement of a wiring in other worlds, alone; nothing when its row does not apply there.
std::optional<LevelRule> level_of(Judge const& judge, Assignment const& parts, Wiring const& wiring, LevelRule const& rule);
/// A rule on two functions together, in other worlds.
Truth truth_of_pair(Judge const& judge, Assignment const& parts, Wiring const& wiring, Judged const& rule);

}  // namespace levelswap
