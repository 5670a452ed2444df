#include "levelswap/physics/motor_tables.hpp"
#include "levelswap/verdict/judge.hpp"

namespace levelswap {

/// Motor currents that no plate states, a working pressure that nobody has read: they never turn an answer green, they
/// only stand in for the second outcome.
void Judge::list_assumptions() {
    auto const* mawp = site_.vessel.find(Attribute::mawp);
    auto const* working = site_.vessel.find(Attribute::working_pressure);
    if (working->nature == Fact::Nature::unknown && mawp->nature == Fact::Nature::uncertain)
        assumptions_.push_back({-1, Attribute::working_pressure, *mawp, "working pressure as high as the MAWP, not read off a gauge"});
    auto quantity = [](Interval quanta) {
        Fact f;
        f.nature = Fact::Nature::uncertain;
        f.lo = quanta.lo;
        f.hi = quanta.hi;
        return f;
    };
    for (int c = 0; c < static_cast<int>(site_.circuits.size()); ++c) {
        auto const& facts = site_.circuits[static_cast<std::size_t>(c)].facts;
        auto const* power = facts.find(Attribute::load_motor_power);
        auto const* volts = facts.find(Attribute::load_motor_voltage);
        auto const* phases = facts.find(Attribute::load_motor_phases);
        bool const known = power->nature == Fact::Nature::uncertain && volts->nature != Fact::Nature::unknown &&
                           phases->nature == Fact::Nature::uncertain && phases->lo == phases->hi;
        if (!known || power->hi == 0) continue;
        auto const table = physics::full_load_current(Power{{power->lo, power->hi}}, static_cast<int>(phases->lo),
                                                      Voltage{{volts->lo, volts->hi}});
        if (!table) continue;
        bool const no_running = facts.find(Attribute::load_motor_running)->nature == Fact::Nature::unknown;
        bool const no_locked = facts.find(Attribute::load_motor_locked)->nature == Fact::Nature::unknown;
        auto const& name = site_.circuits[static_cast<std::size_t>(c)].name;
        if (no_running)
            assumptions_.push_back({c, Attribute::load_motor_running, quantity(table->amperes.quanta),
                                    "motor full-load current of " + name + " from " + std::string(table->source) +
                                        ", not from its plate"});
        if (no_locked)
            assumptions_.push_back({c, Attribute::load_motor_locked, quantity(Interval{6} * table->amperes.quanta),
                                    "motor locked-rotor current of " + name +
                                        " as 6 times its full-load current (common practice, no source)"});
    }
}

}  // namespace levelswap
