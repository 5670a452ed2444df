#include "levelswap/graph/level_network.hpp"
#include "wiring.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>

namespace levelswap {

namespace {

std::int64_t floor_of(double x) { return static_cast<std::int64_t>(std::floor(x)); }
std::int64_t ceil_of(double x) { return static_cast<std::int64_t>(std::ceil(x)); }

struct LevelRules {
    int order = rule_index("levels.order"), glass_over_lpwl = rule_index("levels.glass_over_lpwl"),
        cut_off_visible = rule_index("levels.cut_off_visible"), cut_off_over_lpwl = rule_index("levels.cut_off_over_lpwl"),
        bracket = rule_index("levels.bracket"), rods = rule_index("probes.rods");
};
LevelRules const& rules() {
    static LevelRules const indices;
    return indices;
}

constexpr int anchors_of_a_station = static_cast<int>(hangs_on.size());

int anchor(int station, int rod) { return station * anchors_of_a_station + rod; }

bool edges_use(std::vector<LevelEdge> const& edges, int vertex) {
    return std::any_of(edges.begin(), edges.end(), [&](LevelEdge const& e) { return e.from == vertex || e.to == vertex; });
}

}  // namespace

int LevelBuilder::add(Wiring& w, Elevation e) const {
    w.elevations.push_back(std::move(e));
    return static_cast<int>(w.elevations.size()) - 1;
}

Instance instance_of(LevelRule const& rule, std::vector<Elevation> const& elevations) {
    Instance i;
    i.rule = rule.rule;
    i.pack = rule.pack;
    i.row = rule.row;
    i.stand.upper = elevations[static_cast<std::size_t>(rule.upper)].key;
    i.stand.lower = elevations[static_cast<std::size_t>(rule.lower)].key;
    return i;
}

void LevelBuilder::require(Wiring& w, int rule, int upper, int lower, bool with_figure) const {
    require(w, rule, upper, lower, with_figure, Need{});
}

void LevelBuilder::require(Wiring& w, int rule, int upper, int lower, bool with_figure, Need const& need) const {
    std::array const plain{Instance{rule, {}, -1, -1, false}};
    std::span<Instance const> const instances =
        with_figure ? std::span<Instance const>(judge_.figures_[static_cast<std::size_t>(rule)]) : plain;
    for (auto const& i : instances) {
        LevelRule r;
        r.rule = rule;
        r.pack = i.pack;
        r.row = i.row;
        r.upper = upper;
        r.lower = lower;
        r.doubtful = i.doubtful;
        r.needed = need.distance;
        r.need = need.words;
        r.positions = need.positions;
        r.needed_from = need.from;
        if (std::find(set_aside_.begin(), set_aside_.end(), instance_of(r, w.elevations)) != set_aside_.end()) continue;
        if (auto const* row = judge_.pack_row(i.pack, i.row)) r.separation = static_cast<std::int64_t>(row->value);
        w.levels.push_back(r);
    }
}

/// Secondary trip < primary trip < low alarm < feed on < feed off < high alarm; both cut-offs reset < feed off. What has
/// a delay acts in its turn before the water has fallen to the next level. Feed is a pump, a slide-wire, make-up, or
/// several of them: each keeps its place between the alarms, and which of them acts first is the works' choice.
void LevelBuilder::order(Wiring& w, std::vector<int> const& trip, std::vector<int> const& reset) const {
    auto at = [&](Duty d, bool rising) {
        for (std::size_t f = 0; f < judge_.site_.functions.size(); ++f)
            if (judge_.site_.functions[f].duty == d) return rising ? reset[f] : trip[f];
        return -1;
    };
    auto chain = [&](std::vector<int> levels) {
        std::erase(levels, -1);
        for (std::size_t i = 1; i < levels.size(); ++i) require(w, rules().order, levels[i], levels[i - 1], true, acts_late(w, levels[i]));
    };
    std::vector<int> low = {at(Duty::secondary_cut_off, false), at(Duty::primary_cut_off, false), at(Duty::low_alarm, false)};
    std::erase(low, -1);
    chain(low);
    int const below = low.empty() ? -1 : low.back(), high = at(Duty::high_alarm, true);
    bool fed = false;
    for (Duty d : {Duty::pump, Duty::modulating_feed, Duty::make_up}) {
        int const on = at(d, false), off = at(d, true);
        if (on < 0) continue;
        fed = true;
        chain({below, on, off, high});
        for (Duty const cut_off : {Duty::primary_cut_off, Duty::secondary_cut_off})
            if (int const caught_up = at(cut_off, true); caught_up >= 0) require(w, rules().order, off, caught_up);
    }
    if (!fed) chain({below, high});
}

/// A hot-water boiler has no water line, and need have no glass.
bool LevelBuilder::is_full_of_water() const {
    static auto const hot_water = std::uint64_t{1} << find_choice(row_of(Attribute::vessel_service).choices, "hot_water");
    return judge_.vessel_fact(Attribute::vessel_service)->may == hot_water;
}

/// Every glass over the lowest permissible level. Returns the elevation of the first one, −1 when no place for one is known.
/// Places that hold nothing show no water: where that is all of them, the lowest visible water is out of every reach.
int LevelBuilder::glasses(Wiring& w) const {
    auto const& site = judge_.site_;
    int first = -1;
    std::uint64_t empty = 0;
    for (int s = 0; s < static_cast<int>(site.stations.size()); ++s) {
        auto const& station = site.stations[static_cast<std::size_t>(s)];
        int const p = station.positions[static_cast<std::size_t>(Role::glass)];
        if (p < 0) continue;
        if (parts_[static_cast<std::size_t>(p)] == nothing) {
            bool const never_had_one = site.positions[static_cast<std::size_t>(p)].holds == nothing;
            if (!never_had_one || !is_full_of_water()) empty |= bit_of(p);
            continue;
        }
        Stand stand;
        stand.station = s;
        auto const* low = judge_.fact({From::glass, Attribute::visible_low}, stand, parts_, nullptr);
        auto e = fact_elevation(Mark::glass, s, station.glass_on_vessel ? -1 : s, low);
        e.positions = bit_of(p);
        if (int const column = station.positions[static_cast<std::size_t>(Role::column)]; column >= 0 && !station.glass_on_vessel) {
            e.positions |= bit_of(column);
            e.own = e.own + glass_moves(judge_, s, parts_);
        }
        int const visible = add(w, e);
        int const lpwl = add(w, fact_elevation(Mark::lpwl, 0, -1, judge_.vessel_fact(Attribute::lpwl)));
        require(w, rules().glass_over_lpwl, visible, lpwl);
        if (first < 0) first = visible;
    }
    if (first >= 0 || !empty) return first;
    auto none = fact_elevation(Mark::glass, 0, -1, nullptr);
    none.own = Interval{1e3 * far};
    none.absent = true;
    none.positions = empty;
    return add(w, none);
}

/// Nothing to see, and nothing to see it by: the lowest permissible level itself is what a cut-off acts above.
void LevelBuilder::without_glass(Wiring& w, std::vector<int> const& trip) const {
    int const lpwl = add(w, fact_elevation(Mark::lpwl, 0, -1, judge_.vessel_fact(Attribute::lpwl)));
    for (std::size_t f = 0; f < judge_.site_.functions.size(); ++f)
        if (is_cut_off(judge_.site_.functions[f].duty)) require(w, rules().cut_off_over_lpwl, trip[f], lpwl, false, acts_late(w, trip[f]));
}

void LevelBuilder::glass(Wiring& w, std::vector<int> const& trip) const {
    auto const& site = judge_.site_;
    int first = glasses(w);
    if (first < 0 && is_full_of_water()) return without_glass(w, trip);
    if (first < 0) {
        auto unseen = fact_elevation(Mark::glass, 0, -1, nullptr);
        unseen.no_place = true;
        first = add(w, unseen);
    }
    bool const absent = w.elevations[static_cast<std::size_t>(first)].absent;
    for (std::size_t f = 0; f < site.functions.size(); ++f) {
        auto const d = site.functions[f].duty;
        if (!is_cut_off(d)) continue;
        if (!absent) delay(w, f, trip[f], first);   // said once: there is no water to see
        require(w, rules().cut_off_visible, trip[f], first);
    }
}

/// The column brackets every output: water connection below the lowest trip, steam connection above the highest.
void LevelBuilder::bracket(Wiring& w, std::vector<int> const& trip, std::vector<int> const& reset) const {
    auto const& site = judge_.site_;
    for (std::size_t f = 0; f < site.functions.size(); ++f) {
        Stand stand;
        stand.station = site.positions[static_cast<std::size_t>(w.output[f].position)].station;
        auto const* water = judge_.fact({From::column, Attribute::tapping_water}, stand, parts_, nullptr);
        auto const* steam = judge_.fact({From::column, Attribute::tapping_steam}, stand, parts_, nullptr);
        if (!water || !steam) continue;
        require(w, rules().bracket, trip[f], add(w, fact_elevation(Mark::water, stand.station, stand.station, water)), false);
        require(w, rules().bracket, add(w, fact_elevation(Mark::steam, stand.station, stand.station, steam)), reset[f], false);
    }
}

/// What a rod keeps clear of the far side (insertion.room): surely so much, and more if doubtful rows apply.
Interval LevelBuilder::clearance_inside() const {
    static int const room = rule_index("insertion.room");
    Interval gap{0};
    for (auto const& i : judge_.figures(room))
        if (auto const* row = judge_.pack_row(i.pack, i.row)) {
            gap.hi = std::max(gap.hi, row->value);
            if (!i.doubtful) gap.lo = std::max(gap.lo, row->value);
        }
    return gap;
}

/// A rod that is cut anew ends below its holder, and reaches no lower than the longest one that the holder takes, or
/// that has room: what it hangs in, and what it goes in through.
void LevelBuilder::rods(Wiring& w, Ends const& ends) const {
    std::vector<std::pair<int, int>> said;
    for (std::size_t f = 0; f < w.output.size(); ++f)
        for (int const end : {ends.trip[f], ends.reset[f]}) {
            Elevation tip = w.elevations[static_cast<std::size_t>(end)];
            if (tip.rod == 0 || !is_setting(tip.station, tip.rod)) continue;
            if (std::find(said.begin(), said.end(), std::pair{tip.station, tip.rod}) != said.end()) continue;
            said.emplace_back(tip.station, tip.rod);
            Stand stand;
            stand.station = tip.station;
            auto const* longest = judge_.fact({From::probe_holder, Attribute::longest_rod}, stand, parts_, nullptr);
            if (!longest || longest->nature == Fact::Nature::none) continue;
            tip.name = setting_name(judge_.site_, tip.station, tip.rod);
            tip.repeatability = 0;   // of the relay, not of the rod
            auto reach = fact_elevation(Mark::rod_end, tip.station, tip.station, longest);
            Interval most{longest->lo, longest->hi};
            auto ends_at = [&](Attribute room, Interval gap) {
                auto const* f = judge_.station_fact(tip.station, room);
                if (f->nature == Fact::Nature::uncertain) most = min(most, Interval{f->lo, f->hi} - gap);
            };
            ends_at(Attribute::room_in, clearance_inside());
            ends_at(Attribute::room_out, {0});
            reach.own = -most;
            int const hangs = add(w, tip);
            require(w, rules().rods, hangs, add(w, reach), false);
            auto const* body = judge_.fact({From::probe_holder, Attribute::insertion}, stand, parts_, nullptr);
            auto shortest = fact_elevation(Mark::holder_end, tip.station, tip.station, body);
            shortest.own = -Interval{body->lo, body->hi};
            require(w, rules().rods, add(w, shortest), hangs, false);
        }
}

/// upper − lower without the mountings that are settings.
Interval LevelBuilder::difference(Elevation const& upper, Elevation const& lower) const {
    auto mounting = [&](Elevation const& e) {
        return e.station < 0 || is_setting(e.station, e.rod) ? Interval{0} : now(e.station, e.rod);
    };
    bool const same = upper.station == lower.station && upper.rod == lower.rod;
    Interval d = same ? Interval{0} : mounting(upper) - mounting(lower);
    if (same && upper.swings && lower.swings) return d + height_difference(upper.share, lower.share);
    if (!(same && upper.at_mark && lower.at_mark)) {
        if (upper.at_mark) d = d + upper.mark;
        if (lower.at_mark) d = d - lower.mark;
    }
    return d + (upper.own - lower.own);
}

/// Two networks: what holds in every world, and what some world allows.
struct LevelBuilder::Edges {
    std::vector<LevelEdge> sure, maybe;
    int first = 0;      ///< vertex of the first elevation in `maybe`
    int vertices = 0;   ///< of `maybe`
};

LevelBuilder::Edges LevelBuilder::edges_of(Wiring& w) const {
    auto const& site = judge_.site_;
    int const anchors = static_cast<int>(site.stations.size()) * anchors_of_a_station;
    auto vertex = [&](Elevation const& e) { return is_setting(e.station, e.rod) ? anchor(e.station, e.rod) + 1 : 0; };
    auto slack = [&](LevelRule const& r) {  // what the settings must add at most
        auto const& u = w.elevations[static_cast<std::size_t>(r.upper)];
        auto const& l = w.elevations[static_cast<std::size_t>(r.lower)];
        return difference(u, l) - (Interval{static_cast<double>(r.separation)} + r.needed + u.repeatability + l.repeatability);
    };
    Edges edges;
    auto& [sure, maybe, first, vertices] = edges;
    auto used = [&](int s, int rod) {
        return std::any_of(w.elevations.begin(), w.elevations.end(), [&](auto const& e) { return e.station == s && e.rod == rod; });
    };
    first = 2 * anchors + 1;
    vertices = first + static_cast<int>(w.elevations.size());
    for (int s = 0; s < static_cast<int>(site.stations.size()); ++s)
        for (int rod = 0; rod < anchors_of_a_station; ++rod) {
            if (rod > 0 && !used(s, rod)) continue;
            Interval const range = is_setting(s, rod) ? may_be(s, rod) : now(s, rod);
            int const at = anchor(s, rod) + 1;
            if (is_setting(s, rod)) {
                // What is open of where the face moves narrows what surely can be set.
                double const open = rod == 0 ? moved(s).hi - moved(s).lo : 0;
                sure.push_back({0, at, floor_of(range.hi - open), -1});
                sure.push_back({at, 0, -ceil_of(range.lo + open), -1});
            }
            maybe.push_back({0, at, floor_of(range.hi), -1});
            maybe.push_back({at, 0, -ceil_of(range.lo), -1});
            Interval mark{0};
            for (auto const& e : w.elevations)
                if (e.station == s && e.rod == rod && e.at_mark) mark = e.mark;
            maybe.push_back({at, anchors + at, floor_of(mark.hi), -1});
            maybe.push_back({anchors + at, at, -ceil_of(mark.lo), -1});
        }
    for (int i = 0; i < static_cast<int>(w.elevations.size()); ++i) {
        auto const& e = w.elevations[static_cast<std::size_t>(i)];
        int const base = e.station < 0 ? 0 : anchor(e.station, e.rod) + 1 + (e.at_mark ? anchors : 0);
        maybe.push_back({base, first + i, ceil_of(e.own.hi), -1});
        maybe.push_back({first + i, base, -floor_of(e.own.lo), -1});
    }
    for (int i = 0; i < static_cast<int>(w.levels.size()); ++i) {
        auto& r = w.levels[static_cast<std::size_t>(i)];
        auto const& u = w.elevations[static_cast<std::size_t>(r.upper)];
        auto const& l = w.elevations[static_cast<std::size_t>(r.lower)];
        auto const spare = slack(r);
        sure.push_back({vertex(u), vertex(l), floor_of(spare.lo), i});
        double const need = static_cast<double>(r.separation) + r.needed.lo + u.repeatability.lo + l.repeatability.lo;
        if (!r.doubtful) maybe.push_back({first + r.upper, first + r.lower, -floor_of(need), i});
        if (u.station == l.station && u.swings && l.swings) {  // what one head's outputs share
            auto const d = difference(u, l);
            maybe.push_back({first + r.lower, first + r.upper, ceil_of(d.hi), -1});
            maybe.push_back({first + r.upper, first + r.lower, -floor_of(d.lo), -1});
        }
        Interval const settings = [&] {
            Interval x{0};
            if (u.station == l.station && u.rod == l.rod) return x;
            if (is_setting(u.station, u.rod)) x = x + may_be(u.station, u.rod);
            if (is_setting(l.station, l.rod)) x = x - may_be(l.station, l.rod);
            return x;
        }();
        r.spare = {spare.lo + settings.hi, spare.hi + settings.hi};
        r.alone = r.spare.hi < 0 ? Truth::fails : r.spare.lo < 0 ? Truth::undecided : Truth::holds;
        if (r.doubtful && r.alone == Truth::fails) r.alone = Truth::undecided;
    }
    return edges;
}

void LevelBuilder::solve(Wiring& w) const {
    int const stations = static_cast<int>(judge_.site_.stations.size());
    int const settings = stations * anchors_of_a_station + 1;
    auto const [sure, maybe, first, vertices] = edges_of(w);
    auto const sure_answer = solve_levels(settings, sure);
    if (sure_answer.consistent) {
        w.levels_truth = Truth::holds;
        for (int s = 0; s < stations; ++s)
            for (int rod = 0; rod < anchors_of_a_station; ++rod)
                if (is_setting(s, rod) && (rod == 0 || edges_use(sure, anchor(s, rod) + 1))) {
                    auto const window = window_of(settings, sure, anchor(s, rod) + 1);
                    w.windows.push_back({s, rod, window.lo, window.hi});
                }
        return;
    }
    if (solve_levels(vertices, maybe).consistent) {
        w.levels_truth = Truth::undecided;
        auto const met_alone = [](LevelRule const& r) { return r.alone == Truth::holds; };
        if (!std::all_of(w.levels.begin(), w.levels.end(), met_alone)) return;
        auto const left = exclude(settings, sure, w);
        w.short_of = left.short_of;
        for (int const i : left.requirements) w.levels[static_cast<std::size_t>(i)].in_doubt = true;
        return;
    }
    w.levels_truth = Truth::fails;
    auto const left = exclude(vertices, maybe, w);
    w.short_of = left.short_of;
    for (int const i : left.requirements) w.levels[static_cast<std::size_t>(i)].in_conflict = true;
}

/// A deletion filter in canonical order leaves a subset-minimal set of requirements that still refuses.
LevelBuilder::Excluding LevelBuilder::exclude(int vertices, std::vector<LevelEdge> kept, Wiring const& w) const {
    for (int i = 0; i < static_cast<int>(w.levels.size()); ++i) {
        std::vector<LevelEdge> without;
        std::copy_if(kept.begin(), kept.end(), std::back_inserter(without), [&](LevelEdge const& e) { return e.tag != i; });
        if (without.size() != kept.size() && !solve_levels(vertices, without).consistent) kept = std::move(without);
    }
    Excluding left;
    for (auto const& e : kept)
        if (e.tag >= 0) left.requirements.push_back(e.tag);
    for (int const e : solve_levels(vertices, kept).cycle) left.short_of -= kept[static_cast<std::size_t>(e)].weight;
    return left;
}

void LevelBuilder::require_all(Wiring& w, Ends const& ends) const {
    order(w, ends.trip, ends.reset);
    feed_needs(w, ends.trip, ends.reset);
    glass(w, ends.trip);
    bracket(w, ends.trip, ends.reset);
    rods(w, ends);
}

LevelBuilder::Ends LevelBuilder::list(Wiring& w, std::uint64_t functions) const {
    Ends ends;
    auto elevation = [&](int f, bool rising) {
        auto const output = w.output[static_cast<std::size_t>(f)];
        if (functions >> f & 1u) return output_elevation(f, output, rising);
        Elevation e;
        e.key = 2 * f + (rising ? 1 : 0);
        e.station = judge_.site_.positions[static_cast<std::size_t>(output.position)].station;
        e.own = Interval{-far, far};
        return e;
    };
    for (int f = 0; f < static_cast<int>(w.output.size()); ++f) {
        ends.trip.push_back(add(w, elevation(f, false)));
        ends.reset.push_back(add(w, elevation(f, true)));
    }
    require_all(w, ends);
    return ends;
}

void LevelBuilder::list_levels(Wiring& w, std::uint64_t functions) const {
    static_cast<void>(list(w, functions));
    static_cast<void>(edges_of(w));
}

int LevelBuilder::unmet(Wiring& w) const {
    Ends const ends = list(w, ~std::uint64_t{0});
    auto const whole = gist_of(w);
    Truth const truth = whole.truth == Truth::undecided ? gist_by_pieces(w, ends, whole).truth : whole.truth;
    if (truth == Truth::holds) return 0;
    return 1 + static_cast<int>(std::count_if(w.levels.begin(), w.levels.end(), [](LevelRule const& r) { return r.alone != Truth::holds; }));
}

void LevelBuilder::judge_levels(Wiring& w) const {
    Ends const ends = list(w, ~std::uint64_t{0});
    solve(w);
    if (w.levels_truth != Truth::fails) judge_by_pieces(w, ends);
}

WiringGist LevelBuilder::gist_without_outputs() const {
    Wiring w;
    static_cast<void>(glasses(w));
    return gist_of(w);
}

WiringGist LevelBuilder::gist(Wiring& w, std::vector<std::pair<Elevation const*, Elevation const*>> const& known) const {
    Ends ends;
    for (auto const& [falling, rising] : known) {
        ends.trip.push_back(add(w, *falling));
        ends.reset.push_back(add(w, *rising));
    }
    require_all(w, ends);
    auto const whole = gist_of(w);
    return whole.truth == Truth::undecided ? gist_by_pieces(w, ends, whole) : whole;
}

/// A repair that keeps the wiring alters one of the elevations on a negative cycle; a doubtful requirement is not
/// on it. Where the levels are only undecided, all of them count.
WiringGist LevelBuilder::gist_of(Wiring& w) const {
    auto const edges = edges_of(w);
    if (solve_levels(static_cast<int>(judge_.site_.stations.size()) * anchors_of_a_station + 1, edges.sure).consistent) return {};
    auto const answer = solve_levels(edges.vertices, edges.maybe);
    WiringGist gist{answer.consistent ? Truth::undecided : Truth::fails, 0};
    for (auto const& r : w.levels)
        if (answer.consistent)
            gist.blamed |= r.positions | w.elevations[static_cast<std::size_t>(r.upper)].positions |
                           w.elevations[static_cast<std::size_t>(r.lower)].positions;
    for (int e : answer.cycle)
        if (int const tag = edges.maybe[static_cast<std::size_t>(e)].tag; tag >= 0) gist.blamed |= w.levels[static_cast<std::size_t>(tag)].positions;
    for (int e : answer.cycle)
        for (int v : {edges.maybe[static_cast<std::size_t>(e)].from, edges.maybe[static_cast<std::size_t>(e)].to})
            if (v >= edges.first) gist.blamed |= w.elevations[static_cast<std::size_t>(v - edges.first)].positions;
    return gist;
}

}  // namespace levelswap
