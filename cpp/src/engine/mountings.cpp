#include "mountings.hpp"

namespace levelswap {

namespace {

Interval range_of(Fact const* fact) { return {fact->lo, fact->hi}; }

void leave(Station& station) { station.facts.set(Attribute::mounting_may_be, unknown_fact(Attribute::mounting_may_be)); }

void move(Station& station, double to) {
    Fact at = *station.facts.find(Attribute::mounting);
    at.nature = Fact::Nature::uncertain;
    at.lo = at.hi = to;
    station.facts.set(Attribute::mounting, std::move(at));
    leave(station);
}

std::optional<Interval> window_in(Judgement const& j, int station) {
    if (!j.wiring) return std::nullopt;
    for (auto const& [s, window] : j.wiring->windows)
        if (s == station) return Interval{static_cast<double>(window.first), static_cast<double>(window.second)};
    return std::nullopt;
}

}  // namespace

SettledSite settle_mountings(Case const& c) {
    SettledSite out{c.judge.site(), {}};
    auto& stations = out.site.stations;
    for (int s = 0; s < static_cast<int>(stations.size()); ++s)
        out.mountings.push_back({s, range_of(stations[static_cast<std::size_t>(s)].facts.find(Attribute::mounting)),
                                 window_in(c.judgement_after, s), std::nullopt});
    if (c.judgement_after.truth != Truth::holds) return out;
    Site as_it_is = out.site;
    for (auto& station : as_it_is.stations) leave(station);
    if (Judge(c.judge.catalog(), as_it_is).truth(c.after) == Truth::holds) {
        out.site = std::move(as_it_is);
        return out;
    }
    for (auto& m : out.mountings) {
        if (!m.window) continue;
        auto const left = window_in(Judge(c.judge.catalog(), out.site).judge(c.after), m.station);
        if (!left) continue;
        m.set_to = left->middle();
        move(stations[static_cast<std::size_t>(m.station)], *m.set_to);
    }
    return out;
}

}  // namespace levelswap
