#include "sheet_rows.hpp"

#include "consequences.hpp"

#include <algorithm>

namespace levelswap {

namespace {

std::string level_of(Site const& site, LevelWords const& words, Elevation const& e, int key) {
    return words.level(level_in(site, e, key, {}), level_range(site, e));
}

/// A fact of the output that performs the duty now.
Fact const* old_fact(SheetCase const& s, int function, Attribute a) {
    Stand stand;
    stand.output = s.site().functions[static_cast<std::size_t>(function)].now;
    return s.as_found.judge.fact({From::output, a}, stand, s.as_found.before, nullptr);
}

std::string old_choice(SheetCase const& s, int function, Attribute a) {
    auto const* f = old_fact(s, function, a);
    if (!f || f->nature == Fact::Nature::none) return "-";
    return f->nature == Fact::Nature::unknown ? "not known" : words_of_bits(a, f->may);
}

/// Whether the output that performs the duty now is a valve that its own float moves.
bool old_feeds(SheetCase const& s, int function) {
    auto const* acts = old_fact(s, function, Attribute::acts);
    return acts && acts->may == bits<Attribute::acts>("feeds_on_fall");
}

/// The most likely level only, as the works found it: the old value is for comparing.
std::string old_level(SheetCase const& s, int function, bool rising) {
    auto const& c = s.as_found;
    auto const& site = c.judge.site();
    auto const& now = site.functions[static_cast<std::size_t>(function)].now;
    if (now.position < 0 || c.before[static_cast<std::size_t>(now.position)] == nothing) return "none";
    auto const levels = output_levels(c.judge, c.before, function, now);
    auto const& e = rising ? levels.rising : levels.falling;
    if (!is_known(level_range(site, e))) return "not known";
    return s.words.at(level_in(site, e, 2 * function + (rising ? 1 : 0), {}));
}

std::string part_at(SheetCase const& s, int position) {
    return part_name(s.c.judge.catalog(), s.c.after[static_cast<std::size_t>(position)]);
}

/// What one output is in each state; a dash where the state cannot come about.
class StateWords {
public:
    StateWords(SheetCase const& s, Device const& d) : s_(s), d_(d) {}

    SheetState row() const {
        SheetState row;
        row.duty = words_of(d_.duty);
        row.wet = level(false);
        row.dry = level(true);
        row.float_stuck = by_float() ? "as it stuck: only the test finds it" : "-";
        row.reset = row.after_power_loss = row.held_reset = "-";
        if (d_.acts == Device::Acts::feeds) mechanical(row);
        else if (d_.acts == Device::Acts::slides) signal(row);
        else contact(row);
        return row;
    }

private:
    std::string level(bool tripped) const {
        if (!d_.has_contact()) return tripped ? "valve open" : "valve shut";
        return ((d_.acts == Device::Acts::opens) == tripped) ? "open" : "closed";
    }
    bool by_float() const {
        auto const* f = s_.fact(d_, From::output, Attribute::senses_by);
        return f && f->may == bits<Attribute::senses_by>("float");
    }
    static void mechanical(SheetState& row) {
        row.unpowered = "as level";
        row.float_sunk = "valve open";
        row.wire_open = row.wire_shorted = "-";
    }
    /// A lost signal leaves the valve where its actuator takes it, unless the part itself says what a broken wire does.
    void signal(SheetState& row) const {
        auto const failing = s_.fact(d_, From::actuator, Attribute::on_failure);
        std::string const left = failing && failing->nature != Fact::Nature::none
                                     ? (failing->nature == Fact::Nature::unknown ? "not known" : "valve " + words_of_bits(Attribute::on_failure, failing->may))
                                     : "not known";
        auto const broken = s_.choice(d_, Attribute::broken_wire);
        row.unpowered = left;
        row.wire_open = broken == "-" ? left : broken;
        row.wire_shorted = "not known";
        row.float_sunk = by_float() ? "valve open" : "-";
    }
    void contact(SheetState& row) const {
        row.unpowered = s_.choice(d_, Attribute::unpowered);
        row.float_sunk = s_.choice(d_, Attribute::float_sunk);
        row.reset = s_.choice(d_, Attribute::reset_type);
        auto const open = s_.choice(d_, Attribute::wire_open), shorted = s_.choice(d_, Attribute::wire_shorted);
        row.wire_open = open == "-" ? "as an open contact" : open + " (sensing wire)";
        row.wire_shorted = shorted == "-" ? "as a closed contact" : shorted + " (sensing wire)";
        bool const locks = d_.manual != Truth::fails;
        row.after_power_loss = locks ? s_.choice(d_, Attribute::after_power_loss) : "-";
        row.held_reset = !locks ? "-" : d_.held_closes == Truth::fails ? "stays open" : d_.held_closes == Truth::holds ? "closes" : "not known";
    }
    SheetCase const& s_;
    Device const& d_;
};

}  // namespace

Fact const* SheetCase::fact(Device const& d, From from, Attribute a) const {
    return c.judge.fact({from, a}, stand_of(site(), d.function, d.output), c.after, nullptr);
}

std::string SheetCase::choice(Device const& d, Attribute a, From from) const {
    auto const* f = fact(d, from, a);
    if (!f || f->nature == Fact::Nature::none) return "-";
    return f->nature == Fact::Nature::unknown ? "not known" : words_of_bits(a, f->may);
}

std::string SheetCase::falling(Device const& d) const { return level_of(site(), words, d.levels.falling, d.falling_key()); }
std::string SheetCase::rising(Device const& d) const { return level_of(site(), words, d.levels.rising, d.rising_key()); }

Device const* SheetCase::find(Duty duty) const {
    auto const at = std::find_if(model.devices.begin(), model.devices.end(),
                                 [&](Device const& d) { return d.duty == duty && d.wired(); });
    return at == model.devices.end() ? nullptr : &*at;
}

Owner SheetCase::kind(Device const& d) const {
    return c.judge.catalog().parts[static_cast<std::size_t>(c.after[static_cast<std::size_t>(d.output.position)])].kind;
}

std::string SheetCase::lateness(Device const& d) const {
    return d.delay ? "; the contact follows " + words.quantity(d.delay->time, Dimension::time) + " later" : std::string();
}

/// An end of the calibration itself, wherever the water stands when the transmitter shows it.
std::string SheetCase::calibrated(Device const& d, bool high) const {
    auto end = high ? d.levels.rising : d.levels.falling;
    auto const* f = fact(d, From::station, high ? Attribute::calibrated_high : Attribute::calibrated_low);
    end.own = {f->lo, f->hi};
    end.repeatability = Interval{0};
    return level_of(site(), words, end, high ? d.rising_key() : d.falling_key());
}

/// 4 mA to 20 mA: IEC 60381-1, from memory.
std::string SheetCase::signal(Device const& d) const {
    auto const* direction = fact(d, From::output, Attribute::direction);
    bool const follows = direction && direction->may == bits<Attribute::direction>("falling");
    bool const turned = direction && direction->may == bits<Attribute::direction>("rising");
    auto const low = calibrated(d, false), high = calibrated(d, true);
    if (!follows && !turned) return "4 mA and 20 mA at " + low + " and " + high + ", which at which is not known";
    return "4 mA at " + (follows ? low : high) + ", 20 mA at " + (follows ? high : low);
}

Recording SheetCase::record(Device const& d, std::string_view rule) const {
    Instance at;
    at.rule = rule_index(rule);
    at.stand.station = site().positions[static_cast<std::size_t>(d.output.position)].station;
    return c.judge.record(at, c.after);
}

std::string SheetCase::calibration(Device const& d) const {
    std::string text;
    for (auto const& [label, end] : {std::pair{"pressure difference at the low end", "low"}, std::pair{"pressure difference at the high end", "high"}})
        for (auto const& step : record(d, "transmitter.range").steps)
            if (step.label == label && step.truth == Truth::holds)
                text += (text.empty() ? "" : ", ") + words.quantity(Interval{step.available.middle()}, step.dimension) + " (" +
                        words.quantity(step.available, step.dimension) + ") at the " + end + " level";
    return text;
}

std::string SheetCase::shows_off(Device const& d) const {
    std::optional<Interval> off;
    for (auto const& step : record(d, "transmitter.error").steps)
        if (step.kind == Step::Kind::note) off = off ? hull(*off, step.available) : step.available;
    constexpr double a_millimetre = 1e6, a_metre = 1e9;   // less is not seen; more is not known
    if (!off || std::max(-off->lo, off->hi) < a_millimetre || std::max(-off->lo, off->hi) > a_metre) return {};
    auto shows = [&](Interval by, char const* than) {
        return "at the working pressure it shows " + words.quantity(by, Dimension::length) + than + ", and the levels of this sheet are those that are there";
    };
    if (off->hi <= 0) return shows(-*off, " less than is there");
    return shows(*off, off->lo >= 0 ? " more than is there" : " more than is there (less, where negative)");
}

std::vector<SheetLevel> sheet_levels(SheetCase const& s) {
    std::vector<SheetLevel> out;
    for (auto const& d : s.model.devices) {
        if (!d.wired()) continue;
        out.push_back({std::string(words_of(d.duty)), output_label(s.c, d.output, s.c.after), part_at(s, d.output.position),
                       s.falling(d), s.rising(d), old_level(s, d.function, false), old_level(s, d.function, true),
                       shown_by_glass(s.site(), s.model, d.levels.falling, &d)});
    }
    return out;
}

std::vector<SheetMounting> sheet_mountings(SheetCase const& s) {
    std::vector<SheetMounting> out;
    for (auto const& m : s.mountings) {
        SheetMounting row;
        row.station = m.rod == 0 ? s.site().stations[static_cast<std::size_t>(m.station)].name : setting_name(s.site(), m.station, m.rod);
        row.now = is_known(m.now) ? s.words.level(m.now.middle(), m.now) : "not known";
        if (m.window) row.window = s.words.range(*m.window);
        // A column hangs in its piping; what is screwed in sits where its thread is.
        bool const hangs = s.site().stations[static_cast<std::size_t>(m.station)].positions[static_cast<std::size_t>(Role::column)] >= 0;
        row.action = m.set_to   ? "move it to " + s.words.at(*m.set_to)
                     : m.window ? "leave it as it is"
                     : hangs    ? "leave it as it is: the piping fixes it"
                                : "leave it as it is: its connection fixes it";
        out.push_back(std::move(row));
    }
    return out;
}

std::vector<SheetState> sheet_states(SheetCase const& s) {
    std::vector<SheetState> out;
    for (auto const& d : s.model.devices)
        if (d.wired()) out.push_back(StateWords(s, d).row());
    return out;
}

std::vector<std::string> sheet_differences(SheetCase const& s) {
    std::vector<std::string> out;
    for (auto const& d : s.model.devices) {
        auto const& now = s.site().functions[static_cast<std::size_t>(d.function)].now;
        if (!d.wired() || now.position < 0 || s.c.before[static_cast<std::size_t>(now.position)] == nothing) continue;
        std::string const name(words_of(d.duty));
        auto compare = [&](std::string const& what, std::string const& is, std::string const& was) {
            if (is != was) out.push_back(name + ": " + what + " " + is + ", was " + was);
        };
        compare("falling at", s.words.at(level_in(s.site(), d.levels.falling, d.falling_key(), {})), old_level(s, d.function, false));
        compare("rising at", s.words.at(level_in(s.site(), d.levels.rising, d.rising_key(), {})), old_level(s, d.function, true));
        bool const by_itself = d.acts == Device::Acts::feeds, was_by_itself = old_feeds(s, d.function);
        if (by_itself != was_by_itself)
            out.push_back(name + (by_itself ? ": by a valve that its own float moves, was by a contact" : ": by a contact, was by a valve that its own float moves"));
        if (by_itself || was_by_itself) continue;
        for (Attribute a : {Attribute::reset_type, Attribute::after_power_loss, Attribute::unpowered, Attribute::float_sunk})
            compare(std::string(row_of(a).meaning) + ":", s.choice(d, a), old_choice(s, d.function, a));
    }
    if (out.empty()) out.push_back("nothing: every level and every reset is as it was");
    return out;
}

std::vector<std::string> factory_fixed(SheetCase const& s) {
    std::vector<int> seen;
    std::vector<std::string> out;
    for (auto const& d : s.model.devices) {
        if (!d.wired() || std::find(seen.begin(), seen.end(), d.output.position) != seen.end()) continue;
        seen.push_back(d.output.position);
        std::string const what = part_at(s, d.output.position) + " at " + s.site().positions[static_cast<std::size_t>(d.output.position)].name + ": ";
        if (s.kind(d) == Owner::switch_set)
            out.push_back(what + "where its outputs act on the arm, and their differential, are set by its maker. They are not "
                                 "settings; the levels follow from the mounting of the column alone.");
        if (s.kind(d) == Owner::float_control)
            out.push_back(what + "where it acts above its connection, and its differential, are set by its maker. They are not "
                                 "settings; the levels follow from the height of the connection alone.");
    }
    return out;
}

std::vector<std::string> sheet_consumables(SheetCase const& s) {
    std::vector<std::string> out;
    for (auto const& work : work_of(s.c, s.c.changed, &s.c.after)) {
        if (work.consumables.empty()) continue;
        std::string text = work.position + ": ";
        for (auto const& item : work.consumables) text += (&item == &work.consumables.front() ? "" : ", ") + item;
        out.push_back(std::move(text));
    }
    return out;
}

}  // namespace levelswap
