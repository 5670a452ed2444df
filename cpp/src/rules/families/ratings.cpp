#include "ratings.hpp"

#include "levelswap/physics/water.hpp"

namespace levelswap::families::ratings {

namespace {

using enum From;
using A = Attribute;

template <class In>
Temperature saturation(In const& in) {
    return physics::saturation_temperature(
        absolute(in.template measure<vessel, A::mawp>(), in.template measure<vessel, A::atmosphere>()));
}

struct PressureRule {
    using Scope = Reads<Slot{part, A::rating}, Slot{vessel, A::mawp}, Slot{vessel, A::atmosphere}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        auto const& rating = in.cell<part, A::rating>();
        if (rating.missing) return t.not_applicable();
        auto const hot = saturation(in);
        t.note("saturation temperature at MAWP", hot);
        constexpr auto domain = row_of(A::rating);
        auto const allowed = rating.curve ? rating.curve->at(hot.quanta) : Interval{domain.least, domain.most};
        t.at_least("pressure rating at that temperature", GaugePressure{rating.none ? Interval{0} : allowed},
                   in.measure<vessel, A::mawp>());
    }
};

struct TemperatureRule {
    using Scope = Reads<Slot{part, A::rating}, Slot{vessel, A::mawp}, Slot{vessel, A::atmosphere}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        auto const& rating = in.cell<part, A::rating>();
        if (rating.missing) return t.not_applicable();
        Interval const hottest = rating.curve ? Interval{rating.curve->points.back().first} : Interval{0, 1e6};
        t.at_least("highest rated temperature", Temperature{hottest}, saturation(in));
    }
};

struct Service {
    using Scope = Reads<Slot{part, A::service}, Slot{vessel, A::vessel_service}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<part, A::service>()) return t.not_applicable();
        auto const& made_for = in.cell<part, A::service>();
        auto const duty = in.cell<vessel, A::vessel_service>().may;
        Truth const truth = (made_for.must & duty) == duty ? Truth::holds
                            : (made_for.may & duty) == 0   ? Truth::fails
                                                           : Truth::undecided;
        t.require("service", truth, Say(A::service, made_for.may), Say(A::vessel_service, duty));
    }
};

struct LowPressure {
    using Scope = Reads<Slot{part, A::low_pressure_only}, Slot{vessel, A::mawp}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<part, A::low_pressure_only>()) return t.not_applicable();
        Truth const limited = in.is<part, A::low_pressure_only>(bits<A::low_pressure_only>("yes"));
        if (limited == Truth::fails) return;
        // 15 psi: the limit of a low-pressure steam heating boiler, 46 CFR 53.01-10(b)(1).
        GaugePressure const limit{{103421, 103422}};
        auto const mawp = in.measure<vessel, A::mawp>();
        if (limited == Truth::holds) t.at_most("MAWP for a low-pressure part", mawp, limit);
        else if (mawp.quanta.hi > limit.quanta.lo)
            t.require("low-pressure part", Truth::undecided, "unknown whether limited to 15 psi", "not limited");
    }
};

}  // namespace

RuleFunctions pressure() { return functions_of<PressureRule>(); }
RuleFunctions temperature() { return functions_of<TemperatureRule>(); }
RuleFunctions service() { return functions_of<Service>(); }
RuleFunctions low_pressure() { return functions_of<LowPressure>(); }

}  // namespace levelswap::families::ratings
