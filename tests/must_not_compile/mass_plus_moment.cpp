// A float's mass and its moment about the pivot are told apart by the lever arm.
// refused with: no match for .operator[+]|invalid operands to binary expression
#include "levelswap/base/dimension.hpp"

using namespace levelswap;

Moment total(Moment weight, Moment buoyancy, Mass ballast) {
#ifdef MUST_NOT_COMPILE
    return weight + ballast;
#else
    static_cast<void>(ballast);
    return weight + buoyancy;
#endif
}
