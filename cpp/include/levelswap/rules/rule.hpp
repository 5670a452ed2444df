#pragma once

#include "levelswap/assembly/site.hpp"

#include <algorithm>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace levelswap {

enum class Truth : std::uint8_t { fails, undecided, holds };
constexpr Truth both(Truth x, Truth y) { return x < y ? x : y; }
constexpr Truth negated(Truth t) { return t == Truth::holds ? Truth::fails : t == Truth::fails ? Truth::holds : t; }

/// Whose fact a rule reads, as seen from where the rule stands.
enum class From : std::uint8_t {
    head, switch_half, column, float_, switch_set, glass, probe_holder, probe_relay, transmitter, float_control, float_valve,
    contactor, relay, transformer, converter,
    solenoid_valve, reducing_valve, feed_valve, actuator, pump,   ///< in the feed line of the circuit or station
    part,      ///< the one wetted part that the rule is about
    output, vessel, station, circuit, line,
};

/// One thing that a rule reads. The list of slots is the rule's scope.
struct Slot {
    From from;
    Attribute attribute;
    friend constexpr bool operator==(Slot const&, Slot const&) = default;
};

/// What stands in a slot when a rule is asked: an enclosure, never an origin. Made by `cell_of` only.
struct Cell {
    bool missing;    ///< the position holds nothing, or a part that has no such fact
    bool no_place;   ///< the site has no such position at all
    bool emptied;    ///< the position holds nothing, where the site file has a part
    bool none;       ///< declared absent
    bool varying;
    bool stated;     ///< by a file; a box of what nobody stated is no statement
    double lo, hi;
    double band_lo, band_hi;   ///< the whole range, also while one value of what varies is tried
    std::uint64_t must, may;
    Curve const* curve;
    std::string const* reference;
};
inline constexpr Cell no_cell{true, false, false, false, false, false, 0, 0, 0, 0, 0, 0, nullptr, nullptr};

inline constexpr int most_slots = 40;

/// The operands of one rule at one place: cells by slot, the duty and the pack's figure.
struct Operands {
    // Only the first `count` are set: setting all of them for each question costs more than most rules.
    std::array<Cell, most_slots> cells;
    int count;
    Duty duty = Duty::primary_cut_off;
    double figure = 0;     ///< in quanta of the figure's dimension
    bool functions_complete = false;
    int cut_offs = 0;
    Owner output_kind = Owner::switch_set;   ///< kind of part that gives the output of a pair

    Operands() : count(0) {}
    Operands(Operands const& other) { *this = other; }
    Operands& operator=(Operands const& other) {
        count = other.count;
        std::copy_n(other.cells.begin(), static_cast<std::size_t>(count), cells.begin());
        duty = other.duty;
        figure = other.figure;
        functions_complete = other.functions_complete;
        cut_offs = other.cut_offs;
        output_kind = other.output_kind;
        return *this;
    }
};

std::string words_of_bits(Attribute attribute, std::uint64_t bits);

/// What a choice step has to say, put into words only when it is recorded.
struct Say {
    std::string_view text;
    std::optional<Attribute> attribute{};
    std::uint64_t bits = 0;
    Say(char const* t) : text(t) {}                                            // NOLINT: a sentence is a Say
    Say(Attribute a, std::uint64_t b, std::string_view before = {}) : text(before), attribute(a), bits(b) {}
    [[nodiscard]] std::string words() const {
        return std::string(text) + (attribute ? words_of_bits(*attribute, bits) : "");
    }
};

/// A comparison as it was made, for an explanation.
struct Step {
    enum class Kind : std::uint8_t { at_least, at_most, choice, note } kind = Kind::note;
    std::string label;
    Interval available, required;   ///< in quanta
    Dimension dimension = Dimension::count;
    std::string have, need;         ///< of a choice
    Truth truth = Truth::holds;
    /// Of a note: the least or the most that a setting may be for this rule.
    enum class End : std::uint8_t { none, least, most } end = End::none;
};

/// Judges and remembers nothing else: the fast path.
struct Silent {
    static constexpr bool recording = false;
    Truth truth = Truth::holds;
    bool applies = true;

    template <Dimension D>
    void at_least(char const*, Measure<D> available, Measure<D> required) {
        judge(available.quanta.lo - required.quanta.hi, available.quanta.hi - required.quanta.lo);
    }
    template <Dimension D>
    void at_most(char const*, Measure<D> available, Measure<D> limit) {
        judge(limit.quanta.lo - available.quanta.hi, limit.quanta.hi - available.quanta.lo);
    }
    void require(char const*, Truth t, Say const&, Say const&) { truth = both(truth, t); }
    template <Dimension D>
    void note(char const*, Measure<D>, Step::End = Step::End::none) {}
    void not_applicable() { applies = false; }

private:
    void judge(double lo, double hi) {
        if (hi < 0) truth = Truth::fails;
        else if (lo < 0) truth = both(truth, Truth::undecided);
    }
};

/// Judges the same way and keeps every step: the recorded path.
struct Recording {
    static constexpr bool recording = true;
    Truth truth = Truth::holds;
    bool applies = true;
    std::vector<Step> steps;

    template <Dimension D>
    void at_least(char const* label, Measure<D> available, Measure<D> required) {
        compare(Step::Kind::at_least, label, available.quanta, required.quanta, D);
    }
    template <Dimension D>
    void at_most(char const* label, Measure<D> available, Measure<D> limit) {
        compare(Step::Kind::at_most, label, available.quanta, limit.quanta, D);
    }
    void require(char const* label, Truth t, Say const& have, Say const& need);
    template <Dimension D>
    void note(char const* label, Measure<D> value, Step::End end = Step::End::none) {
        steps.push_back({Step::Kind::note, label, value.quanta, {}, D, {}, {}, Truth::holds, end});
    }
    void not_applicable() { applies = false; }

private:
    void compare(Step::Kind kind, char const* label, Interval available, Interval required, Dimension d);
};

/// What a rule may see: only the slots that it declares, each in the dimension of its attribute.
/// Reading anything else does not compile.
template <Slot... S>
class Reads {
public:
    static constexpr std::array<Slot, sizeof...(S)> slots{S...};
    explicit Reads(Operands const& operands) : operands_(operands) {}

    template <From F, Attribute A>
    [[nodiscard]] Cell const& cell() const {
        constexpr int index = find(Slot{F, A});
        static_assert(index >= 0, "a rule reads a fact that its scope does not name");
        return operands_.cells[static_cast<std::size_t>(index)];
    }
    template <From F, Attribute A>
    [[nodiscard]] auto measure() const {
        static_assert(row_of(A).kind == ValueKind::quantity, "not a quantity");
        auto const& c = cell<F, A>();
        return Measure<row_of(A).dimension>{{c.lo, c.hi}};
    }
    /// The two ends of what varies, for a rule that compares with the band and not with each value of it.
    template <From F, Attribute A>
    [[nodiscard]] auto band_low() const { return Measure<row_of(A).dimension>{{cell<F, A>().band_lo}}; }
    template <From F, Attribute A>
    [[nodiscard]] auto band_high() const { return Measure<row_of(A).dimension>{{cell<F, A>().band_hi}}; }
    template <From F, Attribute A>
    [[nodiscard]] bool has() const { return !cell<F, A>().missing; }
    /// Is there such a position, whatever it holds?
    template <From F, Attribute A>
    [[nodiscard]] bool has_place() const { return !cell<F, A>().no_place; }
    /// Does the site file have a part there, which was taken out and not replaced?
    template <From F, Attribute A>
    [[nodiscard]] bool emptied() const { return cell<F, A>().emptied; }
    template <From F, Attribute A>
    [[nodiscard]] bool none() const { return cell<F, A>().none; }

    /// Is the choice one of the words given ("a|b")?
    template <From F, Attribute A>
    [[nodiscard]] Truth is(std::uint64_t allowed) const {
        auto const& c = cell<F, A>();
        if (c.none || (c.may & allowed) == 0) return Truth::fails;
        return (c.may & ~allowed) == 0 ? Truth::holds : Truth::undecided;
    }
    /// Does the set hold the choice bit(s)?
    template <From F, Attribute A>
    [[nodiscard]] Truth includes(std::uint64_t wanted) const {
        auto const& c = cell<F, A>();
        if ((c.must & wanted) == wanted) return Truth::holds;
        return (c.may & wanted) == wanted ? Truth::undecided : Truth::fails;
    }
    template <Dimension D>
    [[nodiscard]] Measure<D> figure() const { return {{operands_.figure}}; }
    [[nodiscard]] Duty duty() const { return operands_.duty; }
    [[nodiscard]] Operands const& all() const { return operands_; }

private:
    static constexpr int find(Slot slot) {
        for (std::size_t i = 0; i < sizeof...(S); ++i)
            if (slots[i] == slot) return static_cast<int>(i);
        return -1;
    }
    Operands const& operands_;
};

/// The bits of the words given, for example bits<Attribute::acts>("opens_on_fall").
template <Attribute A>
consteval std::uint64_t bits(auto... words) {
    return ((std::uint64_t{1} << find_choice(row_of(A).choices, words)) | ...);
}

/// Where a rule stands: once a station, a circuit, a feed line, a wetted part of the boiler side or of a feed line,
/// the vessel, or a (function, output) pair.
enum class Scope : std::uint8_t { station, circuit, line, part, line_part, vessel, pair, wiring, house };

struct RuleFunctions {
    std::span<Slot const> reads;
    Silent (*fast)(Operands const&) = nullptr;
    Recording (*recorded)(Operands const&) = nullptr;
};

/// One rule body, two instantiations.
template <class Rule>
RuleFunctions functions_of() {
    return {Rule::Scope::slots,
            [](Operands const& o) { Silent t; Rule::judge(typename Rule::Scope(o), t); return t; },
            [](Operands const& o) { Recording t; Rule::judge(typename Rule::Scope(o), t); return t; }};
}

struct RuleRow {
    std::string_view id;
    std::string_view title;
    bool required;
    std::string_view source;
    std::string_view protects;   ///< what it protects against, in one sentence
    Scope scope;
    Figure figure;
    bool only_with_figure;       ///< no row of a pack, no rule
    RuleFunctions body;
};

/// The one table of rules, in canonical order.
std::span<RuleRow const> rule_table();

/// A house rule at one fact: `fact` null when the position holds nothing or another kind.
Truth house_truth(HouseRule const& rule, Fact const* fact, Fact const* other);

/// The row of a rule by its id; −1 when there is none.
int rule_index(std::string_view id);

}  // namespace levelswap
