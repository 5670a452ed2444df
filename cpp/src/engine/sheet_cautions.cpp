#include "sheet_rows.hpp"

#include <algorithm>

namespace levelswap {

namespace {

/// What the work touches decides what is said; nothing is said about work that this swap does not need.
class Cautions {
public:
    Cautions(Case const& c, LevelWords const& words) : c_(c), site_(c.judge.site()), words_(words) {}

    std::vector<SheetCaution> all() {
        say("any work",
            "Low-water cut-offs are safety devices. The boiler's data plate, the part maker's instructions, the authority "
            "having jurisdiction and a licensed technician decide; this is advice from the data given.");
        pressure_part();
        hot_holder();
        live_exchange();
        electric();
        mercury();
        hydrotest();
        return std::move(out_);
    }

private:
    void say(std::string work, std::string text) { out_.push_back({std::move(work), std::move(text)}); }
    bool changed(int p) const { return c_.changed >> p & 1u; }
    Position const& position(int p) const { return site_.positions[static_cast<std::size_t>(p)]; }
    int count() const { return static_cast<int>(site_.positions.size()); }

    std::string names(auto const& wanted) const {
        std::string text;
        for (int p = 0; p < count(); ++p)
            if (changed(p) && wanted(position(p).role)) text += (text.empty() ? "" : ", ") + position(p).name;
        return text;
    }
    static bool holds_pressure(Role r) { return opens_water_side(r); }
    static bool is_bolted(Role r) { return r == Role::head || r == Role::column || r == Role::float_; }

    void pressure_part() {
        auto const parts = names(holds_pressure);
        if (parts.empty()) return;
        if (is_tank(site_)) {
            say("tank", parts + ": on a feed tank. Lock out the water supply and drain below the joint; hot water scalds. Nobody "
                                "reaches or climbs in until the tank is ventilated and checked: it is a confined space.");
            return;
        }
        auto const* mawp = site_.vessel.find(Attribute::mawp);
        std::string const pressure = mawp->nature == Fact::Nature::unknown ? "" : " (MAWP " + words_.quantity({mawp->lo, mawp->hi}, Dimension::pressure_gauge) + ")";
        say("pressure part", parts + ": part of the boiler under pressure" + pressure +
                                 ". Cool, vent and drain below the joint; lock out fuel, electricity, feed and any common steam "
                                 "line before a joint is loosened. " +
                                 (names(is_bolted).empty() ? "New gasket, or clean threads and fresh sealant, as the joint is." : "New gasket; bolts drawn up crosswise."));
    }

    void hot_holder() {
        auto const parts = names([](Role r) { return r == Role::probe_holder; });
        if (!parts.empty()) say("probe", parts + ": the holder is as hot as the water behind it, and its terminal is live until the relay is dead.");
    }

    void live_exchange() {
        auto const parts = names([](Role r) { return r == Role::switch_half; });
        if (parts.empty() || !names(holds_pressure).empty()) return;
        say("live exchange", parts + " can be exchanged with pressure on the boiler, never with the burner able to start: a "
                             "switch half that is off is a cut-off that is missing. Lock the burner out. The tube and the column burn.");
    }

    /// Work on a station comes to the wires of what hangs there: a head or a column only comes away with its set. A glass
    /// and a float valve have none.
    bool works_on(int station) const {
        auto wired = [](Role r) { return r != Role::glass && r != Role::float_valve; };
        for (int p = 0; p < count(); ++p)
            if (changed(p) && position(p).station == station && station >= 0 && wired(position(p).role)) return true;
        return false;
    }

    /// What has wires in a feed line, or carries what has: an actuator comes off with its valve, a motor with its pump.
    bool works_on_line(int line) const {
        auto wired = [](Role r) { return r == Role::solenoid_valve || r == Role::actuator || r == Role::feed_valve || r == Role::pump; };
        for (int p = 0; p < count(); ++p)
            if (changed(p) && line >= 0 && position(p).line == line && wired(position(p).role)) return true;
        return false;
    }

    /// Circuits whose wires are touched: those of a changed part, and those of every output on a changed station, as they
    /// are wired now and as they will be.
    bool touches(int circuit) const {
        for (int p = 0; p < count(); ++p)
            if (changed(p) && position(p).circuit == circuit) return true;
        if (works_on_line(site_.circuits[static_cast<std::size_t>(circuit)].line)) return true;
        for (std::size_t f = 0; f < site_.functions.size(); ++f) {
            if (site_.functions[f].circuit != circuit) continue;
            int const now = site_.functions[f].now.position;
            int const then = c_.judgement_after.wiring ? c_.judgement_after.wiring->output[f].position : -1;
            for (int const p : {now, then})
                if (p >= 0 && works_on(position(p).station)) return true;
        }
        return false;
    }

    static constexpr double extra_low = 50'000;   ///< mV; of alternating current (IEC 60364-4-41, from memory)

    void electric() {
        std::string lines;
        bool mains = false;
        bool relays = false;
        std::uint64_t sources = 0;
        for (int i = 0; i < static_cast<int>(site_.circuits.size()); ++i) {
            if (!touches(i)) continue;
            auto const& circuit = site_.circuits[static_cast<std::size_t>(i)];
            auto const* volts = circuit.facts.find(Attribute::supply);
            auto const source = circuit.facts.find(Attribute::source)->may;
            mains |= volts->hi > extra_low;
            sources |= source;
            lines += (lines.empty() ? "" : "; ") + circuit.name + " " + words_.quantity({volts->lo, volts->hi}, Dimension::voltage) +
                     " on supply " + words_of_bits(Attribute::source, source);
        }
        for (int s = 0; s < static_cast<int>(site_.stations.size()); ++s) {   // of a probe relay
            auto const& station = site_.stations[static_cast<std::size_t>(s)];
            auto const* volts = station.facts.find(Attribute::supply);
            int const relay = station.positions[static_cast<std::size_t>(Role::probe_relay)];
            auto holds = [&](Assignment const& parts) { return relay >= 0 && parts[static_cast<std::size_t>(relay)] != nothing; };
            if ((!holds(c_.before) && !holds(c_.after)) || !works_on(s) || volts->nature == Fact::Nature::none) continue;
            mains |= volts->hi > extra_low;
            relays = true;
            lines += (lines.empty() ? "" : "; ") + std::string("relay of ") + station.name + " " + words_.quantity({volts->lo, volts->hi}, Dimension::voltage);
        }
        if (lines.empty()) return;
        bool const several = (sources & (sources - 1)) != 0, perhaps = relays && sources != 0;   // of a relay no site says which supply
        say("switch", std::string(mains ? "Mains voltage. " : "") + "Wires touched: " + lines + ". " +
                          (several   ? "There is more than one supply in the enclosure: isolate each and prove each dead."
                           : perhaps ? "There may be more than one supply in the enclosure: isolate each and prove each dead."
                                   : "Isolate it and prove it dead."));
    }

    bool may_hold_mercury(int part) const {
        if (part == nothing) return false;
        auto const* fact = c_.judge.catalog().parts[static_cast<std::size_t>(part)].facts.find(Attribute::mercury);
        return fact && (fact->may & bits<Attribute::mercury>("yes"));
    }

    void mercury() {
        std::string parts;
        for (int p = 0; p < count(); ++p)
            for (int part : {c_.before[static_cast<std::size_t>(p)], c_.after[static_cast<std::size_t>(p)]})
                if (changed(p) && may_hold_mercury(part))
                    parts += (parts.empty() ? "" : ", ") + part_name(c_.judge.catalog(), part);
        if (!parts.empty())
            say("mercury", parts + ": holds mercury, or may. Do not break the tube; keep it level in a closed box and hand it over for lawful disposal.");
    }

    void hydrotest() {
        auto const* out = site_.vessel.find(Attribute::float_out_for_test);
        if (names(holds_pressure).empty() || out->may != bits<Attribute::float_out_for_test>("yes")) return;
        auto const* test = site_.vessel.find(Attribute::hydrotest);
        if (test->hi <= 0) return;   // an open tank is not tested
        say("hydrotest", "Floats out before the hydrostatic test at " + words_.quantity({test->lo, test->hi}, Dimension::pressure_gauge) +
                             "; back in before the boiler is filled.");
    }

    Case const& c_;
    Site const& site_;
    LevelWords const& words_;
    std::vector<SheetCaution> out_;
};

}  // namespace

std::vector<SheetCaution> sheet_cautions(Case const& c, LevelWords const& words) { return Cautions(c, words).all(); }

}  // namespace levelswap
