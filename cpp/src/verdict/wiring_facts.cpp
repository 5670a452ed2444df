// Rules on the wiring as a whole have no operands of their own: what they read is listed here, once, for whoever takes
// the worlds apart and for whoever asks what to measure.
#include "levelswap/verdict/wiring_facts.hpp"

#include "fact_boxes.hpp"
#include "levelswap/rules/level_needs.hpp"
#include "levelswap/rules/signal_level.hpp"
#include "wiring.hpp"

#include <algorithm>

namespace levelswap {

namespace {

constexpr std::array stated = {
    Slot{From::output, Attribute::trip_at_mark}, Slot{From::output, Attribute::reset_at_mark}, Slot{From::output, Attribute::repeatability},
    Slot{From::head, Attribute::mark}, Slot{From::output, Attribute::trip_rod}, Slot{From::output, Attribute::reset_rod}};
constexpr std::array hanging = {Slot{From::station, Attribute::mounting}, Slot{From::station, Attribute::rod_low},
                                Slot{From::station, Attribute::rod_middle}, Slot{From::station, Attribute::rod_high}};
constexpr std::array marks = {Slot{From::glass, Attribute::visible_low}, Slot{From::vessel, Attribute::lpwl},
                              Slot{From::column, Attribute::tapping_water}, Slot{From::column, Attribute::tapping_steam},
                              Slot{From::probe_holder, Attribute::longest_rod}, Slot{From::probe_holder, Attribute::insertion}};
constexpr std::array rooms = {Slot{From::station, Attribute::room_in}, Slot{From::station, Attribute::room_out}};   // where a rod ends
/// What another column shifts: the height of its face, and of a glass that hangs on it.
constexpr std::array shifting = {Slot{From::column, Attribute::tapping_water}, Slot{From::column, Attribute::tapping_glass},
                                 Slot{From::station, Attribute::piping}};

class Facts {
public:
    enum class Each : std::uint8_t { once, reader };
    Facts(Judge const& judge, Assignment const& parts, bool open, Each each) : judge_(judge), parts_(parts), open_(open), each_(each) {}

    void add(std::span<Slot const> slots, Stand const& stand) {
        for (Slot const& slot : slots) {
            auto const key = judge_.key_of(slot, stand, parts_);
            Fact const* fact = key ? judge_.fact(slot, stand, parts_, nullptr) : nullptr;
            if (!fact || (open_ && !is_open(*fact, slot.attribute))) continue;
            if (each_ == Each::reader || std::none_of(found_.begin(), found_.end(), [&](ReadFact const& f) { return f.key == *key; }))
                found_.push_back({slot, stand, *key, fact});
        }
    }
    /// Where an output acts, above what it hangs on.
    void add_output(int function, OutputRef output) {
        Stand const stand = stand_of(judge_.site(), function, output);
        add(stated, stand);
        add(output_height_slots(), stand);
        if (of_a_transmitter(output)) add(signal_level_slots(), stand);
    }
    /// A pump or make-up may need a distance; what acts after a delay needs one from what comes next.
    void add_need(Duty duty, Stand const& stand) {
        add(delay_slots(), stand);
        if (duty == Duty::pump || duty == Duty::make_up) add(cycling_slots(), stand);
        if (duty == Duty::make_up) add(fill_slots(), stand);
    }
    /// Where what hangs on a station is.
    void add_place(Stand const& stand, std::span<Slot const> on = hanging) {
        add(on, stand);
        if (column_is_new(judge_.site(), stand.station, parts_)) add(shifting, stand);
    }
    /// Whether the row of a pack applies.
    void add_applicability() {
        for (Attribute const a : decides_packs) add(std::array{Slot{From::vessel, a}}, {});
    }
    std::vector<ReadFact> found() { return std::move(found_); }

private:
    [[nodiscard]] bool of_a_transmitter(OutputRef output) const {
        int const held = parts_[static_cast<std::size_t>(output.position)];
        return held != nothing && judge_.catalog().parts[static_cast<std::size_t>(held)].kind == Owner::transmitter;
    }

    Judge const& judge_;
    Assignment const& parts_;
    bool open_;
    Each each_;
    std::vector<ReadFact> found_;
};

}  // namespace

std::vector<ReadFact> open_facts_of_levels(Judge const& judge, Assignment const& parts, std::vector<OutputRef> const& outputs) {
    Facts facts(judge, parts, true, Facts::Each::reader);
    for (std::size_t f = 0; f < outputs.size(); ++f) {
        facts.add_output(static_cast<int>(f), outputs[f]);
        facts.add_need(judge.site().functions[f].duty, stand_of(judge.site(), static_cast<int>(f), outputs[f]));
    }
    for (int s = 0; s < static_cast<int>(judge.site().stations.size()); ++s) {
        Stand stand;
        stand.station = s;
        facts.add(marks, stand);
        facts.add(rooms, stand);
        facts.add_place(stand);
    }
    return facts.found();
}

std::vector<ReadFact> facts_of_level(Judge const& judge, Assignment const& parts, Wiring const& wiring, LevelRule const& rule, bool open) {
    Facts facts(judge, parts, open, Facts::Each::once);
    auto const& site = judge.site();
    for (int const end : {rule.upper, rule.lower}) {
        auto const& e = wiring.elevations[static_cast<std::size_t>(end)];
        if (e.key >= 0) {
            int const f = e.key / 2;
            auto const output = wiring.output[static_cast<std::size_t>(f)];
            facts.add_output(f, output);
            facts.add_place(stand_of(site, f, output));
            if (!rule.need.empty()) facts.add_need(site.functions[static_cast<std::size_t>(f)].duty, stand_of(site, f, output));
            continue;
        }
        auto const [at, mark] = station_and_mark(e.key);
        Stand stand;
        stand.station = at;
        facts.add(std::span(marks).subspan(static_cast<std::size_t>(mark), 1), stand);
        if (marks[static_cast<std::size_t>(mark)].attribute == Attribute::longest_rod) facts.add(rooms, stand);
        if (e.station >= 0) facts.add_place(stand, std::span(hanging).first(1));
    }
    if (rule.doubtful) facts.add_applicability();
    return facts.found();
}

std::vector<ReadFact> facts_of_pair(Judge const& judge, Assignment const& parts, Wiring const& wiring, Judged const& rule, bool open) {
    Facts facts(judge, parts, open, Facts::Each::once);
    auto const id = rule_table()[static_cast<std::size_t>(rule.instance.rule)].id;
    for (int const f : {rule.first, rule.instance.stand.function}) {
        auto const stand = stand_of(judge.site(), f, wiring.output[static_cast<std::size_t>(f)]);
        auto read = [&](Slot slot) { facts.add(std::array{slot}, stand); };
        if (id == "roles.independent") read({From::station, Attribute::water_connection});
        else if (id == "roles.unlike_principles") read({From::output, Attribute::senses_by});
        else if (id == "contacts.common") read({From::output, Attribute::common}), read({From::circuit, Attribute::source});
    }
    if (rule.instance.doubtful) facts.add_applicability();
    return facts.found();
}

Wiring levels_of(Judge const& judge, Assignment const& parts, std::vector<OutputRef> const& outputs) {
    Wiring w;
    w.output = outputs;
    std::vector<Instance> const nothing_aside;
    LevelBuilder(judge, parts, false, nothing_aside).judge_levels(w);
    return w;
}

std::optional<LevelRule> level_of(Judge const& judge, Assignment const& parts, Wiring const& wiring, LevelRule const& rule) {
    Wiring w;
    w.output = wiring.output;
    std::uint64_t functions = 0;
    for (int const end : {rule.upper, rule.lower})
        if (int const key = wiring.elevations[static_cast<std::size_t>(end)].key; key >= 0) functions |= std::uint64_t{1} << (key / 2);
    std::vector<Instance> const nothing_aside;
    LevelBuilder(judge, parts, false, nothing_aside).list_levels(w, functions);
    auto const wanted = instance_of(rule, wiring.elevations);
    for (auto const& r : w.levels)
        if (instance_of(r, w.elevations) == wanted) return r;
    return std::nullopt;
}

Truth truth_of_pair(Judge const& judge, Assignment const& parts, Wiring const& wiring, Judged const& rule) {
    int const f = rule.first, g = rule.instance.stand.function;
    auto const rules = together(judge, parts, f, wiring.output[static_cast<std::size_t>(f)], g, wiring.output[static_cast<std::size_t>(g)]);
    Truth truth = Truth::holds;   // a row that does not apply any more asks nothing
    for (int i = 0; i < rules.count; ++i) {
        auto const& r = rules.rule[static_cast<std::size_t>(i)];
        bool const same = r.instance.rule == rule.instance.rule && r.instance.pack == rule.instance.pack && r.instance.row == rule.instance.row;
        if (same) truth = both(truth, r.truth);
    }
    return truth;
}

}  // namespace levelswap
