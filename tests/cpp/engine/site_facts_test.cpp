// Outside sources: none. Which rows of a pack apply, what was measured on an output, and a search for wirings that stops
// before its end: worked from the definitions, on the catalogue of the rule cases.
#include "demo_swap.hpp"

#include "assembly/read_site.hpp"
#include "verdict/wiring.hpp"

#include <gmock/gmock.h>

#include <fstream>
#include <sstream>

namespace levelswap {
namespace {

using testing::Contains;
using testing::HasSubstr;

std::string const base = LEVELSWAP_TEST_DATA "/cases/base";

std::string base_site_text() {
    std::ifstream in(base + "/site.yaml", std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

/// The site of the cases with one piece of its text replaced.
Site base_site(Catalog const& catalog, std::string const& old = {}, std::string const& by = {}) {
    std::string text = base_site_text();
    auto const at = text.find(old);
    EXPECT_NE(at, std::string::npos) << old;
    text.replace(at, old.size(), by);
    return reading::site_of(document::read_text(text, "site.yaml"), catalog);
}

/// Whether the row that asks for two cut-offs applies: not, certainly, or perhaps.
Truth applies(Catalog const& catalog, Site const& site) {
    Judge const judge(catalog, site);
    for (Instance const& i : judge.figures(rule_index("roles.count")))
        if (i.pack >= 0) return i.doubtful ? Truth::undecided : Truth::holds;
    return Truth::fails;
}

PackRow& cut_offs_row(Catalog& catalog) {
    for (Pack& pack : catalog.packs)
        for (PackRow& row : pack.rows)
            if (pack.name == "figures" && row.figure == Figure::cut_offs) return row;
    throw std::runtime_error("the pack of the cases has no row on cut-offs");
}

TEST(pack_row, applies_within_its_bounds_of_mawp_both_ends_as_written) {
    Catalog catalog = read_catalog(base);
    Site const site = base_site(catalog);   // 900 kPa
    Bounds& mawp = cut_offs_row(catalog).mawp;
    mawp = {.over = 899'999};
    EXPECT_EQ(applies(catalog, site), Truth::holds);
    mawp = {.over = 900'000};
    EXPECT_EQ(applies(catalog, site), Truth::fails);
    mawp = {.at_most = 900'000};
    EXPECT_EQ(applies(catalog, site), Truth::holds);
    mawp = {.at_most = 899'999};
    EXPECT_EQ(applies(catalog, site), Truth::fails);
    Site const rough = base_site(catalog, "mawp: 900 kPa(g)", "mawp: 800 kPa(g) .. 1000 kPa(g)");
    EXPECT_EQ(applies(catalog, rough), Truth::undecided);
}

TEST(pack_row, of_a_jurisdiction_is_doubtful_where_the_site_says_none_and_void_in_another) {
    Catalog catalog = read_catalog(base);
    cut_offs_row(catalog).jurisdiction = "harbour";
    EXPECT_EQ(applies(catalog, base_site(catalog)), Truth::undecided);
    EXPECT_EQ(applies(catalog, base_site(catalog, "vessel:", "jurisdiction: unknown\nvessel:")), Truth::undecided);
    EXPECT_EQ(applies(catalog, base_site(catalog, "vessel:", "jurisdiction: harbour\nvessel:")), Truth::holds);
    EXPECT_EQ(applies(catalog, base_site(catalog, "vessel:", "jurisdiction: inland\nvessel:")), Truth::fails);
}

TEST(pack_row, with_a_bound_that_a_pinned_fact_decides_is_listed_again) {
    Catalog catalog = read_catalog(base);
    cut_offs_row(catalog).heat_input = {.over = 117e3 * detail::quanta_per_si(Dimension::power)};
    Site const site = base_site(catalog);
    Judge const judge(catalog, site);
    Fact small = unknown_fact(Attribute::heat_input);
    small.nature = Fact::Nature::uncertain;
    small.lo = small.hi = 100e3 * detail::quanta_per_si(Dimension::power);
    Pins const pins{{{Owner::vessel, 0, -1, Attribute::heat_input}, small}};
    EXPECT_EQ(applies(catalog, site), Truth::undecided);
    EXPECT_TRUE(judge.within(pins).figures(rule_index("roles.count")).empty() ||
                judge.within(pins).figures(rule_index("roles.count")).front().pack < 0);
}

TEST(measured_output, narrows_the_fact_of_that_output_and_leaves_with_the_part) {
    Catalog const catalog = read_catalog(base);
    Site const site = base_site(catalog, "switch_set: {holds: plain set}",
                                "switch_set: {holds: plain set, measured: {outputs: {bell: {repeatability: ~ -.5 mm .. .5 mm}}}}");
    Judge const judge(catalog, site);
    int const position = site.find_position("primary.switch_set");
    auto const& outputs = catalog.parts[static_cast<std::size_t>(site.positions[static_cast<std::size_t>(position)].holds)].outputs;
    auto repeatability = [&](std::string_view name, Assignment const& parts) {
        Stand stand;
        stand.output.position = position;
        for (std::size_t o = 0; o < outputs.size(); ++o)
            if (outputs[o].name == name) stand.output.output = static_cast<int>(o);
        return judge.fact({From::output, Attribute::repeatability}, stand, parts, nullptr)->hi;
    };
    Assignment parts = installed(site);
    EXPECT_EQ(repeatability("bell", parts), .5e6);
    EXPECT_EQ(repeatability("lower", parts), 1e6);
    Catalog twin = catalog;   // another part of the same facts
    Part other = twin.parts[static_cast<std::size_t>(parts[static_cast<std::size_t>(position)])];
    other.id = "zz plain set";
    twin.parts.push_back(other);
    Judge const with_twin(twin, site);
    parts[static_cast<std::size_t>(position)] = static_cast<int>(twin.parts.size()) - 1;
    Stand stand;
    stand.output = {position, 0};
    EXPECT_EQ(with_twin.fact({From::output, Attribute::repeatability}, stand, parts, nullptr)->hi, 1e6);
}

/// Thirteen contacts of one kind for four functions that want different levels: 17160 wirings, none of which can serve.
struct CrowdedSite {
    CrowdedSite() : catalog(read_catalog(base)), site(base_site(catalog)) {
        Part crowded = catalog.parts[static_cast<std::size_t>(catalog.find("plain set"))];
        auto const cut_off = std::find_if(crowded.outputs.begin(), crowded.outputs.end(), [](Output const& o) { return o.name == "lower"; });
        Output like = *cut_off;
        // The form is left open, so that no pair fails by itself: what fails is that all act at one level.
        Fact form = *like.facts.find(Attribute::acts);
        form.may = unknown_fact(Attribute::acts).may;
        like.facts.set(Attribute::acts, form);
        crowded.id = "zz crowded set";
        crowded.outputs.assign(13, like);
        for (std::size_t i = 0; i < crowded.outputs.size(); ++i) crowded.outputs[i].name = "contact " + std::to_string(10 + i);
        catalog.parts.push_back(crowded);
        index_parts(catalog);
    }
    Catalog catalog;
    Site site;
};

TEST(wiring_search, that_stops_before_its_end_cannot_tell) {
    CrowdedSite const t;
    Judge const judge(t.catalog, t.site);
    Assignment parts = installed(t.site);
    parts[static_cast<std::size_t>(t.site.find_position("primary.switch_set"))] = static_cast<int>(t.catalog.parts.size()) - 1;
    auto const found = judge.judge_wiring(parts);
    EXPECT_EQ(found.wirings, most_wirings);
    EXPECT_FALSE(found.every_wiring);
    EXPECT_EQ(found.truth, Truth::undecided);
}

TEST(wiring_search, that_stops_before_its_end_says_so) {
    CrowdedSite const t;
    auto const verdict = check(t.catalog, t.site, {{"primary.switch_set", "zz crowded set"}});
    EXPECT_EQ(verdict.outcome, Outcome::cannot_tell);
    EXPECT_FALSE(verdict.proved);
    EXPECT_THAT(verdict.remarks, Contains(HasSubstr("the others were not tried")));
}

TEST(PackRows, a_row_that_says_no_asks_nothing) {
    DemoSwap t("primary_that_locks_out");
    auto const locks_out = Contains(testing::Field(&Finding::rule, "roles.primary_reset"));
    ASSERT_THAT(check(t.catalog, t.site, t.swap.put).findings, locks_out);
    for (Pack& pack : t.catalog.packs)
        for (PackRow& row : pack.rows)
            if (row.figure == Figure::primary_automatic_reset) row.value = 0;
    EXPECT_THAT(check(t.catalog, t.site, t.swap.put).findings, testing::Not(locks_out));
}

// A hot-water boiler is full and need have no glass (docs/reasons/0020); one that is there is not taken away.
TEST(HotWater, a_boiler_without_a_glass_is_judged_and_one_that_loses_its_glass_is_refused) {
    auto asks_for_the_glass = [](char const* service, bool was_there) {
        DemoSwap t("like_for_like");
        Fact of = *t.site.vessel.find(Attribute::vessel_service);
        of.may = std::uint64_t{1} << find_choice(row_of(Attribute::vessel_service).choices, service);
        t.site.vessel.set(Attribute::vessel_service, of);
        auto const glass = static_cast<std::size_t>(t.site.find_position("primary.glass"));
        if (!was_there) t.site.positions[glass].holds = nothing;
        auto put = t.swap.put;
        if (was_there) put.emplace_back("primary.glass", "nothing");
        auto const v = check(t.catalog, t.site, put, Units::us);
        return std::any_of(v.findings.begin(), v.findings.end(), [](Finding const& f) { return f.rule == "levels.cut_off_visible"; }) ||
               std::any_of(v.site_work.begin(), v.site_work.end(), [](Finding const& f) { return f.rule == "levels.cut_off_visible"; });
    };
    EXPECT_FALSE(asks_for_the_glass("hot_water", false));
    EXPECT_TRUE(asks_for_the_glass("hot_water", true));
    EXPECT_TRUE(asks_for_the_glass("steam", false));
}

}  // namespace
}  // namespace levelswap
