#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families::piping {

RuleFunctions isolating_valves();
RuleFunctions feed_path();
RuleFunctions drain();
RuleFunctions drain_size();
RuleFunctions cross_tees();
RuleFunctions size();

}  // namespace levelswap::families::piping
