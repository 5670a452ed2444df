// Outside sources: the inch is 25.4 mm exactly (international yard and pound agreement, 1959).
// All parts are invented.
#include "catalog/read_catalog.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

namespace levelswap {
namespace {

namespace fs = std::filesystem;

Catalog read(std::vector<std::string> const& texts) {
    std::vector<document::Document> documents;
    for (std::size_t i = 0; i < texts.size(); ++i)
        documents.push_back(document::read_text(texts[i], std::string(1, static_cast<char>('a' + i)) + ".yaml"));
    return reading::catalog_of(documents);
}

std::vector<Diagnostic> problems(std::vector<std::string> const& texts) {
    try {
        read(texts);
    } catch (DataError const& error) {
        return error.diagnostics();
    }
    return {};
}

std::string parts(std::string const& kind, std::string const& body) {
    return "levelswap: parts/1\nkind: " + kind + "\nparts:\n" + body;
}

Fact const& fact(Catalog const& catalog, std::string const& id, Attribute attribute) {
    return *catalog.parts.at(static_cast<std::size_t>(catalog.find(id))).facts.find(attribute);
}

std::string const head = parts("float_head",
                               "  quay head:\n    about: one line\n    source: data plate\n    known: remembered\n"
                               "    flange: {circle: 7.5 in +/- .02 in, bolts: 8, face: spigot or flat}\n"
                               "    service: [steam, hot_water]\n    bay: none\n    arm: at least 100 mm\n"
                               "    rest: unknown\n    dead_moment: ~ 0 N*m .. 1 N*m\n"
                               "    rating: [[100 degF, 300 psi(g)], [422 degF, 250 psi(g)]]\n");

TEST(read_catalog, a_toleranced_length_becomes_whole_nanometres) {
    Fact const circle = fact(read({head}), "quay head", Attribute::flange_circle);
    EXPECT_EQ(circle.nature, Fact::Nature::uncertain);
    EXPECT_EQ(circle.lo, 189992000);
    EXPECT_EQ(circle.hi, 191008000);
}

TEST(read_catalog, a_fact_remembers_where_and_how_it_was_written) {
    Fact const circle = fact(read({head}), "quay head", Attribute::flange_circle);
    ASSERT_NE(circle.origin, nullptr);
    EXPECT_EQ(circle.origin->text, "7.5 in +/- .02 in");
    EXPECT_EQ(circle.origin->kind, "data plate");
    EXPECT_TRUE(circle.origin->remembered);
    EXPECT_EQ(circle.origin->where, (SourceSpan{"a.yaml", 8, 22, 17}));
}

TEST(read_catalog, each_kind_of_value_is_read) {
    Catalog const catalog = read({head});
    EXPECT_EQ(fact(catalog, "quay head", Attribute::flange_face).may, 0b0101u);
    EXPECT_EQ(fact(catalog, "quay head", Attribute::service).must, 0b0011u);
    EXPECT_EQ(fact(catalog, "quay head", Attribute::service).may, 0b0011u);
    EXPECT_EQ(fact(catalog, "quay head", Attribute::dead_moment).nature, Fact::Nature::varying);
    EXPECT_EQ(fact(catalog, "quay head", Attribute::arm).lo, 1e8);
    EXPECT_EQ(fact(catalog, "quay head", Attribute::arm).hi, 1e9);  // the domain's end
    ASSERT_NE(fact(catalog, "quay head", Attribute::rating).curve, nullptr);
    EXPECT_EQ(fact(catalog, "quay head", Attribute::rating).curve->points.size(), 2u);
}

TEST(read_catalog, a_group_declared_absent_is_absent_in_every_attribute) {
    Catalog const catalog = read({head});
    for (Attribute const a : {Attribute::bay_form, Attribute::bay_spacing, Attribute::bay_stroke, Attribute::bay_gain, Attribute::bay_zero})
        EXPECT_EQ(fact(catalog, "quay head", a).nature, Fact::Nature::none);
}

TEST(read_catalog, a_missing_fact_and_a_fact_called_unknown_are_the_same_for_rules) {
    Catalog const catalog = read({head});
    EXPECT_TRUE(fact(catalog, "quay head", Attribute::rest).same_for_rules(unknown_fact(Attribute::rest)));
    EXPECT_TRUE(fact(catalog, "quay head", Attribute::mark).same_for_rules(unknown_fact(Attribute::mark)));
    EXPECT_NE(fact(catalog, "quay head", Attribute::rest).origin, nullptr);
}

TEST(read_catalog, an_empty_set_and_none_hold_no_word) {
    Catalog const catalog = read({parts("float", "  a: {service: []}\n  b: {service: none}\n")});
    EXPECT_EQ(fact(catalog, "a", Attribute::service).may, 0u);
    EXPECT_TRUE(fact(catalog, "a", Attribute::service).same_for_rules(fact(catalog, "b", Attribute::service)));
}

TEST(read_catalog, none_is_a_pilot_duty_and_not_an_absent_fact) {
    Catalog const catalog = read({parts("relay", "  coast relay: {pilot_duty: none}\n")});
    Fact const duty = fact(catalog, "coast relay", Attribute::pilot_duty);
    EXPECT_EQ(duty.nature, Fact::Nature::uncertain);
    EXPECT_EQ(duty.may, 1u);
}

TEST(read_catalog, outputs_keep_their_names_and_facts_and_stand_in_order_of_name) {
    Catalog const catalog = read({parts("switch_set", "  old set:\n    outputs:\n      upper: {form: closes_on_fall}\n"
                                                      "      lower: {form: opens_on_fall, trip: -5 deg}\n")});
    auto const& outputs = catalog.parts.at(0).outputs;
    ASSERT_EQ(outputs.size(), 2u);
    EXPECT_EQ(outputs[0].name, "lower");
    EXPECT_EQ(outputs[0].facts.find(Attribute::trip)->nature, Fact::Nature::uncertain);
    EXPECT_EQ(outputs[1].name, "upper");
    EXPECT_EQ(outputs[1].facts.find(Attribute::acts)->may, 0b010u);
}

TEST(read_catalog, the_order_of_files_does_not_change_the_catalogue) {
    std::string const one = parts("float", "  b: {mass: 1 kg}\n  d: {mass: 2 kg}\n");
    std::string const two = parts("column", "  c: {bore: 6 in}\n  a: {bore: 7 in}\n");
    EXPECT_EQ(read({one, two}).ids(), (std::vector<std::string>{"a", "b", "c", "d"}));
    EXPECT_EQ(read({two, one}).ids(), read({one, two}).ids());
    EXPECT_EQ(read({one, two}).find("c"), 2);
    EXPECT_EQ(read({one, two}).find("bb"), -1);
}

TEST(read_catalog, an_id_in_two_files_is_reported_at_both) {
    auto const found = problems({parts("float", "  ball: {}\n"), parts("column", "  ball: {}\n")});
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].code, "LS-C004");
    EXPECT_EQ(found[0].where, (SourceSpan{"b.yaml", 4, 3, 4}));
    EXPECT_EQ(found[0].also, (SourceSpan{"a.yaml", 4, 3, 4}));
    EXPECT_EQ(found[0].also_excerpt, "  ball: {}");
}

TEST(read_catalog, the_problems_of_all_files_come_together) {
    auto const found = problems({parts("float", "  ball: {mas: 1 kg}\n"), parts("colum", "  a: {}\n"), head, "kind: float\n"});
    ASSERT_EQ(found.size(), 3u);
    EXPECT_EQ(found[0].code, "LS-C001");
    EXPECT_EQ(found[1].code, "LS-C007");
    EXPECT_EQ(found[2].code, "LS-C008");
}

TEST(read_catalog, a_mistyped_float_is_answered_with_the_nearest_float) {
    auto const found = problems({parts("float", "  ball float: {}\n"),
                                 parts("switch_set", "  s: {stated_float: ball flot, outputs: {l: {}}}\n")});
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].code, "LS-S001");
    EXPECT_EQ(found[0].hint, "did you mean \"ball float\"?");
}

std::string const pack = "levelswap: pack/1\nname: power boiler\nedition: 2019\nrows:\n"
                         "  - {figure: glass_over_lpwl, value: 2 in, clause: a, known: remembered, applies_to: {service: [steam], kind: [firetube, tank]}}\n"
                         "  - {figure: mercury_allowed, value: no, clause: b}\n"
                         "house:\n  - {kind: switch_set, attribute: most_ambient, at_least: 60 degC, because: c}\n";

TEST(read_catalog, pack_rows_hold_quanta_and_what_they_apply_to) {
    Pack const read_pack = read({pack}).packs.at(0);
    ASSERT_EQ(read_pack.rows.size(), 2u);
    EXPECT_EQ(read_pack.rows[0].figure, Figure::glass_over_lpwl);
    EXPECT_EQ(read_pack.rows[0].value, 50.8e6);
    EXPECT_TRUE(read_pack.rows[0].remembered);
    EXPECT_EQ(read_pack.rows[0].services, 0b0001u);
    EXPECT_EQ(read_pack.rows[0].kinds, 0b1001u);
    EXPECT_EQ(read_pack.rows[0].codes, ~0ull);
    EXPECT_EQ(read_pack.rows[0].pack, "power boiler");
    EXPECT_EQ(read_pack.rows[1].value, 0);
}

TEST(read_catalog, a_house_rule_compares_with_a_literal) {
    Pack const read_pack = read({pack}).packs.at(0);
    ASSERT_EQ(read_pack.house.size(), 1u);
    EXPECT_EQ(read_pack.house[0].comparison, HouseRule::Comparison::at_least);
    EXPECT_EQ(read_pack.house[0].literal.lo, 333150);  // 60 degC in mK
    EXPECT_EQ(read_pack.house[0].text, "60 degC");
}

TEST(read_catalog, a_pack_given_twice_is_reported_at_both) {
    auto const found = problems({pack, pack});
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].code, "LS-C004");
    EXPECT_EQ(found[0].also.file, "a.yaml");
}

class folder : public testing::Test {
protected:
    fs::path path = fs::temp_directory_path() / ("levelswap_" + std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
    folder() { fs::remove_all(path); }
    ~folder() override { fs::remove_all(path); }
    void write(std::string const& name, std::string const& text) const {
        fs::create_directories((path / name).parent_path());
        std::ofstream(path / name) << text;
    }
    [[nodiscard]] std::string code() const {
        try {
            read_catalog(path.string());
        } catch (DataError const& error) {
            return error.diagnostics().at(0).code;
        }
        return {};
    }
};

TEST_F(folder, parts_and_packs_are_read_and_other_files_left_alone) {
    write("parts/floats.yaml", parts("float", "  ball: {}\n"));
    write("parts/notes.txt", "not read");
    write("packs/power.yaml", pack);
    Catalog const catalog = read_catalog(path.string());
    EXPECT_EQ(catalog.ids(), std::vector<std::string>{"ball"});
    EXPECT_EQ(catalog.packs.size(), 1u);
    EXPECT_EQ(catalog.directory, path.string());
}

TEST_F(folder, a_folder_that_does_not_exist_is_a_data_error) { EXPECT_EQ(code(), "LS-D001"); }

TEST_F(folder, a_folder_without_parts_is_a_data_error) {
    write("packs/power.yaml", pack);
    EXPECT_EQ(code(), "LS-C014");
}

TEST_F(folder, a_pack_among_the_parts_is_a_data_error) {
    write("parts/power.yaml", pack);
    EXPECT_EQ(code(), "LS-C008");
}

TEST(figures, every_figure_is_found_by_its_name_and_no_other_is) {
    for (std::string const& name : figure_names()) {
        ASSERT_TRUE(find_figure(name)) << name;
        EXPECT_EQ(row_of(*find_figure(name)).name, name);
    }
    EXPECT_EQ(figure_names().size(), static_cast<std::size_t>(Figure::none));
    EXPECT_FALSE(find_figure(""));
}

TEST(figures, a_factor_is_neutral_at_one_and_a_gap_at_nothing) {
    EXPECT_EQ(row_of(Figure::lift_factor).neutral, 1);
    EXPECT_EQ(row_of(Figure::mercury_allowed).neutral, 1);
    EXPECT_EQ(row_of(Figure::coil_margin).neutral, 1);
    EXPECT_EQ(row_of(Figure::glass_over_lpwl).neutral, 0);
    EXPECT_EQ(row_of(Figure::supply_under).neutral, 0);
    EXPECT_EQ(row_of(Figure::relay_in_fuel_chain).neutral, 0);
}

}  // namespace
}  // namespace levelswap
