#include "consequences.hpp"
#include "sheet_rows.hpp"

#include <array>

namespace levelswap {

namespace {

constexpr std::array rod_names = {"", "low", "middle", "high"};

/// What is set or cut beside the mountings, with the numbers that the rules have worked out.
class Adjustments {
public:
    explicit Adjustments(SheetCase const& s) : s_(s) {}

    std::vector<std::string> all() {
        regulators();
        signals();
        delays();
        rods();
        overloads();
        return std::move(out_);
    }

private:
    /// A contactor that is new is set to the motor that is there.
    void overloads() {
        auto const& site = s_.site();
        for (std::size_t p = 0; p < site.positions.size(); ++p) {
            auto const& position = site.positions[p];
            int const part = s_.c.after[p];
            if (!(s_.c.changed >> p & 1u) || position.role != Role::contactor || part == nothing) continue;
            auto const& facts = s_.c.judge.catalog().parts[static_cast<std::size_t>(part)].facts;
            if (facts.find(Attribute::overload)->may != bits<Attribute::overload>("yes")) continue;
            auto const* plate = s_.c.judge.circuit_fact(position.circuit, Attribute::load_motor_running);
            if (plate->nature == Fact::Nature::none) continue;
            out_.push_back("overload of " + position.name + ": set to the full-load current on the motor's plate" +
                           (plate->nature == Fact::Nature::unknown ? "" : ", " + s_.words.quantity({plate->lo, plate->hi}, Dimension::current)) + ".");
        }
    }

    /// The window of the set pressure, and what it makes of the pressure behind the valve: set less droop while the
    /// demand flows, set and lock-up when nothing flows.
    void regulators() {
        for (auto const& p : set_pressures(s_.c)) {
            Stand stand;
            stand.position = p.position;
            auto const* droop = s_.c.judge.fact({From::part, Attribute::droop}, stand, s_.c.after, nullptr);
            auto const* lock_up = s_.c.judge.fact({From::part, Attribute::lock_up}, stand, s_.c.after, nullptr);
            Interval const set = p.window;
            std::string text = "set pressure of the " + p.valve + ", read beside it: " + pressure(set);
            if (droop && lock_up)
                text += "; set less droop, " + pressure({set.lo - droop->hi, set.hi - droop->lo}) + " while the demand flows; set and lock-up, " +
                        pressure({set.lo + lock_up->lo, set.hi + lock_up->hi}) + " when nothing flows";
            out_.push_back(text + ". Set while it flows, look again when nothing flows.");
        }
    }
    std::string pressure(Interval quanta) const { return s_.words.quantity(quanta, Dimension::pressure_gauge); }

    void signals() {
        for (auto const& d : s_.model.devices) {
            if (!d.wired() || s_.kind(d) != Owner::transmitter) continue;
            auto const* at = s_.fact(d, From::station, Attribute::calibrated_pressure);
            std::string text = "signal of the " + std::string(words_of(d.duty)) + ": " + s_.signal(d);
            if (at && at->nature != Fact::Nature::unknown && at->nature != Fact::Nature::none)
                text += "; calibrated for a boiler at " + pressure({at->lo, at->hi});
            if (auto const by = s_.calibration(d); !by.empty()) text += "; pressure difference " + by;
            if (auto const off = s_.shows_off(d); !off.empty()) text += "; " + off;
            out_.push_back(text + ".");
        }
    }

    void delays() {
        for (auto const& d : s_.model.devices) {
            if (!d.wired() || !d.delay || !d.delay->facts.known) continue;
            std::string text = "delay of the " + std::string(words_of(d.duty)) + ": " + s_.words.quantity(d.delay->time, Dimension::time);
            auto const range = acting_range(s_.site(), d);
            bool const falls = d.delay->at_full_fire && d.delay->fall(level_range(s_.site(), d.levels.falling)).hi > 0;
            if (d.cut_off() && falls && is_known(range))
                text += "; at full fire the water may be down to " + s_.words.at(range.lo) + " when it has acted";
            out_.push_back(text + ".");
        }
    }

    /// Of every rod that an output acts on: from the connection down to its tip.
    void rods() {
        for (int station = 0; station < static_cast<int>(s_.site().stations.size()); ++station)
            for (int rod = 1; rod < static_cast<int>(rod_names.size()); ++rod)
                if (used(station, rod)) length_of(station, rod);
    }
    bool used(int station, int rod) const {
        for (auto const& d : s_.model.devices)
            for (auto const* e : {&d.levels.falling, &d.levels.rising})
                if (d.wired() && e->station == station && e->rod == rod) return true;
        return false;
    }
    void length_of(int station, int rod) {
        auto const& place = s_.site().stations[static_cast<std::size_t>(station)];
        auto const* tip = place.facts.find(hangs_on[static_cast<std::size_t>(rod)]);
        auto const* face = place.facts.find(hangs_on[0]);
        Interval const at{tip->lo, tip->hi}, from{face->lo, face->hi};
        if (tip->nature == Fact::Nature::none || !is_known(at) || !is_known(from)) return;
        auto const length = from - at;
        out_.push_back("length of the " + std::string(rod_names[static_cast<std::size_t>(rod)]) + " rod at " + place.name + ": " +
                       s_.words.level(length.middle(), length) + " from the face of the connection down to its tip at " +
                       s_.words.level(at.middle(), at) + ".");
    }

    SheetCase const& s_;
    std::vector<std::string> out_;
};

}  // namespace

std::vector<std::string> sheet_adjustments(SheetCase const& s) { return Adjustments(s).all(); }

}  // namespace levelswap
