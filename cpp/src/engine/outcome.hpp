#pragma once

#include "levelswap/alternatives/repairs.hpp"
#include "levelswap/engine/engine.hpp"
#include "levelswap/explain/findings.hpp"

namespace levelswap {

/// One swap at one site, judged: what `check` and `alternatives` both start from.
struct Case {
    Case(Catalog const& catalog, Site const& site, std::vector<std::pair<std::string, std::string>> const& put);

    Judge judge;
    Assignment before;
    Assignment after;
    std::uint64_t changed = 0;        ///< positions whose part differs
    std::uint64_t asked = 0;          ///< positions that the swap names
    Judgement judgement_before;
    Judgement judgement_after;
    std::vector<Judged> site_work;    ///< faults before the swap that touch no changed position, but for those of levels
    std::vector<Instance> set_aside;  ///< all of them, levels too, as the judge takes them
};

constexpr Outcome outcome_of(Truth t) {
    return t == Truth::holds ? Outcome::fits : t == Truth::fails ? Outcome::does_not_fit : Outcome::cannot_tell;
}

/// "switch set" for a catalogue index, "nothing" for an empty position.
std::string part_name(Catalog const& catalog, int part);
std::vector<std::string> cautions_for(Case const& c);
std::string outage_of(Site const& site, std::uint64_t positions);
/// A feed tank: nothing fires under it.
bool is_tank(Site const& site);
/// There are wires at such a position.
bool has_wires(Role role);

}  // namespace levelswap
