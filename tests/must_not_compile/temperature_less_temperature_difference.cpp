// 30 °C read as a difference is 30 K, as a temperature 303.15 K: the two kinds do
// not mix by operators, so that every crossing is written out.
// refused with: no match for .operator-|invalid operands to binary expression
#include "levelswap/base/dimension.hpp"

using namespace levelswap;

Temperature margin(Temperature limit, TemperatureDifference rise) {
#ifdef MUST_NOT_COMPILE
    return limit - rise;
#else
    return Temperature{limit.quanta - rise.quanta};
#endif
}
