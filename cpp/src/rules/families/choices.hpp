#pragma once

#include "levelswap/rules/rule.hpp"

namespace levelswap::families {

/// Two choices are the same word: surely only where each of them is one word.
inline Truth same_choice(Cell const& x, Cell const& y) {
    if (x.none || y.none || (x.may & y.may) == 0) return Truth::fails;
    bool const certain = (x.may & (x.may - 1)) == 0 && x.may == y.may;
    return certain ? Truth::holds : Truth::undecided;
}

}  // namespace levelswap::families
