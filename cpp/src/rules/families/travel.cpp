#include "travel.hpp"

#include "motion.hpp"

namespace levelswap::families::travel {

namespace {

using enum From;
using A = Attribute;

constexpr auto proportional = bits<A::acts>("proportional");

char const* words_of(physics::Obstacle o) {
    switch (o) {
        case physics::Obstacle::none: return "nothing";
        case physics::Obstacle::stop: return "the head's own stop";
        case physics::Obstacle::ceiling: return "the ceiling of the chamber";
        case physics::Obstacle::floor: return "the floor of the chamber";
        case physics::Obstacle::far_wall: return "the far wall of the chamber";
        case physics::Obstacle::near_wall: return "the near wall of the chamber";
        case physics::Obstacle::throat: return "the throat";
    }
    return "";
}

/// A probe relay, a transmitter or a screw-in control beside the head has no share in its travel.
template <class In>
bool moved_by_a_head(In const& in) {
    return in.all().output_kind == Owner::switch_set && in.template has_place<head, A::arm>();
}

/// The wanted arc must lie in the set of angles that the float reaches from rest.
template <class In, class T>
void arc(In const& in, T& t, char const* low_label, Angle low, char const* high_label, Angle high) {
    t.require("form of the float", form_is_known(in), "sphere or cylinder", "a known form");
    if (form_is_known(in) != Truth::holds) return;
    auto const reach = physics::reach(swing_facts(in));
    if (!reach.possible)
        return t.require("float at rest", Truth::fails, "the float cannot hang free in this chamber", "room at rest");
    if (!reach.certain)
        t.require("float at rest", Truth::undecided, "the float may not hang free in this chamber", "room at rest");
    if constexpr (T::recording) {
        t.require("what stops the float downward", Truth::holds, words_of(reach.low_by), "");
        t.require("what stops the float upward", Truth::holds, words_of(reach.high_by), "");
    }
    t.at_most(low_label, Angle::from_si(reach.low), low);
    t.at_least(high_label, Angle::from_si(reach.high), high);
}

struct Contact {
    using Scope = Reads<LEVELSWAP_SWING_SLOTS, Slot{head, A::bay_gain}, Slot{switch_half, A::bay_gain},
                        Slot{head, A::bay_zero}, Slot{output, A::trip}, Slot{output, A::reset}, Slot{output, A::acts}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!moved_by_a_head(in) || in.cell<output, A::acts>().may == proportional) return t.not_applicable();
        if (!swings(in))
            return t.require("float gear", Truth::fails, "nothing moves the contact", "head, column and float");
        // Overtravel is the switch's own, so it is stated in bay travel.
        auto const gain = in.has<switch_half, A::bay_gain>() ? in.measure<switch_half, A::bay_gain>() : in.measure<head, A::bay_gain>();
        Angle const overtravel{in.figure<Dimension::angle>().quanta / gain.si()};
        auto const trip = arm_angle<Scope, A::trip>(in);
        auto const reset = arm_angle<Scope, A::reset>(in);
        Angle const low{min(trip.quanta, reset.quanta)};
        Angle const high{max(trip.quanta, reset.quanta)};
        arc(in, t, "lowest arm angle that the float reaches", low - overtravel,
            "highest arm angle that the float reaches", high + overtravel);
    }
};

struct SlideWire {
    using Scope =
        Reads<LEVELSWAP_SWING_SLOTS, Slot{head, A::bay_gain}, Slot{switch_half, A::bay_gain}, Slot{head, A::bay_zero},
              Slot{output, A::end_low}, Slot{output, A::end_high}, Slot{output, A::acts}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!moved_by_a_head(in) || in.cell<output, A::acts>().may != proportional) return t.not_applicable();
        if (!swings(in))
            return t.require("float gear", Truth::fails, "nothing moves the slide-wire", "head, column and float");
        auto const low = arm_angle<Scope, A::end_low>(in);
        auto const high = arm_angle<Scope, A::end_high>(in);
        arc(in, t, "lower end of the slide-wire", low, "upper end of the slide-wire", high);
        if constexpr (T::recording) usable_band(in, t, low, high);
    }
    /// The reachable band of valve position: the share by angle between the ends.
    template <class T>
    static void usable_band(Scope const& in, T& t, Angle low, Angle high) {
        if (form_is_known(in) != Truth::holds || high.quanta.lo <= low.quanta.hi) return;
        auto const reach = physics::reach(swing_facts(in));
        if (!reach.possible) return;
        auto share = [&](Interval at) {
            Interval const s = (Angle::from_si(at).quanta - low.quanta) / (high.quanta - low.quanta);
            return Ratio::from_si({std::clamp(s.lo, 0.0, 1.0), std::clamp(s.hi, 0.0, 1.0)});
        };
        t.note("lowest valve position in reach", share(reach.low));
        t.note("highest valve position in reach", share(reach.high));
        if (reach.high.hi < high.si().lo)
            t.require("missing end", Truth::holds, "the upper end: the valve cannot close and the boiler overfills", "");
        if (reach.low.lo > low.si().hi)
            t.require("missing end", Truth::holds, "the lower end: the valve cannot open and the boiler is starved", "");
    }
};

struct Binding {
    using Scope = Reads<LEVELSWAP_SWING_SLOTS>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!swings(in)) return t.not_applicable();
        t.require("form of the float", form_is_known(in), "sphere or cylinder", "a known form");
        if (form_is_known(in) != Truth::holds) return;
        t.at_least("least clearance at the sides", Length::from_si(physics::side_clearance(swing_facts(in))),
                   in.figure<Dimension::length>());
    }
};

}  // namespace

RuleFunctions contact() { return functions_of<Contact>(); }
RuleFunctions slide_wire() { return functions_of<SlideWire>(); }
RuleFunctions binding() { return functions_of<Binding>(); }

}  // namespace levelswap::families::travel
