#include "ratings.hpp"

#include "hot_water.hpp"

namespace levelswap::families::ratings {

namespace {

using enum From;
using A = Attribute;

#define LEVELSWAP_WETTED_SLOTS                                                                                        \
    Slot{part, A::rating}, LEVELSWAP_HOT_WATER_SLOTS, Slot{part, A::range_low}, Slot{station, A::low_leg},            \
        Slot{station, A::leg_temperature}

/// How hot a wetted part gets. Between a transmitter and the steam stands its wet leg, where it has one.
template <class In>
Temperature temperature_at(In const& in) {
    auto const hot = hottest_water(in);
    if (!in.template has<part, A::range_low>()) return hot;
    Truth const wet = in.template is<station, A::low_leg>(bits<A::low_leg>("wet"));
    if (wet == Truth::fails || in.template none<station, A::leg_temperature>()) return hot;
    auto const leg = in.template measure<station, A::leg_temperature>();
    return wet == Truth::holds ? leg : Temperature{hull(leg.quanta, hot.quanta)};
}

template <class In>
char const* name_of_temperature(In const& in) {
    bool const leg = in.template has<part, A::range_low>() && in.template is<station, A::low_leg>(bits<A::low_leg>("wet")) != Truth::fails;
    return leg ? "temperature of the wet leg" : keeps_its_temperature(in) == Truth::holds ? "temperature of the water" : "saturation temperature at MAWP";
}

struct PressureRule {
    using Scope = Reads<LEVELSWAP_WETTED_SLOTS>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        auto const& rating = in.cell<part, A::rating>();
        if (rating.missing) return t.not_applicable();
        auto const hot = temperature_at(in);
        t.note(name_of_temperature(in), hot);
        constexpr auto domain = row_of(A::rating);
        auto const allowed = rating.curve ? rating.curve->at(hot.quanta) : Interval{domain.least, domain.most};
        t.at_least("pressure rating at that temperature", GaugePressure{rating.none ? Interval{0} : allowed},
                   in.measure<vessel, A::mawp>());
    }
};

struct TemperatureRule {
    using Scope = Reads<LEVELSWAP_WETTED_SLOTS>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        auto const& rating = in.cell<part, A::rating>();
        if (rating.missing) return t.not_applicable();
        Interval const hottest = rating.curve ? Interval{rating.curve->points.back().first} : Interval{0, 1e6};
        t.at_least("highest rated temperature", Temperature{hottest}, temperature_at(in));
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

/// What the feed side must stand: the smaller of 1.25 × MAWP and MAWP + 225 psi (46 CFR 56.50-30(a)(3)) at a boiler,
/// and everywhere the highest supply pressure with the pump against a shut valve.
template <class In>
Interval feed_side_pressure(In const& in) {
    Interval const own = in.template measure<line, A::supply_pressure>().quanta +
                         in.template measure<pump, A::shut_off>().quanta;
    Interval const mawp = in.template measure<vessel, A::mawp>().quanta;
    constexpr double psi_225 = 225 * 6894.757293168;
    Interval const at_boiler = max(own, min(Interval{1.25} * mawp, mawp + widened(Interval{psi_225})));
    Truth const boiler = in.template is<line, A::into>(bits<A::into>("boiler"));
    return boiler == Truth::holds ? at_boiler : boiler == Truth::fails ? own : hull(own, at_boiler);
}

struct FeedPressure {
    using Scope = Reads<Slot{part, A::rating}, Slot{line, A::into}, Slot{line, A::supply_pressure}, Slot{line, A::water_temperature},
                        Slot{pump, A::shut_off}, Slot{vessel, A::mawp}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        auto const& rating = in.cell<part, A::rating>();
        if (rating.missing) return t.not_applicable();
        constexpr auto domain = row_of(A::rating);
        auto const allowed = rating.curve ? rating.curve->at(in.measure<line, A::water_temperature>().quanta)
                                          : Interval{domain.least, domain.most};
        t.at_least("pressure rating at the temperature of the feed", GaugePressure{rating.none ? Interval{0} : allowed},
                   GaugePressure{feed_side_pressure(in)});
    }
};

struct FeedTemperature {
    using Scope = Reads<Slot{part, A::rating}, Slot{line, A::water_temperature}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        auto const& rating = in.cell<part, A::rating>();
        if (rating.missing) return t.not_applicable();
        Interval const hottest = rating.curve ? Interval{rating.curve->points.back().first} : Interval{0, 1e6};
        t.at_least("highest rated temperature", Temperature{hottest}, in.measure<line, A::water_temperature>());
    }
};

/// A line into a boiler carries feed water, one into a tank cold make-up.
struct FeedService {
    using Scope = Reads<Slot{part, A::service}, Slot{line, A::into}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        if (!in.has<part, A::service>()) return t.not_applicable();
        auto const& made_for = in.cell<part, A::service>();
        Truth const boiler = in.is<line, A::into>(bits<A::into>("boiler"));
        std::uint64_t const duty = (boiler != Truth::fails ? bits<A::service>("feed_water") : 0) |
                                   (boiler != Truth::holds ? bits<A::service>("cold_make_up") : 0);
        Truth const truth = (made_for.must & duty) == duty ? Truth::holds
                            : (made_for.may & duty) == 0   ? Truth::fails
                                                           : Truth::undecided;
        t.require("service", truth, Say(A::service, made_for.may), Say(A::service, duty));
    }
};

}  // namespace

RuleFunctions feed_pressure() { return functions_of<FeedPressure>(); }
RuleFunctions feed_temperature() { return functions_of<FeedTemperature>(); }
RuleFunctions feed_service() { return functions_of<FeedService>(); }
RuleFunctions pressure() { return functions_of<PressureRule>(); }
RuleFunctions temperature() { return functions_of<TemperatureRule>(); }
RuleFunctions service() { return functions_of<Service>(); }
RuleFunctions low_pressure() { return functions_of<LowPressure>(); }

}  // namespace levelswap::families::ratings
