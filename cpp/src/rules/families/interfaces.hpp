#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families::interfaces {

RuleFunctions flange();
RuleFunctions tilt();
RuleFunctions opening();
RuleFunctions stem();
RuleFunctions thread();
RuleFunctions connection();
RuleFunctions bay();
RuleFunctions tube();
RuleFunctions tappings();
RuleFunctions feed_thread();
RuleFunctions signal();
RuleFunctions supply();
RuleFunctions overvoltage();
RuleFunctions withdrawal();
RuleFunctions hand();

}  // namespace levelswap::families::interfaces
