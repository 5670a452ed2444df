#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace levelswap {

enum class Units : std::uint8_t { us, si };

enum class Outcome : std::uint8_t { fits, does_not_fit, cannot_tell };
std::string_view name_of(Outcome outcome);

/// One comparison that decides something, with its numbers.
struct Finding {
    std::string rule;               ///< "travel.slide_wire"
    std::string title;
    std::string level;              ///< required
    std::string state;              ///< "fails", "undecided", "holds"
    std::string subject;            ///< "primary.switch_set, output slide, for modulating feed"
    std::string quantity;           ///< "upper end of the slide-wire"
    std::string required, available, margin;  ///< with unit, in the units asked for
    std::string source;
    std::string why;                ///< one sentence
    std::vector<std::string> facts; ///< "bore of the chamber of the long column: 170 mm (catalogue, file:line)"
    std::vector<std::string> used;  ///< further facts behind the figures shown; the rule fails whatever each of them is
    std::vector<std::string> notes; ///< what was worked out on the way
    std::vector<std::string> positions;
    bool before = false;            ///< already so before the swap
};

/// A measurement that would settle an open rule.
struct Question {
    std::string fact;               ///< "bore of the chamber, primary.column"
    std::string how;                ///< who can measure it, how
    std::string threshold;          ///< "166.2 mm or more settles it: fits this rule"
    std::string rule;
    std::string subject;            ///< where the rule stands, as in a finding; several, where one value settles all of them
};

/// How much higher the boiler's water stands than the water in an outside column when an output acts. Reported,
/// never judged.
struct Shift {
    std::string output;             ///< "primary low-water cut-off, falling, on primary.switch_set.lower"
    std::string level;              ///< in the column, above its water connection
    std::string shift;              ///< the boiler's level above that
    std::string condition;          ///< what is assumed of the water in the column
    std::string direction;          ///< "trips early, safe side"
};

/// What a function does otherwise after the swap, also where both are allowed.
struct Difference {
    std::string function;
    std::string what;               ///< "level, falling", "reset", ...
    std::string before, after;
    std::string moved;              ///< of a number: by how much
};

/// What changing one position asks of the works: a consequence, never a refusal.
struct Work {
    std::string position;
    std::string isolate, drain, cool;
    std::vector<std::string> consumables;
    std::string note;               ///< on firing while the part is off
};

/// A change that works (or the reason why one does not).
struct Repair {
    std::vector<std::string> positions;
    std::vector<std::vector<std::string>> tuples;   ///< part ids, at most 20, best first
    std::size_t more = 0;
    std::string outage;
    std::string question;           ///< only for repairs that cannot be told
    std::vector<Work> work;         ///< by position, of the swap too
};
struct BlockedRemedy {
    std::string position;
    std::string part;
    std::string cures;
    std::string reason;
};
struct RuledOut {
    std::string position;
    std::vector<std::pair<std::string, int>> removed_by;   ///< rule, how many candidates
    std::string nearest_miss;
};

struct Alternatives {
    std::vector<Repair> keep, release, undecided;
    std::vector<BlockedRemedy> blocked;
    std::vector<RuledOut> ruled_out;
    /// Positions that together bar every repair while all of them stay as proposed; only of searches that went to
    /// full depth.
    std::vector<std::vector<std::string>> keep_blockers, release_blockers;
    bool keep_searched = true, release_searched = true;
    bool needed = true;             ///< false: the swap fits, or does once the site work is done
    bool fits_as_it_was = false;    ///< before the swap; what is taken out is a repair only where it may return
    int complete_up_to = 3;
    std::size_t checks = 0;
};

/// What something simpler than the engine can check the outcome by.
struct Certificate {
    std::string kind = "none";      ///< "setting sheet" of a fit, "conflict" of a refusal, "world" of a "cannot tell"
    std::vector<std::pair<std::string, std::string>> wiring;    ///< duty, position and output
    std::vector<std::pair<std::string, std::string>> settings;  ///< setting, one value of its window
    std::vector<std::pair<std::string, std::string>> facts;     ///< owner and key, the value in that world
    std::vector<std::string> rules;                             ///< that exclude one another, or fail alone
};

struct Verdict {
    Outcome outcome = Outcome::cannot_tell;
    bool proved = true;
    /// In every world there are settings that do, but no one setting is right in all of them.
    bool once_measured = false;
    std::string answer;             ///< the first line
    std::string reason;
    Outcome before = Outcome::cannot_tell;
    std::vector<Finding> findings;  ///< failing, then undecided; the one nearest to the change first
    std::vector<Finding> site_work; ///< faults before the swap that touch no changed position
    std::optional<Outcome> once_site_work_is_done;
    std::optional<Outcome> if_assumed;
    std::vector<std::string> assumptions;
    std::vector<std::string> works; ///< what still works
    std::vector<std::pair<std::string, std::string>> wiring;   ///< duty, output
    std::vector<std::pair<std::string, std::string>> settings; ///< setting, window
    std::vector<Question> questions;
    std::vector<std::string> packs;
    std::vector<std::string> cautions;
    std::vector<std::string> changes;  ///< "primary.switch_set: old set -> stage set"
    std::vector<std::string> remarks;
    std::vector<Shift> shifts;
    std::vector<Difference> differences;
    std::vector<Work> work;            ///< by changed position
    std::vector<std::string> ask_always;
    Certificate certificate;
};

std::string render_text(Verdict const& verdict, std::optional<Alternatives> const& alternatives = {});
std::string render_json(Verdict const& verdict, std::optional<Alternatives> const& alternatives = {});
std::string render_text(Alternatives const& alternatives);
std::string render_json(Alternatives const& alternatives);

}  // namespace levelswap
