#include "levelswap/rules/output_height.hpp"

#include "families/hot_water.hpp"
#include "families/motion.hpp"

namespace levelswap {

namespace {

using enum From;
using A = Attribute;
using Scope_ = Reads<LEVELSWAP_SWING_SLOTS, Slot{head, A::bay_gain}, Slot{switch_half, A::bay_gain},
                     Slot{head, A::bay_zero}, Slot{output, A::trip}, Slot{output, A::reset}, Slot{output, A::end_low},
                     Slot{output, A::end_high}, Slot{output, A::moment}, Slot{float_, A::mass},
                     Slot{head, A::dead_moment}, Slot{head, A::seal_torque}, LEVELSWAP_HOT_WATER_SLOTS,
                     Slot{vessel, A::cold_water}>;

Angle angle_at(Scope_ const& in, Acting which) {
    switch (which) {
        case Acting::trip: return families::arm_angle<Scope_, A::trip>(in);
        case Acting::reset: return families::arm_angle<Scope_, A::reset>(in);
        case Acting::low_end: return families::arm_angle<Scope_, A::end_low>(in);
        case Acting::high_end: return families::arm_angle<Scope_, A::end_high>(in);
    }
    return {};
}

/// The arm's turn from the bay's zero.
Interval travel_at(Scope_ const& in, Acting which) {
    auto const gain = (in.has<switch_half, A::bay_gain>() ? in.measure<switch_half, A::bay_gain>()
                                                          : in.measure<head, A::bay_gain>()).si();
    switch (which) {
        case Acting::trip: return in.measure<output, A::trip>().si() / gain;
        case Acting::reset: return in.measure<output, A::reset>().si() / gain;
        case Acting::low_end: return in.measure<output, A::end_low>().si() / gain;
        case Acting::high_end: return in.measure<output, A::end_high>().si() / gain;
    }
    return {};
}

/// Waterline above the float's centre, where buoyancy balances weight, dead moment, output and seal.
Interval waterline(Scope_ const& in, Interval phi, bool rising) {
    auto const form = families::form_of(in);
    auto const d = in.measure<float_, A::diameter>().si();
    auto const h = in.measure<float_, A::height>().si();
    auto const arm = in.measure<head, A::arm>().si();
    auto const lever = arm * max(cos(phi), Interval{0.05});  // an arm that stands upright carries nothing
    auto const other = in.measure<output, A::moment>().si() + in.measure<head, A::seal_torque>().si();
    auto const dead = in.measure<head, A::dead_moment>().si();
    auto const force = in.measure<float_, A::mass>().si() * Interval{families::gravity} +
                       (rising ? dead + other : dead - other) / lever;
    auto const density = hull(families::hot_density(in).si(),
                              physics::liquid_density(in.measure<vessel, A::cold_water>(),
                                                      in.measure<vessel, A::atmosphere>()).si());
    auto const draught = physics::draught_carrying(form, d, h, max(force, Interval{0}), density);
    return Length::from_si(physics::waterline_above_centre(form, d, h, draught)).quanta;
}

}  // namespace

std::span<Slot const> output_height_slots() { return Scope_::slots; }

OutputHeight output_height(Operands const& operands, Acting which) {
    Scope_ const in(operands);
    OutputHeight out;
    if (!families::swings(in) || families::form_is_known(in) != Truth::holds || !in.has<output, A::trip>()) return out;
    out.known = true;
    auto const zero = in.measure<head, A::bay_zero>().si();
    auto const theta = angle_at(in, which).si();
    auto const swing = families::swing_facts(in);
    out.arm = swing.arm;
    out.base = zero + swing.tilt;
    out.travel = travel_at(in, which);
    bool const rising = which == Acting::reset || which == Acting::high_end;
    out.waterline = waterline(in, theta + swing.tilt, rising);
    out.height = Length::from_si(physics::float_height(swing, theta)).quanta + out.waterline;
    return out;
}

Interval height_difference(OutputHeight const& upper, OutputHeight const& lower) {
    // R·(sin φ₂ − sin φ₁) = 2R·cos((φ₁+φ₂)/2)·sin((φ₂−φ₁)/2)
    Interval const half{0.5};
    auto const mean = upper.base + half * (upper.travel + lower.travel);
    auto const turn = half * (upper.travel - lower.travel);
    auto const rise = Interval{2} * upper.arm * cos(mean) * sin(turn);
    return Length::from_si(rise).quanta + (upper.waterline - lower.waterline);
}

}  // namespace levelswap
