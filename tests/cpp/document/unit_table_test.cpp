#include "levelswap/document/value.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <vector>

// tests/reference/units.csv holds each unit with its source, written down from
// the definitions; test_unit_reference_against_pint.py checks that file against pint.

namespace levelswap::document {
namespace {

struct ReferenceRow {
    std::string word;
    std::string dimension;
    double scale = 0;
    double offset = 0;
};

std::vector<ReferenceRow> reference() {
    std::ifstream file(std::string(LEVELSWAP_TEST_DATA) + "/reference/units.csv");
    std::vector<ReferenceRow> rows;
    std::string line;
    std::getline(file, line);
    while (std::getline(file, line)) {
        std::istringstream cells(line);
        ReferenceRow row;
        std::string scale;
        std::string offset;
        std::getline(cells, row.word, ',');
        std::getline(cells, row.dimension, ',');
        std::getline(cells, scale, ',');
        std::getline(cells, offset, ',');
        row.scale = std::stod(scale);
        row.offset = std::stod(offset);
        rows.push_back(row);
    }
    return rows;
}

std::string key(std::string_view word, std::string_view dimension) { return std::string(word) + " of " + std::string(dimension); }

// Both sides round the exact value once: they may differ in the last place.
void expect_same(double ours, double theirs, std::string const& what) {
    EXPECT_LE(std::abs(ours - theirs), 4e-16 * std::abs(theirs)) << what << ": " << ours << " and " << theirs;
}

TEST(unit_table, scale_and_offset_equal_the_reference) {
    auto const rows = reference();
    ASSERT_FALSE(rows.empty());
    for (ReferenceRow const& row : rows) {
        bool found = false;
        for (std::size_t i = 0; i < units().count; ++i) {
            UnitRow const& ours = units().rows[i];
            if (ours.word != row.word || row_of(ours.dimension).name != row.dimension) continue;
            found = true;
            expect_same(ours.scale, row.scale, key(row.word, row.dimension));
            expect_same(ours.offset, row.offset, key(row.word, row.dimension));
        }
        EXPECT_TRUE(found) << key(row.word, row.dimension);
    }
}

TEST(unit_table, every_unit_has_one_reference_row) {
    std::set<std::string> known;
    for (ReferenceRow const& row : reference()) EXPECT_TRUE(known.insert(key(row.word, row.dimension)).second) << row.word;
    for (std::size_t i = 0; i < units().count; ++i) {
        UnitRow const& ours = units().rows[i];
        EXPECT_EQ(known.erase(key(ours.word, row_of(ours.dimension).name)), 1u) << ours.word;
    }
    EXPECT_TRUE(known.empty());
}

TEST(unit_table, one_of_each_unit_is_read_as_its_size) {
    for (std::size_t i = 0; i < units().count; ++i) {
        UnitRow const& unit = units().rows[i];
        ValueProblem problem;
        auto const value = read_value("1 " + std::string(unit.word), unit.dimension, problem);
        ASSERT_TRUE(value) << unit.word << ": " << problem.message;
        long double const exact = (static_cast<long double>(unit.scale) + unit.offset) * detail::quanta_per_si(unit.dimension);
        EXPECT_LE(std::abs(static_cast<long double>(*value->lo) - exact), 0.5L + 1e-5L) << unit.word;
    }
}

TEST(unit_table, every_dimension_lists_units_for_messages) {
    for (int i = 0; i < dimension_count; ++i) EXPECT_FALSE(accepted_units(static_cast<Dimension>(i)).empty()) << i;
}

}  // namespace
}  // namespace levelswap::document
