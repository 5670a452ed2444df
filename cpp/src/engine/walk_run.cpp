#include "walk_run.hpp"

#include "level_words.hpp"

#include <algorithm>

namespace levelswap {

namespace {

constexpr int choice_of_unknown = 100;   // drawn apart from the levels

/// Two levels of which nothing says how far they are apart are not compared.
bool comparable(Site const& site, Elevation const& x, Elevation const& y) {
    if (x.station == y.station && x.rod == y.rod) return is_known(x.own) && is_known(y.own);
    return is_known(level_range(site, x)) && is_known(level_range(site, y));
}

/// The state machine of one world: contacts with hysteresis and the memory of a lockout.
class Walker {
public:
    Walker(Site const& site, WalkModel const& model, World world) : site_(site), model_(model), world_(world) {
        contacts_.resize(model.devices.size());
        for (std::size_t i = 0; i < contacts_.size(); ++i) prepare(contacts_[i], model.devices[i], static_cast<int>(i));
    }

    Run go() {
        start();
        fall();
        stay_low();
        rise();
        look_at_order();
        return std::move(run_);
    }

private:
    struct Contact {
        double falling = 0, rising = 0;
        double acts = 0;                           ///< as the water falls at full fire, its delay over
        bool moves_down = true, moves_up = true;   ///< whether the float gets it to its trip, to its reset
        bool manual = false, held_closes = false, forgets = false;
        bool tripped = false, locked = false;
        bool has_tripped = false, has_reset = false;
    };
    using Kind = Fault::Kind;

    Device const& device(int i) const { return model_.devices[static_cast<std::size_t>(i)]; }
    Contact& contact(int i) { return contacts_[static_cast<std::size_t>(i)]; }
    int count() const { return static_cast<int>(contacts_.size()); }

    /// Something bad that is not known takes place in some worlds, and not in the middle one.
    bool bad(Truth t, int what, int whose) const {
        return t == Truth::holds || (t == Truth::undecided && world_.draw(choice_of_unknown + what, whose) < 0.5);
    }
    bool good(Truth t, int what, int whose) const {
        return t != Truth::fails && !(t == Truth::undecided && bad(t, what, whose));
    }
    void fault(Kind kind, int i, int other = -1) { run_.faults.insert({kind, i, other}); }

    void prepare(Contact& c, Device const& d, int i) {
        if (!d.wired()) return fault(Kind::no_output, i);
        c.falling = level_in(site_, d.levels.falling, d.falling_key(), world_);
        c.rising = level_in(site_, d.levels.rising, d.rising_key(), world_);
        c.acts = acts_at(site_, d, world_);
        c.moves_down = good(d.reach.falling, 0, i) && good(d.sinks, 1, i);
        c.moves_up = good(d.reach.rising, 2, i) && good(d.lifts, 3, i);
        int const station = site_.positions[static_cast<std::size_t>(d.output.position)].station;
        if (d.water_connection) c.moves_down &= c.falling >= level_in(site_, *d.water_connection, connection_key + station, world_);
        if (d.steam_connection) c.moves_up &= c.rising <= level_in(site_, *d.steam_connection, connection_key + 100 + station, world_);
        c.manual = bad(d.manual, 4, i);
        c.held_closes = bad(d.held_closes, 5, i);
        c.forgets = bad(d.forgets, 6, i);
        if (bad(d.jams, 7, station)) fault(Kind::jams, i);
        if (d.cut_off() && bad(d.live_unpowered, 8, i)) fault(Kind::live_unpowered, i);
        if (d.cut_off() && bad(d.live_sunk, 9, i)) fault(Kind::live_sunk, i);
        if (bad(negated(d.shuts), 11, i)) {
            c.moves_up = false;
            fault(Kind::valve_will_not_shut, i);
        }
        look_at_feed(d, i);
        if (d.acts == Device::Acts::slides) {
            if (!c.moves_down) fault(Kind::valve_cannot_open, i);
            if (!c.moves_up) fault(Kind::valve_cannot_close, i);
        } else if (d.has_contact()) {
            if (!c.moves_down) fault(Kind::never_trips, i);
            if (!c.moves_up) fault(Kind::never_resets, i);
        }
    }

    void look_at_feed(Device const& d, int i) {
        if (auto const pump = starts_in(site_, d, world_); pump && pump->starts.quanta.hi > pump->stands.quanta.lo)
            fault(Kind::starts_too_often, i);
        if (auto const tank = fill_in(site_, d, world_); tank && tank->after.quanta.lo < tank->least.quanta.hi)
            fault(Kind::fill_too_cold, i);
    }

    /// The working level: everything has reset that can, but the water is not yet at the high alarm.
    void start() {
        double top = -1e18;
        for (int i = 0; i < count(); ++i)
            if (device(i).wired() && device(i).duty != Duty::high_alarm) top = std::max(top, contact(i).rising);
        for (int i = 0; i < count(); ++i) {
            auto& c = contact(i);
            c.tripped = !c.moves_up || (device(i).duty == Duty::high_alarm && c.rising > top);
        }
        for (int i = 0; i < count(); ++i)
            if (device(i).wired() && device(i).cut_off() && !contact(i).tripped && bad(device(i).trips_wet, 10, i)) lock_out_wet(i, top);
    }

    /// Power fails and returns with the water up: on the safe side, but somebody has to press reset.
    void lock_out_wet(int i, double level) {
        auto& c = contact(i);
        happen(Phase::working, Happens::power_trips, i, level, [&] { c.tripped = c.locked = true; });
        happen(Phase::working, Happens::pressed_closes, i, level, [&] { c.tripped = c.locked = false; });
    }

    bool passes(int i) const {
        auto const& c = contacts_[static_cast<std::size_t>(i)];
        return device(i).acts == Device::Acts::closes ? c.tripped : !c.tripped;
    }
    bool burner() const {
        for (int i = 0; i < count(); ++i)
            if (device(i).wired() && device(i).cut_off() && !passes(i)) return false;
        return true;
    }

    template <class Change>
    void happen(Phase phase, Happens what, int i, double level, Change change) {
        bool const before = burner();
        change();
        bool const late = phase == Phase::falling || phase == Phase::low;
        run_.happenings.push_back({phase, what, i, level, late ? contact(i).falling : level, before, burner()});
    }

    std::vector<int> by_level(bool falling) {
        std::vector<int> order;
        for (int i = 0; i < count(); ++i)
            if (device(i).wired()) order.push_back(i);
        std::stable_sort(order.begin(), order.end(), [&](int x, int y) {
            return falling ? contact(x).acts > contact(y).acts : contact(x).rising < contact(y).rising;
        });
        return order;
    }

    void fall() {
        for (int i : by_level(true)) {
            auto& c = contact(i);
            if (!c.moves_down) continue;
            if (device(i).acts == Device::Acts::slides) {
                happen(Phase::falling, Happens::valve_wide_open, i, c.falling, [] {});
            } else if (!c.tripped) {
                happen(Phase::falling, Happens::trips, i, c.acts, [&] {
                    c.tripped = c.has_tripped = true;
                    c.locked = c.manual;
                });
            }
            if (device(i).cut_off() && model_.glass && comparable(site_, device(i).levels.falling, model_.glass->low) &&
                c.acts < level_in(site_, model_.glass->low, glass_key, world_))
                fault(Kind::out_of_glass, i);
            if (device(i).cut_off() && model_.lpwl && is_known(level_range(site_, device(i).levels.falling)) &&
                c.acts < level_in(site_, *model_.lpwl, lpwl_key, world_))
                fault(Kind::below_lpwl, i);
        }
    }

    void stay_low() {
        for (int i = 0; i < count(); ++i) {
            auto& c = contact(i);
            if (!device(i).wired() || !device(i).cut_off()) continue;
            if (passes(i) && c.tripped) fault(Kind::fires_dry, i);
            if (!c.locked) continue;
            if (c.held_closes) fault(Kind::held_button, i);
            happen(Phase::low, c.held_closes ? Happens::held_closes : Happens::held_stays, i, c.acts, [] {});
        }
    }

    void rise() {
        for (int i : by_level(false)) {
            auto& c = contact(i);
            if (!c.moves_up) continue;
            if (device(i).acts == Device::Acts::slides) {
                happen(Phase::rising, Happens::valve_shut, i, c.rising, [] {});
            } else if (c.tripped && !c.locked) {
                happen(Phase::rising, Happens::resets, i, c.rising, [&] { reset(c); });
                if (device(i).duty == Duty::secondary_cut_off && c.has_tripped) fault(Kind::restarts_alone, i);
            } else if (c.locked) {
                unlock(i);
            }
        }
    }

    static void reset(Contact& c) {
        c.tripped = c.locked = false;
        c.has_reset = true;
    }

    /// Water is back, power fails and returns, then somebody presses reset.
    void unlock(int i) {
        auto& c = contact(i);
        happen(Phase::rising, Happens::stays_locked, i, c.rising, [] {});
        if (!device(i).cut_off()) {
            if (device(i).duty == Duty::pump) fault(Kind::runs_on, i);
            return happen(Phase::rising, Happens::pressed_closes, i, c.rising, [&] { reset(c); });
        }
        if (c.forgets) {
            fault(Kind::forgets, i);
            return happen(Phase::rising, Happens::power_closes, i, c.rising, [&] { reset(c); });
        }
        happen(Phase::rising, Happens::power_stays, i, c.rising, [] {});
        happen(Phase::rising, Happens::pressed_closes, i, c.rising, [&] { reset(c); });
    }

    int find(Duty duty) const {
        for (int i = 0; i < count(); ++i)
            if (device(i).duty == duty && device(i).wired()) return i;
        return -1;
    }

    bool falling_compared(int x, int y) const { return comparable(site_, device(x).levels.falling, device(y).levels.falling); }
    bool rising_compared(int x, int y) const { return comparable(site_, device(x).levels.rising, device(y).levels.rising); }

    /// Falling: feed, low alarm, primary, secondary. Rising: the cut-offs before the feed stops, the feed before the
    /// high alarm. Each way of feeding keeps its place.
    void look_at_order() {
        std::vector<int> low = {find(Duty::low_alarm), find(Duty::primary_cut_off), find(Duty::secondary_cut_off)};
        std::erase(low, -1);
        for (std::size_t i = 1; i < low.size(); ++i) falls_after(low[i], low[i - 1]);
        for (Duty d : {Duty::pump, Duty::modulating_feed, Duty::make_up}) {
            int const feed = find(d);
            if (feed < 0) continue;
            if (!low.empty()) falls_after(low.front(), feed);
            feed_stops(feed);
        }
    }

    void falls_after(int then, int first) {
        if (falling_compared(then, first) && contact(first).moves_down && contact(then).moves_down &&
            contact(then).falling >= contact(first).acts)
            fault(Kind::out_of_order_falling, then, first);
    }

    void feed_stops(int feed) {
        int const alarm = find(Duty::high_alarm);
        auto const& stops = contact(feed);
        if (!stops.moves_up) return;
        if (comparable(site_, device(feed).levels.falling, device(feed).levels.rising) && stops.rising <= stops.falling)
            fault(Kind::stops_below_start, feed);
        for (int const cut_off : {find(Duty::primary_cut_off), find(Duty::secondary_cut_off)})
            if (cut_off >= 0 && rising_compared(cut_off, feed) && contact(cut_off).moves_up && contact(cut_off).rising >= stops.rising)
                fault(Kind::stops_before_reset, feed, cut_off);
        if (alarm >= 0 && rising_compared(alarm, feed) && contact(alarm).moves_up && stops.rising >= contact(alarm).rising)
            fault(Kind::alarm_before_stop, alarm, feed);
    }

    Site const& site_;
    WalkModel const& model_;
    World world_;
    std::vector<Contact> contacts_;
    Run run_;
};

}  // namespace

double acts_at(Site const& site, Device const& d, World world) {
    double const trips = level_in(site, d.levels.falling, d.falling_key(), world);
    return d.delay ? trips - d.delay->fall(trips, world) : trips;
}

std::optional<PumpStarts> starts_in(Site const& site, Device const& d, World world) {
    if (!d.starts || !comparable(site, d.levels.falling, d.levels.rising)) return std::nullopt;
    return starts_between(d.starts->in(world), Interval{level_in(site, d.levels.falling, d.falling_key(), world)},
                          Interval{level_in(site, d.levels.rising, d.rising_key(), world)});
}

std::optional<ColdFill> fill_in(Site const& site, Device const& d, World world) {
    if (!d.fill || !comparable(site, d.levels.falling, d.levels.rising)) return std::nullopt;
    return cooled_by_fill(d.fill->in(world), Interval{level_in(site, d.levels.falling, d.falling_key(), world)},
                          Interval{level_in(site, d.levels.rising, d.rising_key(), world)});
}

Run run(Site const& site, WalkModel const& model, World world) { return Walker(site, model, world).go(); }

}  // namespace levelswap
