// Outside source: tests/reference/flanges.csv. Drillings (ASME B16.1, B16.5) and the ratings of B16.5 were found in
// public transcriptions, the ratings of B16.1 are from memory; the outside diameters of NPT threads (ASME B1.20.1) were
// found. The metric ratings of B16.5 are a table of their own: they check the straight line between the US points.
#include "catalog/read_catalog.hpp"
#include "catalog/standard_tables.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <regex>
#include <sstream>

namespace levelswap {
namespace {

struct Row {
    std::string id, item, quantity, value, conditions, how_known;
};

/// The rows of the file; a cell in quotes may hold commas.
std::vector<Row> rows() {
    std::ifstream file(std::string(LEVELSWAP_TEST_DATA) + "/reference/flanges.csv");
    std::vector<Row> found;
    for (std::string line; std::getline(file, line);) {
        std::vector<std::string> cells(1);
        bool quoted = false;
        for (char const c : line) {
            if (c == '"') quoted = !quoted;
            else if (c == ',' && !quoted) cells.emplace_back();
            else cells.back() += c;
        }
        if (cells.size() > 7 && cells[0] != "id") found.push_back({cells[0], cells[1], cells[2], cells[3], cells[5], cells[7]});
    }
    return found;
}

std::string underscored(std::string text) {
    for (char& c : text) c = c == ' ' ? '_' : static_cast<char>(std::tolower(c));
    return text;
}

Catalog read(std::string const& kind, std::string const& facts) {
    return reading::catalog_of(std::vector{document::read_text("levelswap: parts/1\nkind: " + kind + "\nparts:\n  quay part:\n    " + facts + "\n", "a.yaml")});
}

std::vector<Diagnostic> problems(std::string const& kind, std::string const& facts) {
    try {
        read(kind, facts);
    } catch (DataError const& error) {
        return error.diagnostics();
    }
    return {};
}

Fact const& fact(Catalog const& catalog, Attribute attribute) { return *catalog.parts.at(0).facts.find(attribute); }

/// A number of the file such as "5/8", in inches.
double inches(std::string const& text) {
    auto const slash = text.find('/');
    return slash == std::string::npos ? std::stod(text) : std::stod(text.substr(0, slash)) / std::stod(text.substr(slash + 1));
}

TEST(standard_tables, every_drilling_of_the_reference_is_the_tables_figure) {
    std::map<std::string, Attribute> const columns{{"bolt_circle_diameter", Attribute::flange_circle}, {"number_of_bolts", Attribute::flange_bolts},
                                                   {"bolt_diameter", Attribute::flange_bolt_size}, {"bolt_hole_diameter", Attribute::flange_hole}};
    int seen = 0;
    for (Row const& row : rows()) {
        std::smatch m;
        auto const column = columns.find(row.quantity);
        if (column == columns.end() || !std::regex_match(row.item, m, std::regex("(B16\\.. class \\d+) NPS ([0-9 /]+)"))) continue;
        auto const catalog = read("column", "flange: {standard: " + underscored(m[1]) + ", size: " + m[2].str() + " in}");
        Fact const& found = fact(catalog, column->second);
        double const scale = row.quantity == "number_of_bolts" ? 1 : 25.4e6;
        EXPECT_EQ(found.lo, std::round(inches(row.value) * scale)) << row.id;
        EXPECT_EQ(found.hi, found.lo) << row.id;
        ASSERT_NE(found.origin, nullptr) << row.id;
        EXPECT_EQ(found.origin->remembered, row.how_known != "found") << row.id;
        EXPECT_THAT(found.origin->kind, testing::StartsWith("standard table " + underscored(m[1]))) << row.id;
        ++seen;
    }
    EXPECT_EQ(seen, 4 * 9 * 4);
}

TEST(standard_tables, every_rating_of_the_reference_is_a_point_of_the_curve_and_keeps_its_mark) {
    int seen = 0;
    for (Row const& row : rows()) {
        std::smatch item, at;
        if (row.quantity != "pressure_rating" || !std::regex_match(row.item, item, std::regex("(B16\\.[15] class \\d+)( A126 cl | group )([AB]|1\\.1)( NPS 1-12)?"))) continue;
        std::string const name = underscored(item[1].str() + (item[2] == " group " ? " group " : " A126 class ") + item[3].str());
        ASSERT_TRUE(std::regex_match(row.conditions, at, std::regex("(-?\\d+ to )?(\\d+) degF"))) << row.id;
        auto const catalog = read("column", "rating: " + name);
        Fact const& found = fact(catalog, Attribute::rating);
        ASSERT_NE(found.curve, nullptr) << row.id;
        double const kelvin = (std::stod(at[2]) + 459.67) / 1.8, pascal = std::stod(row.value) * 6894.757293168;
        Interval const ours = found.curve->at(std::round(kelvin * 1000));
        EXPECT_NEAR(ours.middle(), pascal, 1) << row.id;
        EXPECT_EQ(found.origin->kind, row.how_known == "memory" ? "standard table" : "standard table (read)") << row.id;
        EXPECT_EQ(found.origin->remembered, row.how_known == "memory") << row.id;
        ++seen;
    }
    EXPECT_EQ(seen, 14 + 8 + 12 + 10 + 12);
}

// The two tables of B16.5 are rounded each on its own: to 5 psi and to 0.1 bar.
TEST(standard_tables, between_the_points_the_rating_follows_the_metric_table) {
    int seen = 0;
    for (Row const& row : rows()) {
        std::smatch item, at;
        if (!std::regex_match(row.item, item, std::regex("B16\\.5 class (\\d+) group 1\\.1 \\(metric\\)"))) continue;
        ASSERT_TRUE(std::regex_match(row.conditions, at, std::regex("(-?\\d+ to )?(\\d+) degC"))) << row.id;
        auto const rating = reading::standard_rating("b16.5_class_" + item[1].str() + "_group_1.1");
        if (std::stod(at[2]) > 343.3) continue;   // the US table ends at 650 degF
        double const bar = rating->curve->at((std::stod(at[2]) + 273.15) * 1000).middle() / 1e5;
        EXPECT_NEAR(bar, std::stod(row.value), 0.05 + 2.5 / 14.5) << row.id;
        ++seen;
    }
    EXPECT_EQ(seen, 16);
}

TEST(standard_tables, above_the_hottest_point_there_is_no_rating) {
    auto const rating = reading::standard_rating("b16.1_class_125_a126_class_a");
    EXPECT_GT(rating->curve->at((350 + 459.67) / 1.8 * 1000).lo, 0);
    EXPECT_EQ(rating->curve->at((351 + 459.67) / 1.8 * 1000).hi, 0);
}

TEST(standard_tables, an_outside_diameter_of_npt_is_refused_and_its_nominal_size_named) {
    int seen = 0;
    for (Row const& row : rows()) {
        std::smatch m;
        if (row.quantity != "outside_diameter" || !std::regex_match(row.item, m, std::regex("NPT ([0-9 /]+)"))) continue;
        ++seen;
        EXPECT_EQ(problems("reducing_valve", "connection: {standard: npt, size: " + m[1].str() + " in}").size(), 0u) << row.id;
        if (row.id == "FLG321") continue;   // 3 in has 3.5 in outside, and 3 1/2 in is a nominal size of its own
        auto const found = problems("reducing_valve", "connection: {standard: npt, size: " + row.value + " in}");
        ASSERT_EQ(found.size(), 1u) << row.id;
        EXPECT_EQ(found[0].code, "LS-C018") << row.id;
        EXPECT_THAT(found[0].hint, testing::HasSubstr("nominal size " + m[1].str() + " in")) << row.id;
    }
    EXPECT_EQ(seen, 14);
}

TEST(standard_tables, nominal_sizes_in_millimetres_and_in_inches_are_the_same) {
    EXPECT_EQ(fact(read("column", "tappings: {standard: bspt, size: 25 mm}"), Attribute::tapping_size).lo, 25.4e6);
    EXPECT_EQ(fact(read("column", "tappings: {standard: bspt, size: 1 in}"), Attribute::tapping_size).lo, 25.4e6);
    EXPECT_EQ(fact(read("column", "tappings: {size: 32 mm}"), Attribute::tapping_size).lo, 31.75e6);
    EXPECT_EQ(fact(read("column", "flange: {standard: b16.5_class_150, size: 50 mm}"), Attribute::flange_circle).lo, 120.65e6);
    // A screw thread that is no pipe thread has no nominal pipe size, and a size that was measured stays as it is.
    EXPECT_EQ(fact(read("reducing_valve", "connection: {standard: un, size: 25 mm}"), Attribute::connection_size).lo, 25e6);
    EXPECT_EQ(fact(read("column", "tappings: {size: 24 mm .. 26 mm}"), Attribute::tapping_size).lo, 24e6);
}

TEST(standard_tables, what_is_stated_beside_the_standard_stands_when_they_agree) {
    Fact const agrees = fact(read("column", "flange: {standard: b16.5_class_150, size: 2 in, circle: 4.76 in +/- .02 in}"), Attribute::flange_circle);
    EXPECT_EQ(agrees.lo, 120.396e6);
    EXPECT_EQ(agrees.origin->kind, "catalogue");
    Fact const unknown = fact(read("column", "flange: {standard: b16.5_class_150, size: 2 in, circle: unknown}"), Attribute::flange_circle);
    EXPECT_EQ(unknown.hi, 120.65e6);
    auto const clash = problems("column", "flange: {standard: b16.5_class_150, size: 2 in, circle: 5 in +/- .02 in}");
    ASSERT_EQ(clash.size(), 1u);
    EXPECT_EQ(clash[0].code, "LS-C016");
    EXPECT_EQ(problems("column", "flange: {standard: b16.5_class_150, size: 2 in, hole: none}").size(), 1u);
}

TEST(standard_tables, one_of_two_standards_gives_what_holds_for_both) {
    auto const catalog = read("column", "flange: {standard: b16.1_class_125 or b16.5_class_300, size: 2 in}");
    EXPECT_EQ(fact(catalog, Attribute::flange_circle).lo, 4.75 * 25.4e6);
    EXPECT_EQ(fact(catalog, Attribute::flange_circle).hi, 5 * 25.4e6);
    EXPECT_EQ(fact(catalog, Attribute::flange_circle).origin->text, "4.75 in or 5 in");
    EXPECT_EQ(fact(catalog, Attribute::flange_bolt_size).lo, fact(catalog, Attribute::flange_bolt_size).hi);
}

TEST(standard_tables, without_a_size_or_in_a_size_beyond_the_table_nothing_is_made_up) {
    EXPECT_EQ(fact(read("column", "flange: {standard: b16.5_class_150}"), Attribute::flange_circle).nature, Fact::Nature::unknown);
    EXPECT_EQ(problems("column", "flange: {standard: b16.5_class_150, size: 3 1/2 in}").at(0).code, "LS-C018");
}

}  // namespace
}  // namespace levelswap
