#include "levelswap/document/value.hpp"

#include "levelswap/base/diagnostic.hpp"
#include "number.hpp"
#include "text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

namespace levelswap::document {

namespace {

constexpr std::string_view plus_minus = "+/-";
constexpr std::string_view plus_minus_sign = "\xC2\xB1";  // ±

std::string_view trimmed(std::string_view text) {
    std::size_t const first = text.find_first_not_of(' ');
    if (first == std::string_view::npos) return text.substr(text.size());
    return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

bool is_pressure(Dimension d) {
    return d == Dimension::pressure_gauge || d == Dimension::pressure_absolute || d == Dimension::pressure_difference;
}

/// A tolerance of a pressure or a temperature is a difference.
Dimension tolerance_dimension(Dimension d) {
    if (d == Dimension::pressure_gauge || d == Dimension::pressure_absolute) return Dimension::pressure_difference;
    return d == Dimension::temperature ? Dimension::temperature_difference : d;
}

std::string expected_of(Dimension d) {
    if (d == Dimension::count) return "a whole number";
    if (d == Dimension::money) return "a plain number";
    return fmt::format("a number and its unit: {}", accepted_units(d));
}

/// Words that people write for a unit, and the one we read.
std::string usual_spelling(std::string_view word) {
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 35> spellings{{
        {"psig", "psi(g)"}, {"psia", "psi(a)"}, {"psid", "psi"}, {"PSI", "psi"}, {"barg", "bar(g)"}, {"bara", "bar(a)"},
        {"\"", "in"}, {"''", "in"}, {"inch", "in"}, {"inches", "in"}, {"feet", "ft"}, {"foot", "ft"}, {"'", "ft"},
        {"\xC2\xB0", "deg"}, {"degrees", "deg"}, {"\xC2\xB0" "C", "degC"}, {"\xC2\xB0" "F", "degF"}, {"C", "degC"}, {"F", "degF"},
        {"lbs", "lb"}, {"Nm", "N*m"}, {"\xCE\xA9", "ohm"}, {"\xE2\x84\xA6", "ohm"}, {"amps", "A"}, {"volts", "V"}, {"VAC", "V"},
        {"\xC2\xB5m", "um"}, {"HP", "hp"}, {"lb/hr", "lb/h"},
        {"gpm", "gal/min"}, {"GPM", "gal/min"}, {"gph", "gal/h"}, {"lpm", "l/min"},
        {"\xC2\xB5S/cm", "uS/cm"}, {"cv", "Cv"},
    }};
    for (auto const& [written, read] : spellings) {
        if (written == word) return std::string(read);
    }
    return {};
}

std::string lower(std::string_view text) {
    std::string out(text);
    for (char& c : out) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return out;
}

std::string nearest_unit(std::string_view word, Dimension dimension) {
    std::vector<std::string> words;
    for (ExactUnit const& u : exact_units()) {
        if (u.dimension != dimension || u.word == "1") continue;
        if (lower(u.word) == lower(word)) return std::string(u.word);
        words.emplace_back(u.word);
    }
    return nearest(word, words);
}

class ValueReader {
public:
    ValueReader(std::string_view text, Dimension dimension, ValueProblem& problem)
        : whole_(text), dimension_(dimension), problem_(problem) {}

    std::optional<Value> read() {
        std::string_view text = trimmed(whole_);
        if (text.empty()) return fail("LS-V013", whole_, fmt::format("{} is missing", name(dimension_)), "write \"unknown\" for a fact that is not known");
        if (text == "unknown") return Value{Value::Nature::unknown, {}, {}};
        if (text == "none") return Value{Value::Nature::none, {}, {}};
        auto nature = Value::Nature::uncertain;
        if (text.front() == '~') {
            nature = Value::Nature::varying;
            text = trimmed(text.substr(1));
            if (text.empty() || text == "unknown" || text == "none" || text.starts_with("at "))
                return fail("LS-V012", whole_, fmt::format("\"{}\" does not say what varies", shown_text(whole_)), "write both ends, such as ~ A .. B");
        }
        auto value = text.starts_with("at ") ? one_sided(text) : two_sided(text);
        if (value) value->nature = nature;
        return value;
    }

private:
    std::string_view whole_;
    Dimension dimension_;
    ValueProblem& problem_;

    static std::string_view name(Dimension d) { return row_of(d).name; }

    std::nullopt_t fail(std::string_view code, std::string_view at, std::string message, std::string hint, std::string expected = {}) {
        auto const bytes = static_cast<std::size_t>(at.data() - whole_.data());
        problem_.code = code;
        problem_.message = std::move(message);
        problem_.expected = expected.empty() ? expected_of(dimension_) : std::move(expected);
        problem_.hint = std::move(hint);
        problem_.offset = static_cast<int>(characters(whole_.substr(0, bytes)));
        problem_.length = std::max(1, static_cast<int>(characters(at)));
        return std::nullopt;
    }

    std::optional<Value> one_sided(std::string_view text) {
        constexpr std::string_view least = "at least ";
        constexpr std::string_view most = "at most ";
        bool const is_least = text.starts_with(least);
        if (!is_least && !text.starts_with(most)) {
            return fail("LS-V012", text, fmt::format("\"{}\" is not complete", shown_text(text)), "write \"at least\" or \"at most\" and a number");
        }
        std::string_view const number = text.substr(is_least ? least.size() : most.size());
        if (auto const split = splitter(number); !split.empty()) {
            return fail("LS-V012", split, fmt::format("\"{}\" has both an end and a range", shown_text(text)), "write either the end or the range");
        }
        auto const end = quantum(number, dimension_);
        if (!end) return std::nullopt;
        return is_least ? Value{Value::Nature::uncertain, *end, {}} : Value{Value::Nature::uncertain, {}, *end};
    }

    /// The first `..`, `+/-` or `±` of the text; empty when there is none.
    static std::string_view splitter(std::string_view text) {
        std::string_view found = text.substr(text.size());
        for (std::string_view const mark : {std::string_view(".."), plus_minus, plus_minus_sign}) {
            std::size_t const at = text.find(mark);
            if (at != std::string_view::npos && text.data() + at < found.data()) found = text.substr(at, mark.size());
        }
        return found;
    }

    std::optional<Value> two_sided(std::string_view text) {
        std::string_view const mark = splitter(text);
        if (mark.empty()) {
            auto const point = quantum(text, dimension_);
            return point ? std::optional(Value{Value::Nature::uncertain, *point, *point}) : std::nullopt;
        }
        auto const at = static_cast<std::size_t>(mark.data() - text.data());
        std::string_view const left = trimmed(text.substr(0, at));
        std::string_view const right = trimmed(text.substr(at + mark.size()));
        if (auto const again = splitter(right); !again.empty()) {
            return fail("LS-V012", again, fmt::format("\"{}\" has a second \"{}\"", shown_text(text), again), "write one range or one tolerance");
        }
        if (right.empty() || (left.empty() && mark == "..")) {
            return fail("LS-V012", mark, fmt::format("one side of \"{}\" is missing", mark), "write both ends, or \"at least\" or \"at most\"");
        }
        return mark == ".." ? range(left, right) : centred(left, right);
    }

    std::optional<Value> range(std::string_view left, std::string_view right) {
        auto const lo = quantum(left, dimension_);
        if (!lo) return std::nullopt;
        auto const hi = quantum(right, dimension_);
        if (!hi) return std::nullopt;
        if (*lo > *hi) {
            return fail("LS-V008", left, fmt::format("the range starts at {} and ends at {}, which is less", shown_text(left), shown_text(right)), "write the smaller end first");
        }
        return Value{Value::Nature::uncertain, *lo, *hi};
    }

    std::optional<Value> centred(std::string_view left, std::string_view right) {
        ExactQuanta centre;
        if (left.empty() && tolerance_dimension(dimension_) != dimension_) {
            return fail("LS-V012", right, fmt::format("zero is no middle for {}", name(dimension_)), "write the middle in front of the tolerance");
        }
        if (!left.empty()) {
            auto const read = quantity(left, dimension_);
            if (!read) return std::nullopt;
            centre = *read;
        }
        auto const tolerance = quantity(right, tolerance_dimension(dimension_));
        if (!tolerance) return std::nullopt;
        if (tolerance->whole < 0) return fail("LS-V009", right, fmt::format("the tolerance \"{}\" is negative", shown_text(right)), "write it without a sign");
        auto const lo = nearest_quantum(centre + -*tolerance);
        auto const hi = nearest_quantum(centre + *tolerance);
        if (!lo || !hi) return too_large(right);
        return Value{Value::Nature::uncertain, *lo, *hi};
    }

    std::nullopt_t too_large(std::string_view text) {
        return fail("LS-V007", text, fmt::format("\"{}\" is beyond the range of {}", shown_text(text), name(dimension_)), "check the number of digits and the unit");
    }

    std::optional<std::int64_t> quantum(std::string_view text, Dimension dimension) {
        auto const exact = quantity(trimmed(text), dimension);
        if (!exact) return std::nullopt;
        auto const whole = nearest_quantum(*exact);
        if (!whole) return too_large(trimmed(text));
        return whole;
    }

    std::optional<ExactQuanta> quantity(std::string_view text, Dimension dimension) {
        std::string_view rest = text;
        NumberProblem problem;
        auto const number = read_number(rest, problem);
        if (!number) {
            bool const no_unit = dimension == Dimension::count || dimension == Dimension::money;
            return fail(problem.code, problem.at, problem.message, no_unit && problem.code == "LS-V001" ? "write it in digits" : problem.hint, expected_of(dimension));
        }
        std::string_view const written = text.substr(0, text.size() - rest.size());
        std::string_view const word = trimmed(rest);
        bool const plain = word.empty() && takes_plain_numbers(dimension);
        ExactUnit const* unit = find_unit(plain ? "1" : word, dimension);
        if (unit == nullptr) return unit_problem(written, word, dimension);
        if (dimension == Dimension::count && !is_whole(*number)) {
            return fail("LS-V010", written, fmt::format("\"{}\" is not a whole number", written), "a part of one does not exist: round it");
        }
        return to_quanta(*number, *unit);
    }

    std::nullopt_t unit_problem(std::string_view number, std::string_view word, Dimension d) {
        std::string const expected = expected_of(d);
        std::string_view const asked = name(d);
        if (word.empty()) {
            std::string hint = fmt::format("write the unit behind {}", number);
            return fail("LS-V002", number, fmt::format("{} has no unit", asked), hint, expected);
        }
        if (word.front() >= '0' && word.front() <= '9') {
            return fail("LS-V006", word, fmt::format("a second number \"{}\" follows the first", shown_text(word)), "write the digits without blanks", expected);
        }
        if (word.front() == '-' || word.find(' ') != std::string_view::npos) {
            return fail("LS-V012", word, fmt::format("\"{}\" is not a unit", shown_text(word)), "write a range as A .. B, a tolerance as A +/- B", expected);
        }
        std::string const spelling = usual_spelling(word);
        std::string const meant = spelling.empty() ? std::string(word) : spelling;
        if (d != Dimension::pressure_difference && is_pressure(d) && find_unit(meant, Dimension::pressure_difference) != nullptr) {
            return fail("LS-V005", word, fmt::format("\"{}\" does not say gauge or absolute", word), fmt::format("say \"{0}(g)\" or \"{0}(a)\"", meant), expected);
        }
        if (!spelling.empty() && find_unit(spelling, d) != nullptr) {
            return fail("LS-V003", word, fmt::format("the unit \"{}\" is not known", word), fmt::format("did you mean \"{}\"?", spelling), expected);
        }
        if (lower(word) == "bhp") {
            return fail("LS-V003", word, "a boiler horsepower is an evaporation, not a unit of power", "state the evaporation as a mass flow, such as in lb/h", expected);
        }
        if (d == Dimension::pressure_difference && (word.ends_with("(g)") || word.ends_with("(a)"))) {
            return fail("LS-V004", word, fmt::format("\"{}\" has a reference, a pressure difference has none", word), fmt::format("write \"{}\"", word.substr(0, word.size() - 3)), expected);
        }
        ExactUnit const* other = find_unit(meant);
        if (d == Dimension::count || d == Dimension::money) {
            return fail("LS-V014", word, fmt::format("{} takes no unit, found \"{}\"", asked, shown_text(word)), "write the number alone", expected);
        }
        if (other != nullptr) {
            return fail("LS-V004", word, fmt::format("\"{}\" measures {}, not {}", word, name(other->dimension), asked), "check the unit, and whether the value belongs to this key", expected);
        }
        std::string const near = nearest_unit(word, d);
        return fail("LS-V003", word, fmt::format("the unit \"{}\" is not known", shown_text(word)), near.empty() ? "use one of the accepted units" : fmt::format("did you mean \"{}\"?", near), expected);
    }
};

}  // namespace

std::optional<Value> read_value(std::string_view text, Dimension dimension, ValueProblem& problem) {
    return ValueReader(text, dimension, problem).read();
}

}  // namespace levelswap::document
