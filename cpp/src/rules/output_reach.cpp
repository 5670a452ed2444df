#include "levelswap/rules/output_reach.hpp"

#include "families/motion.hpp"

namespace levelswap {

namespace {

using enum From;
using A = Attribute;
using Scope_ = Reads<LEVELSWAP_SWING_SLOTS, Slot{head, A::bay_gain}, Slot{switch_half, A::bay_gain},
                     Slot{head, A::bay_zero}, Slot{output, A::trip}, Slot{output, A::reset}, Slot{output, A::end_low},
                     Slot{output, A::end_high}, Slot{output, A::acts}>;

Truth at_most(Interval x, Interval limit) {
    return x.hi <= limit.lo ? Truth::holds : x.lo > limit.hi ? Truth::fails : Truth::undecided;
}

/// By angle between the ends, cut off at them.
Interval share(Interval at, Interval low, Interval high) {
    Interval const s = (at - low) / (high - low);
    return {std::clamp(s.lo, 0.0, 1.0), std::clamp(s.hi, 0.0, 1.0)};
}

}  // namespace

std::span<Slot const> output_reach_slots() { return Scope_::slots; }

OutputReach output_reach(Operands const& operands) {
    Scope_ const in(operands);
    OutputReach out;
    if (!families::swings(in) || families::form_is_known(in) != Truth::holds || !in.has<output, A::acts>()) return out;
    out.known = true;
    auto const reach = physics::reach(families::swing_facts(in));
    if (!reach.possible) {  // the float is wedged where it hangs
        out.falling = out.rising = Truth::fails;
        return out;
    }
    bool const slides = in.cell<output, A::acts>().may == bits<A::acts>("proportional");
    auto const low = (slides ? families::arm_angle<Scope_, A::end_low>(in) : families::arm_angle<Scope_, A::trip>(in)).si();
    auto const high = (slides ? families::arm_angle<Scope_, A::end_high>(in) : families::arm_angle<Scope_, A::reset>(in)).si();
    out.falling = at_most(reach.low, low);
    out.rising = at_most(high, reach.high);
    if (!reach.certain) {
        out.falling = both(out.falling, Truth::undecided);
        out.rising = both(out.rising, Truth::undecided);
    }
    out.low_by = reach.low_by;
    out.high_by = reach.high_by;
    if (slides && high.lo > low.hi) {
        out.lowest = share(reach.low, low, high);
        out.highest = share(reach.high, low, high);
    }
    return out;
}

}  // namespace levelswap
