#include "walk_model.hpp"

#include "levelswap/rules/level_needs.hpp"

#include <algorithm>

namespace levelswap {

namespace {

constexpr double farthest = 5e9;   // nm: an elevation as far away as its domain allows is not known

class Builder {
public:
    explicit Builder(Case const& c) : c_(c), site_(c.judge.site()) {}

    WalkModel model() const {
        WalkModel m;
        auto const outputs = connected();
        for (std::size_t f = 0; f < site_.functions.size(); ++f) m.devices.push_back(device(static_cast<int>(f), outputs[f]));
        m.has_glass = has_glass();
        m.glass = glass();
        if (!m.has_glass && !is_tank(site_)) m.lpwl = lpwl();
        return m;
    }

private:
    std::vector<OutputRef> connected() const {
        auto const& j = c_.judgement_after;
        if (j.wiring) return j.wiring->output;
        std::vector<OutputRef> chosen(site_.functions.size());
        auto taken = [&](OutputRef const& o) { return std::find(chosen.begin(), chosen.end(), o) != chosen.end(); };
        for (std::size_t f = 0; f < j.options.size(); ++f) {
            std::size_t fewest = SIZE_MAX;
            for (auto const& [output, rules] : j.options[f]) {
                auto const bad = static_cast<std::size_t>(
                    std::count_if(rules.begin(), rules.end(), [](Judged const& r) { return r.truth == Truth::fails; }));
                if (taken(output) || !right_form(rules) || bad >= fewest) continue;
                fewest = bad;
                chosen[f] = output;
            }
        }
        return chosen;
    }

    static bool right_form(std::vector<Judged> const& rules) {
        static int const form = rule_index("roles.output");
        return std::none_of(rules.begin(), rules.end(),
                            [](Judged const& r) { return r.instance.rule == form && r.truth == Truth::fails; });
    }

    /// A rule of physics asked without any pack's figure.
    Truth without_figure(std::string_view rule, Stand const& stand) const {
        return c_.judge.truth_of({rule_index(rule), stand, -1, -1, false}, c_.after);
    }

    template <Attribute A>
    Truth is(Stand const& stand, std::uint64_t words) const {
        auto const* fact = c_.judge.fact({From::output, A}, stand, c_.after, nullptr);
        if (!fact || fact->nature == Fact::Nature::none || (fact->may & words) == 0) return Truth::fails;
        return (fact->may & ~words) == 0 ? Truth::holds : Truth::undecided;
    }

    Device device(int function, OutputRef output) const {
        Device d;
        d.function = function;
        d.duty = site_.functions[static_cast<std::size_t>(function)].duty;
        d.output = output;
        if (!d.wired()) return d;
        auto const stand = stand_of(site_, function, output);
        if (is<Attribute::acts>(stand, bits<Attribute::acts>("proportional")) == Truth::holds) d.acts = Device::Acts::slides;
        else if (is<Attribute::acts>(stand, bits<Attribute::acts>("feeds_on_fall")) == Truth::holds) d.acts = Device::Acts::feeds;
        else if (is<Attribute::acts>(stand, bits<Attribute::acts>("closes_on_fall")) == Truth::holds) d.acts = Device::Acts::closes;
        d.levels = output_levels(c_.judge, c_.after, function, output);
        d.reach = output_reach(c_.judge.operands(output_reach_slots(), stand, c_.after));
        d.sinks = without_figure("buoyancy.sink", stand);
        d.lifts = without_figure("buoyancy.lift", stand);
        d.jams = d.reach.known ? negated(without_figure("travel.binding", stand)) : Truth::fails;
        d.water_connection = at_station(stand.station, From::column, Attribute::tapping_water, stand.station);
        d.steam_connection = at_station(stand.station, From::column, Attribute::tapping_steam, stand.station);
        if (d.acts == Device::Acts::feeds) shut_off(d, stand);
        if (!d.has_contact()) return d;
        d.delay = delay(stand);
        feed(d, stand);
        d.manual = is<Attribute::reset_type>(stand, bits<Attribute::reset_type>("manual"));
        d.held_closes = is<Attribute::trip_free>(stand, bits<Attribute::trip_free>("no"));
        d.forgets = is<Attribute::after_power_loss>(stand, bits<Attribute::after_power_loss>("clears"));
        d.trips_wet = both(d.manual, is<Attribute::after_power_loss>(stand, bits<Attribute::after_power_loss>("trips")));
        d.live_unpowered = is<Attribute::unpowered>(stand, bits<Attribute::unpowered>("closed"));
        d.live_sunk = is<Attribute::float_sunk>(stand, bits<Attribute::float_sunk>("closed"));
        return d;
    }

    /// Whether the float shuts its valve against the supply, with nothing to spare.
    void shut_off(Device& d, Stand const& stand) const {
        static int const rule = rule_index("feed.float_valve_shutoff");
        Instance const physics{rule, stand, -1, -1, false};
        Recording const rec = c_.judge.record(physics, c_.after);
        if (!rec.applies) return;
        auto const shuts = std::find_if(rec.steps.begin(), rec.steps.end(), [](Step const& s) { return s.kind == Step::Kind::at_least; });
        if (shuts == rec.steps.end()) return;
        d.shuts = shuts->truth;
        d.shuts_against = shuts->available;
        d.supply = shuts->required;
    }

    bool unknown(Slot slot, Stand const& stand) const {
        auto const* f = c_.judge.fact(slot, stand, c_.after, nullptr);
        return f && f->nature == Fact::Nature::unknown;
    }

    WorldFacts facts(std::span<Slot const> slots, Stand const& stand) const {
        WorldFacts out;
        out.operands = c_.judge.operands(slots, stand, c_.after);
        out.slots.assign(slots.begin(), slots.end());
        out.whose = stand.function;
        for (auto const& slot : slots) out.known &= !counts(slot.attribute, stand) || !unknown(slot, stand);
        return out;
    }

    /// Whether anything is worked out from it here: one shape of the vessel only, and what is taken from a boiler or
    /// from a tank.
    bool counts(Attribute a, Stand const& stand) const {
        using enum Attribute;
        bool const upright = c_.judge.vessel_fact(drum_diameter)->nature == Fact::Nature::none;
        auto const* fed = c_.judge.fact({From::line, into}, stand, c_.after, nullptr);
        bool const tank = fed && fed->may == bits<into>("tank"), boiler = fed && fed->may == bits<into>("boiler");
        auto const made_for = c_.judge.vessel_fact(vessel_service)->may;
        if (a == water_temperature) return is_tank(site_) || (made_for & bits<vessel_service>("hot_water")) != 0;
        if (a == vessel_kind || a == vessel_service) return false;   // water a little lighter or heavier
        if (a == surface) return upright;
        if (a == drum_diameter || a == drum_length || a == bottom) return !upright;
        if (a == evaporation || a == least_evaporation || a == blowdown) return !tank;
        return a != demand || !boiler;
    }

    std::optional<Delay> delay(Stand const& stand) const {
        auto const* time = c_.judge.fact({From::output, Attribute::delay}, stand, c_.after, nullptr);
        if (!time || time->nature == Fact::Nature::none || time->hi <= 0) return std::nullopt;
        Delay late;
        late.time = {time->lo, time->hi};
        late.at_full_fire = !is_tank(site_);
        late.facts = facts(delay_slots(), stand);
        if (!late.at_full_fire) late.facts.known = time->nature != Fact::Nature::unknown;
        return late;
    }

    /// How often a pump starts and how cold a fill makes the tank is told of facts that are known only.
    void feed(Device& d, Stand const& stand) const {
        if (d.duty != Duty::pump && d.duty != Duty::make_up) return;
        if (auto starts = facts(cycling_slots(), stand); starts.known) d.starts = std::move(starts);
        if (auto fill = facts(fill_slots(), stand); fill.known && d.duty == Duty::make_up) d.fill = std::move(fill);
    }

    std::optional<Elevation> at_station(int station, From from, Attribute a, int datum) const {
        Stand stand;
        stand.station = station;
        auto const* fact = c_.judge.fact({from, a}, stand, c_.after, nullptr);
        if (!fact || fact->nature == Fact::Nature::unknown || fact->nature == Fact::Nature::none) return std::nullopt;
        if (fact->lo <= -farthest || fact->hi >= farthest) return std::nullopt;
        Elevation e;
        e.name = row_of(a).meaning;
        e.station = datum;
        e.own = {fact->lo, fact->hi};
        if (datum >= 0) e.moved = face_moves(c_.judge, datum, c_.after);
        if (datum >= 0 && from == From::glass) e.own = e.own + glass_moves(c_.judge, datum, c_.after);
        return e;
    }

    bool has_glass() const {
        for (std::size_t p = 0; p < site_.positions.size(); ++p)
            if (site_.positions[p].role == Role::glass && c_.after[p] != nothing) return true;
        return false;
    }

    std::optional<Elevation> lpwl() const {
        auto const* fact = c_.judge.vessel_fact(Attribute::lpwl);
        if (fact->nature != Fact::Nature::uncertain) return std::nullopt;
        Elevation e;
        e.name = row_of(Attribute::lpwl).meaning;
        e.own = {fact->lo, fact->hi};
        return e;
    }

    std::optional<Glass> glass() const {
        for (int s = 0; s < static_cast<int>(site_.stations.size()); ++s) {
            auto const& station = site_.stations[static_cast<std::size_t>(s)];
            int const datum = station.glass_on_vessel ? -1 : s;
            auto const low = at_station(s, From::glass, Attribute::visible_low, datum);
            auto const high = at_station(s, From::glass, Attribute::visible_high, datum);
            if (low && high) return Glass{*low, *high};
        }
        return std::nullopt;
    }

    Case const& c_;
    Site const& site_;
};

}  // namespace

WalkModel walk_model(Case const& c) { return Builder(c).model(); }

}  // namespace levelswap
