// What the walk works out from facts that are no level: how far the water falls during a delay.

#include "levelswap/rules/level_needs.hpp"
#include "walk_model.hpp"

namespace levelswap {

namespace {

constexpr int fact_drawn = 1000;   // drawn apart from the levels

}  // namespace

Operands WorldFacts::in(World world) const {
    Operands one = operands;
    for (std::size_t i = 0; i < slots.size(); ++i) {
        auto& cell = one.cells[i];
        if (cell.varying || cell.lo == cell.hi) continue;
        int const owner = slots[i].from == From::vessel ? -1 : whose;
        double const at = world.draw(fact_drawn + static_cast<int>(slots[i].attribute), owner);
        cell.lo = cell.hi = cell.band_lo = cell.band_hi = cell.lo + at * (cell.hi - cell.lo);
    }
    return one;
}

/// The middle of a fact that nobody knows says nothing about any boiler.
double Delay::fall(double from, World world) const {
    if (!at_full_fire || (!facts.known && world.seed == 0)) return 0;
    return fall_during_delay(facts.in(world), Interval{from}).hi;
}

Interval Delay::fall(Interval from) const {
    return at_full_fire ? fall_during_delay(facts.operands, from) : Interval{0};
}

Interval acting_range(Site const& site, Device const& d) {
    auto const trips = level_range(site, d.levels.falling);
    return d.delay ? trips - d.delay->fall(trips) : trips;
}

}  // namespace levelswap
