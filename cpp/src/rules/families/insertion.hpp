#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families::insertion {

RuleFunctions one_part();
RuleFunctions room();
RuleFunctions withdrawal();
RuleFunctions shroud();

}  // namespace levelswap::families::insertion
