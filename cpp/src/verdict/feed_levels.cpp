// What physics asks of the levels: a cut-off's delay, how often a pump starts, how far a fill cools the tank.

#include "levelswap/rules/level_needs.hpp"
#include "wiring.hpp"

namespace levelswap {

/// Where a level may be, in nm above the datum, strayed to the side that is worse: where it hangs now, or all that a
/// setting may be. A level lower at the start of a fall ends lower, one higher at the start of a rise ends higher: so
/// the worst stray is the one that the network counts too.
Interval LevelBuilder::heights(Elevation const& e, Strays strays) const {
    Interval const hangs = e.station < 0 ? Interval{0} : is_setting(e.station, e.rod) ? may_be(e.station, e.rod) : now(e.station, e.rod);
    return hangs + e.own + (e.at_mark ? e.mark : Interval{0}) + (strays == Strays::up ? e.repeatability : -e.repeatability);
}

Operands LevelBuilder::needs(std::span<Slot const> slots, Stand const& stand) const {
    return judge_.operands(slots, stand, parts_, assume_);
}

/// How far the water falls before what has tripped has acted.
LevelBuilder::Need LevelBuilder::acts_late(Wiring const& w, int level) const {
    auto const& e = w.elevations[static_cast<std::size_t>(level)];
    if (e.key < 0 || e.key % 2 == 1) return {};
    auto const stand = stand_of(judge_.site_, e.key / 2, w.output[static_cast<std::size_t>(e.key / 2)]);
    auto const* late = judge_.fact({From::output, Attribute::delay}, stand, parts_, nullptr);
    if (!late || late->nature == Fact::Nature::none || late->hi <= 0) return {};
    return {fall_during_delay(needs(delay_slots(), stand), heights(e, Strays::down)), "fall of the level at full fire during the delay", 0, level};
}

/// The cut-off acts while water is visible, though the water falls until it has acted.
void LevelBuilder::delay(Wiring& w, std::size_t function, int trip, int visible) const {
    static int const rule = rule_index("levels.delay");
    auto const stand = stand_of(judge_.site_, static_cast<int>(function), w.output[function]);
    auto const from = heights(w.elevations[static_cast<std::size_t>(trip)], Strays::down);
    require(w, rule, trip, visible, true, {fall_during_delay(needs(delay_slots(), stand), from), "fall of the level at full fire during the delay", 0, trip});
}

/// A pump that starts too often needs its levels further apart.
void LevelBuilder::cycling(Wiring& w, std::size_t function, int on, int off) const {
    static int const rule = rule_index("feed.cycling");
    auto const stand = stand_of(judge_.site_, static_cast<int>(function), w.output[function]);
    auto const spacing = spacing_for_starts(needs(cycling_slots(), stand), heights(w.elevations[static_cast<std::size_t>(on)], Strays::up));
    int const pump = judge_.position_for(From::pump, stand);
    if (spacing) require(w, rule, off, on, false, {*spacing, "spacing that keeps the starts within what the motor stands", 1ull << pump, on});
}

/// On/off make-up cools the tank in steps.
void LevelBuilder::fill(Wiring& w, std::size_t function, int on, int off) const {
    static int const rule = rule_index("tank_heat.fill");
    auto const stand = stand_of(judge_.site_, static_cast<int>(function), w.output[function]);
    auto const acts = judge_.fact({From::output, Attribute::acts}, stand, parts_, nullptr)->may;
    if ((acts & ~bits<Attribute::acts>("feeds_on_fall")) == 0) return;   // a float valve feeds steadily
    auto const rise = rise_by_cold_fill(needs(fill_slots(), stand), heights(w.elevations[static_cast<std::size_t>(on)], Strays::down));
    if (rise) require(w, rule, on, off, false, {-*rise, "rise after which the coldest make-up has cooled the tank to its least temperature", 0, on});
}

void LevelBuilder::feed_needs(Wiring& w, std::vector<int> const& trip, std::vector<int> const& reset) const {
    for (std::size_t f = 0; f < judge_.site_.functions.size(); ++f) {
        auto const d = judge_.site_.functions[f].duty;
        if (d == Duty::pump || d == Duty::make_up) cycling(w, f, trip[f], reset[f]);
        if (d == Duty::make_up) fill(w, f, trip[f], reset[f]);
    }
}

}  // namespace levelswap
