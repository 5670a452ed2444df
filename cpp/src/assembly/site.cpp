#include "levelswap/assembly/site.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace levelswap {

namespace {

constexpr std::string_view role_names[role_count] = {
    "head", "switch_half", "column", "float", "switch_set", "glass", "probe_holder", "probe_relay", "transmitter",
    "float_control", "float_valve", "contactor", "relay", "transformer", "converter", "solenoid_valve", "reducing_valve",
    "feed_valve", "actuator", "pump"};
constexpr std::string_view duty_names[duty_count] = {"primary_cut_off", "secondary_cut_off", "pump",
                                                     "modulating_feed", "low_alarm",         "high_alarm", "make_up"};
constexpr std::string_view duty_words[duty_count] = {"primary low-water cut-off", "secondary low-water cut-off", "pump control",
                                                     "modulating feed",           "low-level alarm",             "high-level alarm",
                                                     "make-up"};

std::string meant(std::string_view word, std::vector<std::string> const& names, std::string_view plural) {
    if (std::string const near = nearest(word, names); !near.empty()) return fmt::format("; did you mean \"{}\"?", near);
    constexpr std::size_t most = 24;
    if (names.empty() || names.size() > most) return {};
    return fmt::format("; {}: {}", plural, fmt::join(names, ", "));
}

int find_part(Catalog const& catalog, std::string_view id) {
    int const part = catalog.find(id);
    if (part < 0)
        throw UsageError(fmt::format("there is no part \"{}\" in the catalogue{}", id,
                                     id == "none" ? "; write nothing to take the part out" : meant(id, catalog.ids(), "parts")));
    return part;
}

void check_kind(Position const& position, Part const& part) {
    auto const kinds = accepted_kinds(position.role);
    if (std::find(kinds.begin(), kinds.end(), part.kind) != kinds.end()) return;
    std::vector<std::string_view> names;
    for (Owner const kind : kinds) names.push_back(name_of(kind));
    throw UsageError(fmt::format("\"{}\" is a {}; the position \"{}\" accepts: {}", part.id, name_of(part.kind),
                                 position.name, fmt::join(names, ", ")));
}

}  // namespace

std::string_view name_of(Role role) { return role_names[static_cast<int>(role)]; }
std::string_view name_of(Duty duty) { return duty_names[static_cast<int>(duty)]; }
std::string_view words_of(Duty duty) { return duty_words[static_cast<int>(duty)]; }

std::vector<Owner> accepted_kinds(Role role) {
    switch (role) {
        case Role::head: return {Owner::float_head, Owner::float_half};
        case Role::switch_half: return {Owner::switch_half};
        case Role::column: return {Owner::column};
        case Role::float_: return {Owner::float_};
        case Role::switch_set: return {Owner::switch_set};
        case Role::glass: return {Owner::gauge_glass};
        case Role::contactor: return {Owner::contactor};
        case Role::relay: return {Owner::relay};
        case Role::transformer: return {Owner::transformer};
        case Role::converter: return {Owner::converter};
        case Role::probe_holder: return {Owner::probe_holder};
        case Role::probe_relay: return {Owner::probe_relay};
        case Role::transmitter: return {Owner::transmitter};
        case Role::float_control: return {Owner::float_control};
        case Role::float_valve: return {Owner::float_valve};
        case Role::solenoid_valve: return {Owner::solenoid_valve};
        case Role::reducing_valve: return {Owner::reducing_valve};
        case Role::feed_valve: return {Owner::feed_valve};
        case Role::actuator: return {Owner::actuator};
        case Role::pump: return {Owner::pump};
    }
    return {};
}

bool has_outputs(Role role) { return has_outputs(accepted_kinds(role)[0]); }

bool opens_water_side(Role role) {
    switch (role) {
        case Role::switch_half: case Role::switch_set: case Role::probe_relay: case Role::actuator: case Role::contactor:
        case Role::relay: case Role::transformer: case Role::converter: return false;
        default: return true;
    }
}

int Site::find_position(std::string_view sought) const {
    auto const at = std::find_if(positions.begin(), positions.end(), [&](Position const& p) { return p.name == sought; });
    return at == positions.end() ? -1 : static_cast<int>(at - positions.begin());
}

std::vector<std::string> Site::position_names() const {
    std::vector<std::string> names;
    for (Position const& position : positions) names.push_back(position.name);
    return names;
}

Assignment installed(Site const& site) {
    Assignment parts;
    parts.reserve(site.positions.size());
    for (Position const& position : site.positions) parts.push_back(position.holds);
    return parts;
}

Assignment proposed(Site const& site, Catalog const& catalog,
                    std::vector<std::pair<std::string, std::string>> const& put) {
    Assignment parts = installed(site);
    std::vector<bool> changed(parts.size(), false);
    for (auto const& [name, id] : put) {
        int const found = site.find_position(name);
        if (found < 0) {
            throw UsageError(fmt::format("{} has no position \"{}\"{}", site.name, name,
                                         meant(name, site.position_names(), "positions")));
        }
        auto const position = static_cast<std::size_t>(found);
        if (changed[position]) throw UsageError(fmt::format("the position \"{}\" is given twice", name));
        changed[position] = true;
        parts[position] = id == "nothing" ? nothing : find_part(catalog, id);
        if (parts[position] != nothing)
            check_kind(site.positions[position], catalog.parts[static_cast<std::size_t>(parts[position])]);
    }
    return parts;
}

}  // namespace levelswap
