#pragma once

#include "outcome.hpp"

namespace levelswap {

/// What follows from a swap beside its verdict: reported, never judged.
std::vector<Shift> shifts_of(Case const& c, Units units);
std::vector<Difference> differences_of(Case const& c, Units units);
/// By position. Sizes are named when `parts` says what is put in.
std::vector<Work> work_of(Case const& c, std::uint64_t positions, Assignment const* parts);
std::vector<std::string> ask_always(Case const& c);

/// The set pressures of a reducing valve that suit every rule of its line, whatever the tolerances do; none is left
/// where no one pressure is sure to.
struct SetPressure {
    int position = -1;               ///< of the reducing valve
    std::string valve;               ///< "small reducing valve at town main.reducing_valve"
    Interval window{0};
};
std::vector<SetPressure> set_pressures(Case const& c);

/// The elevation of a function's output in a judged wiring.
struct ActingLevel {
    Elevation const* elevation = nullptr;
    Interval above_face{0};          ///< nm above what it hangs on: the column's face centre, the tip of a rod
    bool known = false;
};
ActingLevel acting_level(Wiring const& wiring, Duty duty, bool rising);

}  // namespace levelswap
