#pragma once

#include "levelswap/engine/sheet.hpp"

#include <algorithm>

namespace levelswap {

/// What a reader of more than one window has to know.
inline std::string windows_together(Sheet const& s) {
    auto const windows = std::count_if(s.mountings.begin(), s.mountings.end(), [](auto const& m) { return !m.window.empty(); });
    return windows < 2 ? "" : "A window holds while the other settings can follow; what is said to be done suits them all.";
}

}  // namespace levelswap
