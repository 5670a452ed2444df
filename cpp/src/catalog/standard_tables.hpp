#pragma once

#include "read_facts.hpp"

#include <memory>
#include <optional>
#include <string_view>
#include <vector>

namespace levelswap::reading {

/// A pressure rating of a published table and whether the table rests on memory.
struct StandardRating {
    std::shared_ptr<Curve const> curve;
    bool remembered;
};

/// The rating that `rating: b16.5_class_150_group_1.1` names; nothing for another word.
std::optional<StandardRating> standard_rating(std::string_view name);

/// The nominal size in inches [nm] of one in millimetres (DN); any other length as it is.
double in_nominal_inches(double length);

/// Adds what a standard flange is drilled to, where `flange.standard` and `flange.size` name one: bolt circle, bolts, bolt
/// size and hole, each with the table for its origin. What the file states beside it stands, if the table agrees.
/// A nominal size in millimetres (DN) becomes the same size in inches: they are two names of one thing.
void use_standard_tables(FileReader& reader, std::vector<WrittenFact>& facts, std::string_view what);

}  // namespace levelswap::reading
