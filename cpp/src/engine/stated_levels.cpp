#include "stated_levels.hpp"

#include "levelswap/rules/output_height.hpp"

#include <fmt/format.h>

namespace levelswap {

namespace {

/// 1/2 in between the nearest ends of the two ranges: common practice, no source.
constexpr double far_apart = 12.7e6;  // nm

/// Where geometry puts an output above the face centre; nothing when a fact of it is missing.
std::optional<Interval> by_geometry(Case const& c, OutputRef output, int station, bool rising) {
    Stand stand;
    stand.output = output;
    stand.station = station;
    auto const found = output_height(c.judge.operands(output_height_slots(), stand, c.after), rising ? Acting::reset : Acting::trip);
    return found.known ? std::optional(found.height) : std::nullopt;
}

}  // namespace

std::vector<std::string> far_stated_levels(Case const& c, Units units) {
    std::vector<std::string> remarks;
    auto const& wiring = c.judgement_after.wiring;
    if (!wiring) return remarks;
    Explainer const words(c.judge, c.after, c.changed, units);
    for (Elevation const& e : wiring->elevations) {
        if (!e.at_mark || e.key < 0) continue;
        bool const rising = e.key % 2 == 1;
        auto const& output = wiring->output[static_cast<std::size_t>(e.key / 2)];
        auto const reckoned = by_geometry(c, output, e.station, rising);
        Interval const stated = e.own + e.mark;
        if (!reckoned || std::max(stated.lo - reckoned->hi, reckoned->lo - stated.hi) <= far_apart) continue;
        remarks.push_back(fmt::format(
            "{}, {}: stated {} above the face centre, but geometry puts it at {}. The stated level counts; one of the two is wrong: measure.",
            words.output_name(output), rising ? "rising" : "falling", words.quantity(stated, Dimension::length),
            words.quantity(*reckoned, Dimension::length)));
    }
    return remarks;
}

}  // namespace levelswap
