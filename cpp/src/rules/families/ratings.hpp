#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families::ratings {

RuleFunctions pressure();
RuleFunctions feed_pressure();
RuleFunctions feed_temperature();
RuleFunctions feed_service();
RuleFunctions temperature();
RuleFunctions service();
RuleFunctions low_pressure();

}  // namespace levelswap::families::ratings
