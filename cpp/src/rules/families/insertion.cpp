#include "insertion.hpp"

#include "stations.hpp"

namespace levelswap::families::insertion {

namespace {

using enum From;
using A = Attribute;

/// Does the site say where a rod of this name ends, or may end?
template <A Now, A MayBe, class In>
bool says_rod(In const& in) {
    auto const& now = in.template cell<station, Now>();
    auto const& may_be = in.template cell<station, MayBe>();
    return (now.stated && !now.none) || (may_be.stated && !may_be.none);
}

/// A rod by its length now; one that may be cut anew by its shortest: the levels decide how much longer it may be.
template <A Now, A MayBe, class In>
Interval rod_length(In const& in, bool others_are_all) {
    if (others_are_all && !says_rod<Now, MayBe>(in)) return Interval{0};
    Cell const tip = rod_tip<Now, MayBe>(in);
    return tip.none ? Interval{0} : in.template measure<station, A::mounting>().quanta - Interval{tip.lo, tip.hi};
}

/// Where the site says where as many rods end as the holder has, there is no other rod.
template <class In>
Interval longest_rod(In const& in) {
    int const said = says_rod<A::rod_low, A::rod_low_may_be>(in) + says_rod<A::rod_middle, A::rod_middle_may_be>(in) +
                     says_rod<A::rod_high, A::rod_high_may_be>(in);
    bool const all = said >= in.template measure<probe_holder, A::rods>().quanta.hi;
    return max(max(rod_length<A::rod_low, A::rod_low_may_be>(in, all), rod_length<A::rod_middle, A::rod_middle_may_be>(in, all)),
               rod_length<A::rod_high, A::rod_high_may_be>(in, all));
}

/// A station has one connection for what is screwed in.
struct OnePart {
    using Scope = Reads<Slot{float_control, A::insertion}, Slot{probe_holder, A::insertion}, Slot{float_valve, A::float_lever},
                        Slot{transmitter, A::range_low}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        int const parts = in.has<float_control, A::insertion>() + in.has<probe_holder, A::insertion>() +
                          in.has<float_valve, A::float_lever>() + in.has<transmitter, A::range_low>();
        if (parts == 0) return t.not_applicable();
        t.require("parts for one connection", parts == 1 ? Truth::holds : Truth::fails, parts == 1 ? "one" : "more than one", "one");
    }
};

/// The float swings free of everything inside, and the rods do not strike the far side. Of a float valve at least its
/// lever with the ball lies inside, and the ball clears what is above and below it.
struct Room {
    using Scope = Reads<Slot{float_control, A::insertion}, Slot{float_control, A::swing_up}, Slot{float_control, A::swing_down},
                        Slot{probe_holder, A::insertion}, Slot{probe_holder, A::rods}, Slot{float_valve, A::float_lever}, Slot{float_valve, A::float_diameter},
                        Slot{station, A::mounting}, LEVELSWAP_ROD_SLOTS, Slot{station, A::room_in}, Slot{station, A::room_up},
                        Slot{station, A::room_down}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        bool const control = in.has<float_control, A::insertion>(), holder = in.has<probe_holder, A::insertion>(),
                   valve = in.has<float_valve, A::float_lever>();
        if (!control && !holder && !valve) return t.not_applicable();
        auto const gap = in.figure<Dimension::length>();
        auto const depth = in.measure<station, A::room_in>();
        if (holder) {
            t.at_least("depth inside for the probe", depth, in.measure<probe_holder, A::insertion>() + gap);
            t.at_least("depth inside for the longest rod", depth, Length{longest_rod(in)} + gap);
        }
        if (valve) {
            Length const ball{Interval{0.5} * in.measure<float_valve, A::float_diameter>().quanta};
            t.at_least("depth inside for the lever and its float", depth, in.measure<float_valve, A::float_lever>() + ball + gap);
            t.at_least("height above the axis for the float", in.measure<station, A::room_up>(), ball + gap);
            t.at_least("height below the axis for the float", in.measure<station, A::room_down>(), ball + gap);
        }
        if (!control) return;
        t.at_least("depth inside for the float", depth, in.measure<float_control, A::insertion>() + gap);
        t.at_least("height above the axis for the float", in.measure<station, A::room_up>(), in.measure<float_control, A::swing_up>() + gap);
        t.at_least("height below the axis for the float", in.measure<station, A::room_down>(), in.measure<float_control, A::swing_down>() + gap);
    }
};

/// What goes in comes out the same way, in one length: a control on its arm, a holder with its longest rod.
struct Withdrawal {
    using Scope = Reads<Slot{float_control, A::insertion}, Slot{probe_holder, A::insertion}, Slot{probe_holder, A::rods}, Slot{station, A::room_out},
                        Slot{station, A::mounting}, LEVELSWAP_ROD_SLOTS>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        bool const control = in.has<float_control, A::insertion>(), holder = in.has<probe_holder, A::insertion>();
        if (!control && !holder) return t.not_applicable();
        auto const outside = in.measure<station, A::room_out>();
        if (control) t.at_least("free space outside for the control", outside, in.measure<float_control, A::insertion>());
        if (!holder) return;
        t.at_least("free space outside for the longest rod", outside,
                   Length{max(in.measure<probe_holder, A::insertion>().quanta, longest_rod(in))});
    }
};

/// A control made to work in its shroud acts at another level, or not at all, without it.
struct Shroud {
    using Scope = Reads<Slot{float_control, A::shroud}, Slot{float_control, A::shroud_needed}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<float_control, A::shroud>()) return t.not_applicable();
        auto const& shroud = in.cell<float_control, A::shroud>();
        if (shroud.none)  // it never had one
            return t.require("shroud that it needs", in.is<float_control, A::shroud_needed>(bits<A::shroud_needed>("no")), "none", "integral");
        t.require("shroud left on", in.is<float_control, A::shroud>(bits<A::shroud>("none", "integral")),
                  Say(A::shroud, shroud.may), "never removed");
        Truth const free = in.is<float_control, A::shroud_needed>(bits<A::shroud_needed>("no"));
        t.require("shroud that it needs", std::max(free, in.is<float_control, A::shroud>(bits<A::shroud>("integral"))),
                  Say(A::shroud, shroud.may), "integral");
    }
};

}  // namespace

RuleFunctions one_part() { return functions_of<OnePart>(); }
RuleFunctions room() { return functions_of<Room>(); }
RuleFunctions withdrawal() { return functions_of<Withdrawal>(); }
RuleFunctions shroud() { return functions_of<Shroud>(); }

}  // namespace levelswap::families::insertion
