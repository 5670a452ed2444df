#pragma once

#include "levelswap/engine/level_walk.hpp"

#include <string>
#include <utility>
#include <vector>

namespace levelswap {

/// Where one output acts, above the vessel datum.
struct SheetLevel {
    std::string duty, output, part;
    std::string falling, rising;           ///< most likely, then the range over all tolerances
    std::string old_falling, old_rising;   ///< of the output that performs the duty now
    std::string in_glass;                  ///< of the falling level: "yes", "no", "perhaps", "unknown", "no glass"
};

struct SheetMounting {
    std::string station;
    std::string now;
    std::string window;                    ///< empty when the piping leaves no choice
    std::string action;                    ///< "leave it as it is", "move it to 3.5 in"
};

/// One output in its circuit, from the contact to the load.
struct SheetCircuit {
    std::string duty, output, contact;
    std::string terminals;                 ///< to be filled in; empty for what has no wires
    std::string circuit, supply;
    std::string load, rating, protection;  ///< empty for what has no wires
};

/// What the contact of a function is in each state.
struct SheetState {
    std::string duty, wet, dry, unpowered, float_sunk, float_stuck, wire_open, wire_shorted;
    std::string reset, after_power_loss, held_reset;
};

/// Something to look at while proving, with what must be seen and what has to be filled in by hand.
struct SheetCheck {
    std::string text;
    std::string expected;
    std::string blank;                     ///< what is written down: "level", "count", "reading", "reason", "name", "date"
};
struct SheetStep {
    int number = 0;
    std::string title;
    std::vector<SheetCheck> checks;
};

struct SheetCaution {
    std::string work;                      ///< "pressure part", "switch", "mercury", ...
    std::string text;
};

/// How a swap that fits is set up and proved; for any other, what is wrong or missing.
struct Sheet {
    Outcome outcome = Outcome::cannot_tell;
    std::string answer, reason;
    std::string site, datum;
    std::vector<std::string> changes;
    std::vector<SheetLevel> levels;
    std::vector<SheetMounting> mountings;
    std::vector<SheetCircuit> wiring;
    std::vector<SheetState> states;
    std::vector<std::string> differences;  ///< what acts otherwise than it did
    std::vector<std::string> fixed;        ///< what its maker has set and nobody adjusts
    std::vector<std::string> adjustments;  ///< what else is set or cut: pressures, signals, delays, rods
    std::vector<std::string> consumables;  ///< what the work uses up, by position
    std::vector<std::string> packs;
    std::vector<SheetStep> steps;
    std::string abort_rule;
    std::vector<SheetCaution> cautions;
    std::vector<std::string> wrong;        ///< what does not hold, with the numbers
    std::vector<Question> questions;
    LevelWalk walk;
};

/// The sheet of a swap. Only one that fits has settings and steps.
Sheet sheet(Catalog const& catalog, Site const& site, std::vector<std::pair<std::string, std::string>> const& put,
            Units units = Units::us);

std::string render_text(Sheet const& sheet);   ///< within 80 columns
std::string render_json(Sheet const& sheet);   ///< as catalog_schema/v1/sheet.schema.json describes
std::string render_html(Sheet const& sheet);   ///< one page that stands alone and prints in black and white

}  // namespace levelswap
