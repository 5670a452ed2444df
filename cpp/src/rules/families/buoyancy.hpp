#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families::buoyancy {

RuleFunctions lift();
RuleFunctions sink();
RuleFunctions crush();

}  // namespace levelswap::families::buoyancy
