#include "sheet_rows.hpp"

#include "consequences.hpp"

#include <algorithm>

namespace levelswap {

namespace {

std::string level_of(Site const& site, LevelWords const& words, Elevation const& e, int key) {
    return words.level(level_in(site, e, key, {}), level_range(site, e));
}

/// What the output that performs the duty now is in one respect.
std::string old_choice(SheetCase const& s, int function, Attribute a) {
    Stand stand;
    stand.output = s.site().functions[static_cast<std::size_t>(function)].now;
    auto const* f = s.c.judge.fact({From::output, a}, stand, s.c.before, nullptr);
    if (!f || f->nature == Fact::Nature::none) return "-";
    return f->nature == Fact::Nature::unknown ? "not known" : words_of_bits(a, f->may);
}

/// The most likely level only: the old value is for comparing.
std::string old_level(SheetCase const& s, int function, bool rising) {
    auto const& now = s.site().functions[static_cast<std::size_t>(function)].now;
    if (now.position < 0 || s.c.before[static_cast<std::size_t>(now.position)] == nothing) return "none";
    auto const levels = output_levels(s.c.judge, s.c.before, function, now);
    auto const& e = rising ? levels.rising : levels.falling;
    if (!is_known(level_range(s.site(), e))) return "not known";
    return s.words.at(level_in(s.site(), e, 2 * function + (rising ? 1 : 0), {}));
}

std::string part_at(SheetCase const& s, int position) {
    return part_name(s.c.judge.catalog(), s.c.after[static_cast<std::size_t>(position)]);
}

std::string state_of(Device const& d, bool tripped) {
    if (d.acts == Device::Acts::slides) return tripped ? "valve open" : "valve shut";
    return ((d.acts == Device::Acts::opens) == tripped) ? "open" : "closed";
}

}  // namespace

Fact const* SheetCase::fact(Device const& d, From from, Attribute a) const {
    Stand stand;
    stand.function = d.function;
    stand.output = d.output;
    stand.circuit = site().functions[static_cast<std::size_t>(d.function)].circuit;
    stand.station = site().positions[static_cast<std::size_t>(d.output.position)].station;
    return c.judge.fact({from, a}, stand, c.after, nullptr);
}

std::string SheetCase::choice(Device const& d, Attribute a) const {
    auto const* f = fact(d, From::output, a);
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

std::vector<SheetLevel> sheet_levels(SheetCase const& s) {
    std::vector<SheetLevel> out;
    for (auto const& d : s.model.devices) {
        if (!d.wired()) continue;
        out.push_back({std::string(words_of(d.duty)), output_label(s.c, d.output, s.c.after), part_at(s, d.output.position),
                       s.falling(d), s.rising(d), old_level(s, d.function, false), old_level(s, d.function, true),
                       shown_by_glass(s.site(), s.model.glass, d.levels.falling)});
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
        row.action = m.set_to ? "move it to " + s.words.at(*m.set_to)
                     : m.window ? "leave it as it is"
                                : "leave it as it is: the piping fixes it";
        out.push_back(std::move(row));
    }
    return out;
}

/// Set pressures with their windows, as the rules have worked them out, and the delays that the levels count with.
std::vector<std::string> sheet_adjustments(SheetCase const& s) {
    std::vector<std::string> out;
    for (auto const& p : set_pressures(s.c))
        out.push_back("set pressure of the " + p.valve + ", read beside it: " + s.words.quantity(p.window, Dimension::pressure_gauge) +
                      ", set while it flows, looked at again when nothing flows");
    for (auto const& d : s.model.devices) {
        Fact const* delay = d.wired() ? s.fact(d, From::output, Attribute::delay) : nullptr;
        if (!delay || delay->nature == Fact::Nature::unknown || delay->nature == Fact::Nature::none || delay->hi <= 0) continue;
        out.push_back("delay of the " + std::string(words_of(d.duty)) + ": " + s.words.quantity({delay->lo, delay->hi}, Dimension::time));
    }
    return out;
}

std::vector<SheetState> sheet_states(SheetCase const& s) {
    std::vector<SheetState> out;
    for (auto const& d : s.model.devices) {
        if (!d.wired()) continue;
        SheetState row{std::string(words_of(d.duty)), state_of(d, false), state_of(d, true), {}, {}, {}, {}, {}, {}};
        if (d.acts == Device::Acts::slides) {
            row.unpowered = row.float_sunk = row.reset = row.after_power_loss = row.held_reset = "-";
            row.wire_open = s.choice(d, Attribute::broken_wire);
        } else {
            row.unpowered = s.choice(d, Attribute::unpowered);
            row.float_sunk = s.choice(d, Attribute::float_sunk);
            row.reset = s.choice(d, Attribute::reset_type);
            row.wire_open = "as an open contact";
            bool const locks = d.manual != Truth::fails;
            row.after_power_loss = locks ? s.choice(d, Attribute::after_power_loss) : "-";
            row.held_reset = !locks ? "-" : d.held_closes == Truth::fails ? "stays open" : d.held_closes == Truth::holds ? "closes" : "not known";
        }
        out.push_back(std::move(row));
    }
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
        out.push_back(part_at(s, d.output.position) + " at " + s.site().positions[static_cast<std::size_t>(d.output.position)].name +
                      ": where its outputs act on the arm, and their differential, are set by its maker. They are not "
                      "settings; the levels follow from the mounting of the column alone.");
    }
    return out;
}

}  // namespace levelswap
