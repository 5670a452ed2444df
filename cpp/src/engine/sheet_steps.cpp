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
        powered();
        water_on();
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

    /// Steps are numbered as they stand: one that this assembly does not need leaves no gap.
    void add(std::string title, Checks checks) {
        if (!checks.empty()) steps_.push_back({static_cast<int>(steps_.size()), std::move(title), std::move(checks)});
    }
    static std::string name(Device const& d) { return std::string(words_of(d.duty)); }
    std::string label(Device const& d) const { return output_label(s_.c, d.output, s_.c.after); }
    Device const* find(Duty duty) const { return s_.find(duty); }

    /// Where there is none, as on a hot-water boiler, a clear hose on the drain stands in for it: common practice, no source.
    [[nodiscard]] bool glass() const { return s_.model.has_glass; }
    [[nodiscard]] bool tank() const { return is_tank(s_.site()); }
    void prepare() {
        if (tank())
            return add("Before anything",
                       {{"Nothing is bypassed, and no valve stands open by hand.", "", ""},
                        {"The overflow is free, and a second person stands at the valve of the water supply.", "", ""},
                        {"A sight tube or a dip stick shows the level, measured from the datum of this sheet.", "", ""},
                        {"Temporary wires put in for the test counted and listed.", "", "count"},
                        {"Why the old part was replaced. Find out what made it fail: dirt, hot returns, pressure.", "", "reason"}});
        std::string const watched = glass() ? "glass" : "hose";
        add("Before anything",
            {{"Nothing is bypassed: every jumper across a cut-off is out before the test begins.", "", ""},
             glass() ? SheetCheck{"Gauge glass blown down; the water comes back at once and stands true.", "", ""}
                     : SheetCheck{"No glass: the boiler cooled, shut off from its system and vented; a clear hose on its drain, led up beside it with its end open, shows the level.",
                                  "the level in the hose follows when a little water is let out", ""},
             {"A second person stands at the " + watched + " for the whole test, with the burner's switch in reach.", "", ""},
             {"Temporary wires put in for the test counted and listed.", "", "count"},
             {"Why the old part was replaced. A cut-off never causes the low water: find out why the water went.", "", "reason"}});
    }

    [[nodiscard]] bool needs_power(Device const& d) const {
        return s_.kind(d) == Owner::probe_relay || s_.kind(d) == Owner::transmitter;
    }

    /// What can be measured with every supply off: dry contacts, slide-wires, and the wires of what has electronics.
    void meter_dead() {
        Checks checks;
        std::vector<int> wires_done;
        for (auto const& d : s_.model.devices) {
            if (!d.wired() || d.acts == Device::Acts::feeds) continue;
            if (s_.kind(d) == Owner::probe_relay) {
                if (std::find(wires_done.begin(), wires_done.end(), d.output.position) != wires_done.end()) continue;
                wires_done.push_back(d.output.position);
                checks.push_back({"The water let down below every rod of " + position(d) + ", the rods wiped dry.", "", ""});
                checks.push_back({"Ohmmeter on each probe wire of " + position(d) + ", from the relay's terminal to its rod, the rod dry.",
                                  "through to its own rod; no path to ground or to another wire", "reading"});
                checks.push_back({"Ohmmeter from the reference terminal of " + position(d) + " to the metal of the vessel, or to the reference rod.",
                                  "through: without the way back no rod is felt", "reading"});
            } else if (s_.kind(d) == Owner::transmitter) {
                if (s_.choice(d, Attribute::low_leg, From::station) == "wet")
                    checks.push_back({"The wet leg of " + position(d) + " filled to its pot before any steam comes on.",
                                      "full; a leg that has lost half its water shows water that is not there", ""});
                checks.push_back({"Ohmmeter across the open loop of " + position(d) + ": wire and inputs.", loop(d), "reading"});
            } else if (d.acts == Device::Acts::slides) {
                checks.push_back({"Ohmmeter on " + label(d) + ": the float taken slowly from its low to its high stop, the reading follows without a gap.",
                                  s_.words.quantity(resistance(d), Dimension::resistance) + " from end to end", "reading"});
            } else {
                checks.push_back({"Meter on " + label(d) + " (" + name(d) + "): the float lowered, then raised.", moves(d), ""});
            }
        }
        add(tank() ? "Cold: every supply isolated and proved dead" : "Dead and cold: fuel shut, every supply isolated and proved dead",
            std::move(checks));
    }

    /// What needs its own supply to act, while nothing that it switches can: the load circuits stay isolated.
    void powered() {
        Checks checks;
        for (auto const& d : s_.model.devices) {
            if (!d.wired()) continue;
            if (s_.kind(d) == Owner::probe_relay) probe(checks, d);
            else if (s_.kind(d) == Owner::transmitter)
                checks.push_back({"Milliammeter in the loop of " + label(d) + ": the pressures of its two calibrated levels put on, one after the other.",
                                  s_.signal(d) + (s_.calibration(d).empty() ? "" : "; " + s_.calibration(d)), "reading"});
            if (s_.kind(d) == Owner::transmitter) {
                auto const word = s_.choice(d, Attribute::broken_wire);
                checks.push_back({"The loop of " + label(d) + " opened at its terminals, then closed.", word == "-" || word == "not known" ? "note what the valve does" : word, ""});
            }
        }
        auto const hangs_rods = [&](Device const& d) { return d.wired() && s_.kind(d) == Owner::probe_relay; };
        if (!tank() && std::any_of(s_.model.devices.begin(), s_.model.devices.end(), hangs_rods))   // a tank fills as it is put in service
            checks.push_back({"The water let in again to its normal level, before any fuel is on.", "", ""});
        add(std::string("Powered, ") + (tank() ? "water supply" : "fuel") + " still shut: the electronics only, the circuits that they switch still isolated",
            std::move(checks));
    }

    /// A resistor of half the threshold stands for the water (common practice, no source). A wire that is broken or
    /// grounded is tried while the contact is closed, and does what its own facts say.
    void probe(Checks& checks, Device const& d) const {
        std::string const contact = "Meter on the contact of " + label(d) + " (" + name(d) + "): ";
        auto const* f = s_.fact(d, From::probe_relay, Attribute::threshold);
        std::string const resistor = f && f->nature == Fact::Nature::uncertain ? "of " + s_.words.quantity(Interval{0.5 * f->lo}, Dimension::resistance)
                                                                               : std::string("well below its threshold");
        std::string const press = d.manual == Truth::fails ? "" : ", reset pressed";
        bool const opens = d.acts == Device::Acts::opens;
        SheetCheck const on{contact + "a resistor " + resistor + " held from each dry rod to the metal, the lowest first, and left there" + press + ".",
                            std::string(opens ? "closes" : "opens") + within(d), ""};
        SheetCheck const off{contact + "the resistors taken away, the highest first.", std::string(opens ? "opens" : "closes") + within(d), ""};
        std::string const meanwhile = opens ? ", the resistors on" : ", the resistors off";   // the contact closed: only then can it open
        checks.push_back(on);
        if (!opens) checks.push_back(off);
        checks.push_back({contact + "each probe wire taken off in turn" + meanwhile + "; put back" + press + ".", on_fault(d, Attribute::wire_open), ""});
        checks.push_back({contact + "each probe wire grounded at its holder in turn" + (press.empty() ? "" : press + " while it is") + "; free again" + press + ".",
                          on_fault(d, Attribute::wire_shorted), ""});
        if (opens) checks.push_back(off);
    }
    std::string on_fault(Device const& d, Attribute a) const {
        auto const word = s_.choice(d, a);
        if (word == "open" || word == "closed") return "contact " + word + within(d);
        return word == "as level" || word == "as_level" ? "as the water would have it" : "note what it does";
    }

    void water_on() {
        Checks checks;
        for (auto const& d : s_.model.devices)
            if (d.wired() && s_.kind(d) == Owner::float_valve)
                checks.push_back({"The float of " + label(d) + " lowered, then raised by hand.", "opens, then shuts tight", ""});
        add("Water supply on", std::move(checks));
    }

    std::string position(Device const& d) const { return s_.site().positions[static_cast<std::size_t>(d.output.position)].name; }
    static std::string moves(Device const& d) {
        return (d.acts == Device::Acts::opens ? "opens falling, closes rising" : "closes falling, opens rising") + after_reset(d);
    }
    std::string within(Device const& d) const {
        return d.delay ? ", each after " + s_.words.quantity(d.delay->time, Dimension::time) : std::string();
    }
    std::string loop(Device const& d) const {
        auto const* f = s_.fact(d, From::circuit, Attribute::loop_resistance);
        return !f || f->nature == Fact::Nature::unknown || f->nature == Fact::Nature::none
                   ? "what the transmitter's supply allows for"
                   : s_.words.quantity({f->lo, f->hi}, Dimension::resistance);
    }
    Interval resistance(Device const& d) const {
        auto const* f = s_.fact(d, From::output, Attribute::resistance);
        return f ? Interval{f->lo, f->hi} : Interval{0};
    }
    static std::string after_reset(Device const& d) { return d.manual == Truth::holds ? " once reset is pressed" : ""; }
    std::string falling(Device const& d) const { return s_.falling(d) + s_.lateness(d); }
    std::string rising(Device const& d) const { return s_.rising(d) + s_.lateness(d); }

    enum class Way : std::uint8_t { falling, rising };
    /// Nobody takes the water to where the glass does not show it.
    SheetCheck seen(std::string text, Device const& d, Way way) const {
        bool const up = way == Way::rising;
        if (shown_by_glass(s_.site(), s_.model, up ? d.levels.rising : d.levels.falling, up ? nullptr : &d) != "no")
            return {std::move(text), up ? rising(d) : falling(d), "level"};
        return {std::move(text), (up ? rising(d) : falling(d)) + ", which the glass does not show: left out, the water is never taken there", ""};
    }

    bool opened_a_joint() const {
        auto const& positions = s_.site().positions;
        for (std::size_t p = 0; p < positions.size(); ++p)
            if ((s_.c.changed >> p & 1u) && opens_water_side(positions[p].role)) return true;
        return false;
    }

    void low_fire() {
        Checks checks;
        if (opened_a_joint()) checks.push_back({"Every joint that was opened, looked at under pressure and hot.", "dry", ""});
        if (auto const* pump = find(Duty::pump)) {
            checks.push_back(seen("Let the water fall: the pump starts.", *pump, Way::falling));
            checks.push_back(seen("Let the pump run: the pump stops.", *pump, Way::rising));
        }
        if (auto const* make_up = find(Duty::make_up)) {
            checks.push_back(seen("Let the water fall: filling starts.", *make_up, Way::falling));
            checks.push_back(seen(make_up->acts == Device::Acts::feeds ? "Let it fill: the valve shuts tight, and nothing drips on."
                                                                       : "Let it fill: filling stops, and nothing runs on.",
                                  *make_up, Way::rising));
        }
        if (auto const* feed = find(Duty::modulating_feed)) {
            checks.push_back(seen("Water low in its band: the feed valve is seen wide open.", *feed, Way::falling));
            checks.push_back(seen("Water high in its band: the feed valve is seen shut.", *feed, Way::rising));
        }
        for (auto const& d : s_.model.devices)
            if (d.wired() && d.cut_off() && d.trips_wet != Truth::fails)
                checks.push_back({"Power off and on again with the water up: the " + name(d) + " locks out although it is wet.",
                                  d.trips_wet == Truth::holds ? "open until reset is pressed" : "not known whether it opens; write down what it does",
                                  d.trips_wet == Truth::holds ? "" : "reading"});
        add(tank() ? "In service" : glass() ? "Hot, at low fire" : "At low fire", std::move(checks));
    }

    Device const* first_cut_off() const {
        return find(Duty::primary_cut_off) ? find(Duty::primary_cut_off) : find(Duty::secondary_cut_off);
    }

    /// What a lockout must bear while the water is low, and once it is back: for every cut-off that may lock out.
    void held(Checks& checks, Device const& d) const {
        if (d.manual != Truth::fails)
            checks.push_back({"Reset of the " + name(d) + " pressed and held while the water is low.", "the contact stays open", ""});
    }
    void back(Checks& checks, Device const& d) const {
        if (d.manual == Truth::fails) {
            checks.push_back({"The " + name(d) + " resets by itself; the burner makes a full purge before it lights.", rising(d), "level"});
            return;
        }
        checks.push_back({"The water is back above the reset level of the " + name(d) + ", nobody has pressed reset.",
                          "the contact stays open; level " + s_.rising(d), "level"});
        checks.push_back({"Power off and on again.", "the contact stays open", ""});
        checks.push_back({"Reset pressed.", "the contact closes; full purge once every cut-off is closed", ""});
    }

    void lower() {
        Checks checks;
        if (auto const* alarm = find(Duty::low_alarm)) checks.push_back({"The low alarm sounds.", falling(*alarm), "level"});
        if (auto const* first = first_cut_off()) {
            checks.push_back({"The " + name(*first) + " acts: the fuel valves are SEEN shut and the flame is out.", falling(*first), "level"});
            held(checks, *first);
        }
        add(glass() ? "Feed off, low fire, the water lowered slowly and never out of the glass"
                    : "Feed off, burner called for at low fire, the water lowered slowly and never below what the hose shows",
            std::move(checks));
    }

    void restore() {
        Checks checks;
        if (auto const* first = first_cut_off()) back(checks, *first);
        if (auto const* alarm = find(Duty::low_alarm)) checks.push_back({"The low alarm clears.", rising(*alarm), "level"});
        add("Feed on again", std::move(checks));
    }

    void second_cut_off() {
        auto const* d = find(Duty::secondary_cut_off);
        if (!d || !find(Duty::primary_cut_off)) return;
        Checks checks = {{"Feed off. The primary acts; the water is lowered further with the burner off. The secondary contact opens: seen on a meter or its lamp.", falling(*d), "level"}};
        held(checks, *d);
        if (d->manual == Truth::fails) checks.push_back({"Feed on: the secondary contact closes by itself.", rising(*d), "level"});
        else back(checks, *d);
        if (find(Duty::primary_cut_off)->manual != Truth::fails)
            checks.push_back({"The primary low-water cut-off has locked out too: reset pressed once the water is back.", "its contact closes", ""});
        add("Secondary low-water cut-off", std::move(checks));
    }

    void high_water() {
        Checks checks;
        if (auto const* alarm = find(Duty::high_alarm)) {
            if (auto const* pump = find(Duty::pump)) checks.push_back(seen("The pump stops before the high alarm sounds.", *pump, Way::rising));
            checks.push_back(seen("Feed by hand, burner at low fire: the high alarm sounds.", *alarm, Way::rising));
            checks.push_back(seen("Water drawn down again: the high alarm clears.", *alarm, Way::falling));
        }
        add("High water", std::move(checks));
    }

    void blow_down() {
        Checks checks;
        for (int at = 0; at < static_cast<int>(s_.site().stations.size()); ++at) {
            auto const& station = s_.site().stations[static_cast<std::size_t>(at)];
            auto const kind = chamber(station);
            if (kind.empty()) continue;
            checks.push_back({kind + " " + station.name + ": drain opened quickly at low fire, then shut.", blown(at), ""});
        }
        add("Quick blow-down of each chamber: it proves that the lines are clear, not the level", std::move(checks));
    }
    bool holds(Station const& station, Role role) const {
        int const p = station.positions[static_cast<std::size_t>(role)];
        return p >= 0 && s_.c.after[static_cast<std::size_t>(p)] != nothing;
    }
    /// A column, or the chamber that a probe or a float control hangs in: one with a drain. Straight in the vessel
    /// there is nothing to blow down.
    std::string chamber(Station const& station) const {
        if (holds(station, Role::column)) return "Column";
        auto const* drain = station.facts.find(Attribute::drain_size);
        bool const drained = drain && drain->origin && drain->nature != Fact::Nature::none && drain->hi > 0;
        if (!drained) return {};
        if (holds(station, Role::probe_holder)) return "Probe chamber";
        return holds(station, Role::float_control) ? "Chamber of the float control at" : "";
    }
    std::string blown(int station) const {
        Device const* trips = nullptr;
        for (auto const& d : s_.model.devices)
            if (d.wired() && d.cut_off() && s_.site().positions[static_cast<std::size_t>(d.output.position)].station == station) trips = &d;
        if (!trips) return "the water leaves and comes back at once";
        return (trips->delay ? "the burner goes off within " + s_.words.quantity(Interval{trips->delay->time.hi}, Dimension::time)
                             : std::string("the burner goes off at once")) +
               (trips->manual == Truth::fails ? "" : "; reset pressed once the water is back");
    }

    void finish() {
        if (!tank() && !glass())
            add("Before it is in service again",
                {{"The hose taken off, drain and vent shut; the boiler filled, bled of air and opened to its system and its expansion tank before it fires.", "", ""}});
        add("Finish",
            {{tank() ? "Every temporary wire removed; counted against step 0." : "Every jumper and temporary wire removed; counted against step 0.",
              "the same count", "count"},
             {tank() ? "Covers on, settings marked, this sheet kept with the log of the plant." : "Covers on, settings marked, this sheet kept with the boiler's log.", "", ""},
             {"Tested by.", "", "name"},
             {"Seen by the second person.", "", "name"},
             {"Date and time.", "", "date"}});
    }

    SheetCase const& s_;
    std::vector<SheetStep> steps_;
};

}  // namespace

std::string abort_rule(Site const& site) {
    if (is_tank(site))
        return "If the tank overflows: shut its supply. If a boiler that it feeds loses its level from sight: burner off, never feed, "
               "let the boiler cool. The test is over.";
    return "If the level goes out of sight: burner off, never feed, let the boiler cool. The test is over.";
}

std::vector<SheetStep> proving_steps(SheetCase const& s) { return Steps(s).all(); }

}  // namespace levelswap
