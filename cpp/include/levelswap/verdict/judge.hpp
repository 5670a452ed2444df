#pragma once

#include "levelswap/rules/output_height.hpp"
#include "levelswap/rules/rule.hpp"

#include <array>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <vector>

namespace levelswap {

/// Where a rule stands: the owners its slots look at.
struct Stand {
    int station = -1;
    int circuit = -1;
    int line = -1;
    int position = -1;            ///< of the one wetted part
    OutputRef output{};
    int function = -1;
    int upper = -1, lower = -1;   ///< of a rule between two levels: their keys
    friend auto operator<=>(Stand const&, Stand const&) = default;
};

/// A fact of one owner of the assembly: of the part at a position, of one of its outputs, of a place.
struct FactKey {
    Owner owner = Owner::vessel;  ///< vessel, station, circuit, line, output; any kind of part stands for the position
    int index = 0;                ///< of the position, station, circuit or line
    int output = -1;
    Attribute attribute = Attribute::mawp;
    friend auto operator<=>(FactKey const&, FactKey const&) = default;
};
/// Facts narrowed to a box, or to one world.
using Pins = std::map<FactKey, Fact>;

/// A rule at one place, with the figure it must meet.
struct Instance {
    int rule = 0;
    Stand stand;
    int pack = -1, row = -1;      ///< the pack row that sets the figure; −1: physics
    bool doubtful = false;        ///< it is not known whether that row applies here
};

struct Judged {
    Instance instance;
    Truth truth = Truth::holds;
    std::uint64_t positions = 0;  ///< positions it reads
    int first = -1;               ///< of a rule on two functions together: the other one than the stand's
};

/// A level constraint: upper − lower ≥ separation.
struct LevelRule {
    int rule = 0;
    int pack = -1, row = -1;
    int upper = 0, lower = 0;     ///< indices of Elevation
    std::int64_t separation = 0;
    Interval needed{0};           ///< and this much more, from physics: a delay, a fill; nm. Below zero: at most so far apart
    std::string_view need;        ///< what `needed` is, in words
    std::uint64_t positions = 0;  ///< read by `needed`, beside those of the two elevations
    int needed_from = -1;         ///< the elevation that `needed` differs with, −1: none
    Interval spare{0};            ///< what is left of the distance at the best setting, over the worlds; below zero: what is missing
    Truth alone = Truth::holds;
    bool in_conflict = false;
    bool in_doubt = false;        ///< where the levels are open though each can be met alone: cannot surely be met beside the others
    bool doubtful = false;
};

/// One elevation of the level network: a setting or the datum, shared facts, and its own share.
struct Elevation {
    std::string name;
    int key = -1;                 ///< tells it apart in every wiring of the site
    int station = -1;             ///< −1: measured from the vessel datum
    int rod = 0;                  ///< of a probe: measured from this rod's tip, 1 low, 2 middle, 3 high; 0: the mounting
    bool at_mark = false;         ///< stated against the casting mark
    Interval own{0};              ///< nm above the datum, the face centre or the mark
    Interval moved{0};            ///< how far the face centre is from where the site says: see face_moves
    Interval repeatability{0};    ///< how far it strays either way (all of it occurs): the least and the most it may be
    std::uint64_t positions = 0;
    bool absent = false;          ///< a glass that is not there: no level is above it
    bool no_place = false;        ///< a glass for which the site file has no place
    // for levels that geometry gives: what two of them on one head have in common
    bool swings = false;
    OutputHeight share{};
    Interval mark{0};             ///< height of the casting mark above the face centre, nm
};

/// A level constraint as other rules are named: by itself and where it stands.
Instance instance_of(LevelRule const& rule, std::vector<Elevation> const& elevations);

/// What a setting may be.
struct Window {
    int station = 0;
    int rod = 0;                  ///< 0: the mounting
    std::int64_t lo = 0, hi = 0;  ///< nm above the vessel datum
    friend bool operator==(Window const&, Window const&) = default;
};
/// What a level hangs on: the mounting of its station (rod 0), or the tip of a rod. Where it is now, and where it may be.
inline constexpr std::array hangs_on = {Attribute::mounting, Attribute::rod_low, Attribute::rod_middle, Attribute::rod_high};
inline constexpr std::array hangs_on_may_be = {Attribute::mounting_may_be, Attribute::rod_low_may_be, Attribute::rod_middle_may_be,
                                               Attribute::rod_high_may_be};
/// The setting in words, "mounting of primary".
std::string setting_name(Site const& site, int station, int rod);

/// One way to connect functions to outputs, with what the levels say.
struct Wiring {
    std::vector<OutputRef> output;          ///< by function
    Truth truth = Truth::fails;
    std::vector<Judged> pairs;              ///< all pair rules of the chosen pairs
    std::vector<Judged> whole;              ///< rules on the wiring as a whole
    std::vector<Elevation> elevations;
    std::vector<LevelRule> levels;
    Truth levels_truth = Truth::holds;
    std::int64_t short_of = 0;              ///< nm that requirements which exclude one another lack together, in the best world (fails) or the worst
    std::vector<Window> windows;            ///< of the settings
};

/// What is known of one assembly. `truth` is the conjunction of all required rules under the best wiring.
struct Judgement {
    Truth truth = Truth::holds;
    std::vector<Judged> fixed;              ///< rules that no wiring changes
    std::vector<Judged> remarks;            ///< recommended rules that do not hold
    std::optional<Wiring> wiring;           ///< the best one; none when a function has no possible output
    std::size_t wirings = 0;
    bool every_wiring = true;               ///< false: the budget was spent before all of them were tried
    /// Positions read by what keeps each wiring from holding: any change that mends the wiring alters one of
    /// these, or brings other outputs.
    std::uint64_t blamed = 0;
    std::vector<std::vector<std::pair<OutputRef, std::vector<Judged>>>> options;   ///< by function, when there is no wiring
};

/// An assumed fact of a circuit or of the vessel, for the conditional second outcome.
struct Assumption {
    int circuit = -1;             ///< −1: of the vessel
    Attribute attribute = Attribute::supply;
    Fact fact;
    std::string text;
};

/// The facts of the vessel that decide which rows of a pack apply.
inline constexpr std::array decides_packs = {Attribute::vessel_service, Attribute::code, Attribute::vessel_kind,
                                             Attribute::firing, Attribute::mawp, Attribute::heat_input};

/// The truth of the best wiring, and positions of which every repair alters at least one.
struct WiringGist {
    Truth truth = Truth::holds;
    std::uint64_t blamed = 0;
};

/// What was already judged of (function, output) pairs, by the parts that they depend on: for searches that ask
/// about many assemblies of one site with the same site work set aside. Not shared between threads.
class WiringMemo {
public:
    WiringMemo();
    ~WiringMemo();
    WiringMemo(WiringMemo const&) = delete;
    WiringMemo& operator=(WiringMemo const&) = delete;
    struct Entries;
    std::unique_ptr<Entries> entries;
};

/// Judges assemblies of one site. Immutable after construction: may be shared by threads.
class Judge {
public:
    Judge(Catalog const& catalog, Site const& site);

    /// The same judge in a part of its worlds: `pins` must outlive it.
    [[nodiscard]] Judge within(Pins const& pins) const;
    /// Whose fact stands behind a slot; nothing when there is no owner.
    [[nodiscard]] std::optional<FactKey> key_of(Slot slot, Stand const& stand, Assignment const& parts) const;

    /// Judges everything. With `assume`, the assumptions stand in for unknown facts.
    [[nodiscard]] Judgement judge(Assignment const& parts, bool assume = false) const;
    /// The truth only: stops at the first required rule that fails. Instances in `set_aside` (site work) are left out.
    [[nodiscard]] Truth truth(Assignment const& parts, std::vector<Instance> const& set_aside = {}) const;

    /// Only what depends on the wiring: options of every function, the best wiring, its truth.
    [[nodiscard]] Judgement judge_wiring(Assignment const& parts, std::vector<Instance> const& set_aside = {}) const;
    /// The same truth without the words, for searches; `memo` belongs to one search with one `set_aside`.
    [[nodiscard]] WiringGist wiring_gist(Assignment const& parts, std::vector<Instance> const& set_aside,
                                         WiringMemo& memo) const;
    /// The required rules that no wiring changes, in the order in which they are judged.
    [[nodiscard]] std::vector<Instance> const& required() const { return required_; }

    [[nodiscard]] Operands operands(Instance const& instance, Assignment const& parts, bool assume = false) const;
    /// The operands of any list of slots seen from a stand.
    [[nodiscard]] Operands operands(std::span<Slot const> slots, Stand const& stand, Assignment const& parts,
                                    bool assume = false) const;
    [[nodiscard]] Recording record(Instance const& instance, Assignment const& parts, bool assume = false) const;
    /// The fact behind a slot, with the name of its owner; null when there is none.
    [[nodiscard]] Fact const* fact(Slot slot, Stand const& stand, Assignment const& parts, std::string* owner) const;
    [[nodiscard]] Fact const* station_fact(int station, Attribute attribute) const {
        return pinned({Owner::station, station, -1, attribute}, site_.stations[static_cast<std::size_t>(station)].facts.find(attribute));
    }
    [[nodiscard]] Fact const* vessel_fact(Attribute attribute) const {
        return pinned({Owner::vessel, 0, -1, attribute}, site_.vessel.find(attribute));
    }
    [[nodiscard]] Fact const* circuit_fact(int circuit, Attribute attribute) const {
        return pinned({Owner::circuit, circuit, -1, attribute}, site_.circuits[static_cast<std::size_t>(circuit)].facts.find(attribute));
    }
    /// The pack rows that set the figure of a rule here, without a stand.
    [[nodiscard]] std::vector<Instance> const& figures(int rule) const { return figures_[static_cast<std::size_t>(rule)]; }
    /// Every rule on one (function, output) pair.
    [[nodiscard]] std::vector<Judged> pair_rules(int function, OutputRef output, Assignment const& parts, bool assume) const;
    [[nodiscard]] std::vector<Assumption> const& assumptions() const { return assumptions_; }
    [[nodiscard]] std::uint64_t positions_read(Instance const& instance) const;
    [[nodiscard]] PackRow const* pack_row(int pack, int row) const;
    /// The house rule behind an instance; null for the rules of the table. And the fact that it looks at.
    [[nodiscard]] HouseRule const* house_rule(Instance const& instance) const;
    [[nodiscard]] Fact const* house_fact(Instance const& instance, Assignment const& parts, std::string* owner) const;
    [[nodiscard]] Fact const* house_other(Instance const& instance, Assignment const& parts) const;
    [[nodiscard]] Truth truth_of(Instance const& instance, Assignment const& parts, bool assume = false) const;
    [[nodiscard]] Catalog const& catalog() const { return catalog_; }
    [[nodiscard]] Site const& site() const { return site_; }

private:
    friend class WiringSearch;
    friend class LevelBuilder;
    [[nodiscard]] Judged judged(Instance const& instance, Assignment const& parts, bool assume) const;
    void add_wiring(Judgement& out, Assignment const& parts, bool assume, std::vector<Instance> const& set_aside) const;
    void list_rules();
    void list_fixed();
    void list_house(int rule);
    void list_assumptions();
    void list_figures();
    void each_figure(int rule, Stand const& stand, std::vector<Instance>& out) const;
    [[nodiscard]] int position_for(From from, Stand const& stand) const;
    [[nodiscard]] int line_for(Stand const& stand) const;
    [[nodiscard]] Fact const* as_filed(FactKey const& key, Assignment const& parts, std::string* owner) const;

    [[nodiscard]] Fact const* pinned(FactKey const& key, Fact const* fact) const {
        if (!pins_ || !fact) return fact;
        auto const at = pins_->find(key);
        return at == pins_->end() ? fact : &at->second;
    }

    Catalog const& catalog_;
    Site const& site_;
    Pins const* pins_ = nullptr;
    std::vector<std::vector<Instance>> figures_;   ///< by rule: the pack rows that apply here, without a stand
    std::vector<Instance> fixed_;
    std::vector<Instance> required_;               ///< of `fixed_`
    int cut_offs_ = 0;
    std::vector<int> pair_rules_;                  ///< required ones
    std::vector<int> recommended_pairs_;           ///< remarks on the wiring that is shown
    std::uint64_t with_outputs_ = 0;               ///< positions whose parts have outputs
    std::vector<int> level_positions_;             ///< read by the levels beside the outputs' own
    std::vector<Assumption> assumptions_;
};

/// Where the rules on a function and its output stand; a rule on two functions stands at the second of them.
Stand stand_of(Site const& site, int function, OutputRef output);

/// Is a column to take the place of another?
bool column_is_new(Site const& site, int station, Assignment const& parts);
/// How far another column moves its own face: the vessel's connections stay where they are, so a column whose water
/// connection lies otherwise hangs higher or lower by the difference. Close-connected it surely does; a piped one may be
/// piped anew, and then anything between the two is possible.
Interval face_moves(Judge const& judge, int station, Assignment const& parts);
/// How far a glass on the column moves against the face: it hangs on the connection that the column has for it.
Interval glass_moves(Judge const& judge, int station, Assignment const& parts);

/// Truth of one rule over its box: the hull first, then the corners of what varies.
Truth evaluate(RuleRow const& row, Operands const& operands);

inline bool operator==(Instance const& x, Instance const& y) {
    return x.rule == y.rule && x.stand == y.stand && x.pack == y.pack && x.row == y.row;
}

}  // namespace levelswap
