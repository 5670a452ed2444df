#include "levelswap/rules/level_needs.hpp"

#include "levelswap/physics/make_up.hpp"
#include "levelswap/physics/pump_cycling.hpp"
#include "levelswap/physics/tank_mixing.hpp"
#include "levelswap/physics/water.hpp"

#include <algorithm>

namespace levelswap {

namespace {

using enum From;
using A = Attribute;
using Delay = Reads<Slot{output, A::delay}, Slot{vessel, A::evaporation}, Slot{vessel, A::surface}, Slot{vessel, A::mawp},
                    Slot{vessel, A::atmosphere}>;
using Cycling = Reads<Slot{pump, A::most_starts}, Slot{pump, A::pump_flow}, Slot{line, A::into}, Slot{line, A::demand},
                      Slot{vessel, A::evaporation}, Slot{vessel, A::least_evaporation}, Slot{vessel, A::surface},
                      Slot{vessel, A::mawp}, Slot{vessel, A::atmosphere}>;
using Fill = Reads<Slot{vessel, A::water_temperature}, Slot{vessel, A::coldest_make_up}, Slot{vessel, A::least_temperature},
                   Slot{vessel, A::working_pressure}, Slot{vessel, A::atmosphere}>;

Interval cut(Interval x) { return {std::clamp(x.lo, 0.0, most_need), std::clamp(x.hi, 0.0, most_need)}; }

template <class In>
Density lightest_water(In const& in) {
    return physics::saturated_liquid_density(
        absolute(in.template measure<vessel, A::mawp>(), in.template measure<vessel, A::atmosphere>()));
}

/// What is taken out: every value between the ends occurs. `sure` are those that occur whatever the ends are.
struct TakeOff {
    Interval all{0};
    std::optional<Interval> sure;
};

TakeOff take_off(Cycling const& in) {
    auto const full = in.measure<vessel, A::evaporation>().quanta, least = in.measure<vessel, A::least_evaporation>().quanta;
    auto const demand = in.measure<line, A::demand>().quanta;
    Interval const boiler{std::min(least.lo, full.hi), full.hi}, tank{0, demand.hi};
    Truth const into_boiler = in.is<line, A::into>(bits<A::into>("boiler"));
    if (into_boiler == Truth::undecided) return {hull(boiler, tank), std::nullopt};
    if (into_boiler == Truth::fails) return {tank, Interval{0, demand.lo}};
    return {boiler, least.hi <= full.lo ? std::optional{Interval{least.hi, full.lo}} : std::nullopt};
}

}  // namespace

std::span<Slot const> delay_slots() { return Delay::slots; }
std::span<Slot const> cycling_slots() { return Cycling::slots; }
std::span<Slot const> fill_slots() { return Fill::slots; }

Interval fall_during_delay(Operands const& operands) {
    Delay const in(operands);
    return cut(physics::level_fall(in.measure<vessel, A::evaporation>(), lightest_water(in), in.measure<vessel, A::surface>(),
                                   in.measure<output, A::delay>()).quanta);
}

std::optional<Interval> spacing_for_starts(Operands const& operands) {
    Cycling const in(operands);
    if (!in.has<pump, A::most_starts>()) return std::nullopt;
    auto const taken = take_off(in);
    auto const density = lightest_water(in);
    auto const starts = in.measure<pump, A::most_starts>();
    auto const pumped = in.measure<pump, A::pump_flow>();
    auto spacing = [&](StartRate limit, Interval q, Interval e, Density rho, Interval surface) {  // at the worst take-off
        auto const volume = physics::volume_for_starts(limit, physics::as_volume_flow({q}, rho), physics::as_volume_flow({e}, rho));
        return Length::from_si(volume.si() / surface).quanta.hi;
    };
    auto const surface = in.measure<vessel, A::surface>().si();
    double const most = spacing({Interval{starts.quanta.lo}}, Interval{pumped.quanta.hi}, taken.all, {Interval{density.quanta.lo}}, Interval{surface.lo});
    double const least = taken.sure ? spacing({Interval{starts.quanta.hi}}, Interval{pumped.quanta.lo}, *taken.sure,
                                              {Interval{density.quanta.hi}}, Interval{surface.hi})
                                    : 0;
    return cut({std::min(least, most), most});
}

std::optional<Interval> rise_by_cold_fill(Operands const& operands) {
    Fill const in(operands);
    if (in.none<vessel, A::least_temperature>()) return std::nullopt;
    auto const pressure = absolute(in.measure<vessel, A::working_pressure>(), in.measure<vessel, A::atmosphere>());
    auto const hot = in.measure<vessel, A::water_temperature>(), least = in.measure<vessel, A::least_temperature>();
    Mass const one{{1e6}};   // 1 kg stands where the filling starts
    auto const cold = physics::largest_fill(one, hot, in.measure<vessel, A::coldest_make_up>(), least, pressure).quanta / one.quanta;
    auto const swell = physics::liquid_density(hot, pressure).si() / physics::liquid_density(least, pressure).si();
    auto const rise = (Interval{1} + min(cold, Interval{1e6})) * swell - Interval{1};
    return max(rise, Interval{0});
}

}  // namespace levelswap
