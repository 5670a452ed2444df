#pragma once

#include "levelswap/verdict/judge.hpp"

#include <vector>

namespace levelswap {

/// May the fact have more than one value in one world or another? What varies has all of them in each.
bool is_open(Fact const& fact, Attribute attribute);

/// Points of one fact that are worth a try: the middle, the ends; every word of a choice.
std::vector<Fact> points_of(Fact const& fact, Attribute attribute);

/// Two halves that together are the whole; none of a list or a curve, which are not taken apart.
std::vector<Fact> halves_of(Fact const& fact, Attribute attribute);

}  // namespace levelswap
