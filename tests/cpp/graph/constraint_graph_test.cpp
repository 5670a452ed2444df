#include "levelswap/graph/constraint_graph.hpp"

#include <gtest/gtest.h>

namespace levelswap {
namespace {

TEST(ConstraintGraph, a_change_touches_the_requirements_that_read_it) {
    ConstraintGraph const g(4, {{"flange", 0b0011}, {"rating", 0b0010}, {"coil", 0b1000}});
    EXPECT_EQ(g.touched_by(0b0010), (std::vector<int>{0, 1}));
    EXPECT_EQ(g.touched_by(0b1000), (std::vector<int>{2}));
    EXPECT_TRUE(g.touched_by(0b0100).empty());
}

TEST(ConstraintGraph, pieces_share_no_requirement) {
    ConstraintGraph const g(5, {{"one", 0b00011}, {"two", 0b00110}, {"three", 0b11000}});
    EXPECT_EQ(g.pieces(), (std::vector<std::uint64_t>{0b00111, 0b11000}));
}

TEST(ConstraintGraph, two_requirements_on_the_same_positions_both_stay) {
    ConstraintGraph const g(2, {{"one", 0b11}, {"other", 0b11}});
    EXPECT_EQ(g.touched_by(0b01).size(), 2u);
}

TEST(ConstraintGraph, an_assembly_without_positions_has_no_pieces) { EXPECT_TRUE(ConstraintGraph(0, {}).pieces().empty()); }

}  // namespace
}  // namespace levelswap
