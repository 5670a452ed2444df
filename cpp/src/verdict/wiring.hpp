#pragma once

#include "levelswap/graph/level_network.hpp"
#include "levelswap/verdict/judge.hpp"

#include <array>

namespace levelswap {

inline constexpr std::size_t most_wirings = 5000;   ///< a budget of checks, never of seconds

inline constexpr double far = 5e9;   ///< 5 m: the declared domain of an elevation, in nm

/// Elevations and level constraints of one wiring, judged on the level network.
class LevelBuilder {
public:
    LevelBuilder(Judge const& judge, Assignment const& parts, bool assume, std::vector<Instance> const& set_aside)
        : judge_(judge), parts_(parts), assume_(assume), set_aside_(set_aside) {}
    /// The levels of a wiring, from its outputs.
    void judge_levels(Wiring& wiring) const;
    /// Only what each requirement between levels of some functions (a bit each), and marks, is alone: the network is not
    /// solved, and the elevations of the others are left open.
    void list_levels(Wiring& wiring, std::uint64_t functions) const;
    /// How many requirements do not surely hold, and one more for all together; 0 where the levels hold.
    [[nodiscard]] int unmet(Wiring& wiring) const;
    /// The truth only, from elevations (trip and reset by function) that are known already.
    [[nodiscard]] WiringGist gist(Wiring& wiring, std::vector<std::pair<Elevation const*, Elevation const*>> const& known) const;
    [[nodiscard]] WiringGist gist_without_outputs() const;
    [[nodiscard]] Elevation output_elevation(int function, OutputRef output, bool rising) const;

private:
    int add(Wiring& w, Elevation e) const;
    void read_rod(Elevation& e, Stand const& stand, bool rising) const;
    enum class Mark : int { glass, lpwl, water, steam, rod_end, holder_end };   ///< levels that no output gives
    [[nodiscard]] Elevation fact_elevation(Mark mark, int at, int station, Fact const* fact) const;
    struct Need {   ///< what physics asks for beside a figure
        Interval distance{0};
        std::string_view words;
        std::uint64_t positions = 0;
        int from = -1;   ///< the level it starts from; it differs with that level's setting
    };
    /// The levels that a wiring is judged by.
    struct Ends {
        std::vector<int> trip, reset;   ///< by function
    };
    void require_all(Wiring& w, Ends const& ends) const;
    [[nodiscard]] Ends list(Wiring& w, std::uint64_t functions) const;
    void require(Wiring& w, int rule, int upper, int lower, bool with_figure = true) const;
    void require(Wiring& w, int rule, int upper, int lower, bool with_figure, Need const& need) const;
    void order(Wiring& w, std::vector<int> const& trip, std::vector<int> const& reset) const;
    [[nodiscard]] bool is_full_of_water() const;
    [[nodiscard]] int glasses(Wiring& w) const;
    void glass(Wiring& w, std::vector<int> const& trip) const;
    void without_glass(Wiring& w, std::vector<int> const& trip) const;
    [[nodiscard]] Need acts_late(Wiring const& w, int level) const;
    void delay(Wiring& w, std::size_t function, int trip, int visible) const;
    void cycling(Wiring& w, std::size_t function, int on, int off) const;
    void fill(Wiring& w, std::size_t function, int on, int off) const;
    void feed_needs(Wiring& w, std::vector<int> const& trip, std::vector<int> const& reset) const;
    void bracket(Wiring& w, std::vector<int> const& trip, std::vector<int> const& reset) const;
    [[nodiscard]] Interval clearance_inside() const;
    void rods(Wiring& w, Ends const& ends) const;
    enum class Strays : std::uint8_t { down, up };
    [[nodiscard]] Interval heights(Elevation const& e, Strays strays) const;
    [[nodiscard]] Operands needs(std::span<Slot const> slots, Stand const& stand) const;
    struct Edges;
    [[nodiscard]] Edges edges_of(Wiring& w) const;
    void solve(Wiring& w) const;
    struct Excluding {
        std::vector<int> requirements;   ///< indices of LevelRule
        std::int64_t short_of = 0;       ///< nm that they lack together
    };
    [[nodiscard]] Excluding exclude(int vertices, std::vector<LevelEdge> kept, Wiring const& w) const;
    [[nodiscard]] WiringGist gist_of(Wiring& w) const;
    /// Where a need differs with a setting, the settings are judged piece by piece: one that holds settles it.
    [[nodiscard]] LevelBuilder within(Window const& piece) const;
    [[nodiscard]] std::optional<Window> widest_need(Wiring const& w) const;
    template <class JudgePiece>
    Truth by_pieces(Wiring const& w, Ends const& ends, bool all, JudgePiece judge) const;
    void judge_by_pieces(Wiring& w, Ends const& ends) const;
    [[nodiscard]] WiringGist gist_by_pieces(Wiring const& w, Ends const& ends, WiringGist const& whole) const;
    [[nodiscard]] Interval difference(Elevation const& upper, Elevation const& lower) const;
    /// The facts of what an elevation hangs on: the mounting of its station, or a rod's tip.
    [[nodiscard]] bool is_setting(int station, int rod) const;
    [[nodiscard]] Interval now(int station, int rod) const;
    [[nodiscard]] Interval may_be(int station, int rod) const;
    [[nodiscard]] Interval moved(int station) const;

    Judge const& judge_;
    Assignment const& parts_;
    bool assume_;
    std::vector<Instance> const& set_aside_;
    std::vector<Window> pieces_;   ///< settings kept within less than they may be
};

/// The station, and which of LevelBuilder's marks in order, behind the key of a level that no output gives.
constexpr int marks_of_a_station = 6;
constexpr std::pair<int, int> station_and_mark(int key) { return {(-2 - key) / marks_of_a_station, (-2 - key) % marks_of_a_station}; }

/// Two owners stand on different things (water connections, supplies), or on the same: certain only when both are known.
Truth differ(std::uint64_t x, std::uint64_t y);
Truth agree(std::uint64_t x, std::uint64_t y);

/// A rule on two functions together, by the outputs that perform them.
struct Together {
    Instance instance;             ///< without its stand
    Truth truth = Truth::holds;
    std::uint64_t positions = 0;   ///< what it reads
};
/// One common one supply, water connections of their own, unlike principles (a row of a pack each), no shared relay.
struct TogetherRules {
    std::array<Together, 8> rule;
    int count = 0;
};
TogetherRules together(Judge const& judge, Assignment const& parts, int f, OutputRef x, int g, OutputRef y);

/// The wiring in words and numbers: every rule on it judged, its levels solved.
Wiring record_wiring(Judge const& judge, Assignment const& parts, bool assume, std::vector<Instance> const& set_aside,
                     std::vector<OutputRef> const& outputs);

}  // namespace levelswap
