#include "outcome.hpp"

#include <algorithm>

namespace levelswap {

namespace {

std::vector<Judged> all_failures(Judgement const& j) {
    std::vector<Judged> out;
    auto take = [&](std::vector<Judged> const& from) {
        std::copy_if(from.begin(), from.end(), std::back_inserter(out), [](auto const& x) { return x.truth == Truth::fails; });
    };
    take(j.fixed);
    if (j.wiring) {
        take(j.wiring->pairs);
        take(j.wiring->whole);
    } else
        for (auto const& function : j.options)
            if (function.size() == 1) take(function[0].second);  // frozen: this output or none
    return out;
}

/// Levels that were wrong before, read from nothing that changes: so they are wrong still. Levels that only exclude one
/// another are the site's when none of them is touched; else the swap may mend them, or make them worse.
std::vector<Instance> level_faults(Judgement const& before, std::uint64_t changed) {
    std::vector<Instance> out;
    if (!before.wiring) return out;
    auto const& w = *before.wiring;
    auto touched = [&](LevelRule const& r) {
        return ((r.positions | w.elevations[static_cast<std::size_t>(r.upper)].positions |
                 w.elevations[static_cast<std::size_t>(r.lower)].positions) & changed) != 0;
    };
    bool const joint_stays = std::none_of(w.levels.begin(), w.levels.end(), [&](auto const& r) { return r.in_conflict && touched(r); });
    for (auto const& r : w.levels)
        if (!touched(r) && (r.alone == Truth::fails || (r.in_conflict && joint_stays))) out.push_back(instance_of(r, w.elevations));
    return out;
}

}  // namespace

std::string_view name_of(Outcome outcome) {
    switch (outcome) {
        case Outcome::fits: return "fits";
        case Outcome::does_not_fit: return "does_not_fit";
        case Outcome::cannot_tell: return "cannot_tell";
    }
    return "";
}

std::string part_name(Catalog const& catalog, int part) {
    return part == nothing ? "nothing" : catalog.parts[static_cast<std::size_t>(part)].id;
}

Case::Case(Catalog const& catalog, Site const& site, std::vector<std::pair<std::string, std::string>> const& put)
    : judge(catalog, site), before(installed(site)), after(proposed(site, catalog, put)) {
    for (auto const& [position, part] : put) asked |= 1ull << site.find_position(position);
    for (std::size_t p = 0; p < before.size(); ++p)
        if (before[p] != after[p]) changed |= 1ull << p;
    judgement_before = judge.judge(before);
    judgement_after = changed ? judge.judge(after) : judgement_before;
    auto const old_faults = all_failures(judgement_before);
    for (auto const& f : all_failures(judgement_after)) {
        bool const was_there = std::any_of(old_faults.begin(), old_faults.end(),
                                           [&](auto const& o) { return o.instance == f.instance; });
        if (!was_there || (f.positions & changed)) continue;
        site_work.push_back(f);
        set_aside.push_back(f.instance);
    }
    auto const levels = level_faults(judgement_before, changed);
    set_aside.insert(set_aside.end(), levels.begin(), levels.end());
}

bool is_tank(Site const& site) {
    return site.vessel.find(Attribute::vessel_kind)->may == bits<Attribute::vessel_kind>("tank");
}

bool has_wires(Role role) {
    switch (role) {
        case Role::column: case Role::float_: case Role::glass: case Role::float_valve: case Role::reducing_valve: case Role::feed_valve:
            return false;
        default: return true;
    }
}

std::string outage_of(Site const& site, std::uint64_t positions) {
    bool opens = false, electric = false, on_tube = false, in_line = false;
    for (std::uint64_t rest = positions; rest; rest &= rest - 1) {
        Role const r = site.positions[static_cast<std::size_t>(std::countr_zero(rest))].role;
        if (r >= Role::solenoid_valve && opens_water_side(r)) in_line = true;
        else if (opens_water_side(r)) opens = true;
        else if (r == Role::switch_half) on_tube = true;
        else electric = true;
    }
    if (is_tank(site) && (opens || in_line))
        return "water supply of the tank locked out, tank or line drained below the joint; no make-up meanwhile";
    if (opens) return "boiler shut down, cooled, vented and drained below the joint; fuel, feed and electricity locked out";
    if (in_line) return "feed line shut off on both sides and drained; burner locked out while the boiler has no feed";
    if (on_tube) return "burner locked out: a switch half that is off is a cut-off that is missing; hot surfaces";
    return electric ? "burner locked out, electricity isolated and proved dead" : "none";
}

std::vector<std::string> cautions_for(Case const& c) {
    std::vector<std::string> out = {
        "Low-water cut-offs are safety devices. The boiler's data plate, the part maker's instructions, the authority "
        "having jurisdiction and a licensed technician decide; this is advice from the data given.",
        "Prove the installed result by a test that lowers the water under supervision. If the level goes out of "
        "sight: burner off, never feed, let it cool."};
    auto const& site = c.judge.site();
    bool pressure = false, electric = false, mercury = false;
    for (std::size_t p = 0; p < c.after.size(); ++p) {
        if (!(c.changed >> p & 1u)) continue;
        Role const r = site.positions[p].role;
        pressure |= opens_water_side(r);
        electric |= has_wires(r);
        for (int part : {c.before[p], c.after[p]}) {
            if (part == nothing) continue;
            auto const* fact = c.judge.catalog().parts[static_cast<std::size_t>(part)].facts.find(Attribute::mercury);
            mercury |= fact && (fact->may & bits<Attribute::mercury>("yes"));
        }
    }
    if (pressure && is_tank(site))
        out.push_back("Tank: hot water scalds; drain below the joint first. Nobody reaches or climbs in until it is ventilated "
                      "and checked: it is a confined space.");
    else if (pressure) out.push_back("Pressure part: cool, vent and drain; lock out fuel, electricity, feed and common steam before opening.");
    if (electric) out.push_back("Switch work: there may be two supplies in one enclosure; isolate both and prove dead.");
    if (mercury) out.push_back("Mercury: do not break the tube; keep the old part for lawful disposal.");
    return out;
}

}  // namespace levelswap
