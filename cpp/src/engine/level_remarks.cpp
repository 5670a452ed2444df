#include "level_remarks.hpp"

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

bool is_known(Interval level) { return level.width() < 4e9; }   // nm: no level of a boiler spreads over 4 m

/// The highest level that some glass shows, as it hangs now; nothing where that is not known of every glass.
std::optional<Interval> top_of_the_glasses(Case const& c, Explainer const& words) {
    std::optional<Interval> top;
    auto const& site = c.judge.site();
    for (int s = 0; s < static_cast<int>(site.stations.size()); ++s) {
        auto const& station = site.stations[static_cast<std::size_t>(s)];
        Stand stand;
        stand.station = s;
        int const p = station.positions[static_cast<std::size_t>(Role::glass)];
        if (p < 0 || c.after[static_cast<std::size_t>(p)] == nothing) continue;
        auto const* high = c.judge.fact({From::glass, Attribute::visible_high}, stand, c.after, nullptr);
        if (!high || high->nature == Fact::Nature::unknown || high->nature == Fact::Nature::none) return std::nullopt;
        Elevation e;
        e.own = {high->lo, high->hi};
        e.station = station.glass_on_vessel ? -1 : s;
        if (e.station >= 0) {
            e.own = e.own + glass_moves(c.judge, s, c.after);
            e.moved = face_moves(c.judge, s, c.after);
        }
        Interval const at = words.as_mounted(e);
        if (!is_known(at)) return std::nullopt;
        top = top ? max(*top, at) : at;
    }
    return top;
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

std::vector<std::string> levels_out_of_sight(Case const& c, Units units) {
    std::vector<std::string> remarks;
    auto const& wiring = c.judgement_after.wiring;
    if (!wiring) return remarks;
    Explainer const words(c.judge, c.after, c.changed, units);
    auto const& site = c.judge.site();
    auto length = [&](Interval nm) { return words.quantity(nm, Dimension::length); };
    auto const level_of = [&](std::size_t function, bool rising) {
        int const key = 2 * static_cast<int>(function) + (rising ? 1 : 0);
        auto const e = std::find_if(wiring->elevations.begin(), wiring->elevations.end(), [&](Elevation const& x) { return x.key == key; });
        return e == wiring->elevations.end() ? Interval{-1e10, 1e10} : words.as_mounted(*e);
    };
    auto const top = top_of_the_glasses(c, words);
    auto const* normal = c.judge.vessel_fact(Attribute::nwl);
    for (std::size_t f = 0; f < site.functions.size(); ++f) {
        Duty const duty = site.functions[f].duty;
        bool const feeds = duty == Duty::pump || duty == Duty::make_up || duty == Duty::modulating_feed;
        bool const rising = feeds || duty == Duty::high_alarm;
        Interval const at = level_of(f, rising), from = level_of(f, false);
        if (!is_known(at)) continue;
        if (top && at.hi > top->lo)
            remarks.push_back(fmt::format("{}, {}, at {} above the vessel datum, as mounted now: the glass shows up to {}, so the water {} out of sight there.",
                                          words_of(duty), rising ? "rising" : "falling", length(at), length(*top), at.lo > top->hi ? "is" : "may be"));
        if (duty != Duty::pump || !is_known(from) || normal->nature != Fact::Nature::uncertain) continue;
        if (normal->hi < from.lo || normal->lo > at.hi)
            remarks.push_back(fmt::format("The normal water level, {}, lies outside the band in which the pump holds the water, as mounted now: {} to {}.",
                                          length({normal->lo, normal->hi}), length(from), length(at)));
    }
    return remarks;
}

}  // namespace levelswap
