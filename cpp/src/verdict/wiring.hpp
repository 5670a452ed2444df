#pragma once

#include "levelswap/verdict/judge.hpp"

namespace levelswap {

/// One output for one function, with every rule on the pair judged.
struct Option {
    OutputRef output;
    std::vector<Judged> rules;
    Truth truth = Truth::holds;
};

inline constexpr std::size_t most_wirings = 5000;   ///< a budget of checks, never of seconds

/// Connects functions to outputs: the wirings sit inside the verdict, so all that can work are tried in
/// canonical order, and levels and independence are judged for each.
class WiringSearch {
public:
    WiringSearch(Judge const& judge, Assignment const& parts, bool assume, std::vector<Instance> set_aside = {});

    /// Fills in the best wiring and its truth.
    void run(Judgement& out);
    Truth best_truth();

private:
    void list_options();
    [[nodiscard]] std::vector<OutputRef> candidates(int function) const;
    [[nodiscard]] Option option(int function, OutputRef output) const;
    [[nodiscard]] bool output_there(OutputRef const& output) const;
    void search(std::size_t function, std::vector<int>& chosen);
    void consider(std::vector<int> const& chosen);
    [[nodiscard]] std::vector<Judged> whole_rules(Wiring const& wiring) const;
    [[nodiscard]] static std::uint64_t blame(Wiring const& wiring);
    [[nodiscard]] bool aside(Instance const& instance) const;

    Judge const& judge_;
    Assignment const& parts_;
    bool assume_;
    std::vector<Instance> set_aside_;
    std::vector<std::vector<Option>> all_;               ///< by function, all of them
    std::vector<std::vector<Option const*>> options_;    ///< by function, those that do not fail
    std::optional<Wiring> best_;
    std::size_t count_ = 0;
    std::uint64_t blamed_ = 0;
    
};

/// Elevations and level constraints of one wiring, judged on the level network.
class LevelBuilder {
public:
    LevelBuilder(Judge const& judge, Assignment const& parts, bool assume) : judge_(judge), parts_(parts), assume_(assume) {}
    void judge_levels(Wiring& wiring) const;
    /// The truth only, from elevations (trip and reset by function) that are known already.
    [[nodiscard]] WiringGist gist(Wiring& wiring, std::vector<std::pair<Elevation const*, Elevation const*>> const& known) const;
    [[nodiscard]] WiringGist gist_without_outputs() const;
    [[nodiscard]] Elevation output_elevation(int function, OutputRef output, bool rising) const;

private:
    int add(Wiring& w, Elevation e) const;
    void read_rod(Elevation& e, Stand const& stand, bool rising) const;
    [[nodiscard]] Elevation fact_elevation(std::string name, int station, Fact const* fact) const;
    struct Need {   ///< what physics asks for beside a figure
        Interval distance{0};
        std::string_view words;
        std::uint64_t positions = 0;
    };
    void require(Wiring& w, int rule, int upper, int lower, bool with_figure = true) const;
    void require(Wiring& w, int rule, int upper, int lower, bool with_figure, Need const& need) const;
    void order(Wiring& w, std::vector<int> const& trip, std::vector<int> const& reset) const;
    [[nodiscard]] int glasses(Wiring& w) const;
    void glass(Wiring& w, std::vector<int> const& trip) const;
    [[nodiscard]] Stand stand_of(Wiring const& w, std::size_t function) const;
    void delay(Wiring& w, std::size_t function, int trip, int visible) const;
    void cycling(Wiring& w, std::size_t function, int on, int off) const;
    void fill(Wiring& w, std::size_t function, int on, int off) const;
    void feed_needs(Wiring& w, std::vector<int> const& trip, std::vector<int> const& reset) const;
    void bracket(Wiring& w, std::vector<int> const& trip, std::vector<int> const& reset) const;
    struct Edges;
    [[nodiscard]] Edges edges_of(Wiring& w) const;
    void solve(Wiring& w) const;
    [[nodiscard]] WiringGist gist_of(Wiring& w) const;
    [[nodiscard]] Interval difference(Elevation const& upper, Elevation const& lower) const;
    /// The facts of what an elevation hangs on: the mounting of its station, or a rod's tip.
    [[nodiscard]] bool is_setting(int station, int rod) const;
    [[nodiscard]] Interval now(int station, int rod) const;
    [[nodiscard]] Interval may_be(int station, int rod) const;
    [[nodiscard]] Instance stand_in(int rule, int station) const;

    Judge const& judge_;
    Assignment const& parts_;
    bool assume_;
};

/// Two owners stand on different things (water connections, supplies), or on the same: certain only when both are known.
Truth differ(std::uint64_t x, std::uint64_t y);
Truth agree(std::uint64_t x, std::uint64_t y);
constexpr bool is_cut_off(Duty d) { return d == Duty::primary_cut_off || d == Duty::secondary_cut_off; }

}  // namespace levelswap
