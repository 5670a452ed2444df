#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families::probes {

RuleFunctions relay();
RuleFunctions sensitivity();
RuleFunctions film();
RuleFunctions rods();
RuleFunctions clearance();
RuleFunctions reference();
RuleFunctions open_wire();
RuleFunctions shorted();
RuleFunctions supply();
RuleFunctions wire();

}  // namespace levelswap::families::probes
