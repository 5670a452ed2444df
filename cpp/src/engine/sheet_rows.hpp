#pragma once

#include "levelswap/engine/sheet.hpp"
#include "mountings.hpp"
#include "walk_words.hpp"

namespace levelswap {

/// What every part of a sheet is made from: the judged case with its mountings settled, and the walk's model of it.
struct SheetCase {
    Case const& c;
    Case const& as_found;   ///< before any mounting was settled: what was is told of it
    WalkModel const& model;
    std::vector<Mounting> const& mountings;
    LevelWords words;

    [[nodiscard]] Site const& site() const { return c.judge.site(); }
    [[nodiscard]] Fact const* fact(Device const& d, From from, Attribute a) const;
    [[nodiscard]] std::string choice(Device const& d, Attribute a, From from = From::output) const;   ///< "open", "open or closed"
    [[nodiscard]] std::string falling(Device const& d) const;
    [[nodiscard]] std::string rising(Device const& d) const;
    [[nodiscard]] Device const* find(Duty duty) const;
    /// The pressure differences of a transmitter's two calibrated levels, low end first, and how far off it shows a level at
    /// the working pressure; empty where they are not known.
    [[nodiscard]] std::string calibration(Device const& d) const;
    [[nodiscard]] std::string shows_off(Device const& d) const;
    [[nodiscard]] Recording record(Device const& d, std::string_view rule) const;   ///< of a rule that stands at its station
    [[nodiscard]] Owner kind(Device const& d) const;   ///< of the part that has the output
    /// "; the contact follows 2 s to 4 s later", where it acts after the level and not at it.
    [[nodiscard]] std::string lateness(Device const& d) const;
    /// A signal at both ends of the levels that it is calibrated for, "4 mA at 3 in, 20 mA at 9 in".
    [[nodiscard]] std::string signal(Device const& d) const;
    [[nodiscard]] std::string calibrated(Device const& d, bool high) const;
};

std::vector<SheetLevel> sheet_levels(SheetCase const& s);
std::vector<SheetMounting> sheet_mountings(SheetCase const& s);
std::vector<std::string> sheet_adjustments(SheetCase const& s);
std::vector<std::string> sheet_consumables(SheetCase const& s);
std::vector<SheetState> sheet_states(SheetCase const& s);
std::vector<std::string> sheet_differences(SheetCase const& s);
std::vector<std::string> factory_fixed(SheetCase const& s);
std::vector<SheetCircuit> sheet_circuits(SheetCase const& s);
std::vector<SheetStep> proving_steps(SheetCase const& s);
std::vector<SheetCaution> sheet_cautions(Case const& c, LevelWords const& words);
std::string abort_rule(Site const& site);

}  // namespace levelswap
