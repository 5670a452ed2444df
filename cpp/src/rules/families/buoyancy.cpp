#include "buoyancy.hpp"

#include "hot_water.hpp"
#include "motion.hpp"

#include <numbers>

namespace levelswap::families::buoyancy {

namespace {

using enum From;
using A = Attribute;

#define LEVELSWAP_FORCE_SLOTS                                                                                        \
    Slot{float_, A::form}, Slot{float_, A::diameter}, Slot{float_, A::height}, Slot{float_, A::mass},                \
        Slot{head, A::arm}, Slot{head, A::dead_moment}, Slot{head, A::seal_torque}, Slot{column, A::tilt},           \
        Slot{head, A::bay_gain}, Slot{switch_half, A::bay_gain}, Slot{head, A::bay_zero}, Slot{output, A::trip},     \
        Slot{output, A::reset}, Slot{output, A::end_low}, Slot{output, A::end_high}, Slot{output, A::acts},          \
        Slot{output, A::moment}

/// The lightest water that lifts the float. All densities from a cold filling to the hottest water occur, and the lift
/// grows with the density, so the lightest decides.
template <class In>
Interval lightest_water(In const& in) {
    auto const cold =
        physics::liquid_density(in.template measure<vessel, A::cold_water>(), in.template measure<vessel, A::atmosphere>())
            .si();
    return min(hot_density(in).si(), cold);
}

template <class In>
Interval volume(In const& in) {
    auto const d = in.template measure<float_, A::diameter>().si();
    using std::numbers::pi;
    if (form_of(in) == physics::FloatForm::sphere) return Interval{pi / 6} * d * d * d;
    return Interval{pi / 4} * d * d * in.template measure<float_, A::height>().si();
}

/// cos φ over the angles at which the output acts: the arm is worth least there.
template <class In>
Interval leverage(In const& in) {
    bool const slides = in.template cell<output, A::acts>().may == bits<A::acts>("proportional");
    auto const one = slides ? arm_angle<In, A::end_low>(in) : arm_angle<In, A::trip>(in);
    auto const other = slides ? arm_angle<In, A::end_high>(in) : arm_angle<In, A::reset>(in);
    auto const tilt = in.template measure<column, A::tilt>();
    return min(cos((one + tilt).si()), cos((other + tilt).si()));
}

template <class In>
bool complete(In const& in) {
    return in.all().output_kind == Owner::switch_set && in.template has<head, A::arm>() && in.template has<float_, A::mass>() &&
           in.template has<column, A::tilt>();
}

struct Lift {
    using Scope = Reads<LEVELSWAP_FORCE_SLOTS, LEVELSWAP_HOT_WATER_SLOTS, Slot{vessel, A::cold_water}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!complete(in)) return t.not_applicable();  // travel says that nothing moves the output
        t.require("form of the float", form_is_known(in), "sphere or cylinder", "a known form");
        if (form_is_known(in) != Truth::holds) return;
        auto const cos_phi = leverage(in);
        auto const arm = in.measure<head, A::arm>().si() * cos_phi;
        auto const density = lightest_water(in);
        t.note("lightest water", Density::from_si(density));
        // One product for each use of the arm keeps the enclosure tight: (ρV − m)·g·R·cos φ.
        auto const spare = (density * volume(in) - in.measure<float_, A::mass>().si()) * Interval{gravity} * arm;
        auto const needed = in.measure<output, A::moment>() + in.measure<head, A::seal_torque>();
        t.at_least("moment left to lift the output", Moment::from_si(spare) - in.measure<head, A::dead_moment>(),
                   in.figure<Dimension::ratio>().si() * needed);
    }
};

struct Sink {
    using Scope = Reads<LEVELSWAP_FORCE_SLOTS>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!complete(in)) return t.not_applicable();
        auto const arm = in.measure<head, A::arm>().si() * leverage(in);
        auto const weight = in.measure<float_, A::mass>().si() * Interval{gravity} * arm;
        auto const needed = in.measure<output, A::moment>() + in.measure<head, A::seal_torque>();
        t.at_least("moment of the weight to pull the output down",
                   Moment::from_si(weight) + in.measure<head, A::dead_moment>(),
                   in.figure<Dimension::ratio>().si() * needed);
    }
};

struct Crush {
    using Scope = Reads<Slot{float_, A::crush}, Slot{vessel, A::mawp}, Slot{vessel, A::hydrotest},
                        Slot{vessel, A::float_out_for_test}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<float_, A::crush>()) return t.not_applicable();
        auto const proof = in.measure<float_, A::crush>();
        t.at_least("pressure the float is proof against, at MAWP", proof, in.measure<vessel, A::mawp>());
        Truth const out = in.is<vessel, A::float_out_for_test>(bits<A::float_out_for_test>("yes"));
        if (out == Truth::holds) return;
        auto const test = in.measure<vessel, A::hydrotest>();
        if (out == Truth::fails) t.at_least("pressure the float is proof against, at the hydrostatic test", proof, test);
        else if (proof.quanta.lo < test.quanta.hi)
            t.require("float at the hydrostatic test", Truth::undecided, "may be left in", "taken out, or proof");
    }
};

}  // namespace

RuleFunctions lift() { return functions_of<Lift>(); }
RuleFunctions sink() { return functions_of<Sink>(); }
RuleFunctions crush() { return functions_of<Crush>(); }

}  // namespace levelswap::families::buoyancy
