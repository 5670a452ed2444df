// What physics asks of the levels: a cut-off's delay, how often a pump starts, how far a fill cools the tank.

#include "levelswap/rules/level_needs.hpp"
#include "wiring.hpp"

namespace levelswap {

/// The cut-off acts while water is visible, though the water falls until it has acted.
void LevelBuilder::delay(Wiring& w, std::size_t function, int trip, int visible) const {
    static int const rule = rule_index("levels.delay");
    auto const operands = judge_.operands(delay_slots(), stand_of(judge_.site_, static_cast<int>(function), w.output[function]), parts_, assume_);
    require(w, rule, trip, visible, true, {fall_during_delay(operands), "fall of the level at full fire during the delay", 0});
}

/// A pump that starts too often needs its levels further apart.
void LevelBuilder::cycling(Wiring& w, std::size_t function, int on, int off) const {
    static int const rule = rule_index("feed.cycling");
    auto const stand = stand_of(judge_.site_, static_cast<int>(function), w.output[function]);
    auto const spacing = spacing_for_starts(judge_.operands(cycling_slots(), stand, parts_, assume_));
    int const pump = judge_.position_for(From::pump, stand);
    if (spacing) require(w, rule, off, on, false, {*spacing, "spacing that keeps the starts within what the motor stands", 1ull << pump});
}

/// On/off make-up cools the tank in steps. What stands in the tank when a fill begins is counted from the level where it
/// begins; where that level can be set, from all that it may be, so a wide setting is judged on its worst end.
void LevelBuilder::fill(Wiring& w, std::size_t function, int on, int off) const {
    static int const rule = rule_index("tank_heat.fill");
    auto const stand = stand_of(judge_.site_, static_cast<int>(function), w.output[function]);
    auto const acts = judge_.fact({From::output, Attribute::acts}, stand, parts_, nullptr)->may;
    if ((acts & ~bits<Attribute::acts>("feeds_on_fall")) == 0) return;   // a float valve feeds steadily
    auto const share = rise_by_cold_fill(judge_.operands(fill_slots(), stand, parts_, assume_));
    if (!share) return;
    auto const& e = w.elevations[static_cast<std::size_t>(on)];
    auto const* lowest = judge_.vessel_fact(Attribute::bottom);
    Interval const bottom{lowest->lo, lowest->hi};
    Interval const base = is_setting(e.station, e.rod) ? may_be(e.station, e.rod) : now(e.station, e.rod);
    Interval const depth = max(base + e.own - bottom, Interval{0});
    Interval const rise = min(*share * depth, Interval{most_need});
    require(w, rule, on, off, false, {-rise, "rise after which the coldest make-up has cooled the tank to its least temperature", 0});
}

void LevelBuilder::feed_needs(Wiring& w, std::vector<int> const& trip, std::vector<int> const& reset) const {
    for (std::size_t f = 0; f < judge_.site_.functions.size(); ++f) {
        auto const d = judge_.site_.functions[f].duty;
        if (d == Duty::pump || d == Duty::make_up) cycling(w, f, trip[f], reset[f]);
        if (d == Duty::make_up) fill(w, f, trip[f], reset[f]);
    }
}

}  // namespace levelswap
