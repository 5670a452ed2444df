#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families::feed {

RuleFunctions path();
RuleFunctions valve_capacity();
RuleFunctions valve_opening();
RuleFunctions valve_nearly_shut();
RuleFunctions choked();
RuleFunctions float_valve_capacity();
RuleFunctions float_valve_shutoff();
RuleFunctions regulator_window();
RuleFunctions regulator_inlet();
RuleFunctions solenoid();
RuleFunctions pump();
RuleFunctions pump_pressure();
RuleFunctions npsh();
RuleFunctions dead_head();
RuleFunctions actuator();
RuleFunctions lost_signal();
RuleFunctions swing();

}  // namespace levelswap::families::feed
