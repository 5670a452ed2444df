#include "mountings.hpp"

namespace levelswap {

namespace {

Interval range_of(Fact const* fact) { return {fact->lo, fact->hi}; }

void leave(Station& station, int rod) {
    auto const a = hangs_on_may_be[static_cast<std::size_t>(rod)];
    station.facts.set(a, unknown_fact(a));
}

void move(Station& station, int rod, double to) {
    auto const a = hangs_on[static_cast<std::size_t>(rod)];
    Fact at = *station.facts.find(a);
    at.nature = Fact::Nature::uncertain;
    at.lo = at.hi = to;
    station.facts.set(a, std::move(at));
    if (rod == 0) station.face_is_new = true;
    leave(station, rod);
}

std::optional<Interval> window_in(Judgement const& j, int station, int rod) {
    if (!j.wiring) return std::nullopt;
    for (auto const& w : j.wiring->windows)
        if (w.station == station && w.rod == rod) return Interval{static_cast<double>(w.lo), static_cast<double>(w.hi)};
    return std::nullopt;
}

}  // namespace

SettledSite settle_mountings(Case const& c) {
    SettledSite out{c.judge.site(), {}};
    auto& stations = out.site.stations;
    for (int s = 0; s < static_cast<int>(stations.size()); ++s)
        for (int rod = 0; rod < static_cast<int>(hangs_on.size()); ++rod) {
            auto const window = window_in(c.judgement_after, s, rod);
            if (rod > 0 && !window) continue;
            auto const* now = stations[static_cast<std::size_t>(s)].facts.find(hangs_on[static_cast<std::size_t>(rod)]);
            Interval const moved = rod == 0 ? face_moves(c.judge, s, c.after) : Interval{0};
            out.mountings.push_back({s, rod, range_of(now) + moved, window, std::nullopt});
        }
    if (c.judgement_after.truth != Truth::holds) return out;
    for (auto& m : out.mountings) {
        if (!m.window) continue;
        auto& station = stations[static_cast<std::size_t>(m.station)];
        Station const free = station;
        leave(station, m.rod);
        if (Judge(c.judge.catalog(), out.site).truth(c.after) == Truth::holds) continue;
        station = free;
        auto const left = window_in(Judge(c.judge.catalog(), out.site).judge(c.after), m.station, m.rod);
        if (!left) continue;
        m.set_to = left->middle();
        move(station, m.rod, *m.set_to);
    }
    return out;
}

}  // namespace levelswap
