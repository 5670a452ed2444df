#include "levelswap/document/value.hpp"
#include "walk_words.hpp"

#include <algorithm>

namespace levelswap {

namespace {

char const* word_of(Phase phase) {
    return phase == Phase::working ? "working" : phase == Phase::falling ? "falling" : phase == Phase::low ? "low" : "rising";
}

/// Happenings of one run in words.
class Narrator {
public:
    Narrator(Case const& c, WalkModel const& model, Units units, World world)
        : site_(c.judge.site()), model_(model), words_(units), world_(world) {}

    std::vector<WalkEvent> events() const {
        std::vector<WalkEvent> out;
        auto const whole = run(site_, model_, world_);
        for (auto const& h : whole.happenings) out.push_back(event(h));
        return out;
    }

private:
    WalkEvent event(Happening const& h) const {
        auto const& d = model_.devices[static_cast<std::size_t>(h.device)];
        bool const up = h.phase == Phase::rising, working = h.phase == Phase::working;
        auto const& elevation = up ? d.levels.rising : d.levels.falling;
        bool const middle = world_.seed == 0 && !working;
        Interval const range = !middle ? Interval{h.level} : up ? level_range(site_, elevation) : acting_range(site_, d);
        WalkEvent e;
        e.phase = word_of(h.phase);
        e.duty = name_of(d.duty);
        e.event = std::string(words_of(d.duty)) + ": " + event_words(h, d);
        e.effect = effect_words(h, d);
        e.level = (working ? "above " : h.phase == Phase::low ? "below " : "") + level_words(h, d);
        e.in_glass = working && model_.has_glass ? "unknown" : shown_by_glass(site_, model_, elevation, h.phase == Phase::falling ? &d : nullptr);
        e.nominal = h.level / 1e9;
        e.lowest = range.lo / 1e9;
        e.highest = range.hi / 1e9;
        return e;
    }

    /// A contact that acts late: where it trips and how far the water may have fallen at full fire when it has acted.
    std::string level_words(Happening const& h, Device const& d) const {
        bool const up = h.phase == Phase::rising, middle = world_.seed == 0 && h.phase != Phase::working;
        auto const range = level_range(site_, up ? d.levels.rising : d.levels.falling);
        double const at = up || h.phase == Phase::working ? h.level : h.tripped;
        auto const trips = words_.level(at, middle ? range : Interval{at});
        if (h.phase != Phase::falling || !d.delay || !is_known(range)) return trips;
        auto const after = words_.quantity(d.delay->time, Dimension::time) + " later";
        if (!d.delay->facts.known) return "trips at " + trips + ", acts later: how far the water falls meanwhile is not known";
        if (!d.delay->at_full_fire) return "trips at " + trips + ", acts " + after;
        return "trips at " + trips + ", acts " + after + ", by " + words_.at(middle ? acting_range(site_, d).lo : h.level) + " at full fire";
    }

    std::string after_delay(Happening const& h, Device const& d) const {
        if (!d.delay || h.phase != Phase::rising) return {};
        return d.delay->facts.known ? ", " + words_.quantity(d.delay->time, Dimension::time) + " later" : ", after its delay";
    }

    std::string event_words(Happening const& h, Device const& d) const {
        bool const opens = (d.acts == Device::Acts::opens) == (h.what == Happens::trips);
        switch (h.what) {
            case Happens::power_trips: return "power off and on again, water up";
            case Happens::trips:
            case Happens::resets:
                if (d.acts == Device::Acts::feeds) return h.what == Happens::trips ? "valve opens" : "valve shuts";
                return (opens ? "contact opens" : "contact closes") + after_delay(h, d);
            case Happens::stays_locked: return "water is back above its reset level";
            case Happens::held_stays:
            case Happens::held_closes: return "reset pressed and held while the water is low";
            case Happens::power_stays:
            case Happens::power_closes: return "power off and on again, water back";
            case Happens::pressed_closes: return h.phase == Phase::working ? "reset pressed, water up" : "reset pressed, water back";
            case Happens::valve_wide_open: return "signal at its low end";
            case Happens::valve_shut: return "signal at its high end";
        }
        return {};
    }

    std::string effect_words(Happening const& h, Device const& d) const {
        switch (h.what) {
            case Happens::power_trips: return "contact opens, locked out although the water is up";
            case Happens::trips: return tripped(h, d);
            case Happens::resets: return back(h, d);
            case Happens::stays_locked: return d.cut_off() ? "contact stays open" : "contact stays as it tripped";
            case Happens::held_stays: return "contact stays open";
            case Happens::held_closes: return "contact closes: the burner can fire without water";
            case Happens::power_stays: return "contact stays open, still locked out";
            case Happens::power_closes: return "contact closes by itself: the lockout is forgotten";
            case Happens::pressed_closes: return d.cut_off() ? "contact closes; " + burner(h) : back(h, d);
            case Happens::valve_wide_open: return "feed valve wide open";
            case Happens::valve_shut: return "feed valve shut";
        }
        return {};
    }

    static std::string tripped(Happening const& h, Device const& d) {
        if (d.acts == Device::Acts::feeds) return "water flows in";
        bool const opens = d.acts == Device::Acts::opens;
        std::string const locked = d.manual == Truth::holds ? ", locked out until reset is pressed" : "";
        switch (d.duty) {
            case Duty::primary_cut_off:
            case Duty::secondary_cut_off:
                return (h.burner_after ? "burner stays on" : h.burner_before ? "burner off" : "burner is off already") + locked;
            case Duty::pump: return opens ? "pump off" : "pump on";
            case Duty::low_alarm: return opens ? "low alarm clears" : "low alarm sounds";
            case Duty::high_alarm: return opens ? "high alarm clears" : "high alarm sounds";
            default: return opens ? "off" : "on";
        }
    }

    std::string back(Happening const& h, Device const& d) const {
        if (d.acts == Device::Acts::feeds) return "the flow stops";
        bool const closes = d.acts == Device::Acts::opens;
        switch (d.duty) {
            case Duty::primary_cut_off:
            case Duty::secondary_cut_off: return burner(h);
            case Duty::pump: return closes ? "pump on" : "pump off";
            case Duty::low_alarm: return closes ? "low alarm sounds" : "low alarm clears";
            case Duty::high_alarm: return closes ? "high alarm sounds" : "high alarm clears";
            default: return closes ? "on" : "off";
        }
    }

    static std::string burner(Happening const& h) {
        if (!h.burner_after) return "burner stays off, another cut-off is still open";
        return h.burner_before ? "burner stays on" : "burner may start, after a full purge";
    }

    Site const& site_;
    WalkModel const& model_;
    LevelWords words_;
    World world_;
};

/// An elevation without the mounting, for two that hang on the same column.
Interval without_mounting(Elevation const& e) {
    return e.own + (e.at_mark ? e.mark : Interval{0}) + Interval{-e.repeatability.hi, e.repeatability.hi};
}

/// What lies `share` of the way, by angle, from the low end of a slide-wire to its high end.
Elevation between(Elevation const& low, Elevation const& high, double share) {
    auto blend = [&](Interval x, Interval y) { return Interval{1 - share} * x + Interval{share} * y; };
    Elevation e = low;
    e.own = blend(low.own, high.own);
    if (!low.swings || !high.swings) {
        e.swings = false;
        return e;
    }
    auto turned = [](OutputHeight const& s) {
        return Length::from_si(s.arm * sin(s.base + s.travel)).quanta + s.waterline;
    };
    auto const before = turned(e.share);
    Interval const pivot{e.share.height.lo - before.lo, e.share.height.hi - before.hi};
    e.share.travel = blend(low.share.travel, high.share.travel);
    e.share.waterline = blend(low.share.waterline, high.share.waterline);
    e.share.height = pivot + turned(e.share);
    e.own = e.share.height;
    return e;
}

std::string percent(double share) { return document::format_quanta(share * 1e6, Dimension::ratio, document::UnitSystem::si, 2); }
std::string percent(Interval share) {
    return percent(share.lo) == percent(share.hi) ? percent(share.lo) : percent(share.lo) + " to " + percent(share.hi);
}

}  // namespace

std::string shown_by_glass(Site const& site, WalkModel const& model, Elevation const& e, Device const* falling) {
    auto const& glass = model.glass;
    if (!glass) return model.has_glass ? "unknown" : "no glass";
    bool const together = e.station >= 0 && e.rod == 0 && e.station == glass->low.station;
    auto at = [&](Elevation const& x) { return together ? without_mounting(x) : level_range(site, x); };
    Interval const fallen = falling && falling->delay ? falling->delay->fall(level_range(site, e)) : Interval{0};
    auto const level = at(e) - fallen, low = at(glass->low), high = at(glass->high);
    if (!is_known(level)) return "unknown";
    if (level.lo >= low.hi && level.hi <= high.lo) return "yes";
    return level.hi < low.lo || level.lo > high.hi ? "no" : "perhaps";
}

std::vector<ValvePoint> valve_points(Site const& site, Device const& slide, LevelWords const& words, World world) {
    std::vector<ValvePoint> out;
    for (double share : {0.0, 0.25, 0.5, 0.75, 1.0}) {
        auto const e = between(slide.levels.falling, slide.levels.rising, share);
        bool const never = share > slide.reach.highest.hi || share < slide.reach.lowest.lo;
        bool const perhaps = share > slide.reach.highest.lo || share < slide.reach.lowest.hi;
        auto const level = words.level(level_in(site, e, slide.falling_key(), world), level_range(site, e));
        out.push_back({percent(1 - share) + " open", never ? "the float does not reach it" : perhaps ? level + ", if the float reaches it" : level});
    }
    return out;
}

std::string valve_band(Device const& slide) {
    if (slide.acts != Device::Acts::slides || !slide.reach.known) return {};
    auto const& r = slide.reach;
    Interval const widest{1 - r.lowest.hi, 1 - r.lowest.lo}, least{1 - r.highest.hi, 1 - r.highest.lo};
    if (widest == Interval{1} && least == Interval{0}) return "the float sweeps the whole slide-wire: the feed valve goes from wide open to shut";
    return "the feed valve can open to " + percent(widest) + " and close to " + percent(least) + " open, and no further";
}

std::string output_label(Case const& c, OutputRef output, Assignment const& parts) {
    return output.position < 0 ? "none" : Explainer(c.judge, parts, c.changed, Units::us).output_name(output);
}

LevelWalk describe_walk(Case const& c, WalkModel const& model, Units units, World world) {
    auto const& site = c.judge.site();
    LevelWords const words(units);
    LevelWalk out;
    out.events = Narrator(c, model, units, world).events();
    out.faults = faults_of(c, model, units);
    for (auto const& d : model.devices)
        if (d.wired() && d.acts == Device::Acts::slides) {
            out.valve = valve_points(site, d, words, world);
            out.valve_band = valve_band(d);
        }
    if (model.glass)
        out.glass = words.at(level_in(site, model.glass->low, 0, {})) + " to " + words.at(level_in(site, model.glass->high, 0, {}));
    return out;
}

LevelWalk walk(Catalog const& catalog, Site const& site, std::vector<std::pair<std::string, std::string>> const& put,
               Units units, World world) {
    Case const c(catalog, site, put);
    return describe_walk(c, walk_model(c), units, world);
}

}  // namespace levelswap
