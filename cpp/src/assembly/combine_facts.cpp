#include "read_site.hpp"

#include <algorithm>

namespace levelswap::reading {

std::optional<Fact> intersection(Fact const& stated, Fact const& measured, ValueKind kind) {
    using N = Fact::Nature;
    if (measured.nature == N::unknown) return stated;
    if (stated.nature == N::unknown) return measured;
    Fact both = measured;
    if (stated.nature == N::none || measured.nature == N::none) {
        bool const agree = stated.nature == measured.nature;
        return agree ? std::optional(both) : std::nullopt;
    }
    switch (kind) {
        case ValueKind::quantity:
            both.lo = std::max(stated.lo, measured.lo);
            both.hi = std::min(stated.hi, measured.hi);
            return both.lo <= both.hi ? std::optional(both) : std::nullopt;
        case ValueKind::choice:
            both.may = stated.may & measured.may;
            return both.may != 0 ? std::optional(both) : std::nullopt;
        case ValueKind::set:
            both.must = stated.must | measured.must;
            both.may = stated.may & measured.may;
            return (both.must & ~both.may) == 0 ? std::optional(both) : std::nullopt;
        case ValueKind::curve:
        case ValueKind::reference: return stated.same_for_rules(measured) ? std::optional(both) : std::nullopt;
    }
    return std::nullopt;
}

// Which loads of several varying ones occur together is not known, so their sum
// varies for certain only when all others are fixed.
Fact sum_of(std::vector<Fact> const& loads, Attribute attribute) {
    using N = Fact::Nature;
    Fact const domain = unknown_fact(attribute);
    Interval sum{0.0};
    int known = 0, open = 0, varying = 0, wide = 0;
    for (Fact const& load : loads) {
        if (load.nature == N::none) { ++known; continue; }
        if (load.nature == N::unknown) ++open; else ++known;
        sum = sum + Interval{load.lo, load.hi};
        if (load.nature == N::varying) ++varying;
        else if (load.lo != load.hi) ++wide;
    }
    Fact fact = domain;
    if (known == 0) return fact;
    fact.nature = varying == 1 && wide == 0 && open == 0 ? N::varying : N::uncertain;
    fact.lo = sum.lo;
    fact.hi = open > 0 ? std::max(domain.hi, sum.lo) : sum.hi;
    return fact;
}

}  // namespace levelswap::reading
