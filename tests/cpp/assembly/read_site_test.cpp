// Outside sources: none; sums and intersections are elementary. The site is invented.
#include "assembly/read_site.hpp"
#include "small_catalog.hpp"

#include <gtest/gtest.h>

namespace levelswap {
namespace {

std::string const site_text = R"(levelswap: site/1
name: north quay boiler
vessel: {mawp: 150 psi(g), lpwl: 0 in, service: steam, code: power}
stations:
  primary:
    mounting: 4 in +/- .1 in
    glass_on: column
    tappings: {size: 1 in, standard: npt}
    positions:
      float: {holds: ball float, measured: {diameter: at least 4.05 in}}
      head: {holds: nothing}
      switch_set: {holds: old set}
circuits:
  burner:
    supply: ~ 102 V .. 132 V
    coils: {fuel valve: {inrush: 60 VA +/- 5 VA, holding: 12 VA}, pilot: {inrush: ~ 10 VA .. 20 VA}}
    motor: none
    positions: {contactor: {holds: nothing}, relay: {holds: nothing}}
  pump: {}
functions:
  complete: yes
  primary_cut_off: {now: primary.switch_set.lower, circuit: burner}
  pump: {now: nothing, circuit: pump}
packs: [power boiler]
)";

Site north_quay() { return reading::site_of(document::read_text(site_text, "north.yaml"), small_catalog()); }

Fact quantity(double lo, double hi, Fact::Nature nature = Fact::Nature::uncertain) {
    Fact fact = unknown_fact(Attribute::coil_inrush);
    fact.nature = nature;
    fact.lo = lo;
    fact.hi = hi;
    return fact;
}

TEST(read_site, positions_are_named_by_station_or_circuit_and_role) {
    Site const site = north_quay();
    EXPECT_EQ(site.position_names(), (std::vector<std::string>{"primary.head", "primary.float", "primary.switch_set",
                                                               "burner.contactor", "burner.relay"}));
    EXPECT_EQ(site.stations.at(0).positions[static_cast<int>(Role::switch_set)], 2);
    EXPECT_EQ(site.stations.at(0).positions[static_cast<int>(Role::glass)], -1);
    EXPECT_EQ(site.circuits.at(0).position(Role::relay), 4);
    EXPECT_EQ(site.circuits.at(0).position(Role::transformer), -1);
    EXPECT_EQ(site.positions.at(2).station, 0);
    EXPECT_EQ(site.positions.at(4).circuit, 0);
    EXPECT_EQ(site.find_position("primary.glass"), -1);
    EXPECT_FALSE(site.stations.at(0).glass_on_vessel);
}

TEST(read_site, functions_point_at_the_output_and_the_circuit) {
    Site const site = north_quay();
    ASSERT_EQ(site.functions.size(), 2u);
    EXPECT_TRUE(site.functions_complete);
    EXPECT_EQ(site.functions[0].duty, Duty::primary_cut_off);
    EXPECT_EQ(site.functions[0].now, (OutputRef{2, 0}));
    EXPECT_EQ(site.functions[0].circuit, 0);
    EXPECT_EQ(site.functions[1].now, (OutputRef{-1, -1}));
    EXPECT_EQ(site.packs, std::vector<int>{0});
}

TEST(read_site, a_measurement_narrows_what_the_catalogue_states) {
    auto const measured = north_quay().positions.at(1).measured;
    ASSERT_EQ(measured.size(), 1u);
    EXPECT_EQ(measured[0].first, Attribute::diameter);
    EXPECT_EQ(measured[0].second.lo, 102870000);
    EXPECT_EQ(measured[0].second.hi, 104140000);
    EXPECT_EQ(measured[0].second.origin->kind, "measured");
}

TEST(read_site, the_loads_of_coils_add_up_and_a_missing_one_leaves_the_sum_open) {
    Site const site = north_quay();
    FactTable const& burner = site.circuits.at(0).facts;
    EXPECT_EQ(burner.find(Attribute::coil_inrush)->lo, 65e3);
    EXPECT_EQ(burner.find(Attribute::coil_inrush)->hi, 85e3);
    EXPECT_EQ(burner.find(Attribute::coil_inrush)->nature, Fact::Nature::uncertain);
    EXPECT_EQ(burner.find(Attribute::coil_holding)->lo, 12e3);
    EXPECT_EQ(burner.find(Attribute::coil_holding)->hi, unknown_fact(Attribute::coil_holding).hi);
    EXPECT_EQ(burner.find(Attribute::load_motor_power)->nature, Fact::Nature::none);
    EXPECT_EQ(burner.find(Attribute::supply)->nature, Fact::Nature::varying);
}

TEST(sum_of, one_varying_load_beside_fixed_ones_varies) {
    using N = Fact::Nature;
    EXPECT_EQ(reading::sum_of({quantity(1, 3, N::varying), quantity(2, 2)}, Attribute::coil_inrush).nature, N::varying);
    EXPECT_EQ(reading::sum_of({quantity(1, 3, N::varying), quantity(2, 3)}, Attribute::coil_inrush).nature, N::uncertain);
    EXPECT_EQ(reading::sum_of({quantity(1, 3, N::varying), quantity(2, 3, N::varying)}, Attribute::coil_inrush).nature, N::uncertain);
    EXPECT_EQ(reading::sum_of({unknown_fact(Attribute::coil_inrush)}, Attribute::coil_inrush).nature, N::unknown);
}

TEST(intersection, quantities_that_touch_agree_and_apart_they_contradict) {
    using reading::intersection;
    auto const touching = intersection(quantity(1, 2), quantity(2, 3), ValueKind::quantity);
    ASSERT_TRUE(touching);
    EXPECT_EQ(touching->lo, 2);
    EXPECT_EQ(touching->hi, 2);
    EXPECT_FALSE(intersection(quantity(1, 2), quantity(3, 4), ValueKind::quantity));
    EXPECT_FALSE(intersection(quantity(0, 0, Fact::Nature::none), quantity(3, 4), ValueKind::quantity));
    EXPECT_TRUE(intersection(quantity(1, 2), unknown_fact(Attribute::coil_inrush), ValueKind::quantity)->same_for_rules(quantity(1, 2)));
}

TEST(intersection, a_set_must_hold_what_either_source_says) {
    Fact open, exact;
    open.nature = exact.nature = Fact::Nature::uncertain;
    open.must = 0b001;
    open.may = 0b011;
    exact.must = exact.may = 0b011;
    auto const both = reading::intersection(open, exact, ValueKind::set);
    ASSERT_TRUE(both);
    EXPECT_EQ(both->must, 0b011u);
    exact.must = exact.may = 0b010;
    EXPECT_FALSE(reading::intersection(open, exact, ValueKind::set));
}

std::string usage_error(std::vector<std::pair<std::string, std::string>> const& put) {
    try {
        proposed(north_quay(), small_catalog(), put);
    } catch (UsageError const& error) {
        return error.what();
    }
    return {};
}

TEST(proposed, a_swap_changes_the_named_positions_only) {
    Catalog const catalog = small_catalog();
    Site const site = north_quay();
    Assignment const before = installed(site);
    EXPECT_EQ(before, (Assignment{nothing, catalog.find("ball float"), catalog.find("old set"), nothing, nothing}));
    Assignment const after = proposed(site, catalog, {{"primary.switch_set", "stage set"}, {"primary.head", "low half"}, {"primary.float", "nothing"}});
    EXPECT_EQ(after, (Assignment{catalog.find("low half"), nothing, catalog.find("stage set"), nothing, nothing}));
}

TEST(proposed, a_wrong_name_is_answered_with_the_nearest) {
    EXPECT_EQ(usage_error({{"primary.haed", "nothing"}}),
              "north quay boiler has no position \"primary.haed\"; did you mean \"primary.head\"?");
    EXPECT_EQ(usage_error({{"primary.switch_set", "stag set"}}),
              "there is no part \"stag set\" in the catalogue; did you mean \"stage set\"?");
    EXPECT_EQ(usage_error({{"primary.switch_set", "none"}}), "there is no part \"none\" in the catalogue; write nothing to take the part out");
    EXPECT_EQ(usage_error({{"primary.head", "ball float"}}),
              "\"ball float\" is a float; the position \"primary.head\" accepts: float_head, float_half");
    EXPECT_EQ(usage_error({{"primary.head", "low half"}, {"primary.head", "nothing"}}),
              "the position \"primary.head\" is given twice");
}

TEST(roles, every_role_but_the_head_accepts_one_kind) {
    for (int r = 0; r < role_count; ++r) {
        auto const role = static_cast<Role>(r);
        if (role == Role::head) EXPECT_EQ(accepted_kinds(role), (std::vector<Owner>{Owner::float_head, Owner::float_half}));
        else if (role == Role::glass) EXPECT_EQ(accepted_kinds(role), std::vector<Owner>{Owner::gauge_glass});
        else EXPECT_EQ(accepted_kinds(role), std::vector<Owner>{*find_kind(name_of(role))});
    }
}

TEST(read_swap, positions_and_parts_are_kept_in_order) {
    Swap const swap = reading::swap_of(document::read_text(
        "levelswap: swap/1\nabout: one line\nsite: ../sites/north.yaml\nput: {primary.switch_set: stage set, primary.head: nothing}\nold_may_return: yes\n",
        "swap.yaml"));
    EXPECT_EQ(swap.put, (std::vector<std::pair<std::string, std::string>>{{"primary.switch_set", "stage set"}, {"primary.head", "nothing"}}));
    EXPECT_EQ(swap.site_file, "../sites/north.yaml");
    EXPECT_TRUE(swap.old_may_return);
    ASSERT_EQ(swap.where.size(), 2u);
    EXPECT_EQ(swap.where[0], (SourceSpan{"swap.yaml", 4, 7, 18}));
}

}  // namespace
}  // namespace levelswap
