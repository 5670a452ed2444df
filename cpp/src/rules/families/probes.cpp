#include "probes.hpp"

#include "levelswap/physics/probe_circuit.hpp"
#include "stations.hpp"

namespace levelswap::families::probes {

namespace {

using enum From;
using A = Attribute;

/// Rise of the conductivity of natural waters per kelvin: Hayashi, Environ. Monit. Assess. 96 (2004) 119.
Interval const per_kelvin{0.0175, 0.0198};

template <class In>
bool complete(In const& in) {
    return in.template has<probe_holder, A::cell_constant>() && in.template has<probe_relay, A::threshold>();
}

struct Relay {
    using Scope = Reads<Slot{probe_holder, A::cell_constant}, Slot{probe_relay, A::threshold}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        bool const holder = in.has<probe_holder, A::cell_constant>(), relay = in.has<probe_relay, A::threshold>();
        if (!holder && !relay) return t.not_applicable();
        t.require("probe", complete(in) ? Truth::holds : Truth::fails,
                  holder ? relay ? "a holder and its relay" : "a holder without relay" : "a relay without holder",
                  "a holder and its relay");
    }
};

/// The coldest water conducts least, and a straight line in the temperature is good near 25 degC only: so a cold
/// filling decides, and nothing is extrapolated to the boiler's temperature.
struct Sensitivity {
    using Scope = Reads<Slot{probe_holder, A::cell_constant}, Slot{probe_relay, A::threshold},
                        Slot{vessel, A::conductivity}, Slot{vessel, A::cold_water}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!complete(in)) return t.not_applicable();
        auto const cold = physics::conductivity_at(in.measure<vessel, A::conductivity>(), per_kelvin,
                                                   in.measure<vessel, A::cold_water>());
        auto const water = physics::water_resistance(in.measure<probe_holder, A::cell_constant>(), cold);
        t.note("conductivity of a cold filling", cold);
        t.note("resistance of the water at the rod", water);
        t.at_most("resistance of the water, with margin", in.figure<Dimension::ratio>().si() * water,
                  in.measure<probe_relay, A::threshold>());
    }
};

struct Film {
    using Scope = Reads<Slot{probe_holder, A::cell_constant}, Slot{probe_relay, A::threshold}, Slot{station, A::film}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!complete(in)) return t.not_applicable();
        if (in.none<station, A::film>()) return t.require("film on the insulator", Truth::holds, "none", "none");
        t.at_least("resistance of the film on the insulator", in.measure<station, A::film>(),
                   in.figure<Dimension::ratio>().si() * in.measure<probe_relay, A::threshold>());
    }
};

/// The rods that the output acts on are there, and the holder takes their lengths.
struct Rods {
    using Scope = Reads<Slot{output, A::trip_rod}, Slot{output, A::reset_rod}, Slot{probe_holder, A::longest_rod},
                        Slot{probe_holder, A::insertion}, Slot{probe_holder, A::rods}, Slot{probe_relay, A::rods}, Slot{station, A::mounting},
                        LEVELSWAP_ROD_SLOTS>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (in.all().output_kind != Owner::probe_relay || !in.has<probe_holder, A::longest_rod>()) return t.not_applicable();
        t.at_least("rods of the holder", in.measure<probe_holder, A::rods>(), in.measure<probe_relay, A::rods>());
        rod<A::rod_low, A::rod_low_may_be, bits<A::trip_rod>("low")>(in, t, "length of the low rod", "length of the low rod, which ends below its holder");
        rod<A::rod_middle, A::rod_middle_may_be, bits<A::trip_rod>("middle")>(in, t, "length of the middle rod", "length of the middle rod, which ends below its holder");
        rod<A::rod_high, A::rod_high_may_be, bits<A::trip_rod>("high")>(in, t, "length of the high rod", "length of the high rod, which ends below its holder");
    }
    template <A Now, A MayBe, std::uint64_t Rod, class T>
    static void rod(Scope const& in, T& t, char const* label, char const* beyond) {
        Cell const tip = rod_tip<Now, MayBe>(in);
        auto const trip = in.cell<output, A::trip_rod>().may, reset = in.cell<output, A::reset_rod>().may;
        if (((trip | reset) & Rod) == 0) return;
        bool const certain = trip == Rod || reset == Rod;
        Length const needed = in.measure<station, A::mounting>() - Length{{tip.lo, tip.hi}};
        Length const longest = in.measure<probe_holder, A::longest_rod>();
        if (tip.none) return t.require(label, certain ? Truth::fails : Truth::undecided, "no such rod here", "a rod of its own");
        Cell const lowest = rod_tip<Now, MayBe>(in, Cut::longest);
        Length const can_be = in.measure<station, A::mounting>() - Length{{lowest.lo, lowest.hi}}, body = in.measure<probe_holder, A::insertion>();
        if (certain || (needed.quanta.hi <= longest.quanta.lo && can_be.quanta.lo >= body.quanta.hi)) {
            t.at_most(label, needed, longest);
            return t.at_least(beyond, can_be, body);
        }
        t.require(label, Truth::undecided, "perhaps the rod that the relay acts on", "a length that the holder takes");
    }
};

struct Clearance {
    using Scope = Reads<Slot{probe_holder, A::rods_within}, Slot{probe_holder, A::rods}, Slot{probe_holder, A::rod_gap},
                        Slot{station, A::rod_room}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<probe_holder, A::rods_within>()) return t.not_applicable();
        t.at_least("gap from the rods to the wall", in.measure<station, A::rod_room>() - in.measure<probe_holder, A::rods_within>(),
                   in.figure<Dimension::length>());
        if (in.measure<probe_holder, A::rods>().quanta.hi > 1)
            t.at_least("gap between two rods", in.measure<probe_holder, A::rod_gap>(), in.figure<Dimension::length>());
    }
};

struct Reference {
    using Scope = Reads<Slot{probe_holder, A::reference_rod}, Slot{station, A::conductive_wall}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<probe_holder, A::reference_rod>()) return t.not_applicable();
        Truth const wall = in.is<station, A::conductive_wall>(bits<A::conductive_wall>("yes"));
        Truth const rod = in.is<probe_holder, A::reference_rod>(bits<A::reference_rod>("yes"));
        t.require("way back for the current", std::max(wall, rod),
                  Say(A::conductive_wall, in.cell<station, A::conductive_wall>().may, "metal wall in the water: "),
                  "a metal wall in the water, or a reference rod");
    }
};

/// A wire that comes off looks like no water: a cut-off trips, a pump or make-up must not fill on and on.
struct OpenWire {
    using Scope = Reads<Slot{output, A::wire_open}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        bool const fills = in.duty() == Duty::make_up || in.duty() == Duty::pump;
        if (in.all().output_kind != Owner::probe_relay || !(is_cut_off(in.duty()) || fills)) return t.not_applicable();
        t.require("contact with an open probe wire", in.is<output, A::wire_open>(bits<A::wire_open>("open")),
                  Say(A::wire_open, in.cell<output, A::wire_open>().may),
                  fills ? "open, so that the vessel does not overfill" : "open");
    }
};

struct Shorted {
    using Scope = Reads<Slot{probe_relay, A::detects_short}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<probe_relay, A::detects_short>()) return t.not_applicable();
        t.require("relay tells a shorted wire from water", in.is<probe_relay, A::detects_short>(bits<A::detects_short>("yes")),
                  Say(A::detects_short, in.cell<probe_relay, A::detects_short>().may), "yes");
    }
};

/// The electronics have a supply of their own at the station.
struct Supply {
    using Scope = Reads<Slot{probe_relay, A::coil_voltage}, Slot{probe_relay, A::coil_current_kind},
                        Slot{probe_relay, A::coil_frequency}, Slot{station, A::supply}, Slot{station, A::current_kind},
                        Slot{station, A::frequency}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<probe_relay, A::coil_voltage>()) return t.not_applicable();
        auto const supply = in.measure<station, A::supply>();
        auto const rated = in.measure<probe_relay, A::coil_voltage>();
        // −15 % / +10 % of the rated voltage: common practice, no source.
        t.at_least("lowest supply voltage of the relay", supply, Interval{0.85} * rated);
        t.at_most("highest supply voltage of the relay", supply, Interval{1.1} * rated);
        auto const made_for = in.cell<probe_relay, A::coil_current_kind>().may;
        auto const current = in.cell<station, A::current_kind>().may;
        t.require("kind of supply", in.is<station, A::current_kind>(made_for) == Truth::holds && (made_for & (made_for - 1)) != 0
                                        ? Truth::undecided : in.is<station, A::current_kind>(made_for),
                  Say(A::coil_current_kind, made_for), Say(A::current_kind, current));
        if (current != bits<A::current_kind>("ac")) return;
        auto const wanted = in.cell<station, A::frequency>().may;
        auto const& suits = in.cell<probe_relay, A::coil_frequency>();
        t.require("frequency", (suits.must & wanted) == wanted ? Truth::holds : (suits.may & wanted) == 0 ? Truth::fails : Truth::undecided,
                  Say(A::coil_frequency, suits.may), Say(A::frequency, wanted));
    }
};

struct Wire {
    using Scope = Reads<Slot{probe_holder, A::cell_constant}, Slot{station, A::wire_temperature}, Slot{station, A::wire_rating}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<probe_holder, A::cell_constant>()) return t.not_applicable();
        t.at_least("temperature that the probe wire is rated for", in.measure<station, A::wire_rating>(),
                   in.measure<station, A::wire_temperature>());
    }
};

}  // namespace

RuleFunctions relay() { return functions_of<Relay>(); }
RuleFunctions sensitivity() { return functions_of<Sensitivity>(); }
RuleFunctions film() { return functions_of<Film>(); }
RuleFunctions rods() { return functions_of<Rods>(); }
RuleFunctions clearance() { return functions_of<Clearance>(); }
RuleFunctions reference() { return functions_of<Reference>(); }
RuleFunctions open_wire() { return functions_of<OpenWire>(); }
RuleFunctions shorted() { return functions_of<Shorted>(); }
RuleFunctions supply() { return functions_of<Supply>(); }
RuleFunctions wire() { return functions_of<Wire>(); }

}  // namespace levelswap::families::probes
