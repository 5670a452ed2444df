// The demo is invented: it shows behaviour, it proves no fact of the trade. Outside checks stand in
// tests/cpp/physics, tests/cases and tests/python.
#include "levelswap/engine/engine.hpp"
#include "levelswap/rules/rule.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <set>
#include <sstream>

namespace levelswap {
namespace {

namespace fs = std::filesystem;

fs::path demo() { return fs::path(LEVELSWAP_SOURCE_DIR) / "demo_catalog"; }

struct Loaded {
    Swap swap;
    Site site;
};

Catalog const& catalog() {
    static Catalog const c = read_catalog(demo().string());
    return c;
}

Loaded load(std::string const& name) {
    auto const file = demo() / "swaps" / (name + ".yaml");
    auto swap = read_swap(file.string());
    auto site = read_site((file.parent_path() / swap.site_file).string(), catalog());
    return {std::move(swap), std::move(site)};
}

std::vector<std::string> swap_names() {
    std::vector<std::string> names;
    for (auto const& e : fs::directory_iterator(demo() / "swaps")) names.push_back(e.path().stem().string());
    std::sort(names.begin(), names.end());
    return names;
}

struct Expected {
    Outcome outcome;
    std::string rule;   ///< of the first finding, or of the first site work; empty when it fits
};

/// What each demo swap is there to show.
std::map<std::string, Expected> const& expected() {
    using enum Outcome;
    static std::map<std::string, Expected> const table{
        {"cold_fill_between_the_rods", {does_not_fit, "tank_heat.fill"}},
        {"feed_valve_chokes", {does_not_fit, "feed.valve_capacity"}},
        {"feed_valve_nearly_shut", {does_not_fit, "feed.valve_nearly_shut"}},
        {"feed_valve_too_small", {does_not_fit, "feed.valve_capacity"}},
        {"float_valve_on_a_boiler", {does_not_fit, "ratings.service"}},
        {"float_valve_that_will_not_close", {does_not_fit, "feed.float_valve_shutoff"}},
        {"float_valve_to_two_probes", {fits, ""}},
        {"longer_lever", {fits, ""}},
        {"main_too_strong_for_the_coil", {does_not_fit, "feed.solenoid"}},
        {"pilot_behind_a_low_regulator", {does_not_fit, "feed.solenoid"}},
        {"pump_below_the_safety_valve", {does_not_fit, "feed.pump_pressure"}},
        {"pump_on_a_hotter_tank", {does_not_fit, "feed.npsh"}},
        {"pump_starts_too_often", {does_not_fit, "feed.cycling"}},
        {"regulator_before_the_float_valve", {fits, ""}},
        {"regulator_window_empty", {does_not_fit, "feed.regulator_window"}},
        {"second_yard_actuator", {fits, ""}},
        {"slide_wire_on_a_current_loop", {does_not_fit, "feed.actuator"}},
        {"smaller_seat_starves", {does_not_fit, "feed.float_valve_capacity"}},
        {"solenoid_valve_left_in_the_line", {does_not_fit, "feed.path"}},
        {"two_probes_to_float_valve", {fits, ""}},
        {"automatic_secondary", {does_not_fit, "roles.reset"}},
        {"chamber_nobody_opened", {cannot_tell, "travel.binding"}},
        {"coil_for_another_supply", {does_not_fit, "interfaces.supply"}},
        {"control_touches_the_tube", {does_not_fit, "insertion.room"}},
        {"controller_input_on_plain_contact", {does_not_fit, "contacts.minimum_load"}},
        {"film_reads_as_water", {does_not_fit, "probes.film"}},
        {"float_and_set_together", {does_not_fit, "buoyancy.lift"}},
        {"float_against_the_wall", {does_not_fit, "travel.binding"}},
        {"float_control_on_150_pounds", {does_not_fit, "ratings.low_pressure"}},
        {"glass_starts_too_high", {does_not_fit, "levels.cut_off_visible"}},
        {"head_from_the_stores", {does_not_fit, "ratings.pressure"}},
        {"holder_without_papers", {cannot_tell, "probes.sensitivity"}},
        {"holder_beside_the_float_control", {does_not_fit, "insertion.one_part"}},
        {"holder_for_cooler_water", {cannot_tell, "ratings.temperature"}},
        {"like_for_like", {fits, ""}},
        {"control_in_the_lower_hole", {does_not_fit, "levels.cut_off_over_lpwl"}},
        {"lockout_in_the_hostel", {fits, ""}},
        {"steam_control_on_hot_water", {does_not_fit, "ratings.low_pressure"}},
        {"lockout_that_forgets", {does_not_fit, "roles.lockout"}},
        {"lockout_that_trips_though_wet", {fits, ""}},
        {"loop_too_long", {does_not_fit, "transmitter.loop"}},
        {"mercury_set", {does_not_fit, "surroundings.mercury"}},
        {"no_height_for_the_secondary", {does_not_fit, "levels.order"}},
        {"nobody_feeds", {does_not_fit, "roles.output"}},
        {"one_contact_for_four_duties", {does_not_fit, "roles.output"}},
        {"painted_over_motor_plate", {cannot_tell, "contacts.contactor"}},
        {"probe_lockout_that_forgets", {does_not_fit, "roles.lockout"}},
        {"pump_reset_by_hand", {does_not_fit, "roles.reset"}},
        {"range_too_small_for_the_leg", {does_not_fit, "transmitter.range"}},
        {"relay_for_24_volts", {does_not_fit, "probes.supply"}},
        {"rods_cut_anew", {fits, ""}},
        {"rods_too_short", {does_not_fit, "probes.rods"}},
        {"rough_casting", {cannot_tell, "travel.binding"}},
        {"same_head_in_deep_column", {fits, ""}},
        {"second_gallery_transmitter", {fits, ""}},
        {"second_loft_feeder", {fits, ""}},
        {"shroud_of_its_own", {fits, ""}},
        {"shroud_taken_off", {does_not_fit, "insertion.shroud"}},
        {"slide_wire_in_low_column", {does_not_fit, "travel.slide_wire"}},
        {"snap_set_under_the_motor", {does_not_fit, "contacts.motor_direct"}},
        {"span_too_fine", {does_not_fit, "transmitter.span"}},
        {"stiff_set_and_light_float", {does_not_fit, "buoyancy.sink"}},
        {"thin_column", {does_not_fit, "ratings.pressure"}},
        {"three_coils_on_one_contact", {does_not_fit, "contacts.make"}},
        {"three_phases_on_one_pole", {does_not_fit, "contacts.motor_direct"}},
        {"three_quarter_in_one_inch", {does_not_fit, "insertion.thread"}},
        {"transmitter_as_cut_off", {does_not_fit, "roles.listed"}},
        {"twin_rods_and_relay", {fits, ""}},
        {"two_rods_for_three", {does_not_fit, "probes.rods"}},
        {"two_supplies_on_one_common", {does_not_fit, "contacts.common"}},
        {"valve_before_the_chamber", {does_not_fit, "piping.isolating_valves"}},
        {"water_too_pure", {does_not_fit, "probes.sensitivity"}},
        {"wire_comes_off", {does_not_fit, "probes.open_wire"}},
        {"wire_too_cool_for_a_probe", {does_not_fit, "probes.wire"}},
        {"wrong_before_the_swap", {does_not_fit, "roles.reset"}},
        {"bell_wire_contact_on_the_mains", {does_not_fit, "contacts.voltage"}},
        {"bell_wire_relay_before_the_contactor", {does_not_fit, "contacts.relay_contact"}},
        {"calibrated_on_a_cold_boiler", {fits, ""}},
        {"coil_that_burns_at_night", {does_not_fit, "interfaces.overvoltage"}},
        {"column_that_hangs_lower", {does_not_fit, "levels.glass_over_lpwl"}},
        {"conduit_on_the_left", {fits, ""}},
        {"connection_above_the_trip", {does_not_fit, "levels.bracket"}},
        {"feed_valve_in_a_light_body", {does_not_fit, "ratings.feed_pressure"}},
        {"contactor_under_the_pump_motor", {does_not_fit, "contacts.contactor"}},
        {"feed_valve_springs_open", {does_not_fit, "feed.lost_signal"}},
        {"feed_valve_that_opens_backwards", {does_not_fit, "feed.actuator"}},
        {"main_above_the_regulator_plate", {does_not_fit, "feed.regulator_inlet"}},
        {"float_that_collapses", {does_not_fit, "buoyancy.crush"}},
        {"float_wider_than_the_opening", {does_not_fit, "interfaces.opening"}},
        {"glass_shows_too_low", {does_not_fit, "levels.glass_over_lpwl"}},
        {"head_behind_the_wall", {does_not_fit, "interfaces.withdrawal"}},
        {"head_for_a_leaning_column", {cannot_tell, "levels.delay"}},
        {"holder_without_relay", {does_not_fit, "probes.relay"}},
        {"inch_valve_in_the_feed_line", {does_not_fit, "interfaces.feed_thread"}},
        {"leg_that_fills_unseen", {does_not_fit, "transmitter.dry_leg"}},
        {"lockout_that_waits", {does_not_fit, "levels.delay"}},
        {"mercury_out_of_plumb", {does_not_fit, "surroundings.plumb"}},
        {"mercury_relay", {does_not_fit, "surroundings.circuit_mercury"}},
        {"metric_stem", {does_not_fit, "interfaces.stem"}},
        {"no_mounting_for_the_glass", {does_not_fit, "levels.glass_over_lpwl"}},
        {"old_boiler_house", {does_not_fit, "piping.drain"}},
        {"one_cut_off_is_not_enough", {does_not_fit, "roles.count"}},
        {"one_relay_for_both_cut_offs", {does_not_fit, "contacts.shared_relay"}},
        {"one_water_line_for_both", {does_not_fit, "roles.independent"}},
        {"plain_contactor_in_the_tar_store", {does_not_fit, "surroundings.circuit_hazardous"}},
        {"plain_control_in_the_tar_store", {does_not_fit, "surroundings.hazardous"}},
        {"primary_that_locks_out", {does_not_fit, "roles.primary_reset"}},
        {"pump_a_size_too_small", {does_not_fit, "feed.pump"}},
        {"pump_for_cold_water", {does_not_fit, "ratings.feed_service"}},
        {"pump_without_by_pass", {does_not_fit, "feed.dead_head"}},
        {"reed_under_the_fuel_valves", {does_not_fit, "contacts.carry"}},
        {"relay_before_the_fuel_valves", {does_not_fit, "contacts.relay_in_fuel_chain"}},
        {"relay_that_trusts_a_short", {fits, ""}},
        {"column_of_the_next_class", {does_not_fit, "interfaces.flange"}},
        {"ring_flange_on_small_flange", {does_not_fit, "interfaces.flange"}},
        {"rods_under_a_beam", {does_not_fit, "probes.clearance"}},
        {"set_for_a_cool_room", {does_not_fit, "surroundings.ambient"}},
        {"set_under_the_hose", {does_not_fit, "surroundings.enclosure"}},
        {"slide_wire_of_a_thousand_ohms", {does_not_fit, "interfaces.signal"}},
        {"soft_seat_in_hot_feed", {does_not_fit, "ratings.feed_temperature"}},
        {"sunk_float_lights_the_burner", {does_not_fit, "roles.state_table"}},
        {"switch_half_for_a_thicker_tube", {does_not_fit, "interfaces.tube"}},
        {"tank_grows_colder", {does_not_fit, "tank_heat.balance"}},
        {"transformer_left_out", {does_not_fit, "contacts.transformer"}},
        {"transformer_of_another_voltage", {does_not_fit, "contacts.transformer"}},
        {"two_floats_for_the_insurer", {does_not_fit, "roles.unlike_principles"}},
        {"window_shorter_than_the_swing", {fits, ""}},
    };
    return table;
}

TEST(Demo, every_swap_has_an_expectation) {
    std::vector<std::string> listed;
    for (auto const& [name, e] : expected()) listed.push_back(name);
    EXPECT_EQ(listed, swap_names());
    EXPECT_GE(listed.size(), 117u);
    EXPECT_GE(catalog().parts.size(), 200u);
}

TEST(Demo, every_swap_shows_what_it_is_there_to_show) {
    for (auto const& [name, want] : expected()) {
        auto const l = load(name);
        auto const v = check(catalog(), l.site, l.swap.put);
        EXPECT_EQ(name_of(v.outcome), name_of(want.outcome)) << name;
        auto const& shown = v.findings.empty() ? v.site_work : v.findings;
        if (want.rule.empty()) {
            EXPECT_TRUE(v.findings.empty()) << name;
            continue;
        }
        EXPECT_TRUE(std::any_of(shown.begin(), shown.end(), [&](Finding const& f) { return f.rule == want.rule; }))
            << name << " should name " << want.rule;
    }
}

TEST(Demo, every_rule_is_broken_in_some_swap) {
    std::set<std::string> shown;
    std::string remarks;
    for (auto const& name : swap_names()) {
        auto const l = load(name);
        auto const v = check(catalog(), l.site, l.swap.put);
        for (auto const* findings : {&v.findings, &v.site_work})
            for (auto const& f : *findings)
                if (f.state == "fails") shown.insert(f.rule);
        for (auto const& r : v.remarks) remarks += r + "\n";
    }
    for (auto const& rule : rule_table()) {
        bool const told = remarks.find("Not so: " + std::string(rule.title)) != std::string::npos;
        EXPECT_TRUE(shown.contains(std::string(rule.id)) || told) << rule.id;
    }
}

/// The put that a repair makes of a swap.
std::vector<std::pair<std::string, std::string>> with(Swap const& swap, Repair const& r, std::vector<std::string> const& parts) {
    auto put = swap.put;
    for (std::size_t i = 0; i < r.positions.size(); ++i) {
        auto const known = std::find_if(put.begin(), put.end(), [&](auto const& p) { return p.first == r.positions[i]; });
        if (known != put.end()) known->second = parts[i];
        else put.emplace_back(r.positions[i], parts[i]);
    }
    return put;
}

bool settled(Verdict const& v) { return v.outcome == Outcome::fits || v.once_site_work_is_done == Outcome::fits; }

TEST(Demo, every_remedy_that_is_offered_fits_when_it_is_made) {
    int tried = 0;
    for (auto const& name : swap_names()) {
        auto const l = load(name);
        auto const a = alternatives(catalog(), l.site, l.swap.put, 2, l.swap.old_may_return);
        for (auto const* repairs : {&a.keep, &a.release})
            for (auto const& r : *repairs)
                for (auto const& parts : r.tuples) {
                    ++tried;
                    EXPECT_TRUE(settled(check(catalog(), l.site, with(l.swap, r, parts)))) << name;
                }
    }
    EXPECT_GT(tried, 40);
}

/// A two-part head instead of a one-part head takes its switch half and its set along, and the other way round.
TEST(Demo, a_remedy_with_one_change_left_out_does_not_fit) {
    int tried = 0;
    for (auto const& e : fs::directory_iterator(demo() / "sites")) {
        auto const site = read_site(e.path().string(), catalog());
        for (auto const& position : site.positions) {
            if (position.role != Role::head) continue;
            for (auto const& part : catalog().parts) {
                if (part.kind != Owner::float_half && part.kind != Owner::float_head) continue;
                if (tried > 20) return;
                Swap const swap{"", "", {{position.name, part.id}}, false, {}, {}, ""};
                for (auto const& r : alternatives(catalog(), site, swap.put, 2).keep)
                    for (std::size_t omit = 0; r.positions.size() > 1 && omit < r.positions.size(); ++omit) {
                        Repair less = r;
                        auto parts = r.tuples.front();
                        less.positions.erase(less.positions.begin() + static_cast<std::ptrdiff_t>(omit));
                        parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(omit));
                        ++tried;
                        EXPECT_FALSE(settled(check(catalog(), site, with(swap, less, parts)))) << part.id;
                    }
            }
        }
    }
    EXPECT_GT(tried, 0);
}

/// The coils are metered behind the transformer: without one nobody knows what they see.
TEST(Demo, a_wrong_transformer_is_not_mended_by_leaving_it_out) {
    auto const l = load("transformer_of_another_voltage");
    auto const a = alternatives(catalog(), l.site, l.swap.put, 2);
    for (auto const* repairs : {&a.keep, &a.release})
        for (auto const& r : *repairs)
            for (std::size_t i = 0; i < r.positions.size(); ++i) {
                if (r.positions[i] != "burner.transformer") continue;
                for (auto const& parts : r.tuples) EXPECT_NE(parts[i], "nothing");
            }
    EXPECT_FALSE(a.release.empty());
}

/// The tower lock set's level is stated for the power house float, and the ballasted float is too heavy for either set.
TEST(Demo, one_swap_is_mended_only_by_two_parts_together) {
    auto const l = load("float_and_set_together");
    auto const a = alternatives(catalog(), l.site, l.swap.put, 2);
    EXPECT_TRUE(a.keep.empty());
    ASSERT_EQ(a.release.size(), 1u);
    auto const& r = a.release[0];
    EXPECT_EQ(r.positions, (std::vector<std::string>{"secondary.float", "secondary.switch_set"}));
    ASSERT_EQ(r.tuples, (std::vector<std::vector<std::string>>{{"power house float", "tower lock set"}}));
    EXPECT_TRUE(settled(check(catalog(), l.site, with(l.swap, r, r.tuples[0]))));
    for (std::size_t i : {0u, 1u}) {
        Repair const one{{r.positions[i]}, {}, 0, "", "", {}};
        EXPECT_FALSE(settled(check(catalog(), l.site, with(l.swap, one, {r.tuples[0][i]})))) << r.tuples[0][i];
    }
}

TEST(Demo, a_blocked_remedy_does_not_fit_when_it_is_made_alone) {
    int tried = 0;
    for (auto const& name : swap_names()) {
        auto const l = load(name);
        for (auto const& b : alternatives(catalog(), l.site, l.swap.put, 1, l.swap.old_may_return).blocked) {
            ++tried;
            EXPECT_FALSE(settled(check(catalog(), l.site, with(l.swap, Repair{{b.position}, {}, 0, "", "", {}}, {b.part})))) << name << " " << b.part;
        }
    }
    EXPECT_GE(tried, 3);
}

TEST(Demo, a_part_for_itself_changes_nothing) {
    for (auto const& name : swap_names()) {
        auto const l = load(name);
        auto const held = installed(l.site);
        for (std::size_t p = 0; p < held.size(); ++p) {
            if (held[p] == nothing) continue;
            auto const v = check(catalog(), l.site, {{l.site.positions[p].name, catalog().parts[static_cast<std::size_t>(held[p])].id}});
            EXPECT_EQ(v.outcome, v.before) << name;
            EXPECT_TRUE(v.changes.empty());
        }
    }
}

TEST(Demo, the_same_question_gives_the_same_bytes) {
    auto const l = load("slide_wire_in_low_column");
    auto answer = [&] {
        return render_json(check(catalog(), l.site, l.swap.put), alternatives(catalog(), l.site, l.swap.put, 2));
    };
    EXPECT_EQ(answer(), answer());
}

TEST(Demo, no_line_of_text_is_wider_than_eighty_columns) {
    for (auto const& name : swap_names()) {
        auto const l = load(name);
        auto const text = render_text(check(catalog(), l.site, l.swap.put), alternatives(catalog(), l.site, l.swap.put, 1));
        std::istringstream lines(text);
        for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), 80u) << name << ": " << line;
    }
}

}  // namespace
}  // namespace levelswap
