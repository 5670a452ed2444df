#include "tank_heat.hpp"

#include "levelswap/physics/tank_mixing.hpp"
#include "levelswap/physics/water.hpp"

namespace levelswap::families::tank_heat {

namespace {

using enum From;
using A = Attribute;

/// Make-up in steps or steadily: on the average preheat and returns must bring the same heat.
struct Balance {
    using Scope = Reads<Slot{line, A::into}, Slot{line, A::demand}, Slot{vessel, A::coldest_make_up}, Slot{vessel, A::least_temperature},
                        Slot{vessel, A::preheat}, Slot{vessel, A::return_flow}, Slot{vessel, A::return_temperature},
                        Slot{vessel, A::working_pressure}, Slot{vessel, A::atmosphere}, Slot{vessel, A::water_temperature}>;
    template <class T>
    static void judge(Scope const& in, T& t) {
        Truth const tank = in.is<line, A::into>(bits<A::into>("tank"));
        if (tank == Truth::fails || in.none<vessel, A::least_temperature>()) return t.not_applicable();
        auto const pressure = absolute(in.measure<vessel, A::working_pressure>(), in.measure<vessel, A::atmosphere>());
        auto const least = in.measure<vessel, A::least_temperature>();
        auto const needed = physics::heating_power(in.measure<line, A::demand>(), in.measure<vessel, A::coldest_make_up>(), least, pressure);
        auto const returned = in.none<vessel, A::return_flow>()
                                  ? Interval{0}
                                  : in.measure<vessel, A::return_flow>().si() *
                                        (physics::liquid_enthalpy(in.measure<vessel, A::return_temperature>(), pressure) -
                                         physics::liquid_enthalpy(least, pressure));
        t.note("heat that the returns bring above the least temperature", HeatFlow::from_si(returned));
        auto const given = in.measure<vessel, A::preheat>() + HeatFlow::from_si(returned);
        if (tank == Truth::holds) t.at_least("temperature of the water in the tank", in.measure<vessel, A::water_temperature>(), least);
        if (tank == Truth::holds) return t.at_least("heat of preheat and returns", given, needed);
        if (given.quanta.lo < needed.quanta.hi) t.require("what the line feeds", Truth::undecided, "boiler or tank", "a boiler, or enough heat for a tank");
    }
};

}  // namespace

RuleFunctions balance() { return functions_of<Balance>(); }

}  // namespace levelswap::families::tank_heat
