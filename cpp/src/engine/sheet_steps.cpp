#include "sheet_rows.hpp"

#include <algorithm>

namespace levelswap {

namespace {

/// The steps that apply to this assembly, with its levels: a duty that nothing performs has no check. After any swap a
/// functional test by lowering the level under supervision, without losing it from the glass: UK guidance BG01 8.3
/// (read in its public text). What the lockout must bear: ASME CSD-1 CW-140 (from memory).
class Steps {
public:
    explicit Steps(SheetCase const& s) : s_(s) {}

    std::vector<SheetStep> all() {
        prepare();
        meter_dead();
        low_fire();
        lower();
        restore();
        second_cut_off();
        high_water();
        blow_down();
        finish();
        return std::move(steps_);
    }

private:
    using Checks = std::vector<SheetCheck>;

    void add(int number, std::string title, Checks checks) {
        if (!checks.empty()) steps_.push_back({number, std::move(title), std::move(checks)});
    }
    static std::string name(Device const& d) { return std::string(words_of(d.duty)); }
    std::string label(Device const& d) const { return output_label(s_.c, d.output, s_.c.after); }
    Device const* find(Duty duty) const { return s_.find(duty); }

    [[nodiscard]] bool tank() const { return is_tank(s_.site()); }
    /// A valve that its own float moves: no contact, no wires.
    [[nodiscard]] bool mechanical(Device const& d) const {
        auto const* acts = s_.fact(d, From::output, Attribute::acts);
        return acts && acts->may == bits<Attribute::acts>("feeds_on_fall");
    }

    void prepare() {
        if (tank())
            return add(0, "Before anything",
                       {{"Nothing is bypassed, and no valve stands open by hand.", "", ""},
                        {"The overflow is free, and a second person stands at the valve of the water supply.", "", ""},
                        {"Temporary wires put in for the test counted and listed.", "", "count"},
                        {"Why the old part was replaced. Find out what made it fail: dirt, hot returns, pressure.", "", "reason"}});
        add(0, "Before anything",
            {{"Nothing is bypassed: every jumper across a cut-off is out before the test begins.", "", ""},
             {"Gauge glass blown down; the water comes back at once and stands true.", "", ""},
             {"A second person stands at the glass for the whole test, with the burner's switch in reach.", "", ""},
             {"Temporary wires put in for the test counted and listed.", "", "count"},
             {"Why the old part was replaced. A cut-off never causes the low water: find out why the water went.", "", "reason"}});
    }

    void meter_dead() {
        Checks checks;
        for (auto const& d : s_.model.devices) {
            if (!d.wired()) continue;
            if (mechanical(d))
                checks.push_back({"Water supply on; the float of " + label(d) + " lowered, then raised by hand.", "opens, then shuts tight", ""});
            else if (d.acts == Device::Acts::slides)
                checks.push_back({"Ohmmeter on " + label(d) + ": the float taken slowly from its low to its high stop, the reading follows without a gap.",
                                  s_.words.quantity(resistance(d), Dimension::resistance), "reading"});
            else
                checks.push_back({"Meter on " + label(d) + " (" + name(d) + "): " + moved(d),
                                  d.acts == Device::Acts::opens ? "opens falling, closes rising" + after_reset(d)
                                                                : "closes falling, opens rising" + after_reset(d), ""});
        }
        add(1, tank() ? "Cold: every supply isolated and proved dead" : "Dead and cold: fuel shut, every supply isolated and proved dead",
            std::move(checks));
    }
    /// A probe has no float: an open wire stands for dry, a grounded one for wet.
    std::string moved(Device const& d) const {
        int const held = s_.c.after[static_cast<std::size_t>(d.output.position)];
        bool const probe = s_.c.judge.catalog().parts[static_cast<std::size_t>(held)].kind == Owner::probe_relay;
        return probe ? "each probe wire opened, then grounded at its holder." : "the float lowered, then raised.";
    }
    Interval resistance(Device const& d) const {
        auto const* f = s_.fact(d, From::output, Attribute::resistance);
        return f ? Interval{f->lo, f->hi} : Interval{0};
    }
    static std::string after_reset(Device const& d) { return d.manual == Truth::holds ? " once reset is pressed" : ""; }

    void low_fire() {
        Checks checks;
        if (auto const* pump = find(Duty::pump)) {
            checks.push_back({"Let the water fall: the pump starts.", s_.falling(*pump), "level"});
            checks.push_back({"Let the pump run: the pump stops.", s_.rising(*pump), "level"});
        }
        if (auto const* make_up = find(Duty::make_up)) {
            checks.push_back({"Let the water fall: filling starts.", s_.falling(*make_up), "level"});
            checks.push_back({"Let it fill: filling stops, and nothing runs on.", s_.rising(*make_up), "level"});
        }
        if (auto const* feed = find(Duty::modulating_feed)) {
            checks.push_back({"Water low in its band: the feed valve is seen wide open.", s_.falling(*feed), "level"});
            checks.push_back({"Water high in its band: the feed valve is seen shut.", s_.rising(*feed), "level"});
        }
        for (auto const& d : s_.model.devices)
            if (d.wired() && d.cut_off() && d.trips_wet != Truth::fails)
                checks.push_back({"Power off and on again with the water up: the " + name(d) + " locks out although it is wet.",
                                  d.trips_wet == Truth::holds ? "open until reset is pressed" : "not known whether it opens; write down what it does",
                                  d.trips_wet == Truth::holds ? "" : "reading"});
        add(2, tank() ? "In service" : "Hot, at low fire", std::move(checks));
    }

    void lower() {
        Checks checks;
        if (auto const* alarm = find(Duty::low_alarm)) checks.push_back({"The low alarm sounds.", s_.falling(*alarm), "level"});
        auto const* first = find(Duty::primary_cut_off) ? find(Duty::primary_cut_off) : find(Duty::secondary_cut_off);
        if (first) checks.push_back({"The " + name(*first) + " acts: the fuel valves are SEEN shut and the flame is out.", s_.falling(*first), "level"});
        add(3, "Feed off, low fire, the water lowered slowly and never out of the glass", std::move(checks));
    }

    void restore() {
        Checks checks;
        auto const* primary = find(Duty::primary_cut_off);
        if (primary && primary->manual == Truth::fails)
            checks.push_back({"The primary low-water cut-off resets by itself; the burner makes a full purge before it lights.", s_.rising(*primary), "level"});
        else if (primary)
            checks.push_back({"The primary low-water cut-off stays open until reset is pressed above its level; then a full purge.", s_.rising(*primary), "level"});
        if (auto const* alarm = find(Duty::low_alarm)) checks.push_back({"The low alarm clears.", s_.rising(*alarm), "level"});
        add(4, "Feed on again", std::move(checks));
    }

    void second_cut_off() {
        auto const* d = find(Duty::secondary_cut_off);
        if (!d || !find(Duty::primary_cut_off)) return;
        Checks checks = {{"Feed off. The primary acts; the water is lowered further with the burner off. The secondary contact opens: seen on a meter or its lamp.", s_.falling(*d), "level"}};
        if (d->manual == Truth::fails) {
            checks.push_back({"Feed on: the secondary contact closes by itself.", s_.rising(*d), "level"});
        } else {
            checks.push_back({"Reset pressed and held while the water is low.", "the contact stays open", ""});
            checks.push_back({"Feed on: the water is back above the secondary's reset level.", "the contact stays open; level " + s_.rising(*d), "level"});
            checks.push_back({"Power off and on again.", "the contact stays open", ""});
            checks.push_back({"Reset pressed.", "the contact closes; full purge once every cut-off is closed", ""});
        }
        add(5, "Secondary low-water cut-off", std::move(checks));
    }

    void high_water() {
        Checks checks;
        if (auto const* alarm = find(Duty::high_alarm)) {
            if (auto const* pump = find(Duty::pump)) checks.push_back({"The pump stops before the high alarm sounds.", s_.rising(*pump), "level"});
            checks.push_back({"Feed by hand, burner at low fire: the high alarm sounds.", s_.rising(*alarm), "level"});
            checks.push_back({"Water drawn down again: the high alarm clears.", s_.falling(*alarm), "level"});
        }
        add(6, "High water", std::move(checks));
    }

    void blow_down() {
        Checks checks;
        for (auto const& station : s_.site().stations) {
            int const column = station.positions[static_cast<std::size_t>(Role::column)];
            if (column < 0 || s_.c.after[static_cast<std::size_t>(column)] == nothing) continue;
            checks.push_back({"Column " + station.name + ": drain opened quickly at low fire, then shut.",
                              cuts_off(station) ? "the burner goes off at once" : "the water leaves and comes back at once", ""});
        }
        add(7, "Quick blow-down of each column: it proves that the lines are clear, not the level", std::move(checks));
    }
    bool cuts_off(Station const& station) const {
        return std::any_of(s_.model.devices.begin(), s_.model.devices.end(), [&](Device const& d) {
            if (!d.wired() || !d.cut_off()) return false;
            int const at = s_.site().positions[static_cast<std::size_t>(d.output.position)].station;
            return at >= 0 && s_.site().stations[static_cast<std::size_t>(at)].name == station.name;
        });
    }

    void finish() {
        add(8, "Finish",
            {{"Every jumper and temporary wire removed; counted against step 0.", "the same count", "count"},
             {"Covers on, settings marked, this sheet kept with the boiler's log.", "", ""},
             {"Tested by.", "", "name"},
             {"Seen by the second person.", "", "name"},
             {"Date and time.", "", "date"}});
    }

    SheetCase const& s_;
    std::vector<SheetStep> steps_;
};

}  // namespace

std::string abort_rule() {
    return "If the level goes out of sight: burner off, never feed, let the boiler cool. The test is over.";
}

std::vector<SheetStep> proving_steps(SheetCase const& s) { return Steps(s).all(); }

}  // namespace levelswap
