// Outside sources: none. A question is right when its answer turns the verdict: each value that is asked for is put into the
// site, and the value beside it.
#include "demo_swap.hpp"

#include "levelswap/document/value.hpp"
#include "levelswap/rules/rule.hpp"
#include "levelswap/verdict/judge.hpp"

#include <gmock/gmock.h>

#include <algorithm>

namespace levelswap {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::Each;
using testing::Field;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::StartsWith;
using testing::UnorderedElementsAre;

struct Asked : DemoSwap {
    using DemoSwap::DemoSwap;
    [[nodiscard]] Verdict check_it() const { return check(catalog, site, swap.put, Units::si); }
};

void forget(FactTable& owner, Attribute a) { owner.set(a, unknown_fact(a)); }
void pin(FactTable& owner, Attribute a, double value) {
    Fact f = unknown_fact(a);
    f.nature = Fact::Nature::uncertain;
    f.lo = f.hi = value;
    owner.set(a, f);
}
void choose(FactTable& owner, Attribute a, std::string_view word) {
    Fact f = unknown_fact(a);
    f.nature = Fact::Nature::uncertain;
    f.must = f.may = std::uint64_t{1} << find_choice(row_of(a).choices, word);
    owner.set(a, f);
}

/// The length before " or less holds" or " or more holds".
double value_before(std::string const& threshold, std::string const& side, Dimension d) {
    auto const end = threshold.find(side);
    EXPECT_NE(end, std::string::npos) << threshold;
    auto begin = threshold.rfind("; ", end);
    begin = begin == std::string::npos ? 0 : begin + 2;
    document::ValueProblem problem;
    auto const value = document::read_value(threshold.substr(begin, end - begin), d, problem);
    EXPECT_TRUE(value) << threshold;
    return value ? static_cast<double>(*value->lo) : 0;
}

/// Open or failing; of a site as it stands a failing rule is site work.
bool open_for(Verdict const& v, std::string const& rule) {
    auto const names = [&](Finding const& f) { return f.rule == rule; };
    return std::any_of(v.findings.begin(), v.findings.end(), names) || std::any_of(v.site_work.begin(), v.site_work.end(), names);
}

/// What a rule asks of a fact: the first question, and of all of its requirements the strictest value.
struct Answer {
    Question question;
    double value = 0;
};
Answer answer(Verdict const& v, Attribute a, std::string const& rule, std::string const& side) {
    std::optional<Answer> found;
    for (auto const& q : v.questions) {
        if (!q.fact.starts_with(std::string(row_of(a).meaning) + " (") || q.rule != rule || q.threshold.find(side) == std::string::npos) continue;
        bool const in_words = row_of(a).kind == ValueKind::choice;
        double const value = in_words ? 0 : value_before(q.threshold, side, row_of(a).dimension);
        if (!found) found = {q, value};
        found->value = side == " or less holds" ? std::min(found->value, value) : std::max(found->value, value);
    }
    EXPECT_TRUE(found) << rule << " does not ask for: " << row_of(a).meaning;
    return found.value_or(Answer{});
}

/// Takes one fact away and puts in the value that is asked for: the rule holds with it, and not with a little beyond it.
/// Nothing is changed, so that no other output can step in.
void expect_a_sharp_answer(Asked& t, FactTable& owner, Attribute a, std::string const& rule, std::string const& side) {
    t.swap.put.clear();
    ASSERT_EQ(t.check_it().outcome, Outcome::fits);
    forget(owner, a);
    auto const v = t.check_it();
    EXPECT_EQ(v.outcome, Outcome::cannot_tell);
    auto const [q, value] = answer(v, a, rule, side);
    EXPECT_EQ(q.how, row_of(a).measured);
    double const beyond = side == " or less holds" ? 1 : -1;
    pin(owner, a, value);
    EXPECT_FALSE(open_for(t.check_it(), rule)) << q.threshold;
    pin(owner, a, value + beyond * std::max(10.0, std::abs(value) * 2e-5));   // six digits are printed
    EXPECT_TRUE(open_for(t.check_it(), rule)) << q.threshold;
}

constexpr char const* or_less = " or less holds";
constexpr char const* or_more = " or more holds";

TEST(Questions, each_says_for_which_of_several_outputs_it_is_asked) {
    Asked t("chamber_nobody_opened");
    std::vector<std::string> subjects;
    for (auto const& q : t.check_it().questions)
        if (q.rule == "travel.contact") subjects.push_back(q.subject);
    EXPECT_THAT(subjects, UnorderedElementsAre("primary low-water cut-off on primary.switch_set.lower", "pump control on primary.switch_set.upper",
                                               "low-level alarm on primary.switch_set.bell"));
}

TEST(Questions, one_value_that_settles_a_rule_in_several_places_is_asked_for_once) {
    Asked t("like_for_like");
    t.swap.put.clear();
    forget(t.site.vessel, Attribute::mawp);
    std::vector<std::string> seen;
    int several = 0;
    for (auto const& q : t.check_it().questions) {
        seen.push_back(q.fact + q.rule + q.threshold);
        several += q.subject.find(", ") != std::string::npos;
    }
    std::sort(seen.begin(), seen.end());
    EXPECT_EQ(std::adjacent_find(seen.begin(), seen.end()), seen.end());
    EXPECT_GT(several, 0);
}

TEST(Questions, an_unknown_lowest_permissible_level_is_asked_for_with_the_height_that_settles_it) {
    Asked t("like_for_like");
    expect_a_sharp_answer(t, t.site.vessel, Attribute::lpwl, "levels.glass_over_lpwl", or_less);
}

TEST(Questions, an_unknown_foot_of_the_glass_is_asked_for_from_both_sides) {
    Asked t("like_for_like");
    expect_a_sharp_answer(t, t.of_part("long glass"), Attribute::visible_low, "levels.glass_over_lpwl", or_more);
    Asked u("like_for_like");
    expect_a_sharp_answer(u, u.of_part("long glass"), Attribute::visible_low, "levels.cut_off_visible", or_less);
}

TEST(Questions, an_unknown_mounting_is_asked_for) {
    Asked t("like_for_like");
    expect_a_sharp_answer(t, t.site.stations[1].facts, Attribute::mounting, "levels.cut_off_visible", or_more);
    Asked u("like_for_like");
    expect_a_sharp_answer(u, u.site.stations[1].facts, Attribute::mounting, "levels.order", or_less);
}

TEST(Questions, an_unknown_tapping_is_asked_for) {
    Asked t("like_for_like");
    expect_a_sharp_answer(t, t.of_part("side column"), Attribute::tapping_water, "levels.bracket", or_less);
}

/// Another column on the same connections: how high it hangs follows from its own connection, and the old one's stays known.
TEST(Questions, the_connections_of_a_column_to_come_are_asked_for) {
    for (auto const& [attribute, side] : {std::pair{Attribute::tapping_water, or_less}, std::pair{Attribute::tapping_glass, or_more}}) {
        Asked t("column_that_hangs_lower");
        auto& column = t.of_part("hung column");
        pin(column, Attribute::tapping_water, t.of_part("deep column").find(Attribute::tapping_water)->lo);   // as the old one
        ASSERT_FALSE(open_for(t.check_it(), "levels.glass_over_lpwl"));
        forget(column, attribute);
        auto const [q, value] = answer(t.check_it(), attribute, "levels.glass_over_lpwl", side);
        double const beyond = side == or_less ? 1 : -1;
        pin(column, attribute, value);
        EXPECT_FALSE(open_for(t.check_it(), "levels.glass_over_lpwl")) << q.threshold;
        pin(column, attribute, value + beyond * std::max(10.0, std::abs(value) * 2e-5));
        EXPECT_TRUE(open_for(t.check_it(), "levels.glass_over_lpwl")) << q.threshold;
    }
}

/// The boiler of the rule cases: its pump starts and stops at two levels of one set.
TEST(Questions, how_often_a_motor_may_start_and_the_lowest_fire_are_asked_for) {
    std::string const base = LEVELSWAP_TEST_DATA "/cases/base";
    Asked t("like_for_like");
    t.catalog = read_catalog(base);
    t.site = read_site(base + "/pumped_site.yaml", t.catalog);
    t.swap.put.clear();
    auto& pump = t.of_part("plain pump");
    auto& vessel = t.site.vessel;
    double const full = vessel.find(Attribute::evaporation)->lo;
    pin(vessel, Attribute::least_evaporation, 0.9 * full);   // hardly below full fire: the pump runs most of the time
    pin(pump, Attribute::pump_flow, 1.1 * full);
    pin(pump, Attribute::most_starts, unknown_fact(Attribute::most_starts).hi);
    ASSERT_FALSE(open_for(t.check_it(), "feed.cycling"));
    forget(pump, Attribute::most_starts);
    auto const [starts, most] = answer(t.check_it(), Attribute::most_starts, "feed.cycling", or_more);
    pin(pump, Attribute::most_starts, most);
    EXPECT_FALSE(open_for(t.check_it(), "feed.cycling")) << starts.threshold;
    pin(pump, Attribute::most_starts, most * 0.999 - 1);
    EXPECT_TRUE(open_for(t.check_it(), "feed.cycling")) << starts.threshold;

    pin(pump, Attribute::most_starts, most);
    forget(vessel, Attribute::least_evaporation);   // at half the pump's flow it starts most often
    auto const [least, value] = answer(t.check_it(), Attribute::least_evaporation, "feed.cycling", or_more);
    EXPECT_NEAR(value, 0.9 * full, 0.01 * full);
    pin(vessel, Attribute::least_evaporation, value);
    EXPECT_FALSE(open_for(t.check_it(), "feed.cycling")) << least.threshold;
    pin(vessel, Attribute::least_evaporation, value * 0.999);
    EXPECT_TRUE(open_for(t.check_it(), "feed.cycling")) << least.threshold;
}

TEST(Questions, two_facts_that_nobody_knows_are_both_asked_for) {
    Asked t("like_for_like");
    forget(t.site.vessel, Attribute::lpwl);
    forget(t.of_part("long glass"), Attribute::visible_low);
    auto const v = t.check_it();
    EXPECT_EQ(v.outcome, Outcome::cannot_tell);
    for (Attribute const a : {Attribute::lpwl, Attribute::visible_low})
        EXPECT_THAT(v.questions, Contains(AllOf(Field(&Question::fact, StartsWith(std::string(row_of(a).meaning))),
                                               Field(&Question::rule, "levels.glass_over_lpwl"))));
    EXPECT_THAT(v.reason, Not(HasSubstr("margin"))) << "nothing is known to be to spare";
}

TEST(Questions, an_unknown_water_connection_is_asked_for_in_words) {
    Asked t("like_for_like");
    ASSERT_EQ(t.check_it().outcome, Outcome::fits);
    auto& secondary = t.site.stations[1].facts;   // the primary stands on connection one
    forget(secondary, Attribute::water_connection);
    auto const v = t.check_it();
    EXPECT_EQ(v.outcome, Outcome::cannot_tell);
    EXPECT_EQ(v.certificate.kind, "world");
    auto const q = answer(v, Attribute::water_connection, "roles.independent", " holds").question;
    EXPECT_THAT(q.threshold, AllOf(HasSubstr("own"), HasSubstr("two"), Not(HasSubstr("one"))));
    EXPECT_THAT(v.findings, Contains(AllOf(Field(&Finding::rule, "roles.independent"), Field(&Finding::available, HasSubstr("not known")))));
    choose(secondary, Attribute::water_connection, "two");
    EXPECT_EQ(t.check_it().outcome, Outcome::fits);
    choose(secondary, Attribute::water_connection, "one");
    EXPECT_EQ(t.check_it().outcome, Outcome::does_not_fit);
}

/// No open requirement goes without a question, whatever is taken away from a swap that fits.
TEST(Questions, every_open_level_is_asked_about) {
    for (Attribute const a : {Attribute::lpwl, Attribute::mawp, Attribute::evaporation}) {
        Asked t("like_for_like");
        forget(t.site.vessel, a);
        auto const v = t.check_it();
        for (auto const& f : v.findings)
            if (f.rule.starts_with("levels.")) {
                EXPECT_THAT(v.questions, Contains(Field(&Question::rule, f.rule))) << row_of(a).name;
            }
    }
}

TEST(Levels, what_exclude_one_another_is_one_finding_with_the_distance_that_is_missing) {
    Asked t("no_height_for_the_secondary");
    auto const v = t.check_it();
    ASSERT_GE(v.findings.size(), 3u);
    EXPECT_EQ(v.findings[0].rule, "levels.mounting");
    EXPECT_THAT(v.findings[0].margin, StartsWith("-"));
    EXPECT_THAT(v.certificate.rules, Contains("levels.mounting"));
    struct Conflict {
        std::vector<std::string> rules;
        std::int64_t short_of = 0;
    };
    auto lowered_by = [&](double nm) {
        Asked u("no_height_for_the_secondary");
        Fact low = *u.of_part("tall tower glass").find(Attribute::visible_low);
        low.lo -= nm;
        low.hi -= nm;
        u.of_part("tall tower glass").set(Attribute::visible_low, low);
        auto const w = *Judge(u.catalog, u.site).judge(proposed(u.site, u.catalog, u.swap.put)).wiring;
        Conflict found{{}, w.short_of};
        for (auto const& r : w.levels)
            if (r.in_conflict) found.rules.push_back(w.elevations[static_cast<std::size_t>(r.upper)].name + std::to_string(r.rule) + "/" + std::to_string(r.row));
        return found;
    };
    auto const whole = lowered_by(0);
    ASSERT_GT(whole.short_of, 1);
    auto const one_left = lowered_by(static_cast<double>(whole.short_of - 1)), none_left = lowered_by(static_cast<double>(whole.short_of));
    EXPECT_EQ(one_left.rules, whole.rules);
    EXPECT_EQ(one_left.short_of, 1) << "what is missing is counted to the nanometre";
    EXPECT_NE(none_left.rules, whole.rules) << "these exclude one another no more";
}

TEST(Levels, how_far_a_level_strays_is_told_apart_from_what_is_asked) {
    auto const v = Asked("glass_starts_too_high").check_it();
    EXPECT_THAT(v.findings, Contains(AllOf(Field(&Finding::rule, "levels.cut_off_visible"), Field(&Finding::notes, Contains(HasSubstr("(repeatability)"))))));
}

TEST(Levels, a_boiler_without_any_glass_does_not_fit_and_none_is_taken_out_as_a_remedy) {
    Asked t("like_for_like");
    t.swap.put = {{"primary.glass", "nothing"}};
    auto const v = t.check_it();
    EXPECT_EQ(v.outcome, Outcome::does_not_fit);
    EXPECT_THAT(v.findings, Contains(AllOf(Field(&Finding::rule, "levels.cut_off_visible"), Field(&Finding::available, "no glass is there"))));
    for (auto const* name : {"glass_starts_too_high", "glass_shows_too_low", "control_touches_the_tube"}) {
        Asked const u(name);
        auto const a = alternatives(u.catalog, u.site, u.swap.put, 2);
        for (auto const* repairs : {&a.keep, &a.release, &a.undecided})
            for (auto const& r : *repairs)
                for (auto const& parts : r.tuples)
                    for (std::size_t i = 0; i < parts.size(); ++i)
                        EXPECT_FALSE(r.positions[i].ends_with(".glass") && parts[i] == "nothing") << name;
    }
}

TEST(Works, a_function_does_not_work_on_a_part_that_is_refused) {
    EXPECT_THAT(Asked("float_valve_that_will_not_close").check_it().works, Each(Not(HasSubstr("make-up"))));
    EXPECT_THAT(Asked("control_touches_the_tube").check_it().works, Each(Not(HasSubstr("on primary."))));
    EXPECT_THAT(Asked("range_too_small_for_the_leg").check_it().works, Each(Not(HasSubstr("transmitter"))));
    EXPECT_THAT(Asked("three_coils_on_one_contact").check_it().works, Contains(HasSubstr("secondary low-water cut-off")));
}

TEST(Why, the_contact_of_the_right_form_is_the_nearest_miss) {
    auto const v = Asked("three_coils_on_one_contact").check_it();
    EXPECT_THAT(v.findings, Each(Field(&Finding::rule, AllOf(StartsWith("contacts."), Not("roles.output")))));
}

TEST(Why, facts_behind_the_figures_are_listed_though_the_rule_fails_without_them) {
    auto const v = Asked("float_valve_that_will_not_close").check_it();
    ASSERT_THAT(v.findings, Not(IsEmpty()));
    std::vector<std::string> all = v.findings[0].facts;
    all.insert(all.end(), v.findings[0].used.begin(), v.findings[0].used.end());
    EXPECT_THAT(all, Contains(HasSubstr("mass of its float")));
    EXPECT_THAT(all, Contains(HasSubstr("moment of the lever without float")));
    auto const starts = Asked("pump_starts_too_often").check_it();
    ASSERT_THAT(starts.findings, Contains(Field(&Finding::rule, "feed.cycling")));
    for (auto const& f : starts.findings) {
        if (f.rule != "feed.cycling") continue;
        all = f.facts;
        all.insert(all.end(), f.used.begin(), f.used.end());
        EXPECT_THAT(all, Contains(HasSubstr(std::string(row_of(Attribute::most_starts).meaning))));
        EXPECT_THAT(all, Contains(HasSubstr(std::string(row_of(Attribute::pump_flow).meaning))));
    }
}

TEST(Why, a_part_too_hot_for_its_rating_is_said_to_be_too_hot_first) {
    auto const v = Asked("float_control_on_150_pounds").check_it();
    ASSERT_FALSE(v.findings.empty());
    EXPECT_EQ(v.findings[0].rule, "ratings.temperature");
    EXPECT_THAT(v.findings, Contains(AllOf(Field(&Finding::rule, "ratings.pressure"), Field(&Finding::available, HasSubstr("ends below")))));
}

TEST(Why, an_unknown_pressure_is_named_and_no_range_stands_for_it) {
    Asked t("like_for_like");
    forget(t.site.vessel, Attribute::mawp);
    auto const v = t.check_it();
    EXPECT_EQ(v.outcome, Outcome::cannot_tell);
    EXPECT_THAT(v.findings, Contains(AllOf(Field(&Finding::rule, "ratings.pressure"), Field(&Finding::required, StartsWith("not known: maximum allowable working pressure")),
                                           Field(&Finding::margin, ""))));
    EXPECT_THAT(v.reason, Not(HasSubstr("needs at least 0")));
}

TEST(Alternatives, a_swap_that_fits_needs_no_repair) {
    Asked const t("like_for_like");
    auto const a = alternatives(t.catalog, t.site, t.swap.put);
    EXPECT_FALSE(a.needed);
    EXPECT_THAT(render_text(a), StartsWith("NO REPAIR NEEDED"));
    Asked const u("thin_column");
    EXPECT_TRUE(alternatives(u.catalog, u.site, u.swap.put).needed);
}

TEST(Differences, a_probe_acts_at_the_tip_of_its_rod) {
    auto const v = Asked("float_valve_to_two_probes").check_it();
    // Rods of the bath house: 20 in and 24.5 in, each within a twentieth of an inch.
    EXPECT_THAT(v.differences, Contains(AllOf(Field(&Difference::what, "level, falling"), Field(&Difference::after, StartsWith("506.7 mm to 509.3 mm")))));
    EXPECT_THAT(v.differences, Contains(AllOf(Field(&Difference::what, "level, rising"), Field(&Difference::after, StartsWith("621 mm to 623.6 mm")))));
    EXPECT_THAT(v.differences, Contains(AllOf(Field(&Difference::what, "differential"), Field(&Difference::after, "111.8 mm to 116.8 mm"))));
}

/// Neither end of what a fact may be serves: the question names both edges of what does.
TEST(Questions, a_window_is_asked_for_by_both_its_edges) {
    Asked t("like_for_like");
    auto& primary = t.site.stations[0].facts;
    forget(primary, Attribute::ambient);
    auto const asked = t.check_it().questions;
    auto const of_ambient = std::find_if(asked.begin(), asked.end(), [](Question const& q) { return q.rule == "surroundings.ambient"; });
    ASSERT_NE(of_ambient, asked.end());
    // The set stands -10 to 80 degC: 263.15 K to 353.15 K.
    EXPECT_EQ(of_ambient->threshold, "-10 degC to 80 degC holds; -10.001 degC or less fails; 80.001 degC or more fails");
    for (auto const& [kelvin, holds] : {std::pair{263149.0, false}, {263150.0, true}, {353150.0, true}, {353151.0, false}}) {
        pin(primary, Attribute::ambient, kelvin);
        EXPECT_EQ(open_for(t.check_it(), "surroundings.ambient"), !holds) << kelvin;
    }
}

/// Outputs of the same names come first: what they fail is the reason, not what another way to connect them would.
TEST(Questions, the_reason_is_of_the_outputs_as_they_are_wired_now) {
    Asked t("like_for_like");
    for (auto const& [position, id] : t.swap.put)
        if (position == "primary.switch_set") {
            auto& put = t.catalog.parts[static_cast<std::size_t>(t.catalog.find(id))];
            for (auto& o : put.outputs)
                if (o.name == "lower") {
                    Fact f = *o.facts.find(Attribute::listed_for);
                    f.must = f.may = bits<Attribute::listed_for>("alarm");
                    o.facts.set(Attribute::listed_for, f);
                }
        }
    auto const v = t.check_it();
    EXPECT_EQ(v.outcome, Outcome::does_not_fit);
    ASSERT_FALSE(v.findings.empty());
    EXPECT_EQ(v.findings.front().rule, "roles.listed");
    EXPECT_THAT(v.reason, HasSubstr("primary low-water cut-off on primary.switch_set.lower"));
}

/// A row for one jurisdiction, on a site that does not say in which it stands.
TEST(Questions, whose_code_is_in_force_is_asked_for) {
    Asked t("one_cut_off_is_not_enough");
    for (Pack& pack : t.catalog.packs)
        for (PackRow& row : pack.rows)
            if (row.figure == Figure::cut_offs) row.jurisdiction = "outer harbour";
    t.site.jurisdiction.clear();
    auto const open = t.check_it();
    EXPECT_EQ(open.outcome, Outcome::cannot_tell);
    EXPECT_THAT(open.questions, Contains(AllOf(Field(&Question::fact, "jurisdiction (site)"), Field(&Question::threshold, StartsWith("outer harbour: ")))));
    t.site.jurisdiction = "outer harbour";
    EXPECT_EQ(t.check_it().outcome, Outcome::does_not_fit);
    t.site.jurisdiction = "inner harbour";
    EXPECT_EQ(t.check_it().outcome, Outcome::fits);
}

/// Rounded to four digits both sides would read alike.
TEST(Questions, what_is_missing_is_not_rounded_away) {
    Asked t("like_for_like");
    auto& primary = t.site.stations[0].facts;
    pin(primary, Attribute::ambient, 353150.0 + 1);   // 1 mK above 80 degC
    auto const v = t.check_it();
    auto const& shown = v.findings.empty() ? v.site_work : v.findings;
    auto const f = std::find_if(shown.begin(), shown.end(), [](Finding const& x) { return x.rule == "surroundings.ambient"; });
    ASSERT_NE(f, shown.end());
    EXPECT_THAT(f->required + f->available, HasSubstr("80.001 degC"));
}

}  // namespace
}  // namespace levelswap
