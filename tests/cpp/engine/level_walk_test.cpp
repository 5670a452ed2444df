// The demo is invented: these tests hold the walk against the verdict. That the order of events a fitter must see is
// feed, alarm, first cut-off, second cut-off with lockout: ASME CSD-1 CW-140 (a), (b) for the two cut-offs; the place
// of feed and alarm is common practice, no source.
#include "engine/mountings.hpp"
#include "engine/walk_words.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

namespace levelswap {
namespace {

namespace fs = std::filesystem;
using Put = std::vector<std::pair<std::string, std::string>>;
using ::testing::Contains;
using ::testing::HasSubstr;

constexpr std::uint64_t worlds = 400;

fs::path demo() { return fs::path(LEVELSWAP_SOURCE_DIR) / "demo_catalog"; }

Catalog const& catalog() {
    static Catalog const c = read_catalog(demo().string());
    return c;
}

struct Named {
    std::string name;
    Site site;
    Put put;
};

Named load(std::string const& name) {
    auto const swap = read_swap((demo() / "swaps" / (name + ".yaml")).string());
    return {name, read_site((demo() / "swaps" / swap.site_file).string(), catalog()), swap.put};
}

std::vector<Named> every_swap() {
    std::vector<Named> out;
    for (auto const& e : fs::directory_iterator(demo() / "swaps")) out.push_back(load(e.path().stem().string()));
    std::sort(out.begin(), out.end(), [](auto const& x, auto const& y) { return x.name < y.name; });
    return out;
}

Put repaired(Named const& n, Repair const& r) {
    Put put = n.put;
    for (std::size_t i = 0; i < r.positions.size(); ++i) {
        std::erase_if(put, [&](auto const& p) { return p.first == r.positions[i]; });
        put.emplace_back(r.positions[i], r.tuples.front()[i]);
    }
    return put;
}

/// Every demo swap that fits, and every remedy that is offered for one that does not.
std::vector<Named> every_fit() {
    std::vector<Named> out;
    for (auto const& n : every_swap()) {
        auto const verdict = check(catalog(), n.site, n.put);
        if (verdict.outcome == Outcome::fits) out.push_back(n);
        else {
            auto const a = alternatives(catalog(), n.site, n.put, 2);
            for (auto const* list : {&a.keep, &a.release})
                for (auto const& r : *list) {
                    Named fit{n.name + " repaired at " + r.positions.front(), n.site, repaired(n, r)};
                    if (check(catalog(), fit.site, fit.put).outcome == Outcome::fits) out.push_back(std::move(fit));
                }
        }
    }
    return out;
}

/// Whether all level requirements of the verdict hold in one world.
bool levels_hold(Case const& c, World w) {
    auto const& wiring = *c.judgement_after.wiring;
    auto at = [&](int e) { return level_in(c.judge.site(), wiring.elevations[static_cast<std::size_t>(e)], e, w); };
    return std::all_of(wiring.levels.begin(), wiring.levels.end(), [&](LevelRule const& r) {
        return at(r.upper) - at(r.lower) >= static_cast<double>(r.separation) + r.needed.hi;
    });
}

/// The functions in the order in which they act in a phase.
std::vector<Duty> acting(Run const& run, WalkModel const& model, Phase phase) {
    std::vector<Duty> out;
    for (auto const& h : run.happenings)
        if (h.phase == phase && (out.empty() || out.back() != model.devices[static_cast<std::size_t>(h.device)].duty))
            out.push_back(model.devices[static_cast<std::size_t>(h.device)].duty);
    return out;
}

bool in_this_order(std::vector<Duty> const& seen, std::vector<Duty> const& wanted) {
    auto from = seen.begin();
    for (Duty d : wanted) {
        if (std::find(seen.begin(), seen.end(), d) == seen.end()) continue;
        from = std::find(from, seen.end(), d);
        if (from == seen.end()) return false;
    }
    return true;
}

TEST(LevelWalk, a_fit_keeps_the_order_of_events_and_every_level_requirement_in_every_sampled_world) {
    auto const fits = every_fit();
    ASSERT_GE(fits.size(), 10u);
    for (auto const& n : fits) {
        auto const settled = settle_mountings(Case(catalog(), n.site, n.put));
        Case const c(catalog(), settled.site, n.put);
        ASSERT_EQ(c.judgement_after.truth, Truth::holds) << n.name;
        auto const model = walk_model(c);
        for (std::uint64_t seed = 0; seed < worlds; ++seed) {
            EXPECT_TRUE(levels_hold(c, {seed})) << n.name << ", world " << seed;
            auto const r = run(c.judge.site(), model, {seed});
            using enum Duty;
            EXPECT_TRUE(in_this_order(acting(r, model, Phase::falling), {pump, low_alarm, primary_cut_off, secondary_cut_off})) << n.name;
            EXPECT_TRUE(in_this_order(acting(r, model, Phase::falling), {modulating_feed, low_alarm, primary_cut_off})) << n.name;
            EXPECT_TRUE(in_this_order(acting(r, model, Phase::rising), {primary_cut_off, pump, high_alarm})) << n.name;
            EXPECT_TRUE(in_this_order(acting(r, model, Phase::rising), {primary_cut_off, modulating_feed, high_alarm})) << n.name;
            EXPECT_TRUE(r.faults.empty()) << n.name << ", world " << seed;
        }
    }
}

TEST(LevelWalk, a_level_requirement_that_is_refused_breaks_in_some_sampled_world) {
    int refused = 0;
    for (auto const& n : every_swap()) {
        Case const c(catalog(), n.site, n.put);
        if (!c.judgement_after.wiring || c.judgement_after.wiring->levels_truth != Truth::fails) continue;
        ++refused;
        bool broken = false;
        for (std::uint64_t seed = 0; seed < worlds; ++seed) broken |= !levels_hold(c, {seed});
        EXPECT_TRUE(broken) << n.name;
        // The walk sees what happens and when, how often a pump starts and how cold a fill makes a tank; what the glass
        // shows at the lowest permissible level it does not tell.
        auto const& levels = c.judgement_after.wiring->levels;
        bool const of_events = std::any_of(levels.begin(), levels.end(), [](LevelRule const& r) {
            auto const id = rule_table()[static_cast<std::size_t>(r.rule)].id;
            return (r.in_conflict || r.alone == Truth::fails) && id != "levels.glass_over_lpwl";
        });
        EXPECT_EQ(walk(catalog(), n.site, n.put).faults.empty(), !of_events) << n.name;
    }
    EXPECT_GE(refused, 2);
}

/// The same outputs at levels made up for the test: the secondary is lifted past the primary, by the nanometre.
TEST(LevelWalk, order_breaks_exactly_when_the_secondary_reaches_the_level_of_the_primary) {
    auto const n = load("like_for_like");
    Case const c(catalog(), n.site, n.put);
    auto model = walk_model(c);
    auto find = [&](Duty duty) {
        return std::find_if(model.devices.begin(), model.devices.end(), [&](Device const& d) { return d.duty == duty; });
    };
    auto const primary = find(Duty::primary_cut_off);
    auto& lifted = find(Duty::secondary_cut_off)->levels.falling;
    double const apart = level_in(c.judge.site(), primary->levels.falling, primary->falling_key(), {}) -
                         level_in(c.judge.site(), lifted, find(Duty::secondary_cut_off)->falling_key(), {});
    auto const breaks = [&](double by) {
        auto const own = lifted.own;
        lifted.own = own + Interval{by};
        auto const faults = run(c.judge.site(), model, {}).faults;
        lifted.own = own;
        return std::any_of(faults.begin(), faults.end(),
                           [](Fault const& f) { return f.kind == Fault::Kind::out_of_order_falling; });
    };
    EXPECT_FALSE(breaks(apart - 1));
    EXPECT_TRUE(breaks(apart + 1));
}

TEST(LevelWalk, the_middle_world_lies_inside_the_range_of_every_level_and_so_does_every_other) {
    for (auto const& n : every_swap()) {
        Case const c(catalog(), n.site, n.put);
        for (auto const& d : walk_model(c).devices) {
            if (!d.wired()) continue;
            for (bool rising : {false, true}) {
                auto const& e = rising ? d.levels.rising : d.levels.falling;
                auto const range = level_range(n.site, e);
                for (std::uint64_t seed = 0; seed < 50; ++seed) {
                    double const at = level_in(n.site, e, rising ? d.rising_key() : d.falling_key(), {seed});
                    EXPECT_GE(at, range.lo - 1) << n.name;   // 1 nm: the sums are rounded
                    EXPECT_LE(at, range.hi + 1) << n.name;
                }
            }
        }
    }
}

TEST(LevelWalk, the_same_world_gives_the_same_walk_and_two_worlds_differ) {
    auto const n = load("like_for_like");
    auto levels = [&](std::uint64_t seed) {
        std::vector<double> out;
        for (auto const& e : walk(catalog(), n.site, n.put, Units::us, {seed}).events) out.push_back(e.nominal);
        return out;
    };
    EXPECT_EQ(levels(7), levels(7));
    EXPECT_NE(levels(7), levels(8));
}

/// Columns that share a mounting move together: the distance of two levels on one column never depends on it.
TEST(LevelWalk, levels_of_one_column_share_its_mounting_in_every_world) {
    auto n = load("like_for_like");
    auto distance = [&](World w) {
        Case const c(catalog(), n.site, n.put);
        auto const model = walk_model(c);
        auto const& a = model.devices[0];
        auto const b = std::find_if(model.devices.begin(), model.devices.end(), [](Device const& d) { return d.duty == Duty::pump; });
        return level_in(n.site, b->levels.falling, b->falling_key(), w) - level_in(n.site, a.levels.falling, a.falling_key(), w);
    };
    auto const before = distance({5});
    Fact loose = *n.site.stations[0].facts.find(Attribute::mounting);
    loose.lo -= 2e7;
    loose.hi += 2e7;
    n.site.stations[0].facts.set(Attribute::mounting, loose);
    EXPECT_NEAR(distance({5}), before, 1e-3);
}

TEST(LevelWalk, a_column_that_is_mounted_too_high_breaks_the_order_of_the_cut_offs_in_every_world) {
    auto n = load("like_for_like");
    auto& secondary = *std::find_if(n.site.stations.begin(), n.site.stations.end(),
                                    [](Station const& s) { return s.name == "secondary"; });
    Fact high = *secondary.facts.find(Attribute::mounting);
    high.lo += 50.8e6;   // 2 in
    high.hi += 50.8e6;
    secondary.facts.set(Attribute::mounting, high);
    auto const verdict = check(catalog(), n.site, n.put);
    ASSERT_EQ(verdict.outcome, Outcome::does_not_fit);
    EXPECT_EQ(verdict.findings.front().rule, "levels.order");
    EXPECT_THAT(walk(catalog(), n.site, n.put).faults,
                Contains(HasSubstr("Secondary low-water cut-off acts at 4.9 in, not below the primary low-water cut-off at 4.03 in")));
}

struct Wrong {
    std::string swap, fault;
};

TEST(LevelWalk, a_refused_swap_shows_what_would_go_wrong) {
    for (auto const& [name, fault] : std::vector<Wrong>{
             {"slide_wire_in_low_column", "The feed valve sticks at 37 % to 57 % open, since the float's reach ends at the ceiling"},
             {"automatic_secondary", "The burner starts again by itself once the water is back"},
             {"lockout_that_forgets", "A power failure clears the lockout"},
             {"pump_reset_by_hand", "the pump runs past its stop until somebody presses it"},
             {"one_contact_for_four_duties", "No output is left for the low-level alarm"},
             {"glass_starts_too_high", "Primary low-water cut-off acts at 4.03 in, when the water has left the glass at 4.43 in"},
             {"no_height_for_the_secondary", "Secondary low-water cut-off acts at 3.06 in, when the water has left the glass"},
             {"float_against_the_wall", "touches the side within the head's own arc and can jam"},
             {"chamber_nobody_opened", "Within the tolerances it can be that"},
             {"lockout_that_waits", "secondary low-water cut-off trips at 3 in and acts 175 s to 185 s later, by"},
             {"pump_starts_too_often", "the pump starts 4 times an hour at the worst take-off, and its motor stands 3"},
             {"cold_fill_between_the_rods", "A fill from 20 in to 27 in cools the tank to 142.7 degF, and the least that it may have is 150 degF"},
             {"float_valve_that_will_not_close", "up to 77.4 psi stands across its seat, and its float shuts it against 59 psi at most: the vessel overfills"}}) {
        auto const n = load(name);
        EXPECT_THAT(walk(catalog(), n.site, n.put).faults, Contains(HasSubstr(fault))) << name;
    }
}

/// The slipway's cut-offs act on rods, late. Its drum, by hand: 60 in across and 108 in long, the water 41 in above the
/// bottom at the secondary's rod, so its surface is 108 in times 2*sqrt(41*19) in = 6029 in2 = 3.890 m2. At 150 psi(g)
/// saturated water has 868.5 kg/m3 (366 degF; IAPWS-IF97). 3450 lb/h = 0.4347 kg/s lower it by 0.1287 mm each second:
/// 180 s take 23.2 mm, which is 0.912 in. The surface widens as it falls, by less than 1 %.
TEST(LevelWalk, a_cut_off_that_acts_late_acts_lower_by_what_the_fire_takes_meanwhile) {
    auto const n = load("lockout_that_waits");
    Case const c(catalog(), n.site, n.put);
    auto const model = walk_model(c);
    auto const late = std::find_if(model.devices.begin(), model.devices.end(),
                                   [](Device const& d) { return d.duty == Duty::secondary_cut_off; });
    ASSERT_NE(late, model.devices.end());
    double const trips = level_in(n.site, late->levels.falling, late->falling_key(), {});
    EXPECT_NEAR((trips - acts_at(n.site, *late, {})) / 25.4e6, 0.912, 0.04);   // the delay varies by 5 s: the most of it counts
    for (std::uint64_t seed = 0; seed < 50; ++seed) {
        double const at = acts_at(n.site, *late, {seed});
        auto const range = acting_range(n.site, *late);
        EXPECT_GE(at, range.lo - 1);
        EXPECT_LE(at, range.hi + 1);
    }
}

/// The delay is made longer and longer: as long as the verdict fits no world sees the cut-off act out of the glass, and
/// once some world does, the verdict has refused or cannot tell.
TEST(LevelWalk, a_delay_is_a_fault_of_the_walk_only_where_the_verdict_does_not_fit) {
    auto const n = load("twin_rods_and_relay");
    int fits = 0, faulty = 0;
    for (int seconds : {0, 5, 60, 120, 150, 170, 190, 240, 600}) {
        Catalog changed = catalog();
        for (auto& part : changed.parts)
            for (auto& output : part.outputs)
                if (part.id == "probe lock relay") {
                    Fact slow = *output.facts.find(Attribute::delay);
                    slow.lo = slow.hi = seconds * 1e3;
                    output.facts.set(Attribute::delay, slow);
                }
        Case const c(changed, n.site, n.put);
        bool seen = false;
        auto const model = walk_model(c);
        for (std::uint64_t seed = 0; seed < worlds; ++seed) {
            auto const faults = run(n.site, model, {seed}).faults;
            seen |= std::any_of(faults.begin(), faults.end(), [](Fault const& f) { return f.kind == Fault::Kind::out_of_glass; });
        }
        fits += c.judgement_after.truth == Truth::holds;
        faulty += seen;
        EXPECT_FALSE(seen && c.judgement_after.truth == Truth::holds) << seconds << " s";
    }
    EXPECT_GE(fits, 2);
    EXPECT_GE(faulty, 2);
}

TEST(LevelWalk, a_delay_that_nobody_knows_is_told_and_its_level_is_not_made_up) {
    auto const n = load("twin_rods_and_relay");
    Catalog changed = catalog();
    for (auto& part : changed.parts)
        for (auto& output : part.outputs)
            if (part.id == "probe lock relay") output.facts.set(Attribute::delay, unknown_fact(Attribute::delay));
    auto const w = walk(changed, n.site, n.put);
    auto const late = std::find_if(w.events.begin(), w.events.end(), [](auto const& e) { return e.duty == "secondary_cut_off"; });
    ASSERT_NE(late, w.events.end());
    EXPECT_THAT(late->level, HasSubstr("acts later: how far the water falls meanwhile is not known"));
    EXPECT_THAT(w.faults, Contains(HasSubstr("how far the water falls meanwhile is not known: it may have left the glass")));
}

TEST(LevelWalk, a_float_valve_opens_and_shuts_and_has_no_contact) {
    auto const n = load("two_probes_to_float_valve");
    std::vector<std::string> seen;
    for (auto const& e : walk(catalog(), n.site, n.put).events) seen.push_back(e.phase + ", " + e.event + " -> " + e.effect);
    EXPECT_EQ(seen, (std::vector<std::string>{"falling, make-up: valve opens -> water flows in", "rising, make-up: valve shuts -> the flow stops"}));
}

/// Nobody has measured how high the secondary hangs: its levels say nothing, and no order is made up.
TEST(LevelWalk, a_mounting_that_nobody_measured_makes_no_fault_of_order) {
    auto n = load("like_for_like");
    auto& secondary = *std::find_if(n.site.stations.begin(), n.site.stations.end(), [](Station const& s) { return s.name == "secondary"; });
    secondary.facts.set(Attribute::mounting, unknown_fact(Attribute::mounting));
    auto const w = walk(catalog(), n.site, n.put);
    EXPECT_TRUE(w.faults.empty()) << w.faults.front();
    for (auto const& e : w.events) EXPECT_EQ(e.level.find("not known") != std::string::npos, e.duty == "secondary_cut_off") << e.event;
}

TEST(LevelWalk, a_lockout_stays_open_through_a_held_button_and_a_power_failure_until_reset_is_pressed) {
    auto const n = load("like_for_like");
    std::vector<std::string> seen;
    for (auto const& e : walk(catalog(), n.site, n.put).events)
        if (e.duty == "secondary_cut_off") seen.push_back(e.effect);
    EXPECT_EQ(seen, (std::vector<std::string>{
                        "burner is off already, locked out until reset is pressed", "contact stays open",
                        "contact stays open", "contact stays open, still locked out",
                        "contact closes; burner stays off, another cut-off is still open"}));
}

TEST(LevelWalk, a_relay_that_trips_on_a_power_failure_locks_out_wet_and_is_no_fault) {
    auto const n = load("like_for_like");
    Case const c(catalog(), n.site, n.put);
    auto model = walk_model(c);
    for (auto& d : model.devices) d.trips_wet = d.duty == Duty::secondary_cut_off ? Truth::holds : Truth::fails;
    auto const r = run(n.site, model, {});
    ASSERT_GE(r.happenings.size(), 2u);
    EXPECT_EQ(r.happenings[0].what, Happens::power_trips);
    EXPECT_TRUE(r.happenings[0].burner_before && !r.happenings[0].burner_after);
    EXPECT_EQ(r.happenings[1].what, Happens::pressed_closes);
    EXPECT_TRUE(r.happenings[1].burner_after);
    EXPECT_TRUE(r.faults.empty());
}

}  // namespace
}  // namespace levelswap
