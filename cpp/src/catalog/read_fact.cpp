#include "read_facts.hpp"
#include "standard_tables.hpp"

#include "document/text.hpp"
#include "document/units.hpp"
#include "levelswap/document/value.hpp"

#include <fmt/format.h>

#include <cmath>

namespace levelswap::reading {

using document::shown_text;

namespace {

/// A flange rating is given between these; a figure beyond them is a slip of the pen.
constexpr double coldest = 73.15e3, hottest = 1473.15e3;  // mK

std::string written(Node const& node) {
    if (!node.is_list()) return node.text;
    std::string out;
    for (Node const& item : node.items) out += (out.empty() ? "" : ", ") + written(item);
    return "[" + out + "]";
}

/// A limit in the unit that the author wrote.
std::string shown(double quanta, Dimension dimension, std::string_view text) {
    auto const* unit = document::unit_in(text, dimension);
    return unit != nullptr ? document::format_in(quanta, *unit) : document::format_quanta(quanta, dimension, document::UnitSystem::us);
}

/// Reads the value of one attribute.
class ValueNode {
public:
    ValueNode(FileReader& reader, Node const& node, AttributeRow const& row) : reader_(reader), node_(node), row_(row) {}

    std::optional<Fact> read() {
        bool const word_of_table = node_.is_scalar() && find_choice(row_.choices, node_.text) >= 0;
        if (node_.is_scalar() && !word_of_table) {
            if (node_.text == "unknown") return unknown_fact(row_.id);
            if (node_.text == "none") return absent_fact(row_.id);
        }
        switch (row_.kind) {
            case ValueKind::quantity: return quantity();
            case ValueKind::choice: return choice();
            case ValueKind::set: return set();
            case ValueKind::curve: return curve();
            case ValueKind::reference: return reference();
        }
        return std::nullopt;
    }

private:
    FileReader& reader_;
    Node const& node_;
    AttributeRow const& row_;

    [[nodiscard]] std::string named() const { return fmt::format("\"{}\"", row_.name); }

    std::optional<Fact> quantity() {
        auto const value = number(node_, row_.dimension);
        if (!value) return std::nullopt;
        Fact fact = unknown_fact(row_.id);
        Fact const domain = fact;
        if (value->lo) fact.lo = static_cast<double>(*value->lo);
        if (value->hi) fact.hi = static_cast<double>(*value->hi);
        fact.nature = value->nature == document::Value::Nature::varying ? Fact::Nature::varying
                                                                        : Fact::Nature::uncertain;
        if (fact.lo < domain.lo || fact.hi > domain.hi || fact.lo > domain.hi || fact.hi < domain.lo) {
            reader_.problem("LS-C006", node_.where,
                            fmt::format("{}: {} cannot be {}", named(), row_.meaning, shown_text(node_.text)),
                            fmt::format("{} to {}", shown(domain.lo, row_.dimension, node_.text), shown(domain.hi, row_.dimension, node_.text)),
                            "check the figure, its sign and its unit");
            return std::nullopt;
        }
        return fact;
    }

    std::optional<document::Value> number(Node const& node, Dimension dimension) {
        if (!node.is_scalar()) {
            reader_.problem("LS-C003", node.where, fmt::format("{} is not a single value", named()),
                            fmt::format("a {}: {}", row_of(dimension).name, document::accepted_units(dimension)));
            return std::nullopt;
        }
        document::ValueProblem p;
        auto const value = document::read_value(node.text, dimension, p);
        if (!value) {
            reader_.problem(p.code, within(node, p.offset, p.length),
                            fmt::format("{}: {}", named(), p.message), p.expected, p.hint);
        }
        return value;
    }

    /// The bit of a word, or −1 after a problem.
    int bit(std::string_view word, SourceSpan const& where) {
        int const found = find_choice(row_.choices, word);
        if (found < 0) {
            Words const words = choice_words(row_);
            reader_.problem("LS-C005", where, fmt::format("{} cannot be \"{}\"", named(), shown_text(word)),
                            fmt::format("{} of {}", row_.kind == ValueKind::set ? "a list" : "one", listed(words)),
                            suggestion(word, words));
        }
        return found;
    }

    /// The bits of a list of words, or nothing after a problem.
    std::optional<std::uint64_t> bits() {
        std::uint64_t found = 0;
        bool good = true;
        for (Node const& item : node_.items) {
            std::string const* word = reader_.text(item, named());
            int const b = word == nullptr ? -1 : bit(*word, item.where);
            if (b >= 0 && (found >> b & 1u) != 0) {
                reader_.problem("LS-C004", item.where, fmt::format("{} lists \"{}\" twice", named(), *word));
            }
            good = good && b >= 0;
            if (b >= 0) found |= std::uint64_t{1} << b;
        }
        return good ? std::optional(found) : std::nullopt;
    }

    std::optional<std::uint64_t> words_with_or() {
        std::uint64_t found = 0;
        bool good = true;
        std::string_view rest = node_.text;
        while (true) {
            std::size_t const end = rest.find(" or ");
            std::string_view const word = rest.substr(0, end);
            int const offset = static_cast<int>(document::characters(
                std::string_view(node_.text).substr(0, node_.text.size() - rest.size())));
            int const b = bit(word, within(node_, offset,
                                           static_cast<int>(document::characters(word))));
            good = good && b >= 0;
            if (b >= 0) found |= std::uint64_t{1} << b;
            if (end == std::string_view::npos) break;
            rest.remove_prefix(end + 4);
        }
        return good ? std::optional(found) : std::nullopt;
    }

    std::optional<Fact> choice() {
        if ((!node_.is_scalar() && !node_.is_list()) || (node_.is_list() && node_.items.empty())) {
            reader_.problem("LS-C003", node_.where, fmt::format("{} is not a choice", named()),
                            fmt::format("one of {}; or several possible ones in a list", listed(choice_words(row_))));
            return std::nullopt;
        }
        auto const found = node_.is_list() ? bits() : words_with_or();
        if (!found) return std::nullopt;
        Fact fact;
        fact.nature = Fact::Nature::uncertain;
        fact.may = *found;
        return fact;
    }

    std::optional<Fact> set() {
        if (!reader_.expect_list(node_, named())) return std::nullopt;
        if (node_.items.empty()) return absent_fact(row_.id);
        auto const found = bits();
        if (!found) return std::nullopt;
        Fact fact;
        fact.nature = Fact::Nature::uncertain;
        fact.must = fact.may = *found;
        return fact;
    }

    std::optional<Fact> curve() {
        if (auto const table = node_.is_scalar() ? standard_rating(node_.text) : std::nullopt) {
            Fact fact;
            fact.nature = Fact::Nature::uncertain;
            fact.curve = table->curve;
            return fact;
        }
        if (!node_.is_list() || node_.items.empty()) {
            std::string const hint = node_.is_scalar() && !row_.choices.empty() ? suggestion(node_.text, choice_words(row_)) : std::string{};
            reader_.problem("LS-C010", node_.where, fmt::format("{} is not a list of points", named()),
                            row_.choices.empty() ? point_form() : fmt::format("{}; or one of {}", point_form(), listed(choice_words(row_))), hint);
            return std::nullopt;
        }
        auto made = std::make_shared<Curve>();
        bool good = true;
        for (Node const& item : node_.items) good = point(item, *made) && good;
        if (!good) return std::nullopt;
        Fact fact;
        fact.nature = Fact::Nature::uncertain;
        fact.curve = std::move(made);
        return fact;
    }

    static std::string point_form() { return "points such as [[100 degF, 300 psi(g)], [422 degF, 250 psi(g)]]"; }

    bool point(Node const& item, Curve& curve) {
        if (!item.is_list() || item.items.size() != 2) {
            reader_.problem("LS-C010", item.where, fmt::format("{} has a point that is not a pair", named()), point_form());
            return false;
        }
        auto const temperature = coordinate(item.items[0], Dimension::temperature, coldest, hottest);
        double const scale = detail::quanta_per_si(row_.dimension);
        auto const pressure = coordinate(item.items[1], row_.dimension, row_.least * scale, row_.most * scale);
        if (!temperature || !pressure) return false;
        if (!curve.points.empty() && curve.points.back().first >= *temperature) {
            reader_.problem("LS-C010", item.items[0].where,
                            fmt::format("{}: {} is not above the temperature before it", named(), shown_text(item.items[0].text)),
                            "temperatures that rise from point to point");
            return false;
        }
        if (!curve.points.empty() && curve.points.back().second < *pressure) {
            reader_.problem("LS-C010", item.items[1].where,
                            fmt::format("{}: {} is above the pressure before it, and nothing holds more as it grows hotter", named(), shown_text(item.items[1].text)),
                            "pressures that stay or fall from point to point", "check both figures and their units");
            return false;
        }
        curve.points.emplace_back(*temperature, *pressure);
        return true;
    }

    std::optional<double> coordinate(Node const& node, Dimension dimension, double least, double most) {
        auto const value = number(node, dimension);
        if (!value) return std::nullopt;
        if (!value->lo || !value->hi || *value->lo != *value->hi) {
            reader_.problem("LS-C010", node.where, fmt::format("{}: \"{}\" is not one number", named(), shown_text(node.text)),
                            "a point of a rating without tolerance");
            return std::nullopt;
        }
        auto const quanta = static_cast<double>(*value->lo);
        if (quanta >= least && quanta <= most) return quanta;
        reader_.problem("LS-C006", node.where, fmt::format("{}: {} cannot be right", named(), shown_text(node.text)),
                        fmt::format("{} to {}", shown(least, dimension, node.text), shown(most, dimension, node.text)),
                        "check the figure and its unit");
        return std::nullopt;
    }

    std::optional<Fact> reference() {
        std::string const* id = reader_.text(node_, named());
        if (id == nullptr) return std::nullopt;
        Fact fact;
        fact.nature = Fact::Nature::uncertain;
        fact.reference = *id;
        return fact;
    }
};

}  // namespace

std::optional<Fact> read_fact(FileReader& reader, Node const& node, AttributeRow const& row,
                              Provenance const& provenance) {
    auto fact = ValueNode(reader, node, row).read();
    if (fact) {
        auto const table = fact->curve && node.is_scalar() ? standard_rating(node.text) : std::nullopt;
        fact->origin = std::make_shared<Origin const>(
            Origin{node.where, written(node), table ? (table->remembered ? "standard table" : "standard table (read)") : provenance.kind,
                   provenance.remembered || (table && table->remembered)});
    }
    return fact;
}

// The bounds stay those of the unknown fact, so that a rule that overlooks the
// nature is undecided instead of wrong; an empty set is empty either way.
Fact absent_fact(Attribute attribute) {
    Fact fact = unknown_fact(attribute);
    fact.nature = Fact::Nature::none;
    if (row_of(attribute).kind == ValueKind::set) fact.may = 0;
    return fact;
}

Words choice_words(AttributeRow const& row) {
    Words words;
    for (int i = 0; i < choice_count(row); ++i) words.emplace_back(choice_word(row, i));
    return words;
}

std::string jurisdiction_of(FileReader& reader, Node const& node) {
    std::string const* text = reader.text(node, "\"jurisdiction\"");
    return text != nullptr && reader.is_plain_id(node.where, *text, "a jurisdiction") ? *text : std::string{};
}

std::optional<double> read_number(FileReader& reader, Node const& node, Dimension dimension, std::string_view what) {
    std::string const* text = reader.text(node, what);
    if (text == nullptr) return std::nullopt;
    document::ValueProblem p;
    auto const value = document::read_value(*text, dimension, p);
    if (!value) {
        reader.problem(p.code, within(node, p.offset, p.length), fmt::format("{}: {}", what, p.message),
                       p.expected, p.hint);
        return std::nullopt;
    }
    if (value->lo && value->hi && *value->lo == *value->hi) return static_cast<double>(*value->lo);
    reader.problem("LS-C003", node.where, fmt::format("{}: \"{}\" is not one number", what, shown_text(*text)),
                   "a number without tolerance or range");
    return std::nullopt;
}

}  // namespace levelswap::reading
