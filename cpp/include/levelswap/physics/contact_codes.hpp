#pragma once

#include "levelswap/base/dimension.hpp"

#include <optional>
#include <span>
#include <string_view>

namespace levelswap::physics {

/// What a pilot-duty contact may do at one supply voltage. A code above its
/// voltage makes and breaks nothing.
struct PilotDuty {
    Current make;
    Current break_;
    Current carry;        ///< continuous
    Voltage most;         ///< highest design voltage
    bool direct_current;  ///< the code is for direct current: not the same contact rating as for alternating
    bool remembered;      ///< figures from memory, not yet read in the standard
};

/// The duty of a code such as "A300" or "R300" (NEMA ICS 5 and UL 508; the same
/// codes stand in IEC 60947-5-1, Annex A). Alternating current: volt-amperes
/// divided by volts from 120 V up; below, the 120 V amperes stand. Direct
/// current: below 125 V the 125 V amperes stand. A supply given as a range
/// gives ranges. Nothing for a code that does not exist, E150 included: it
/// exists, but its figures are not known here.
std::optional<PilotDuty> pilot_duty(std::string_view code, Voltage supply);

/// All codes with figures, alternating current first.
std::span<std::string_view const> pilot_duty_codes();

/// The IEC 60947-5-1 utilization category: AC-15, AC-14 (D codes) or DC-13; from memory.
std::optional<std::string_view> iec_category(std::string_view code);

}  // namespace levelswap::physics
