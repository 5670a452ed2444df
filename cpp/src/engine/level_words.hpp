#pragma once

#include "levelswap/engine/level_walk.hpp"

#include <string>

namespace levelswap {

/// Levels as a fitter marks them: to a hundredth of an inch or a whole millimetre, ranges rounded outward.
class LevelWords {
public:
    explicit LevelWords(Units units) : units_(units) {}
    [[nodiscard]] std::string at(double nm) const;              ///< "4.03 in"
    [[nodiscard]] std::string range(Interval nm) const;         ///< "3.76 in to 4.3 in"
    /// "4.03 in (3.76 in to 4.3 in)"; "not known" when nothing bounds it.
    [[nodiscard]] std::string level(double nominal, Interval nm) const;
    [[nodiscard]] std::string quantity(Interval quanta, Dimension dimension) const;

private:
    [[nodiscard]] double step() const;
    Units units_;
};

/// An elevation that nothing bounds closer than its domain.
bool is_known(Interval level);

}  // namespace levelswap
