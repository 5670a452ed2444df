#include "levelswap/physics/column_shift.hpp"

#include "corners.hpp"

namespace levelswap::physics {

namespace {

/// Both results are a product of the level and a broken line function of one
/// density at a time, so the extremes lie at corners.
template <class Share>
Length scaled(Length level, Density boiler, Density column, Density vapour, Share share) {
    std::array<Interval, 4> const box{level.si(), boiler.si(), column.si(), vapour.si()};
    return Length::from_si(over_corners(box, [&](auto const& at) {
        return at[0] * (share(at) / (at[2] - at[3]));
    }));
}

}  // namespace

Length column_level(Length boiler_level, Density boiler, Density column, Density vapour) {
    return scaled(boiler_level, boiler, column, vapour, [](auto const& at) { return at[1] - at[3]; });
}

Length column_shift(Length boiler_level, Density boiler, Density column, Density vapour) {
    return scaled(boiler_level, boiler, column, vapour, [](auto const& at) { return at[1] - at[2]; });
}

}  // namespace levelswap::physics
