#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families::contacts {

RuleFunctions voltage();
RuleFunctions carry();
RuleFunctions make();
RuleFunctions break_();
RuleFunctions minimum_load();
RuleFunctions fuse();
RuleFunctions motor_direct();
RuleFunctions motor_supply();
RuleFunctions contactor();
RuleFunctions relay_contact();
RuleFunctions transformer();
RuleFunctions conductor();
RuleFunctions in_series();
RuleFunctions relay_in_fuel_chain();

}  // namespace levelswap::families::contacts
