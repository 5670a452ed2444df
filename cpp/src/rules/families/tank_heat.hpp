#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families::tank_heat {

RuleFunctions balance();

}  // namespace levelswap::families::tank_heat
