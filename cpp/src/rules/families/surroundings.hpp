#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families::surroundings {

RuleFunctions ambient();
RuleFunctions enclosure();
RuleFunctions plumb();
RuleFunctions mercury();
RuleFunctions circuit_mercury();
RuleFunctions circuit_ambient();
RuleFunctions circuit_enclosure();
RuleFunctions hazardous();
RuleFunctions circuit_hazardous();

}  // namespace levelswap::families::surroundings
