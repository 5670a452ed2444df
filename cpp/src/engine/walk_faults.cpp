#include "levelswap/document/value.hpp"
#include "walk_words.hpp"

#include <algorithm>
#include <cctype>
#include <map>

namespace levelswap {

namespace {

constexpr std::uint64_t worlds_looked_at = 200;

char const* words_of(physics::Obstacle o) {
    using enum physics::Obstacle;
    switch (o) {
        case none: return "inside the chamber";
        case stop: return "at the head's own stop";
        case ceiling: return "at the ceiling of the chamber";
        case floor: return "at the floor of the chamber";
        case far_wall: return "at the far wall of the chamber";
        case near_wall: return "at the near wall of the chamber";
        case throat: return "in the throat";
    }
    return "";
}

/// What it means when nothing performs a duty.
char const* left_undone(Duty duty) {
    switch (duty) {
        case Duty::primary_cut_off: return "low water does not shut the burner off until the secondary acts, if there is one";
        case Duty::secondary_cut_off: return "nothing locks the burner out when the primary fails";
        case Duty::pump: return "the pump is not started or stopped by the level";
        case Duty::modulating_feed: return "the feed valve does not follow the level";
        case Duty::low_alarm: return "low water sounds no alarm";
        case Duty::high_alarm: return "high water sounds no alarm";
        case Duty::make_up: return "nothing feeds when the water is low";
    }
    return "";
}

char const* without_trip(Duty duty) {
    switch (duty) {
        case Duty::primary_cut_off:
        case Duty::secondary_cut_off: return "the burner is not shut off by it, however low the water falls";
        case Duty::pump: return "the pump never starts and the boiler is starved";
        case Duty::modulating_feed: return "the feed valve does not open";
        case Duty::low_alarm: return "the low alarm never sounds";
        case Duty::high_alarm: return "the high alarm does not clear";
        case Duty::make_up: return "filling never begins and the vessel runs dry";
    }
    return "";
}

char const* without_reset(Duty duty) {
    switch (duty) {
        case Duty::primary_cut_off:
        case Duty::secondary_cut_off: return "the burner cannot start again";
        case Duty::pump: return "the pump never stops and the boiler overfills";
        case Duty::modulating_feed: return "the feed valve does not close";
        case Duty::low_alarm: return "the low alarm does not clear";
        case Duty::high_alarm: return "the high alarm never sounds";
        case Duty::make_up: return "filling never stops and the vessel overfills";
    }
    return "";
}

std::string percent(Interval share) {
    auto const low = document::format_quanta(share.lo * 1e6, Dimension::ratio, document::UnitSystem::si, 2);
    auto const high = document::format_quanta(share.hi * 1e6, Dimension::ratio, document::UnitSystem::si, 2);
    return low == high ? low : low + " to " + high;
}

class Complaint {
public:
    Complaint(Case const& c, WalkModel const& model, Units units) : site_(c.judge.site()), model_(model), words_(units) {}

    /// In a world where it happens, so that its levels show it.
    std::string of(Fault const& f, World world) {
        world_ = world;
        return text(f);
    }

private:
    std::string text(Fault const& f) const {
        auto const& d = model_.devices[static_cast<std::size_t>(f.device)];
        std::string const name(words_of(d.duty));
        using K = Fault::Kind;
        switch (f.kind) {
            case K::no_output: return "no output is left for the " + name + ": " + left_undone(d.duty);
            case K::never_trips: return name + " does not act as the water falls, since " + down(d) + ": " + without_trip(d.duty);
            case K::never_resets: return name + " does not act as the water rises, since " + up(d) + ": " + without_reset(d.duty);
            case K::valve_cannot_close:
                return "the feed valve sticks at " + percent({1 - d.reach.highest.hi, 1 - d.reach.highest.lo}) +
                       " open, since " + up(d) + ": it cannot close and the boiler overfills";
            case K::valve_cannot_open:
                return "the feed valve sticks at " + percent({1 - d.reach.lowest.hi, 1 - d.reach.lowest.lo}) + " open, since " +
                       down(d) + ": it cannot open and the boiler is starved";
            case K::valve_will_not_shut:
                return "the supply holds the valve of the " + name + " open: " +
                       "up to " + words_.quantity(Interval{d.supply.hi}, Dimension::pressure_difference) + " stands across its seat, and its float shuts it against " +
                       words_.quantity(Interval{d.shuts_against.hi}, Dimension::pressure_difference) + " at most: the vessel overfills";
            case K::jams:
                return "the float of " + station(d) + " touches the side within the head's own arc and can jam: what hangs on "
                       "that head may then stay as it is while the water falls";
            case K::fires_dry: return name + ": its contact is closed with the water gone, so the burner fires dry";
            case K::out_of_order_falling: return out_of_order(d, other(f));
            case K::stops_before_reset:
                return name + " stops the feed at " + rising(d) + ", before the " + std::string(words_of(other(f).duty)) +
                       " has reset at " + rising(other(f)) +
                       (other(f).duty == Duty::primary_cut_off ? ": the burner does not come back by itself"
                                                               : ": nobody can reset it without filling the boiler by hand");
            case K::alarm_before_stop:
                return "the high alarm sounds at " + rising(d) + ", before the feed stops at " + rising(other(f)) +
                       ": it sounds at every filling";
            case K::stops_below_start:
                return name + " starts at " + falling(d) + " and stops at " + rising(d) + ", not above it: the feed does not hold the level";
            case K::out_of_glass: return out_of_glass(name, d);
            case K::below_lpwl: return below_lpwl(name, d);
            case K::starts_too_often: return starts_too_often(name, d);
            case K::fill_too_cold: return fill_too_cold(d);
            case K::restarts_alone:
                return "the burner starts again by itself once the water is back, although the " + name +
                       " has acted: nobody has to look at the boiler first";
            case K::held_button: return name + ": a reset button held down fires the burner while there is no water";
            case K::forgets: return "a power failure clears the lockout of the " + name + ": the burner starts with nobody there";
            case K::runs_on:
                return name + ": its contact waits for a reset button, so the pump runs past its stop until somebody presses it";
            case K::live_unpowered: return name + ": its contact is closed without power, so nothing shuts the burner off";
            case K::live_sunk: return name + ": its contact is closed when the float has filled and sunk, so the burner fires dry";
        }
        return {};
    }

    Device const& other(Fault const& f) const { return model_.devices[static_cast<std::size_t>(f.other)]; }
    std::string station(Device const& d) const {
        int const s = site_.positions[static_cast<std::size_t>(d.output.position)].station;
        if (s < 0) return site_.positions[static_cast<std::size_t>(d.output.position)].name;
        return site_.stations[static_cast<std::size_t>(s)].name;
    }
    std::string falling(Device const& d) const { return words_.at(level_in(site_, d.levels.falling, d.falling_key(), world_)); }
    std::string rising(Device const& d) const { return words_.at(level_in(site_, d.levels.rising, d.rising_key(), world_)); }

    std::string out_of_glass(std::string const& name, Device const& d) const {
        auto const end = words_.at(level_in(site_, model_.glass->low, glass_key, world_));
        std::string const unseen = ": the burner fires with no water to be seen";
        if (!d.delay) return name + " acts at " + falling(d) + ", when the water has left the glass at " + end + unseen;
        if (!d.delay->facts.known)
            return name + " trips at " + falling(d) + " and acts later, and how far the water falls meanwhile is not known: it may have left "
                          "the glass at " + end + " by then" + unseen;
        return name + " trips at " + falling(d) + " and acts " + words_.quantity(d.delay->time, Dimension::time) + " later, by " +
               words_.at(acts_at(site_, d, world_)) + " at full fire, when the water has left the glass at " + end + unseen;
    }
    std::string below_lpwl(std::string const& name, Device const& d) const {
        auto const lowest = words_.at(level_in(site_, *model_.lpwl, lpwl_key, world_));
        return name + " trips at " + falling(d) + (d.delay ? " and has acted by " + words_.at(acts_at(site_, d, world_)) : "") +
               ", below the lowest permissible level of " + lowest + ": the burner fires with too little water, and there is no glass to see it";
    }
    std::string starts_too_often(std::string const& name, Device const& d) const {
        auto const pump = *starts_in(site_, d, world_);
        return name + ": between " + falling(d) + " and " + rising(d) + " the pump starts " + times(pump.starts.quanta.hi) +
               " times an hour at the worst take-off, and its motor stands " + times(pump.stands.quanta.lo);
    }
    std::string fill_too_cold(Device const& d) const {
        auto const tank = *fill_in(site_, d, world_);
        return "a fill from " + falling(d) + " to " + rising(d) + " cools the tank to " +
               words_.quantity(Interval{tank.after.quanta.lo}, Dimension::temperature) + ", and the least that it may have is " +
               words_.quantity(Interval{tank.least.quanta.hi}, Dimension::temperature);
    }
    static std::string times(double quanta) { return document::format_quanta(quanta / 1e6, Dimension::count, document::UnitSystem::si, 3); }
    static std::string reach_ends(Truth t, physics::Obstacle by) {
        if (t == Truth::undecided && by == physics::Obstacle::stop) return "it is not known how far the float gets in this chamber";
        return std::string("the float's reach ends ") + words_of(by);
    }
    static std::string down(Device const& d) {
        if (d.reach.falling != Truth::holds) return reach_ends(d.reach.falling, d.reach.low_by);
        if (d.sinks != Truth::holds) return "the float's weight does not pull the switch over";
        return "its level is below the column's water connection, and the water in the column does not fall that far";
    }
    static std::string up(Device const& d) {
        if (d.reach.rising != Truth::holds) return reach_ends(d.reach.rising, d.reach.high_by);
        if (d.lifts != Truth::holds) return "the float does not lift the switch";
        return "its level is above the column's steam connection";
    }
    std::string out_of_order(Device const& early, Device const& due) const {
        std::string text = std::string(words_of(early.duty)) + " acts at " + falling(early) + ", not below the " +
                           std::string(words_of(due.duty)) + (due.delay ? ", which acts by " + words_.at(acts_at(site_, due, world_)) : " at " + falling(due)) + ": ";
        if (due.duty == Duty::pump || due.duty == Duty::modulating_feed)
            return text + (early.cut_off() ? "the burner goes off at every call for feed" : "the alarm sounds at every call for feed");
        if (due.duty == Duty::low_alarm) return text + "no warning comes before the burner goes off";
        return text + "the lockout comes before the primary has had its turn";
    }
    Site const& site_;
    WalkModel const& model_;
    LevelWords words_;
    World world_;
};

}  // namespace

std::vector<std::string> faults_of(Case const& c, WalkModel const& model, Units units) {
    struct Seen {
        std::uint64_t worlds = 0, first = 0;
    };
    std::map<Fault, Seen> seen;
    for (std::uint64_t seed = 0; seed < worlds_looked_at; ++seed)
        for (auto const& f : run(c.judge.site(), model, {seed}).faults)
            if (auto& s = seen[f]; s.worlds++ == 0) s.first = seed;
    Complaint complaint(c, model, units);
    std::vector<std::string> out;
    for (bool const certain : {true, false})
        for (auto const& [fault, in] : seen) {
            if ((in.worlds == worlds_looked_at) != certain) continue;
            auto text = (certain ? "" : "within the tolerances it can be that ") + complaint.of(fault, {in.first});
            text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
            text += '.';
            if (std::find(out.begin(), out.end(), text) == out.end()) out.push_back(std::move(text));
        }
    return out;
}

}  // namespace levelswap
