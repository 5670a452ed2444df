// Outside sources: the shift of a level in a cooler column is worked in tests/cpp/physics/column_water_test.cpp; here
// the same figure must come out for a boiler. Consumables and isolation: common practice, no source.
#include "levelswap/engine/engine.hpp"
#include "levelswap/physics/column_water.hpp"
#include "levelswap/rules/rule.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <filesystem>

namespace levelswap {
namespace {

namespace fs = std::filesystem;
using testing::AllOf;
using testing::Contains;
using testing::ElementsAre;
using testing::Field;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

fs::path demo() { return fs::path(LEVELSWAP_SOURCE_DIR) / "demo_catalog"; }

/// A demo swap that a test may alter.
struct Trial {
    explicit Trial(std::string const& name) : catalog(read_catalog(demo().string())) {
        auto const file = demo() / "swaps" / (name + ".yaml");
        swap = read_swap(file.string());
        site = read_site((file.parent_path() / swap.site_file).string(), catalog);
    }
    Fact* fact(std::string const& part, std::string const& output, Attribute a) {
        for (auto& o : catalog.parts[static_cast<std::size_t>(catalog.find(part))].outputs)
            if (o.name == output) return const_cast<Fact*>(o.facts.find(a));
        return nullptr;
    }
    void set(std::string const& part, std::string const& output, Attribute a, std::uint64_t may) {
        fact(part, output, a)->nature = Fact::Nature::uncertain;
        fact(part, output, a)->may = may;
    }
    [[nodiscard]] Verdict check_it(Units units = Units::si) const { return check(catalog, site, swap.put, units); }
    [[nodiscard]] Alternatives instead(int most, WhichRepairs which) const {
        return alternatives(catalog, site, swap.put, most, swap.old_may_return, Units::si, which);
    }

    Catalog catalog;
    Swap swap;
    Site site;
};

TEST(Shifts, each_output_of_a_steam_boiler_names_its_shift_and_which_side_it_lies_on) {
    auto const v = Trial("like_for_like").check_it();
    auto const shift = [](char const* output, char const* direction) {
        return AllOf(Field(&Shift::output, HasSubstr(output)), Field(&Shift::direction, direction),
                     Field(&Shift::condition, HasSubstr("assumed")), Field(&Shift::condition, HasSubstr("60 K cooler")));
    };
    EXPECT_EQ(v.shifts.size(), 6u);
    EXPECT_THAT(v.shifts, Contains(shift("primary low-water cut-off, falling, on primary.switch_set.lower", "trips early, safe side")));
    EXPECT_THAT(v.shifts, Contains(shift("secondary low-water cut-off, falling", "trips early, safe side")));
    EXPECT_THAT(v.shifts, Contains(shift("high-level alarm, rising", "high alarm late, unsafe side")));
    EXPECT_THAT(v.findings, IsEmpty()) << "a shift is reported, never judged";
}

/// 250 mm in the boiler reads 233 mm at 250 psig: a column level of 233 mm is a boiler level of 250 mm.
TEST(Shifts, the_worked_level_comes_out_for_a_boiler_at_that_pressure) {
    Trial t("like_for_like");
    double const psi = 6894.757293168;
    auto set = [](FactTable& table, Attribute a, double lo) {
        Fact f = *table.find(a);
        f.nature = Fact::Nature::uncertain;
        f.lo = f.hi = lo;
        table.set(a, f);
    };
    set(t.site.vessel, Attribute::mawp, 250 * psi);
    set(t.site.vessel, Attribute::atmosphere, 14.696 * psi);
    // The trip stands at 0 above the mark; the column's water connection 233 mm below the mark.
    auto* trip = t.fact("twin stage set", "lower", Attribute::trip_at_mark);
    trip->lo = trip->hi = 0;
    auto const& station = t.site.stations[0];
    auto held = [&](Role r) { return static_cast<std::size_t>(t.site.positions[static_cast<std::size_t>(station.positions[static_cast<std::size_t>(r)])].holds); };
    set(t.catalog.parts[held(Role::head)].facts, Attribute::mark, 0);
    set(t.catalog.parts[held(Role::column)].facts, Attribute::tapping_water, -233e6);
    auto const shifts = t.check_it().shifts;
    ASSERT_FALSE(shifts.empty());
    EXPECT_EQ(shifts[0].level, "233 mm");
    double const most = std::stod(shifts[0].shift.substr(shifts[0].shift.find("to ") + 3));
    EXPECT_NEAR(most, 250 - 233, 0.8) << shifts[0].shift;   // the worked value is "about" and in whole millimetres
}

TEST(Shifts, a_boiler_that_makes_no_steam_has_none) {
    Trial t("like_for_like");
    Fact service = *t.site.vessel.find(Attribute::vessel_service);
    service.may = bits<Attribute::vessel_service>("hot_water");
    t.site.vessel.set(Attribute::vessel_service, service);
    EXPECT_THAT(t.check_it().shifts, IsEmpty());
}

TEST(Shifts, an_unknown_level_has_its_shift_as_a_share_of_the_height) {
    Trial t("like_for_like");
    *t.fact("twin stage set", "lower", Attribute::trip_at_mark) = unknown_fact(Attribute::trip_at_mark);
    auto const column = t.site.stations[0].positions[static_cast<std::size_t>(Role::column)];
    auto& facts = t.catalog.parts[static_cast<std::size_t>(t.site.positions[static_cast<std::size_t>(column)].holds)].facts;
    facts.set(Attribute::tapping_water, unknown_fact(Attribute::tapping_water));
    auto const shifts = t.check_it().shifts;
    ASSERT_FALSE(shifts.empty());
    EXPECT_EQ(shifts[0].level, "a height not known");
    EXPECT_THAT(shifts[0].shift, HasSubstr("% of that height"));
}

TEST(Differences, a_part_that_acts_alike_leaves_none) {
    EXPECT_THAT(Trial("like_for_like").check_it().differences, IsEmpty());
}

TEST(Differences, what_a_power_failure_does_is_listed_although_both_are_allowed) {
    Trial t("like_for_like");
    t.set("stage set", "lower", Attribute::after_power_loss, bits<Attribute::after_power_loss>("clears"));
    t.set("twin stage set", "lower", Attribute::after_power_loss, bits<Attribute::after_power_loss>("trips"));
    auto const v = t.check_it();
    EXPECT_EQ(v.outcome, Outcome::fits);
    ASSERT_EQ(v.differences.size(), 1u);
    EXPECT_EQ(v.differences[0].function, "primary low-water cut-off");
    EXPECT_EQ(v.differences[0].before, "clears");
    EXPECT_EQ(v.differences[0].after, "trips");
    EXPECT_EQ(v.differences[0].moved, "");
}

TEST(Differences, another_reset_is_listed) {
    Trial t("like_for_like");
    t.set("twin stage set", "bell", Attribute::reset_type, bits<Attribute::reset_type>("manual"));
    EXPECT_THAT(t.check_it().differences, Contains(AllOf(Field(&Difference::function, "low-level alarm"), Field(&Difference::what, "reset"),
                                                       Field(&Difference::before, "automatic"), Field(&Difference::after, "manual"))));
}

// Connections of both columns to .02 in: the face may stand .04 in lower or higher. The mounting, measured to .1 in or so, is
// the same before and after.
TEST(Differences, another_column_moves_a_level_by_what_its_face_moves) {
    auto const v = Trial("column_of_the_next_class").check_it(Units::us);
    ASSERT_FALSE(v.differences.empty());
    EXPECT_THAT(v.differences, testing::Each(Field(&Difference::moved, "-0.04 in to 0.04 in")));
}

TEST(Differences, a_moved_trip_level_and_a_changed_differential_name_how_far) {
    Trial t("like_for_like");
    auto* trip = t.fact("twin stage set", "lower", Attribute::trip_at_mark);
    trip->lo -= 2e6;
    trip->hi -= 2e6;
    auto const differences = t.check_it().differences;
    // Two tolerances: the centre of the move is the 2 mm, its width their sum.
    EXPECT_THAT(differences, Contains(AllOf(Field(&Difference::what, "level, falling"), Field(&Difference::moved, Not("")))));
    EXPECT_THAT(differences, Contains(Field(&Difference::what, "differential")));
    EXPECT_EQ(differences.size(), 2u);
}

TEST(Work, opening_a_flange_takes_a_gasket_and_the_bolts_of_the_new_head) {
    auto const v = Trial("slide_wire_in_low_column").check_it();
    ASSERT_EQ(v.work.size(), 2u);
    EXPECT_EQ(v.work[0].position, "primary.head");
    EXPECT_THAT(v.work[0].consumables, ElementsAre("gasket of the flange", "8 bolts 5/8 in with nuts", "cable and terminals", "conduit seal"));
    EXPECT_THAT(v.work[0].drain, HasSubstr("below the joint"));
    EXPECT_THAT(v.work[0].note, HasSubstr("no firing without the cut-off"));
}

TEST(Work, a_switch_set_is_changed_without_draining_but_not_without_the_burner_locked_out) {
    auto const v = Trial("like_for_like").check_it();
    ASSERT_EQ(v.work.size(), 1u);
    EXPECT_EQ(v.work[0].drain, "nothing");
    EXPECT_THAT(v.work[0].isolate, HasSubstr("fuel locked out"));
    EXPECT_THAT(v.work[0].note, HasSubstr("is a cut-off that is missing: no firing"));
}

TEST(Work, a_repair_lists_the_work_at_its_own_positions_and_at_those_of_the_swap) {
    auto const a = Trial("slide_wire_in_low_column").instead(1, WhichRepairs::keep);
    ASSERT_FALSE(a.keep.empty());
    std::vector<std::string> at;
    for (auto const& w : a.keep[0].work) at.push_back(w.position);
    std::sort(at.begin(), at.end());
    EXPECT_THAT(at, ElementsAre("primary.column", "primary.head", "primary.switch_set"));
}

TEST(AskAlways, why_and_what_is_bypassed_are_asked_of_every_swap_and_protection_is_not_the_cause) {
    auto const v = Trial("like_for_like").check_it();
    EXPECT_THAT(v.ask_always, ElementsAre(HasSubstr("Why is it being replaced"), HasSubstr("bypassed now"), HasSubstr("find out why the water went")));
    auto const text = render_text(v);
    for (auto const& line : v.ask_always) EXPECT_THAT(text, HasSubstr(line));
}

TEST(Alternatives, only_the_search_that_was_asked_for_runs_and_the_text_says_so) {
    Trial const t("two_supplies_on_one_common");
    auto const both = t.instead(2, WhichRepairs::both), keep = t.instead(2, WhichRepairs::keep), release = t.instead(2, WhichRepairs::release);
    ASSERT_TRUE(both.keep.empty());
    ASSERT_FALSE(both.release.empty());
    EXPECT_EQ(release.release.size(), both.release.size());
    EXPECT_LT(keep.checks, both.checks);
    EXPECT_THAT(render_text(keep), AllOf(HasSubstr("NO REPAIR that keeps the proposed part"), HasSubstr("Repairs that give it up were not looked for.")));
    EXPECT_THAT(render_text(release), AllOf(Not(HasSubstr("NO REPAIR")), HasSubstr("Repairs that keep it were not looked for.")));
    for (auto const& r : keep.ruled_out) EXPECT_NE(r.position, "primary.switch_set") << "the proposed part stays";
}

/// Every blocker shares a position with every repair, and without any one of its positions it misses one.
void expect_minimal_hitting_sets(std::vector<std::vector<std::string>> const& blockers, std::vector<Repair> const& repairs) {
    auto hits = [&](std::vector<std::string> const& b) {
        return std::all_of(repairs.begin(), repairs.end(), [&](Repair const& r) {
            return std::any_of(b.begin(), b.end(), [&](auto const& p) { return std::find(r.positions.begin(), r.positions.end(), p) != r.positions.end(); });
        });
    };
    for (auto const& b : blockers) {
        EXPECT_TRUE(hits(b));
        for (std::size_t i = 0; i < b.size(); ++i) {
            auto less = b;
            less.erase(less.begin() + static_cast<std::ptrdiff_t>(i));
            EXPECT_FALSE(hits(less));
        }
    }
}

TEST(Alternatives, blockers_are_listed_only_where_the_search_went_to_full_depth) {
    int listed = 0;
    for (auto const* name : {"stiff_set_and_light_float", "slide_wire_in_low_column", "snap_set_under_the_motor", "thin_column"}) {
        Trial const t(name);
        EXPECT_THAT(t.instead(2, WhichRepairs::keep).keep_blockers, IsEmpty()) << name;
        auto const deep = t.instead(64, WhichRepairs::keep);
        EXPECT_EQ(deep.keep_blockers.empty(), deep.keep.empty()) << name;
        expect_minimal_hitting_sets(deep.keep_blockers, deep.keep);
        listed += static_cast<int>(deep.keep_blockers.size());
    }
    EXPECT_GE(listed, 3);
}

TEST(Alternatives, of_equally_dear_parts_the_one_with_the_greater_margin_comes_first) {
    Trial t("stiff_set_and_light_float");
    for (auto& part : t.catalog.parts) part.facts.set(Attribute::cost, unknown_fact(Attribute::cost));
    auto parts_offered = [&] {
        std::vector<std::string> ids;
        for (auto const& r : t.instead(1, WhichRepairs::release).release)
            if (r.positions == std::vector<std::string>{"primary.float"})
                for (auto const& tuple : r.tuples) ids.push_back(tuple[0]);
        return ids;
    };
    auto const before = parts_offered();
    ASSERT_GE(before.size(), 2u);
    // Proof against the test pressure and one pascal more: now hardly any margin is left to the first.
    double most = 0;
    for (Attribute const a : {Attribute::mawp, Attribute::hydrotest}) most = std::max(most, t.site.vessel.find(a)->hi);
    auto& first = t.catalog.parts[static_cast<std::size_t>(t.catalog.find(before.front()))];
    Fact crush = *first.facts.find(Attribute::crush);
    crush.lo = crush.hi = most + 1;
    first.facts.set(Attribute::crush, crush);
    auto const after = parts_offered();
    EXPECT_EQ(after.size(), before.size());
    EXPECT_NE(after.front(), before.front()) << "the order follows the margin, not the id";
    EXPECT_EQ(after.back(), before.front());
}

}  // namespace
}  // namespace levelswap
