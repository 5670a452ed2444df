#pragma once

#include "levelswap/engine/sheet.hpp"
#include "mountings.hpp"
#include "walk_words.hpp"

namespace levelswap {

/// What every part of a sheet is made from: the judged case with its mountings settled, and the walk's model of it.
struct SheetCase {
    Case const& c;
    WalkModel const& model;
    std::vector<Mounting> const& mountings;
    LevelWords words;

    [[nodiscard]] Site const& site() const { return c.judge.site(); }
    [[nodiscard]] Fact const* fact(Device const& d, From from, Attribute a) const;
    [[nodiscard]] std::string choice(Device const& d, Attribute a) const;   ///< "open", "open or closed"
    [[nodiscard]] std::string falling(Device const& d) const;
    [[nodiscard]] std::string rising(Device const& d) const;
    [[nodiscard]] Device const* find(Duty duty) const;
};

std::vector<SheetLevel> sheet_levels(SheetCase const& s);
std::vector<SheetMounting> sheet_mountings(SheetCase const& s);
std::vector<std::string> sheet_adjustments(SheetCase const& s);
std::vector<SheetState> sheet_states(SheetCase const& s);
std::vector<std::string> sheet_differences(SheetCase const& s);
std::vector<std::string> factory_fixed(SheetCase const& s);
std::vector<SheetCircuit> sheet_circuits(SheetCase const& s);
std::vector<SheetStep> proving_steps(SheetCase const& s);
std::vector<SheetCaution> sheet_cautions(Case const& c, LevelWords const& words);
std::string abort_rule();

}  // namespace levelswap
