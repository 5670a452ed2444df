#pragma once

// What the families that stand at a station share.

#include "levelswap/rules/rule.hpp"

namespace levelswap::families {

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
