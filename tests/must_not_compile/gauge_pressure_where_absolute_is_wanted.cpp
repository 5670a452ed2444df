// Saturation is a matter of absolute pressure; a gauge reading given there would
// read the boiler some tens of kelvin too cold at low pressure.
// refused with: could not convert|no viable conversion|no known conversion|cannot convert
#include "levelswap/base/dimension.hpp"

using namespace levelswap;

Interval needs_absolute(AbsolutePressure pressure) { return pressure.si(); }

Interval ask(GaugePressure gauge, AbsolutePressure atmosphere) {
#ifdef MUST_NOT_COMPILE
    static_cast<void>(atmosphere);
    return needs_absolute(gauge);
#else
    return needs_absolute(absolute(gauge, atmosphere));
#endif
}
