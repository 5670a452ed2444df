#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families::transmitter {

RuleFunctions range();
RuleFunctions span();
RuleFunctions dry_leg();
RuleFunctions error();
RuleFunctions half_leg();
RuleFunctions loop();

}  // namespace levelswap::families::transmitter
