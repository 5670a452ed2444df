#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families::ratings {

RuleFunctions pressure();
RuleFunctions temperature();
RuleFunctions service();
RuleFunctions low_pressure();

}  // namespace levelswap::families::ratings
