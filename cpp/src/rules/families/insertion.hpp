#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families::insertion {

RuleFunctions room();
RuleFunctions withdrawal();
RuleFunctions shroud();

}  // namespace levelswap::families::insertion
