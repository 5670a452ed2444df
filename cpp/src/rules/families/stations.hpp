#pragma once

// What the families that stand at a station share.

#include "levelswap/rules/rule.hpp"

namespace levelswap::families {

/// What `rod_tip` reads.
#define LEVELSWAP_ROD_SLOTS                                                                                             \
    Slot{From::station, Attribute::rod_low}, Slot{From::station, Attribute::rod_low_may_be},                            \
        Slot{From::station, Attribute::rod_middle}, Slot{From::station, Attribute::rod_middle_may_be},                  \
        Slot{From::station, Attribute::rod_high}, Slot{From::station, Attribute::rod_high_may_be}

enum class Cut : std::uint8_t { shortest, longest };

/// Where a rod ends. One that may be cut anew can be as short, or as long, as its window allows, and what is right
/// between the two is a matter of the levels; otherwise it ends where it ends now.
template <Attribute Now, Attribute MayBe, class In>
Cell rod_tip(In const& in, Cut cut = Cut::shortest) {
    auto const& may_be = in.template cell<From::station, MayBe>();
    if (may_be.missing || may_be.none || !may_be.stated) return in.template cell<From::station, Now>();
    Cell tip = may_be;
    tip.lo = tip.hi = cut == Cut::shortest ? may_be.hi : may_be.lo;
    return tip;
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
