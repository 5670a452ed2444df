#include "levelswap/rules/level_needs.hpp"

#include "families/hot_water.hpp"
#include "levelswap/physics/make_up.hpp"
#include "levelswap/physics/pump_cycling.hpp"
#include "levelswap/physics/tank_mixing.hpp"
#include "levelswap/physics/vessel_volume.hpp"
#include "levelswap/physics/water.hpp"

#include <algorithm>

namespace levelswap {

namespace {

using enum From;
using A = Attribute;
#define LEVELSWAP_SHAPE_SLOTS Slot{vessel, A::drum_diameter}, Slot{vessel, A::drum_length}, Slot{vessel, A::bottom}
using Delay = Reads<Slot{output, A::delay}, Slot{vessel, A::evaporation}, Slot{line, A::into}, Slot{line, A::demand},
                    Slot{vessel, A::surface}, LEVELSWAP_SHAPE_SLOTS, LEVELSWAP_HOT_WATER_SLOTS>;
using Cycling = Reads<Slot{pump, A::most_starts}, Slot{pump, A::pump_flow}, Slot{line, A::into}, Slot{line, A::demand},
                      Slot{vessel, A::evaporation}, Slot{vessel, A::least_evaporation}, Slot{vessel, A::blowdown},
                      Slot{vessel, A::surface}, LEVELSWAP_SHAPE_SLOTS, LEVELSWAP_HOT_WATER_SLOTS>;
using Fill = Reads<LEVELSWAP_SHAPE_SLOTS, Slot{vessel, A::water_temperature}, Slot{vessel, A::coldest_make_up},
                   Slot{vessel, A::least_temperature}, Slot{vessel, A::working_pressure}, Slot{vessel, A::atmosphere}>;

Interval cut(Interval x) { return {std::clamp(x.lo, 0.0, most_need), std::clamp(x.hi, 0.0, most_need)}; }

/// A height above the datum, from the lowest point inside the vessel.
template <class In>
Length above_bottom(In const& in, Interval height) {
    return {max(height - in.template measure<vessel, A::bottom>().quanta, Interval{0})};
}

/// The vessel as its facts have it: a drum on its side, or straight sides over a floor. Heights from its lowest point.
template <class In>
struct Room {
    In const& in;
    Area floor;   ///< of straight sides

    [[nodiscard]] bool straight() const { return in.template none<vessel, A::drum_diameter>(); }
    [[nodiscard]] Length diameter() const { return in.template measure<vessel, A::drum_diameter>(); }
    [[nodiscard]] Length length() const { return in.template measure<vessel, A::drum_length>(); }

    [[nodiscard]] Volume between(Length low, Length high) const {
        return straight() ? physics::upright_volume(floor, low, high) : physics::horizontal_cylinder_volume(diameter(), length(), low, high);
    }
    [[nodiscard]] Length rise(Length from, Volume in_flow) const {
        return straight() ? physics::upright_rise(floor, in_flow) : physics::horizontal_cylinder_rise(diameter(), length(), from, in_flow);
    }
    [[nodiscard]] Length fall(Length from, Volume gone) const {
        return straight() ? physics::upright_rise(floor, gone) : physics::horizontal_cylinder_fall(diameter(), length(), from, gone);
    }
};
template <class In>
Room<In> room_of(In const& in) { return {in, in.template measure<vessel, A::surface>()}; }

/// Shares of a mixture do not depend on how large a floor of straight sides is.
Area const any_floor = Area::from_si(Interval{1});

/// What is taken out, of a boiler as steam and with the blowdown: every value between the ends occurs. `sure` are those
/// that occur whatever the ends are.
struct TakeOff {
    Interval all{0};
    std::optional<Interval> sure;
};

TakeOff take_off(Cycling const& in) {
    auto const blown = in.measure<vessel, A::blowdown>();
    auto const full = physics::feed_demand(in.measure<vessel, A::evaporation>(), blown).quanta;
    auto const least = physics::feed_demand(in.measure<vessel, A::least_evaporation>(), blown).quanta;
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

Interval fall_during_delay(Operands const& operands, Interval from) {
    Delay const in(operands);
    if (in.measure<output, A::delay>().quanta.hi <= 0) return 0.0;   // whatever the surface is, and where there is none
    // Fire takes the water out of a boiler, those who draw on it out of a tank.
    Interval drawn = in.measure<vessel, A::evaporation>().si();
    if (in.has<line, A::into>()) {
        Truth const tank = in.is<line, A::into>(bits<A::into>("tank"));
        auto const demand = in.measure<line, A::demand>().si();
        if (tank != Truth::fails) drawn = tank == Truth::holds ? demand : hull(drawn, demand);
    }
    auto const gone = Volume::from_si(drawn * in.measure<output, A::delay>().si() / families::hot_density(in).si());
    return cut(room_of(in).fall(above_bottom(in, from), gone).quanta);
}

std::optional<Interval> spacing_for_starts(Operands const& operands, Interval from) {
    Cycling const in(operands);
    if (!in.has<pump, A::most_starts>()) return std::nullopt;
    auto const taken = take_off(in);
    auto const density = families::hot_density(in);
    auto const starts = in.measure<pump, A::most_starts>();
    auto const pumped = in.measure<pump, A::pump_flow>();
    auto volume = [&](double limit, double q, Interval e, double rho) {  // at the worst take-off
        return physics::volume_for_starts({Interval{limit}}, physics::as_volume_flow({Interval{q}}, {Interval{rho}}),
                                          physics::as_volume_flow({e}, {Interval{rho}})).quanta;
    };
    double const most = volume(starts.quanta.lo, pumped.quanta.hi, taken.all, density.quanta.lo).hi;
    double const least = taken.sure ? volume(starts.quanta.hi, pumped.quanta.lo, *taken.sure, density.quanta.hi).hi : 0;
    Volume const held{{std::min(least, most), most}};
    return cut(room_of(in).rise(above_bottom(in, from), held).quanta);
}

std::optional<Interval> rise_by_cold_fill(Operands const& operands, Interval from) {
    Fill const in(operands);
    if (in.none<vessel, A::least_temperature>()) return std::nullopt;
    auto const pressure = absolute(in.measure<vessel, A::working_pressure>(), in.measure<vessel, A::atmosphere>());
    auto const hot = in.measure<vessel, A::water_temperature>(), least = in.measure<vessel, A::least_temperature>();
    Mass const one{{1e6}};   // 1 kg stands where the filling starts
    // The hotter the tank the more may come in, though its own water is lighter: both ends of its temperature bound it.
    auto share_from = [&](double at) {
        Temperature const from_here{{at}};
        auto const cold = physics::largest_fill(one, from_here, in.measure<vessel, A::coldest_make_up>(), least, pressure).quanta / one.quanta;
        auto const swell = physics::liquid_density(from_here, pressure).si() / physics::liquid_density(least, pressure).si();
        return max((Interval{1} + min(cold, Interval{1e6})) * swell - Interval{1}, Interval{0});
    };
    auto share = hull(share_from(hot.quanta.lo), share_from(hot.quanta.hi));
    if (hot.quanta.lo <= least.quanta.hi) share.lo = 0;   // nothing may come in
    Room<Fill> const room{in, any_floor};
    auto const depth = above_bottom(in, from);
    return cut(room.rise(depth, {share * room.between({Interval{0}}, depth).quanta}).quanta);
}

std::optional<PumpStarts> starts_between(Operands const& operands, Interval on, Interval off) {
    Cycling const in(operands);
    auto const taken = take_off(in);
    if (!in.has<pump, A::most_starts>() || !taken.sure || off.lo <= on.hi) return std::nullopt;
    auto const held = room_of(in).between(above_bottom(in, on), above_bottom(in, off));
    auto const density = families::hot_density(in);
    return PumpStarts{physics::starts_per_hour(held, physics::as_volume_flow(in.measure<pump, A::pump_flow>(), density),
                                               physics::as_volume_flow({*taken.sure}, density)),
                      in.measure<pump, A::most_starts>()};
}

/// The water that came in is what the mixed tank holds beyond what it held: exact where the mixture is as warm as it has
/// to stay, which is where a fill is refused.
std::optional<ColdFill> cooled_by_fill(Operands const& operands, Interval on, Interval off) {
    Fill const in(operands);
    if (in.none<vessel, A::least_temperature>() || off.lo <= on.hi) return std::nullopt;
    auto const pressure = absolute(in.measure<vessel, A::working_pressure>(), in.measure<vessel, A::atmosphere>());
    auto const hot = in.measure<vessel, A::water_temperature>(), least = in.measure<vessel, A::least_temperature>();
    Room<Fill> const room{in, any_floor};
    auto const bottom = Length{Interval{0}};
    auto const before = room.between(bottom, above_bottom(in, on)).si() * physics::liquid_density(hot, pressure).si();
    auto const after = room.between(bottom, above_bottom(in, off)).si() * physics::liquid_density(least, pressure).si();
    return ColdFill{physics::mixed_temperature(Mass::from_si(before), hot, Mass::from_si(max(after - before, Interval{0})),
                                               in.measure<vessel, A::coldest_make_up>(), pressure),
                    least};
}

}  // namespace levelswap
