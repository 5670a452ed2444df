#include "levelswap/base/diagnostic.hpp"

#include <gtest/gtest.h>

#include <cctype>
#include <set>

namespace levelswap {
namespace {

Diagnostic no_unit() {
    Diagnostic d;
    d.code = "LS-V002";
    d.where = {"relay.yaml", 17, 19, 2};
    d.message = "gauge pressure has no unit";
    d.expected = "a number and its unit";
    d.hint = "write the unit behind 16";
    d.excerpt = "    max_pressure: 16";
    d.context_line = 15;
    d.context = "  ratings:";
    return d;
}

TEST(diagnostic, shows_place_finding_expectation_and_advice_with_a_caret) {
    EXPECT_EQ(render(no_unit()),
              "relay.yaml:17:19: error LS-V002: gauge pressure has no unit\n"
              "   15 |   ratings:\n"
              ">  17 |     max_pressure: 16\n"
              "      |                   ^^\n"
              "   expected: a number and its unit\n"
              "   hint: write the unit behind 16\n");
}

TEST(diagnostic, of_the_file_as_a_whole_shows_no_line) {
    Diagnostic d;
    d.code = "LS-D013";
    d.where = {"empty.yaml", 0, 0, 1};
    d.message = "the file is empty";
    EXPECT_EQ(render(d), "empty.yaml: error LS-D013: the file is empty\n");
}

TEST(diagnostic, of_a_clash_points_at_both_places) {
    Diagnostic d = no_unit();
    d.severity = Severity::warning;
    d.also = {"other.yaml", 3, 1, 4};
    d.also_excerpt = "rest: 1";
    std::string const text = render(d);
    EXPECT_NE(text.find("relay.yaml:17:19: warning LS-V002"), std::string::npos);
    EXPECT_NE(text.find("   also here: other.yaml:3:1\n>   3 | rest: 1\n      | ^^^^\n"), std::string::npos);
}

TEST(diagnostic, several_are_separated_by_a_blank_line) {
    std::string const one = render(no_unit());
    EXPECT_EQ(render(std::vector{no_unit(), no_unit()}), one + "\n" + one);
}

TEST(diagnostic, data_error_carries_every_problem_and_says_them_all) {
    DataError const error({no_unit(), no_unit()});
    EXPECT_EQ(error.diagnostics().size(), 2u);
    EXPECT_EQ(std::string(error.what()), render(error.diagnostics()));
}

TEST(diagnostic, codes_are_unique_complete_and_well_formed) {
    std::set<std::string> codes;
    for (DiagnosticCode const& row : diagnostic_codes()) {
        EXPECT_TRUE(codes.emplace(row.code).second) << row.code;
        ASSERT_EQ(row.code.size(), 7u) << row.code;
        EXPECT_EQ(row.code.substr(0, 3), "LS-");
        EXPECT_NE(std::string_view("DVCS").find(row.code[3]), std::string_view::npos) << row.code;
        for (char const c : row.code.substr(4)) EXPECT_TRUE(std::isdigit(static_cast<unsigned char>(c))) << row.code;
        EXPECT_FALSE(row.title.empty() || row.cure.empty()) << row.code;
    }
}

TEST(nearest_name, finds_a_mistyped_word) {
    std::vector<std::string> const keys{"max_pressure", "max_temperature", "mass"};
    EXPECT_EQ(nearest("max_presure", keys), "max_pressure");
    EXPECT_EQ(nearest("mas", keys), "mass");
    EXPECT_EQ(nearest("mass", keys), "mass");
}

TEST(nearest_name, is_empty_when_nothing_is_near) {
    EXPECT_EQ(nearest("colour", {"max_pressure", "mass"}), "");
    EXPECT_EQ(nearest("x", {"y"}), "");
    EXPECT_EQ(nearest("", {"a"}), "");
    EXPECT_EQ(nearest("word", {}), "");
}

TEST(nearest_name, stops_at_one_plus_a_third_of_the_length) {
    EXPECT_EQ(nearest("abcdef", {"abcxyz"}), "abcxyz");  // distance 3, allowed 1 + 6/3
    EXPECT_EQ(nearest("abcdef", {"abwxyz"}), "");        // distance 4
}

TEST(nearest_name, takes_the_alphabetically_first_of_equals_in_any_order) {
    EXPECT_EQ(nearest("pump_c", {"pump_b", "pump_a"}), "pump_a");
    EXPECT_EQ(nearest("pump_c", {"pump_a", "pump_b"}), "pump_a");
}

}  // namespace
}  // namespace levelswap
