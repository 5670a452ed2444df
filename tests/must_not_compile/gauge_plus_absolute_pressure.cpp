// A gauge pressure and an absolute pressure differ by the atmosphere (a zero point,
// not a scale): adding them has no meaning. The way across is absolute().
// refused with: no match for .operator[+]|invalid operands to binary expression
#include "levelswap/base/dimension.hpp"

using namespace levelswap;

AbsolutePressure sum(GaugePressure gauge, AbsolutePressure atmosphere) {
#ifdef MUST_NOT_COMPILE
    return gauge + atmosphere;
#else
    return absolute(gauge, atmosphere);
#endif
}
