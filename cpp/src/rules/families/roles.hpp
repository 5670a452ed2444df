#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families::roles {

RuleFunctions output();
RuleFunctions reset();
RuleFunctions primary_reset();
RuleFunctions unattended();
RuleFunctions lockout();
RuleFunctions listed();
RuleFunctions count();
RuleFunctions state_table();

}  // namespace levelswap::families::roles
