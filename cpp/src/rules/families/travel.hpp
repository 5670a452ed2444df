#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families::travel {

RuleFunctions contact();
RuleFunctions slide_wire();
RuleFunctions binding();

}  // namespace levelswap::families::travel
