#include "piping.hpp"

#include "stations.hpp"

namespace levelswap::families::piping {

namespace {

using enum From;
using A = Attribute;

/// A valve that somebody has shut leaves the cut-off with the water it had.
struct IsolatingValves {
    using Scope = Reads<LEVELSWAP_CHAMBER_SLOTS, Slot{station, A::isolating_valves}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!is_cut_off(in.duty()) || !in_a_chamber(in)) return t.not_applicable();
        bool const locked = in.all().figure > 0;
        auto const allowed = locked ? bits<A::isolating_valves>("none", "locked_open") : bits<A::isolating_valves>("none");
        // "none" is the word for no valves, and the word for a fact that does not exist: both say the same.
        Truth const truth = in.none<station, A::isolating_valves>() ? Truth::holds : in.is<station, A::isolating_valves>(allowed);
        t.require("shut-off valves between vessel and chamber", truth,
                  Say(A::isolating_valves, in.cell<station, A::isolating_valves>().may),
                  locked ? "none, or locked open" : "none: no pack in force permits them");
    }
};

struct FeedPath {
    using Scope = Reads<LEVELSWAP_CHAMBER_SLOTS, Slot{station, A::feeds_through}, Slot{column, A::feeds_through},
                        Slot{float_control, A::feeds_through}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        // Whoever says that feed goes through a control means its chamber, whatever is said of the piping.
        Truth const says = std::max(in.is<station, A::feeds_through>(bits<A::feeds_through>("yes")),
                                    in.is<float_control, A::feeds_through>(bits<A::feeds_through>("yes")));
        if (!in_a_chamber(in) && (!in.has<float_control, A::insertion>() || says != Truth::holds)) return t.not_applicable();
        part<column>(in, t, "column made to feed through its chamber");
        part<float_control>(in, t, "control made to feed through its chamber");
        t.require("feed water through the chamber", in.is<station, A::feeds_through>(bits<A::feeds_through>("no")),
                  Say(A::feeds_through, in.cell<station, A::feeds_through>().may), "no");
    }
    template <From F, class T>
    static void part(Scope const& in, T& t, char const* label) {
        if (!in.has<F, A::feeds_through>()) return;
        t.require(label, in.is<F, A::feeds_through>(bits<A::feeds_through>("no")), Say(A::feeds_through, in.cell<F, A::feeds_through>().may), "no");
    }
};

/// Without a drain at the low point the chamber can be neither blown down nor tested.
struct Drain {
    using Scope = Reads<LEVELSWAP_CHAMBER_SLOTS, Slot{station, A::drain_size}, Slot{station, A::drain_at_low_point}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in_a_chamber(in)) return t.not_applicable();
        if (in.none<station, A::drain_size>()) return t.require("drain", Truth::fails, "none", "one at the lowest point");
        t.require("drain at the lowest point", in.is<station, A::drain_at_low_point>(bits<A::drain_at_low_point>("yes")),
                  Say(A::drain_at_low_point, in.cell<station, A::drain_at_low_point>().may), "yes");
    }
};

struct DrainSize {
    using Scope = Reads<LEVELSWAP_CHAMBER_SLOTS, Slot{station, A::drain_size}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in_a_chamber(in) || in.none<station, A::drain_size>()) return t.not_applicable();
        t.at_least("size of the drain", in.measure<station, A::drain_size>(), in.figure<Dimension::length>());
    }
};

struct CrossTees {
    using Scope = Reads<LEVELSWAP_CHAMBER_SLOTS, Slot{station, A::cross_tees}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in_a_chamber(in)) return t.not_applicable();
        t.require("crosses at the turns of the water line", in.is<station, A::cross_tees>(bits<A::cross_tees>("yes")),
                  Say(A::cross_tees, in.cell<station, A::cross_tees>().may), "yes, so that every run can be rodded");
    }
};

struct Size {
    using Scope = Reads<LEVELSWAP_CHAMBER_SLOTS, Slot{station, A::tapping_size}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in_a_chamber(in)) return t.not_applicable();
        t.at_least("size of the equalizing connections", in.measure<station, A::tapping_size>(), in.figure<Dimension::length>());
    }
};

}  // namespace

RuleFunctions isolating_valves() { return functions_of<IsolatingValves>(); }
RuleFunctions feed_path() { return functions_of<FeedPath>(); }
RuleFunctions drain() { return functions_of<Drain>(); }
RuleFunctions drain_size() { return functions_of<DrainSize>(); }
RuleFunctions cross_tees() { return functions_of<CrossTees>(); }
RuleFunctions size() { return functions_of<Size>(); }

}  // namespace levelswap::families::piping
