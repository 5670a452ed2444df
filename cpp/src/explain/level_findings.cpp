// Levels in words: the distance that is asked, the distance there is, and what lies between.
#include "levelswap/explain/findings.hpp"

#include <algorithm>

namespace levelswap {

namespace {

constexpr double widest_known = 4e9;   // nm: no level of a boiler spreads over 4 m
bool is_unknown(Interval level) { return level.width() > widest_known; }

/// All that is asked of the distance, how far both levels stray included.
Interval asked(Wiring const& w, LevelRule const& r) {
    auto const& u = w.elevations[static_cast<std::size_t>(r.upper)];
    auto const& l = w.elevations[static_cast<std::size_t>(r.lower)];
    return Interval{static_cast<double>(r.separation)} + r.needed + u.repeatability + l.repeatability;
}

}  // namespace

Interval Explainer::as_mounted(Elevation const& e) const {
    Interval const at = e.own + (e.at_mark ? e.mark : Interval{0});
    if (e.station < 0) return at;
    auto const* m = judge_.station_fact(e.station, hangs_on[static_cast<std::size_t>(e.rod)]);
    return at + Interval{m->lo, m->hi} + e.moved;
}

bool Explainer::hangs_on_a_setting(Elevation const& e) const {
    return e.station >= 0 &&
           judge_.station_fact(e.station, hangs_on_may_be[static_cast<std::size_t>(e.rod)])->nature == Fact::Nature::uncertain;
}

std::string Explainer::level_subject(Wiring const& w, LevelRule const& r) const {
    auto const upper = level_name(w.elevations[static_cast<std::size_t>(r.upper)]);
    auto const lower = level_name(w.elevations[static_cast<std::size_t>(r.lower)]);
    return r.needed.hi < 0 ? lower + " above " + upper : upper + " above " + lower;   // an upper bound is the other way up
}

Explainer::LevelsShown Explainer::levels_shown(Wiring const& w) {
    LevelsShown shown;
    bool const fails = w.levels_truth == Truth::fails;
    auto picked = [&](auto const& wanted) {
        std::copy_if(w.levels.begin(), w.levels.end(), std::back_inserter(shown.rules), wanted);
        return !shown.rules.empty();
    };
    if (w.levels_truth == Truth::holds) return shown;
    Truth const alone = fails ? Truth::fails : Truth::undecided;
    // What refuses alone is in no need of the others.
    if (picked([&](auto const& r) { return r.alone <= alone || (fails && r.in_conflict); })) {
        shown.together = std::none_of(shown.rules.begin(), shown.rules.end(), [&](auto const& r) { return r.alone <= alone; });
        return shown;
    }
    shown.together = true;
    if (!picked([](auto const& r) { return r.in_doubt; })) shown.rules = w.levels;
    return shown;
}

Finding Explainer::level_finding(Wiring const& w, LevelRule const& r, bool together) const {
    auto const& u = w.elevations[static_cast<std::size_t>(r.upper)];
    auto const& l = w.elevations[static_cast<std::size_t>(r.lower)];
    auto const& row = rule_table()[static_cast<std::size_t>(r.rule)];
    bool const at_most = r.needed.hi < 0;
    auto length = [&](Interval nm) { return quantity(at_most ? -nm : nm, Dimension::length); };
    Finding f;
    f.rule = row.id;
    f.title = row.title;
    f.level = "required";
    f.state = w.levels_truth == Truth::fails ? "fails" : "undecided";
    f.subject = level_subject(w, r);
    bool const moves = (u.station != l.station || u.rod != l.rod) && (hangs_on_a_setting(u) || hangs_on_a_setting(l));
    f.quantity = std::string("distance between the two levels") + (moves ? ", set as suits it best" : "");
    f.source = figure_source(r.rule, r.pack, r.row);
    f.why = "guards against " + std::string(row.protects);
    Interval const need = asked(w, r), has{r.spare.lo + need.hi, r.spare.hi + need.lo};
    Interval const strays = u.repeatability + l.repeatability;
    if (is_unknown(need)) f.required = std::string(not_known) + ": " + std::string(r.need);
    else {
        f.required = (at_most ? "at most " : "at least ") + length(need);
        Interval const without = Interval{static_cast<double>(r.separation)} + r.needed;
        if (strays.hi > 0)
            f.notes.push_back("of that " + length(without) + (at_most ? " less " : " and ") + quantity(strays, Dimension::length) +
                              " for how far the levels stray (repeatability)");
    }
    if (u.absent || l.absent) f.available = "no glass is there";
    else if (u.no_place || l.no_place) f.available = "the site file has no place for a glass";
    else f.available = is_unknown(has) ? std::string(not_known) : length(has);
    if (!is_unknown(need) && !is_unknown(has) && !u.absent && !l.absent) f.margin = quantity(r.spare, Dimension::length);
    if (!r.need.empty()) f.notes.push_back(std::string(r.need) + ": " + (is_unknown(r.needed) ? std::string(not_known) : length(r.needed)));
    if (auto const* figure = judge_.pack_row(r.pack, r.row))
        f.notes.push_back("asked by the pack " + figure->pack + ": " + std::string(row_of(figure->figure).meaning) + " " + figure->text);
    for (auto const* e : {&u, &l}) {
        if (e->absent) continue;
        Interval const at = as_mounted(*e);
        f.notes.push_back(level_name(*e) + ": " + (is_unknown(at) ? std::string(not_known) : quantity(at, Dimension::length) + " above the vessel datum" + (e->station < 0 ? "" : e->rod ? ", as its rod is now" : e->moved == Interval{0} ? ", as mounted now" : ", where the new column hangs on the same connections")));
    }
    if (together) f.notes.push_back("can be met alone");
    list_level_facts(w, r, together, f);
    f.positions = names(r.positions | u.positions | l.positions);
    return f;
}

/// What the requirements lack together: the weight of the negative cycle that they close.
Finding Explainer::mounting_finding(Wiring const& w, std::vector<LevelRule> const& parts) const {
    auto const& row = rule_table()[static_cast<std::size_t>(rule_index("levels.mounting"))];
    bool const fails = w.levels_truth == Truth::fails;
    Finding f;
    f.rule = row.id;
    f.title = row.title;
    f.level = "required";
    f.state = fails ? "fails" : "undecided";
    f.source = row.source;
    f.why = "guards against " + std::string(row.protects);
    std::uint64_t positions = 0;
    std::vector<std::string> places;
    for (auto const& r : parts) {
        positions |= r.positions;
        for (int const end : {r.upper, r.lower}) {
            auto const& e = w.elevations[static_cast<std::size_t>(end)];
            positions |= e.positions;
            if (e.station < 0) continue;
            auto const& name = judge_.site().stations[static_cast<std::size_t>(e.station)].name;
            if (std::find(places.begin(), places.end(), name) == places.end()) places.push_back(name);
        }
        f.notes.push_back(level_subject(w, r) + ": " + (r.needed.hi < 0 ? "at most " : "at least ") +
                          quantity(r.needed.hi < 0 ? -asked(w, r) : asked(w, r), Dimension::length));
    }
    for (auto const& p : places) f.subject += (f.subject.empty() ? "levels of " : " and ") + p;
    if (f.subject.empty()) f.subject = "levels";
    if (w.short_of > 0) {
        f.quantity = std::string("distance left") + (fails ? "" : " at worst") + " when all these levels are met";
        f.required = "at least " + quantity(Interval{0}, Dimension::length);
        f.available = f.margin = quantity(Interval{-static_cast<double>(w.short_of)}, Dimension::length);
    }
    f.notes.push_back(fails ? "each can be met alone; they exclude one another at every mounting that the piping allows"
                            : "each can be met alone; whether one mounting meets all is open until these levels are measured");
    f.positions = names(positions);
    return f;
}

std::vector<std::pair<Instance, Finding>> Explainer::level_findings(Wiring const& w) const {
    std::vector<std::pair<Instance, Finding>> out;
    auto const [rules, together] = levels_shown(w);
    if (together && rules.size() > 1) out.emplace_back(instance_of(rules.front(), w.elevations), mounting_finding(w, rules));
    for (auto const& r : rules) out.emplace_back(instance_of(r, w.elevations), level_finding(w, r, together));
    return out;
}

}  // namespace levelswap
