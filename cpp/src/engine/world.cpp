#include "levelswap/engine/level_walk.hpp"

#include <cmath>

namespace levelswap {

namespace {

/// What is drawn: once for a station, or once for an elevation.
enum Drawn { mounting, mark, base, arm, pivot, own, stray, travel, waterline, moved };

double pin(Interval range, double at) { return range.lo + at * (range.hi - range.lo); }

/// What an elevation hangs on: the mounting of its station, or the tip of a rod.
Interval mounting_of(Site const& site, Elevation const& e) {
    if (e.station < 0) return Interval{0};
    auto const* fact = site.stations[static_cast<std::size_t>(e.station)].facts.find(hangs_on[static_cast<std::size_t>(e.rod)]);
    return {fact->lo, fact->hi};
}

double vertical(double arm, double angle) { return arm * std::sin(angle) * 1e9; }

/// z = pivot + arm·sin(base + travel) + waterline. The pivot's own share is what is left of the whole height.
double swung(Elevation const& e, int key, World w) {
    auto const& s = e.share;
    auto const turned = Length::from_si(s.arm * sin(s.base + s.travel)).quanta + s.waterline;
    Interval const rest{s.height.lo - turned.lo, s.height.hi - turned.hi};
    double const angle = pin(s.base, w.draw(base, e.station)) + pin(s.travel, w.draw(travel, key));
    return pin(rest, w.draw(pivot, e.station)) + vertical(pin(s.arm, w.draw(arm, e.station)), angle) +
           pin(s.waterline, w.draw(waterline, key));
}

/// SplitMix64 (Steele, Lea, Flood, "Fast splittable pseudorandom number generators", 2014).
std::uint64_t mixed(std::uint64_t x) {
    x += 0x9E3779B97F4A7C15ull;
    x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9ull;
    x = (x ^ (x >> 27)) * 0x94D049BB133111EBull;
    return x ^ (x >> 31);
}

}  // namespace

double World::draw(int what, int whose) const {
    if (seed == 0) return 0.5;
    auto const bits = mixed(mixed(mixed(seed) + static_cast<std::uint64_t>(what)) + static_cast<std::uint64_t>(whose + 1));
    switch (bits & 3u) {
        case 0: return 0;
        case 1: return 1;
        default: return static_cast<double>(bits >> 11) / 9007199254740992.0;  // 2^53
    }
}

double level_in(Site const& site, Elevation const& e, int key, World w) {
    double const at = e.swings ? swung(e, key, w) : pin(e.own, w.draw(own, key));
    double const above = e.at_mark ? pin(e.mark, w.draw(mark, e.station)) : 0;
    double const strays = (2 * w.draw(stray, key) - 1) * e.repeatability.hi;
    return at + above + strays + pin(mounting_of(site, e), w.draw(mounting, 4 * e.station + e.rod)) + pin(e.moved, w.draw(moved, e.station));
}

Interval level_range(Site const& site, Elevation const& e) {
    Interval const strays{-e.repeatability.hi, e.repeatability.hi};
    return e.own + (e.at_mark ? e.mark : Interval{0}) + strays + mounting_of(site, e) + e.moved;
}

}  // namespace levelswap
