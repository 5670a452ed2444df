// The demo is invented: these tests hold the sheet against the verdict and the walk.
#include "engine/json_writer.hpp"
#include "engine/level_words.hpp"
#include "engine/mountings.hpp"
#include "levelswap/engine/sheet.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

namespace levelswap {
namespace {

namespace fs = std::filesystem;
using Put = std::vector<std::pair<std::string, std::string>>;
using testing::HasSubstr;
using testing::Not;

fs::path demo() { return fs::path(LEVELSWAP_SOURCE_DIR) / "demo_catalog"; }

Catalog const& catalog() {
    static Catalog const c = read_catalog(demo().string());
    return c;
}

Site site_of(std::string const& name) { return read_site((demo() / "sites" / (name + ".yaml")).string(), catalog()); }

/// The power house has two columns that may be moved; its own parts fit as they stand.
TEST(Sheet, a_mounting_that_fits_is_left_as_it_is_and_its_window_is_told) {
    auto const s = sheet(catalog(), site_of("power_house"), {});
    ASSERT_EQ(s.outcome, Outcome::fits);
    ASSERT_EQ(s.mountings.size(), 2u);
    for (auto const& m : s.mountings) {
        EXPECT_EQ(m.action, "leave it as it is") << m.station;
        EXPECT_THAT(m.window, HasSubstr(" to ")) << m.station;
    }
}

TEST(Sheet, wires_are_spoken_of_where_there_are_some) {
    auto says_switch = [](Sheet const& s) {
        return std::any_of(s.cautions.begin(), s.cautions.end(), [](SheetCaution const& c) { return c.work == "switch"; });
    };
    EXPECT_TRUE(says_switch(sheet(catalog(), site_of("ice_house"), {{"town main.solenoid_valve", "twin fill solenoid valve"}})));
    EXPECT_FALSE(says_switch(sheet(catalog(), site_of("bath_house"), {{"tank.float_valve", "twin cistern valve"}})));
}

TEST(Sheet, a_boiler_without_a_glass_is_watched_at_a_hose) {
    auto const s = sheet(catalog(), site_of("seamens_hostel"), {{"primary.probe_relay", "probe lock relay"}});
    ASSERT_EQ(s.outcome, Outcome::fits);
    EXPECT_THAT(s.datum, Not(HasSubstr("glass")));
    for (auto const& level : s.levels) EXPECT_EQ(level.in_glass, "no glass");
    std::string all;
    for (auto const& step : s.steps) {
        all += step.title + "\n";
        for (auto const& check : step.checks) all += check.text + "\n";
    }
    EXPECT_THAT(all, HasSubstr("clear hose on its drain"));
    EXPECT_THAT(all, Not(HasSubstr("lass blown down")));
    EXPECT_THAT(all, Not(HasSubstr("out of the glass")));
    for (auto const& text : s.adjustments) EXPECT_THAT(text, Not(HasSubstr("at full fire"))) << text;   // nothing evaporates
}

TEST(Sheet, a_column_that_has_to_move_gets_a_height_at_which_every_requirement_holds) {
    auto site = site_of("power_house");
    auto& secondary = *std::find_if(site.stations.begin(), site.stations.end(),
                                    [](Station const& s) { return s.name == "secondary"; });
    Fact low = *secondary.facts.find(Attribute::mounting);
    low.lo = low.hi = 63.5e6;   // 2.5 in: the secondary acts below the glass
    secondary.facts.set(Attribute::mounting, low);
    auto const s = sheet(catalog(), site, {});
    ASSERT_EQ(s.outcome, Outcome::fits);
    EXPECT_THAT(s.mountings.back().action, HasSubstr("move it to"));
    EXPECT_TRUE(s.walk.faults.empty());
    for (auto const& row : s.levels) {   // what was is told of the column where it hung, not where it is moved to
        bool const as_it_was = row.falling.starts_with(row.old_falling + " ");
        EXPECT_EQ(as_it_was, row.duty != words_of(Duty::secondary_cut_off)) << row.duty << ": " << row.falling << ", was " << row.old_falling;
    }

    auto const settled = settle_mountings(Case(catalog(), site, {}));
    ASSERT_TRUE(settled.mountings.back().set_to);
    EXPECT_TRUE(settled.mountings.back().window->contains(*settled.mountings.back().set_to));
    EXPECT_EQ(Judge(catalog(), settled.site).truth(installed(settled.site)), Truth::holds);
}

std::string all_checks(Sheet const& s, std::string const& title) {
    std::string text;
    for (auto const& step : s.steps)
        if (step.title.find(title) != std::string::npos)
            for (auto const& c : step.checks) text += c.text + " => " + c.expected + "\n";
    return text;
}

Sheet demo_sheet(std::string const& name) {
    auto const swap = read_swap((demo() / "swaps" / (name + ".yaml")).string());
    return sheet(catalog(), read_site((demo() / "swaps" / swap.site_file).string(), catalog()), swap.put);
}

TEST(Sheet, a_column_whose_height_nobody_knows_is_moved_and_the_others_are_left) {
    auto site = site_of("power_house");
    auto& secondary = *std::find_if(site.stations.begin(), site.stations.end(),
                                    [](Station const& s) { return s.name == "secondary"; });
    secondary.facts.set(Attribute::mounting, unknown_fact(Attribute::mounting));
    auto const s = sheet(catalog(), site, {});
    ASSERT_EQ(s.outcome, Outcome::fits);
    EXPECT_EQ(s.mountings.front().action, "leave it as it is");
    EXPECT_EQ(s.mountings.back().now, "not known");
    EXPECT_THAT(s.mountings.back().action, HasSubstr("move it to"));
    EXPECT_TRUE(s.walk.faults.empty());
    EXPECT_EQ(s.walk.events.size(), sheet(catalog(), site_of("power_house"), {}).walk.events.size());
}

TEST(Sheet, a_relay_that_needs_power_is_not_proved_dead) {
    auto const s = demo_sheet("twin_rods_and_relay");
    auto const dead = all_checks(s, "proved dead"), powered = all_checks(s, "Powered");
    EXPECT_THAT(dead, ::testing::Not(HasSubstr("opens falling")));
    EXPECT_THAT(dead, HasSubstr("Ohmmeter on each probe wire of primary.probe_relay"));
    // A resistor stands for the water; a wire taken off or grounded does what the relay's own facts say, whatever water does.
    EXPECT_THAT(powered, HasSubstr("a resistor of 22500 ohm held from each dry rod to the metal, the lowest first, and left there, reset pressed. => closes, each after 2 s to 4 s"));
    EXPECT_THAT(powered, HasSubstr("taken off in turn, the resistors on; put back, reset pressed. => contact open, each after 2 s to 4 s"));
    EXPECT_THAT(powered, HasSubstr("grounded at its holder in turn, reset pressed while it is; free again, reset pressed. => "));
}

TEST(Sheet, a_transmitter_is_proved_by_its_signal) {
    auto const s = demo_sheet("second_gallery_transmitter");
    EXPECT_THAT(all_checks(s, "proved dead"), HasSubstr("340 ohm to 360 ohm"));
    EXPECT_THAT(all_checks(s, "Powered"), HasSubstr("4 mA at 6 in (5.95 in to 6.05 in), 20 mA at 9 in (8.95 in to 9.05 in)"));
    EXPECT_THAT(s.wiring.back().contact, HasSubstr("a signal in a two-wire loop, 4 mA at 6 in"));
    EXPECT_EQ(s.fixed.size(), 2u);   // the two switch sets only
    // g x (rho x h + rho'' x (H - h) - rho_leg x H) at the ends of 20 in +/- .05 in, 35 to 45 degC and 14.4 to 15 psi(a) of
    // air, with densities of CoolProp at 125 psi(g): -.5251 to -.5188 psi at 6 in, -.4294 to -.4230 psi at 9 in.
    EXPECT_THAT(all_checks(s, "Powered"), HasSubstr("-0.522 psi (-0.5251 psi to -0.5188 psi) at the low level, -0.4262 psi (-0.4294 psi to -0.423 psi) at the high level"));
    EXPECT_THAT(all_checks(s, "proved dead"), HasSubstr("The wet leg of level.transmitter filled"));
    EXPECT_THAT(all_checks(s, "Powered"), HasSubstr("opened at its terminals, then closed. => holds valve"));
}

TEST(Sheet, a_new_contactor_is_set_to_the_motor_that_is_there) {
    auto const s = sheet(catalog(), site_of("north_quay"), {{"pump.contactor", "capstan contactor"}});
    EXPECT_THAT(s.adjustments, ::testing::Contains(HasSubstr("overload of pump.contactor: set to the full-load current on the motor's plate, 1.9 A to 2.1 A.")));
    auto const before = sheet(catalog(), site_of("north_quay"), {});
    EXPECT_THAT(before.adjustments, ::testing::Not(::testing::Contains(HasSubstr("overload of"))));
}

TEST(Sheet, an_opened_joint_and_the_way_back_of_a_probe_are_looked_at) {
    auto const s = demo_sheet("twin_rods_and_relay");
    EXPECT_THAT(all_checks(s, "proved dead"), HasSubstr("Ohmmeter from the reference terminal of primary.probe_relay"));
    EXPECT_THAT(all_checks(s, "Hot, at low fire"), HasSubstr("Every joint that was opened"));
    EXPECT_THAT(all_checks(demo_sheet("like_for_like"), "Hot, at low fire"), ::testing::Not(HasSubstr("Every joint")));
}

TEST(Sheet, the_wires_of_a_control_that_holds_pressure_are_named_among_the_cautions) {
    auto const s = demo_sheet("second_loft_feeder");
    EXPECT_THAT(s.cautions, ::testing::Contains(::testing::Field(&SheetCaution::text, HasSubstr("Wires touched: burner 110 V to 127 V"))));
    EXPECT_THAT(s.cautions, ::testing::Contains(::testing::Field(&SheetCaution::text, HasSubstr("clean threads and fresh sealant"))));
    // A probe relay has a supply of its own beside the circuit that it switches.
    auto const probes = demo_sheet("twin_rods_and_relay");
    EXPECT_THAT(probes.cautions, ::testing::Contains(::testing::Field(&SheetCaution::text, ::testing::AllOf(HasSubstr("relay of primary"), HasSubstr("more than one supply")))));
}

/// A held button, a power failure: for a primary that locks out as well, with a secondary or without one.
TEST(Sheet, every_cut_off_that_locks_out_is_held_and_loses_its_power) {
    auto const one = demo_sheet("like_for_like");
    EXPECT_THAT(all_checks(one, "Secondary"), HasSubstr("pressed and held while the water is low"));
    Catalog changed = catalog();
    for (auto& part : changed.parts)
        for (auto& output : part.outputs)
            if (part.id == "slipway relay" && output.name == "lower") {
                auto set = [&](Attribute a, std::uint64_t may) {
                    Fact f = *output.facts.find(a);
                    f.nature = Fact::Nature::uncertain;
                    f.may = f.must = may;
                    output.facts.set(a, f);
                };
                set(Attribute::reset_type, bits<Attribute::reset_type>("manual"));
                set(Attribute::trip_free, bits<Attribute::trip_free>("yes"));
                set(Attribute::after_power_loss, bits<Attribute::after_power_loss>("holds"));
            }
    for (auto& pack : changed.packs)   // practice asks for a primary that resets by itself
        std::erase_if(pack.rows, [](PackRow const& r) { return r.figure == Figure::primary_automatic_reset; });
    auto const both = sheet(changed, site_of("slipway"), {});
    ASSERT_EQ(both.outcome, Outcome::fits) << both.reason;
    EXPECT_THAT(all_checks(both, "water lowered"), HasSubstr("Reset of the primary low-water cut-off pressed and held"));
    EXPECT_THAT(all_checks(both, "Feed on again"), HasSubstr("Power off and on again. => the contact stays open"));
}

TEST(Sheet, a_float_valve_has_no_terminals_no_fuse_and_no_load) {
    auto const s = demo_sheet("two_probes_to_float_valve");
    ASSERT_EQ(s.wiring.size(), 1u);
    EXPECT_EQ(s.wiring[0].terminals + s.wiring[0].load + s.wiring[0].rating + s.wiring[0].protection, "");
    EXPECT_TRUE(s.fixed.empty());
    EXPECT_EQ(all_checks(s, "isolated"), "");
    EXPECT_THAT(all_checks(s, "Water supply on"), HasSubstr("opens, then shuts tight"));
}

TEST(Sheet, rods_the_regulator_and_what_the_work_uses_up_are_told) {
    auto const rods = demo_sheet("twin_rods_and_relay");
    EXPECT_THAT(rods.adjustments, ::testing::Contains(HasSubstr("length of the middle rod at primary: 24.5 in (24.35 in to 24.65 in)")));   // 30 in - 5.5 in
    EXPECT_THAT(rods.consumables, ::testing::Contains(HasSubstr("primary.probe_holder: thread sealant or gasket")));
    auto const regulator = demo_sheet("regulator_before_the_float_valve");   // droop 4 psi, lock-up 3 psi: 10 - 4, 47.05 + 3
    EXPECT_THAT(regulator.adjustments, ::testing::Contains(HasSubstr(
        "10 psi(g) to 47.05 psi(g); set less droop, 6 psi(g) to 43.05 psi(g) while the demand flows; set and lock-up, 13 psi(g) to 50.05 psi(g)")));
}

TEST(Sheet, what_acts_otherwise_than_before_is_listed_with_both_values) {
    auto const site = site_of("coal_wharf");
    Put const put = {{"primary.head", "quay head"}, {"primary.switch_set", "tide slide set"}, {"primary.column", "deep column"}};
    auto const s = sheet(catalog(), site, put);
    EXPECT_EQ(s.differences, (std::vector<std::string>{"modulating feed: rising at 8.09 in, was 6.23 in"}));
    EXPECT_EQ(sheet(catalog(), site, {}).differences,
              (std::vector<std::string>{"nothing: every level and every reset is as it was"}));
}

TEST(Sheet, every_function_of_the_site_has_a_level_a_circuit_and_a_state) {
    for (auto const* name : {"north_quay", "power_house", "coal_wharf"}) {
        auto const site = site_of(name);
        auto const s = sheet(catalog(), site, {});
        EXPECT_EQ(s.levels.size(), site.functions.size()) << name;
        EXPECT_EQ(s.wiring.size(), site.functions.size()) << name;
        EXPECT_EQ(s.states.size(), site.functions.size()) << name;
    }
}

TEST(Sheet, a_motor_behind_a_contactor_is_told_with_its_overload) {
    auto const s = sheet(catalog(), site_of("north_quay"), {});
    auto const pump = std::find_if(s.wiring.begin(), s.wiring.end(), [](auto const& w) { return w.circuit == "pump"; });
    ASSERT_NE(pump, s.wiring.end());
    EXPECT_THAT(pump->load, HasSubstr("coil of winch contactor (72 VA to 88 VA inrush"));
    EXPECT_THAT(pump->load, HasSubstr("the contactor switches a motor, 0.5 hp, 230 V, number of phases 3"));
    EXPECT_THAT(pump->protection, HasSubstr("motor overload in winch contactor"));
}

TEST(LevelWords, ranges_are_rounded_outward_and_points_are_not_widened) {
    LevelWords const us(Units::us), si(Units::si);
    EXPECT_EQ(us.range({25.5e6, 50.7e6}), "1 in to 2 in");       // 1.0039 in and 1.9961 in
    EXPECT_EQ(us.range({25.4e6, 50.8e6}), "1 in to 2 in");       // exactly
    EXPECT_EQ(us.range({25.3e6, 50.9e6}), "0.99 in to 2.01 in");
    EXPECT_EQ(si.range({10.2e6, 19.7e6}), "10 mm to 20 mm");
    EXPECT_EQ(si.range(Interval{177.8e6}), "178 mm");
    EXPECT_EQ(us.level(0, {-5e9, 5e9}), "not known");
}

/// RFC 8259 section 7 gives the escapes.
TEST(JsonWriter, quotes_backslashes_and_control_characters_are_escaped) {
    JsonWriter json;
    json.text("a \"b\" \\ \n\t\x01 é");
    EXPECT_EQ(json.take(), "\"a \\\"b\\\" \\\\ \\n\\t\\u0001 é\"");
    JsonWriter numbers;
    numbers.list(std::vector<double>{0.1234567, -0.0, 2.0}, [&](double x) { numbers.number(x); });
    EXPECT_EQ(numbers.take(), "[0.123457,0,2]");
}

}  // namespace
}  // namespace levelswap
