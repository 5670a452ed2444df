#pragma once

#include "choices.hpp"

namespace levelswap::families {

/// A feed valve opens as the water falls: what the signal does then is what opens it. A converter is taken to leave the
/// direction as it is: common practice, no source. One that is not stated may be either.
template <class In, class T>
void opens_as_water_falls(In const& in, T& t, Cell const& opens_with) {
    auto const& gives = in.template cell<From::output, Attribute::direction>();
    static_assert(row_of(Attribute::direction).choices == row_of(Attribute::opens_with).choices);
    bool const stated = !gives.none && !opens_with.none;
    Truth const same = stated ? same_choice(gives, opens_with) : Truth::undecided;
    t.require("signal as the water falls", same, stated ? Say(Attribute::direction, gives.may) : Say("not stated"),
              Say(Attribute::opens_with, opens_with.may, "what opens the valve: "));
}

}  // namespace levelswap::families
