#include "roles.hpp"

namespace levelswap::families::roles {

namespace {

using enum From;
using A = Attribute;

std::uint64_t form_for(Duty d) {
    switch (d) {
        case Duty::primary_cut_off:
        case Duty::secondary_cut_off:
        case Duty::high_alarm: return bits<A::acts>("opens_on_fall");  // seen rising, it closes
        case Duty::pump:
        case Duty::low_alarm: return bits<A::acts>("closes_on_fall");
        case Duty::modulating_feed: return bits<A::acts>("proportional");
        case Duty::make_up: return bits<A::acts>("closes_on_fall", "feeds_on_fall");
    }
    return 0;
}

struct OutputForm {
    using Scope = Reads<Slot{output, A::acts}, Slot{circuit, A::supply}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        // Without a circuit only a mechanical feed does anything.
        std::uint64_t const wanted = in.has<circuit, A::supply>() ? form_for(in.duty()) : bits<A::acts>("feeds_on_fall");
        t.require("form of the output", in.is<output, A::acts>(wanted), Say(A::acts, in.cell<output, A::acts>().may),
                  Say(A::acts, wanted));
    }
};

struct Reset {
    using Scope = Reads<Slot{output, A::reset_type}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        auto const have = in.cell<output, A::reset_type>().may;
        constexpr auto manual = bits<A::reset_type>("manual");
        constexpr auto automatic = bits<A::reset_type>("automatic");
        if (in.duty() == Duty::pump || in.duty() == Duty::make_up)  // a feed that waits for a button does not feed
            t.require("reset", in.is<output, A::reset_type>(automatic), Say(A::reset_type, have), "automatic");
        else if (in.duty() == Duty::secondary_cut_off && in.all().figure > 0)
            t.require("reset", in.is<output, A::reset_type>(manual), Say(A::reset_type, have), "manual");
        else
            t.not_applicable();
    }
};

struct PrimaryReset {
    using Scope = Reads<Slot{output, A::reset_type}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (in.duty() != Duty::primary_cut_off || in.all().figure <= 0) return t.not_applicable();
        t.require("reset", in.is<output, A::reset_type>(bits<A::reset_type>("automatic")),
                  Say(A::reset_type, in.cell<output, A::reset_type>().may), "automatic, so that the boiler catches up");
    }
};

/// A lockout where heat must come back with nobody there: the boiler stays cold until somebody comes, and a lockout
/// that comes without need invites a jumper. Where the code asks for it, it stands all the same.
struct Unattended {
    using Scope = Reads<Slot{output, A::reset_type}, Slot{vessel, A::must_restart}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!is_cut_off(in.duty())) return t.not_applicable();
        Truth const comes = in.is<vessel, A::must_restart>(bits<A::must_restart>("no"));
        Truth const resets = in.is<output, A::reset_type>(bits<A::reset_type>("automatic"));
        t.require("reset with nobody there", std::max(comes, resets), Say(A::reset_type, in.cell<output, A::reset_type>().may),
                  "automatic, or somebody who comes after a lockout");
    }
};

struct Lockout {
    using Scope = Reads<Slot{output, A::reset_type}, Slot{output, A::trip_free}, Slot{output, A::after_power_loss}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!is_cut_off(in.duty())) return t.not_applicable();
        Truth const locks = in.is<output, A::reset_type>(bits<A::reset_type>("manual"));
        if (locks == Truth::fails) return t.not_applicable();
        Truth const free = in.is<output, A::trip_free>(bits<A::trip_free>("yes"));
        Truth const keeps = in.is<output, A::after_power_loss>(bits<A::after_power_loss>("holds", "trips"));
        auto soften = [&](Truth x) { return locks == Truth::undecided && x == Truth::fails ? Truth::undecided : x; };
        t.require("a held reset button while the water is low", soften(free),
                  free == Truth::fails ? "closes the contact" : "unknown or open", "the contact stays open");
        t.require("lockout after a power failure", soften(keeps),
                  Say(A::after_power_loss, in.cell<output, A::after_power_loss>().may), "holds or trips");
    }
};

struct Listed {
    using Scope = Reads<Slot{output, A::listed_for}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!is_cut_off(in.duty())) return t.not_applicable();
        if (in.all().output_kind == Owner::transmitter)
            return t.require("sensing", Truth::fails, "a level transmitter",
                             "a device that is made and listed as a cut-off: a transmitter only measures");
        t.require("listing", in.includes<output, A::listed_for>(bits<A::listed_for>("cut_off")),
                  Say(A::listed_for, in.cell<output, A::listed_for>().may), "cut off");
    }
};

struct CountRule {
    using Scope = Reads<Slot{vessel, A::firing}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (in.all().figure <= 0) return t.not_applicable();
        // A list that is not said to be complete may lack cut-offs that are there.
        double const most = in.all().functions_complete ? in.all().cut_offs : 2;
        t.at_least("low-water fuel cut-offs", Count{{static_cast<double>(in.all().cut_offs), most}},
                   in.figure<Dimension::count>());
    }
};

/// Open in every state that does not prove water. Each state is a step of its own.
struct StateTable {
    using Scope = Reads<Slot{output, A::unpowered}, Slot{output, A::float_sunk}, Slot{output, A::wire_open},
                        Slot{output, A::wire_shorted}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!is_cut_off(in.duty())) return t.not_applicable();
        if (!in.none<output, A::float_sunk>())  // a probe has no float
            t.require("burner contact with the float sunk", in.is<output, A::float_sunk>(bits<A::float_sunk>("open")),
                  Say(A::float_sunk, in.cell<output, A::float_sunk>().may), "open");
        t.require("burner contact without power",
                  in.is<output, A::unpowered>(bits<A::unpowered>("open", "as_level")),
                  Say(A::unpowered, in.cell<output, A::unpowered>().may), "open or as level");
        if (in.all().output_kind != Owner::probe_relay)  // probes.open_wire asks more of a probe's wire
            wire(t, "burner contact with its sensing wire open", A::wire_open, in.cell<output, A::wire_open>());
        wire(t, "burner contact with its sensing wire shorted", A::wire_shorted, in.cell<output, A::wire_shorted>());
        t.require("float stuck up", Truth::holds,
                  "not seen by this device; the second cut-off is there for it", "");
    }
    /// A dry contact that a float moves has no sensing wire: declared none.
    template <class T>
    static void wire(T& t, char const* label, Attribute words, Cell const& state) {
        if (state.none) return;
        constexpr auto safe = bits<A::wire_open>("open", "as_level");
        static_assert(safe == bits<A::wire_shorted>("open", "as_level"));
        Truth const truth = (state.may & safe) == 0 ? Truth::fails : (state.may & ~safe) == 0 ? Truth::holds : Truth::undecided;
        t.require(label, truth, Say(words, state.may), "open or as level");
    }
};

}  // namespace

RuleFunctions output() { return functions_of<OutputForm>(); }
RuleFunctions reset() { return functions_of<Reset>(); }
RuleFunctions primary_reset() { return functions_of<PrimaryReset>(); }
RuleFunctions unattended() { return functions_of<Unattended>(); }
RuleFunctions lockout() { return functions_of<Lockout>(); }
RuleFunctions listed() { return functions_of<Listed>(); }
RuleFunctions count() { return functions_of<CountRule>(); }
RuleFunctions state_table() { return functions_of<StateTable>(); }

}  // namespace levelswap::families::roles
