#pragma once

// What the families that stand at a station share.

#include "levelswap/rules/rule.hpp"

namespace levelswap::families {

/// What `rod_tip` reads.
#define LEVELSWAP_ROD_SLOTS                                                                                             \
    Slot{From::station, Attribute::rod_low}, Slot{From::station, Attribute::rod_low_may_be},                            \
        Slot{From::station, Attribute::rod_middle}, Slot{From::station, Attribute::rod_middle_may_be},                  \
        Slot{From::station, Attribute::rod_high}, Slot{From::station, Attribute::rod_high_may_be}

/// Where a rod ends. One that may be cut anew can be as short as its window allows, and how much longer is a matter of
/// the levels; otherwise it ends where it ends now.
template <Attribute Now, Attribute MayBe, class In>
Cell rod_tip(In const& in) {
    auto const& may_be = in.template cell<From::station, MayBe>();
    constexpr auto domain = row_of(MayBe);
    constexpr double metre = detail::quanta_per_si(Dimension::length);
    bool const known = may_be.lo > domain.least * metre || may_be.hi < domain.most * metre;
    if (may_be.missing || may_be.none || !known) return in.template cell<From::station, Now>();
    Cell highest = may_be;
    highest.lo = highest.hi;
    return highest;
}

/// What `in_a_chamber` reads.
#define LEVELSWAP_CHAMBER_SLOTS                                                                          \
    Slot{From::column, Attribute::tapping_size}, Slot{From::float_control, Attribute::insertion},        \
        Slot{From::probe_holder, Attribute::insertion}, Slot{From::station, Attribute::piping}

/// Is the level sensed in a chamber outside the vessel? A column is one. What is screwed in stands in one of its own
/// unless the station says that it has no piping: then it reaches into the vessel itself.
template <class In>
bool in_a_chamber(In const& in) {
    if (in.template has<From::column, Attribute::tapping_size>()) return true;
    bool const screwed = in.template has<From::float_control, Attribute::insertion>() ||
                         in.template has<From::probe_holder, Attribute::insertion>();
    return screwed && !in.template none<From::station, Attribute::piping>();
}

}  // namespace levelswap::families
