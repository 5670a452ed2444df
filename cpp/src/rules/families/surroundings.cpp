#include "surroundings.hpp"

#include "line_coils.hpp"

namespace levelswap::families::surroundings {

namespace {

using enum From;
using A = Attribute;

template <class In, From Part, From Where, class T>
void ambient_of(In const& in, T& t) {
    if (!in.template has<Part, A::most_ambient>()) return;
    auto const here = in.template measure<Where, A::ambient>();
    t.at_most("highest ambient temperature", here, in.template measure<Part, A::most_ambient>());
    t.at_least("lowest ambient temperature", here, in.template measure<Part, A::least_ambient>());
}

template <class In, From Part, From Where, class T>
void enclosure_of(In const& in, T& t) {
    if (!in.template has<Part, A::places>()) return;
    auto const& suits = in.template cell<Part, A::places>();
    auto const here = in.template cell<Where, A::place>().may;
    Truth const truth = (suits.must & here) == here ? Truth::holds
                        : (suits.may & here) == 0   ? Truth::fails
                                                    : Truth::undecided;
    t.require("enclosure", truth, Say(A::places, suits.may), Say(A::place, here));
}

struct Ambient {
    using Scope = Reads<Slot{switch_set, A::most_ambient}, Slot{switch_set, A::least_ambient},
                        Slot{switch_half, A::most_ambient}, Slot{switch_half, A::least_ambient},
                        Slot{probe_relay, A::most_ambient}, Slot{probe_relay, A::least_ambient},
                        Slot{transmitter, A::most_ambient}, Slot{transmitter, A::least_ambient},
                        Slot{float_control, A::most_ambient}, Slot{float_control, A::least_ambient}, Slot{station, A::ambient}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        ambient_of<Scope, switch_set, station>(in, t);
        ambient_of<Scope, switch_half, station>(in, t);
        ambient_of<Scope, probe_relay, station>(in, t);
        ambient_of<Scope, transmitter, station>(in, t);
        ambient_of<Scope, float_control, station>(in, t);
    }
};

struct Enclosure {
    using Scope = Reads<Slot{switch_set, A::places}, Slot{switch_half, A::places}, Slot{probe_relay, A::places},
                        Slot{transmitter, A::places}, Slot{float_control, A::places}, Slot{station, A::place}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        enclosure_of<Scope, switch_set, station>(in, t);
        enclosure_of<Scope, switch_half, station>(in, t);
        enclosure_of<Scope, probe_relay, station>(in, t);
        enclosure_of<Scope, transmitter, station>(in, t);
        enclosure_of<Scope, float_control, station>(in, t);
    }
};

/// A solenoid valve or an actuator stands where the circuit that works it says.
#define LEVELSWAP_LINE_SWITCHGEAR(attribute) Slot{solenoid_valve, A::attribute}, Slot{actuator, A::attribute}

struct CircuitAmbient {
    using Scope = Reads<Slot{contactor, A::most_ambient}, Slot{contactor, A::least_ambient},
                        Slot{relay, A::most_ambient}, Slot{relay, A::least_ambient}, Slot{converter, A::most_ambient},
                        Slot{converter, A::least_ambient}, LEVELSWAP_LINE_SWITCHGEAR(most_ambient),
                        LEVELSWAP_LINE_SWITCHGEAR(least_ambient), LEVELSWAP_LINE_COIL_SLOTS, Slot{circuit, A::ambient}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        ambient_of<Scope, contactor, circuit>(in, t);
        ambient_of<Scope, relay, circuit>(in, t);
        ambient_of<Scope, converter, circuit>(in, t);
        if (works_solenoid(in)) ambient_of<Scope, solenoid_valve, circuit>(in, t);
        if (works_actuator(in)) ambient_of<Scope, From::actuator, circuit>(in, t);
    }
};

struct CircuitEnclosure {
    using Scope = Reads<Slot{contactor, A::places}, Slot{relay, A::places}, Slot{converter, A::places},
                        LEVELSWAP_LINE_SWITCHGEAR(places), LEVELSWAP_LINE_COIL_SLOTS, Slot{circuit, A::place}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        enclosure_of<Scope, contactor, circuit>(in, t);
        enclosure_of<Scope, relay, circuit>(in, t);
        enclosure_of<Scope, converter, circuit>(in, t);
        if (works_solenoid(in)) enclosure_of<Scope, solenoid_valve, circuit>(in, t);
        if (works_actuator(in)) enclosure_of<Scope, From::actuator, circuit>(in, t);
    }
};

template <From Part, class In, class T>
void hazardous_of(In const& in, T& t, char const* label, Truth no_area) {
    if (!in.template has<Part, A::hazardous_rated>()) return;
    Truth const rated = in.template is<Part, A::hazardous_rated>(bits<A::hazardous_rated>("yes"));
    if (no_area == Truth::undecided && rated == Truth::fails)
        return t.require(label, no_area, "not made for one, in an area of which nobody says what it is", "an area that is not hazardous, or a part made for one");
    t.require(label, std::max(no_area, rated),
              Say(A::hazardous_rated, in.template cell<Part, A::hazardous_rated>().may, "made for a hazardous area: "), "yes");
}

/// The vessel stands in none.
template <class In>
Truth no_area(In const& in) {
    return in.template is<vessel, A::hazardous_area>(bits<A::hazardous_area>("no"));
}

template <class In>
bool may_be_hazardous(In const& in) {
    return in.template is<vessel, A::hazardous_area>(bits<A::hazardous_area>("yes")) != Truth::fails;
}

/// What sparks or grows hot needs a rating for the area, wherever the works says that there is one. The fact says
/// yes or no: which zone and gas group is for the plate and the works to compare.
struct Hazardous {
    using Scope = Reads<Slot{vessel, A::hazardous_area}, Slot{switch_set, A::hazardous_rated}, Slot{switch_half, A::hazardous_rated},
                        Slot{probe_relay, A::hazardous_rated}, Slot{transmitter, A::hazardous_rated},
                        Slot{float_control, A::hazardous_rated}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!may_be_hazardous(in)) return t.not_applicable();
        hazardous_of<switch_set>(in, t, "switch set in a hazardous area", no_area(in));
        hazardous_of<switch_half>(in, t, "switch half in a hazardous area", no_area(in));
        hazardous_of<probe_relay>(in, t, "probe relay in a hazardous area", no_area(in));
        hazardous_of<transmitter>(in, t, "transmitter in a hazardous area", no_area(in));
        hazardous_of<float_control>(in, t, "float control in a hazardous area", no_area(in));
    }
};

/// What is said of the panel counts for the panel, whatever its boiler stands in: outside the area of the boiler, or in an
/// area of its own. What works a valve stands where the line is.
struct CircuitHazardous {
    using Scope = Reads<Slot{vessel, A::hazardous_area}, Slot{circuit, A::circuit_in_area}, Slot{contactor, A::hazardous_rated},
                        Slot{relay, A::hazardous_rated}, Slot{converter, A::hazardous_rated},
                        LEVELSWAP_LINE_SWITCHGEAR(hazardous_rated), LEVELSWAP_LINE_COIL_SLOTS>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        Truth const said = in.is<circuit, A::circuit_in_area>(bits<A::circuit_in_area>("no"));
        if (!may_be_hazardous(in) && said != Truth::fails) return t.not_applicable();
        Truth const outside = said == Truth::undecided ? std::max(no_area(in), said) : said;
        hazardous_of<contactor>(in, t, "contactor in a hazardous area", outside);
        hazardous_of<relay>(in, t, "relay in a hazardous area", outside);
        hazardous_of<converter>(in, t, "converter in a hazardous area", outside);
        if (works_solenoid(in)) hazardous_of<solenoid_valve>(in, t, "solenoid valve in a hazardous area", no_area(in));
        if (works_actuator(in)) hazardous_of<From::actuator>(in, t, "actuator in a hazardous area", no_area(in));
    }
};

struct Plumb {
    using Scope = Reads<Slot{switch_set, A::needs_plumb}, Slot{station, A::plumb}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<switch_set, A::needs_plumb>()) return t.not_applicable();
        Truth const indifferent = in.is<switch_set, A::needs_plumb>(bits<A::needs_plumb>("no"));
        Truth const upright = in.is<station, A::plumb>(bits<A::plumb>("yes"));
        t.require("mounting", std::max(indifferent, upright), Say(A::plumb, in.cell<station, A::plumb>().may, "plumb: "),
                  "plumb, for a set that works only so");
    }
};

struct Mercury {
    using Scope = Reads<Slot{switch_set, A::mercury}, Slot{float_control, A::mercury}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        bool const set = in.has<switch_set, A::mercury>(), control = in.has<float_control, A::mercury>();
        if ((!set && !control) || in.all().figure > 0) return t.not_applicable();
        constexpr auto no = bits<A::mercury>("no");
        if (set)
            t.require("mercury", in.is<switch_set, A::mercury>(no),
                      Say(A::mercury, in.cell<switch_set, A::mercury>().may, "contains mercury: "), "none");
        if (control)
            t.require("mercury", in.is<float_control, A::mercury>(no),
                      Say(A::mercury, in.cell<float_control, A::mercury>().may, "contains mercury: "), "none");
    }
};

struct CircuitMercury {
    using Scope = Reads<Slot{relay, A::mercury}, Slot{contactor, A::mercury}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (in.all().figure > 0) return t.not_applicable();
        constexpr auto none = bits<A::mercury>("no");
        if (in.has<relay, A::mercury>())
            t.require("mercury in the relay", in.is<relay, A::mercury>(none), Say(A::mercury, in.cell<relay, A::mercury>().may, "contains mercury: "), "none");
        if (in.has<contactor, A::mercury>())
            t.require("mercury in the contactor", in.is<contactor, A::mercury>(none), Say(A::mercury, in.cell<contactor, A::mercury>().may, "contains mercury: "), "none");
    }
};

}  // namespace

RuleFunctions circuit_mercury() { return functions_of<CircuitMercury>(); }
RuleFunctions ambient() { return functions_of<Ambient>(); }
RuleFunctions enclosure() { return functions_of<Enclosure>(); }
RuleFunctions plumb() { return functions_of<Plumb>(); }
RuleFunctions mercury() { return functions_of<Mercury>(); }
RuleFunctions circuit_ambient() { return functions_of<CircuitAmbient>(); }
RuleFunctions circuit_enclosure() { return functions_of<CircuitEnclosure>(); }
RuleFunctions hazardous() { return functions_of<Hazardous>(); }
RuleFunctions circuit_hazardous() { return functions_of<CircuitHazardous>(); }

}  // namespace levelswap::families::surroundings
