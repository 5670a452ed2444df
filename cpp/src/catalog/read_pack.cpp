#include "read_catalog.hpp"
#include "read_facts.hpp"
#include "standard_tables.hpp"

#include "document/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace levelswap::reading {

using document::shown_text;

namespace {

/// Whether a value lies on the side of neutral where the rule would let pass what physics refuses.
bool is_weak(FigureKind const& kind, double quanta) {
    double const neutral = kind.neutral * detail::quanta_per_si(kind.dimension);
    return (kind.asks == FigureKind::Asks::at_least && quanta < neutral) || (kind.asks == FigureKind::Asks::at_most && quanta > neutral);
}

/// Reads the rows and house rules of one pack.
class PackReader {
public:
    PackReader(FileReader& reader, std::string name) : reader_(reader), name_(std::move(name)) {}

    std::vector<PackRow> rows(Node const& list) {
        std::vector<PackRow> found;
        if (!reader_.expect_list(list, "\"rows\"")) return found;
        for (Node const& node : list.items)
            if (auto row = one_row(node)) found.push_back(std::move(*row));
        return found;
    }

    std::vector<HouseRule> house(Node const& list) {
        std::vector<HouseRule> found;
        if (!reader_.expect_list(list, "\"house\"")) return found;
        for (Node const& node : list.items)
            if (auto rule = one_rule(node)) found.push_back(std::move(*rule));
        return found;
    }

private:
    FileReader& reader_;
    std::string name_;

    std::optional<PackRow> one_row(Node const& node) {
        if (!reader_.expect_map(node, "a row")) return std::nullopt;
        reader_.only_keys(node, {"figure", "value", "clause", "known", "because", "applies_to"}, "a row");
        PackRow row;
        Node const* figure = reader_.required(node, "figure", "the row");
        Node const* value = reader_.required(node, "value", "the row");
        row.figure = figure == nullptr ? Figure::none : read_figure(*figure);
        row.clause = reader_.optional_text(node, "clause");
        row.because = reader_.optional_text(node, "because");
        if (node.find("clause") == nullptr && node.find("because") == nullptr)
            reader_.problem("LS-C002", node.where, "the row says neither \"clause\" nor \"because\"", {}, "say where the figure comes from");
        if (Node const* known = node.find("known"))
            row.remembered = reader_.one_of(*known, "known", {"read", "remembered"}) == 1;
        if (Node const* applies = node.find("applies_to")) applies_to(*applies, row);
        if (row.figure == Figure::none || value == nullptr) return std::nullopt;
        row.pack = name_;
        row.where = value->where;
        row.text = value->text;
        auto const quanta = figure_value(*value, row.figure);
        if (!quanta) return std::nullopt;
        row.value = *quanta;
        return row;
    }

    Figure read_figure(Node const& node) {
        std::string const* name = reader_.text(node, "\"figure\"");
        if (name == nullptr) return Figure::none;
        auto const figure = find_figure(*name);
        if (figure) return *figure;
        reader_.problem("LS-C011", node.where, fmt::format("\"{}\" is no figure of a pack", shown_text(*name)),
                        fmt::format("one of {}", listed(figure_names())), suggestion(*name, figure_names()));
        return Figure::none;
    }

    std::optional<double> figure_value(Node const& node, Figure figure) {
        std::string const name(row_of(figure).name);
        Dimension const dimension = row_of(figure).dimension;
        if (row_of(figure).asks == FigureKind::Asks::yes_or_no) {
            int const yes = reader_.one_of(node, name, {"no", "yes"});
            return yes < 0 ? std::nullopt : std::optional(yes * detail::quanta_per_si(dimension));
        }
        auto const quanta = read_number(reader_, node, dimension, fmt::format("\"{}\"", name));
        if (!quanta) return quanta;
        if (*quanta < 0)
            reader_.problem("LS-C006", node.where, fmt::format("\"{}\" cannot be {}", name, shown_text(node.text)), "a figure of 0 or more");
        else if (is_weak(row_of(figure), *quanta))
            reader_.problem("LS-C017", node.where, fmt::format("\"{}\" of {} would let pass what physics refuses", name, shown_text(node.text)),
                            fmt::format("{:g} or {}", row_of(figure).neutral, row_of(figure).asks == FigureKind::Asks::at_least ? "more" : "less"),
                            "a pack may only ask for more; to ask for nothing more, delete the row");
        else if (row_of(figure).asks == FigureKind::Asks::allowance && *quanta >= detail::quanta_per_si(dimension))
            reader_.problem("LS-C006", node.where, fmt::format("\"{}\" cannot be {}: the whole of the rated voltage, or more", name, shown_text(node.text)), "a part of it, such as 15 %");
        else return figure == Figure::drain_size || figure == Figure::equalizing_size ? in_nominal_inches(*quanta) : *quanta;
        return std::nullopt;
    }

    void applies_to(Node const& node, PackRow& row) {
        if (!reader_.expect_map(node, "\"applies_to\"")) return;
        std::pair<std::string_view, std::pair<Attribute, std::uint64_t PackRow::*>> const conditions[] = {
            {"service", {Attribute::vessel_service, &PackRow::services}},
            {"code", {Attribute::code, &PackRow::codes}},
            {"kind", {Attribute::vessel_kind, &PackRow::kinds}},
            {"firing", {Attribute::firing, &PackRow::firings}}};
        reader_.only_keys(node, {"service", "code", "kind", "firing", "mawp_over", "mawp_at_most", "heat_input_over", "heat_input_at_most", "jurisdiction"},
                          "\"applies_to\"");
        for (auto const& [key, target] : conditions) {
            if (Node const* list = node.find(key)) row.*target.second = vessel_words(*list, row_of(target.first));
        }
        row.mawp = bounds(node, Attribute::mawp);
        row.heat_input = bounds(node, Attribute::heat_input);
        if (Node const* named = node.find("jurisdiction")) row.jurisdiction = jurisdiction_of(reader_, *named);
    }

    Bounds bounds(Node const& node, Attribute attribute) {
        AttributeRow const& of = row_of(attribute);
        Bounds found;
        std::string const over = fmt::format("{}_over", of.name), at_most = fmt::format("{}_at_most", of.name);
        if (Node const* n = node.find(over)) found.over = read_number(reader_, *n, of.dimension, over).value_or(found.over);
        if (Node const* n = node.find(at_most)) found.at_most = read_number(reader_, *n, of.dimension, at_most).value_or(found.at_most);
        if (found.over >= found.at_most)
            reader_.problem("LS-C003", node.find(over)->where, fmt::format("\"{}\" is not below \"{}\", so the row applies nowhere", over, at_most), {},
                            "check both figures and their units");
        return found;
    }

    std::uint64_t vessel_words(Node const& list, AttributeRow const& row) {
        if (!reader_.expect_list(list, fmt::format("\"{}\"", row.name))) return 0;
        std::uint64_t found = 0;
        for (Node const& item : list.items) {
            int const bit = reader_.one_of(item, row.name, choice_words(row));
            if (bit >= 0) found |= std::uint64_t{1} << bit;
        }
        if (list.items.empty())
            reader_.problem("LS-C003", list.where, fmt::format("\"{}\" lists nothing, so the row applies nowhere", row.name), {}, "delete the key when the row applies to all");
        return found;
    }

    std::optional<HouseRule> one_rule(Node const& node) {
        if (!reader_.expect_map(node, "a house rule")) return std::nullopt;
        reader_.only_keys(node, {"kind", "attribute", "because", "at_least", "at_most", "is", "is_not"}, "a house rule");
        HouseRule rule;
        Node const* because = reader_.required(node, "because", "the house rule");
        if (because != nullptr) rule.because = reader_.optional_text(node, "because");
        auto const kind = rule_kind(node);
        auto const attribute = kind ? rule_attribute(node, *kind) : std::nullopt;
        Node const* literal = attribute ? comparison(node, rule, row_of(*attribute)) : nullptr;
        if (literal == nullptr) return std::nullopt;
        rule.kind = *kind;
        rule.attribute = *attribute;
        rule.pack = name_;
        rule.where = literal->where;
        return (literal->is_map() ? read_other(*literal, rule) : read_literal(*literal, rule)) ? std::optional{rule} : std::nullopt;
    }

    bool read_literal(Node const& literal, HouseRule& rule) {
        auto fact = read_fact(reader_, literal, row_of(rule.attribute), {"house rule", false});
        if (!fact) return false;
        if (fact->nature == Fact::Nature::unknown) {
            reader_.problem("LS-C003", literal.where, "a house rule cannot compare with an unknown", "a value");
            return false;
        }
        rule.literal = std::move(*fact);
        rule.text = rule.literal.origin->text;
        return true;
    }

    /// {attribute: mawp, of: vessel}: what the part itself or the vessel has.
    bool read_other(Node const& node, HouseRule& rule) {
        reader_.only_keys(node, {"attribute", "of"}, "the other side of the comparison");
        Node const* of = node.find("of");
        rule.other_of_vessel = of != nullptr && reader_.one_of(*of, "of", {"part", "vessel"}) == 1;
        rule.other = rule_attribute(node, rule.other_of_vessel ? Owner::vessel : rule.kind);
        if (!rule.other) return false;
        auto const& mine = row_of(rule.attribute);
        auto const& other = row_of(*rule.other);
        bool const alike = mine.kind == other.kind && mine.dimension == other.dimension && mine.choices == other.choices;
        if (!alike)
            reader_.problem("LS-C003", node.where, fmt::format("\"{}\" and \"{}\" cannot be compared", mine.name, other.name),
                            "two quantities of one dimension, or two choices between the same words");
        rule.text = fmt::format("{} of the {}", other.meaning, rule.other_of_vessel ? "vessel" : "part");
        return alike;
    }

    std::optional<Owner> rule_kind(Node const& rule) {
        Node const* node = reader_.required(rule, "kind", "the house rule");
        std::string const* word = node == nullptr ? nullptr : reader_.text(*node, "\"kind\"");
        if (word == nullptr) return std::nullopt;
        auto const kind = find_kind(*word);
        if (!kind) {
            Words names;
            for (int i = 0; i < kind_count; ++i) names.emplace_back(name_of(static_cast<Owner>(i)));
            reader_.problem("LS-C007", node->where, fmt::format("\"{}\" is no kind of part", shown_text(*word)),
                            fmt::format("one of {}", listed(names)), suggestion(*word, names));
        }
        return kind;
    }

    std::optional<Attribute> rule_attribute(Node const& rule, Owner kind) {
        Node const* node = reader_.required(rule, "attribute", "the house rule");
        std::string const* name = node == nullptr ? nullptr : reader_.text(*node, "\"attribute\"");
        if (name == nullptr) return std::nullopt;
        auto const attribute = find_attribute(kind, *name);
        if (!attribute) {
            Words const names = attribute_names(kind);
            reader_.problem("LS-C005", node->where, fmt::format("a {} has no attribute \"{}\"", name_of(kind), shown_text(*name)),
                            fmt::format("one of {}", listed(names)), suggestion(*name, names));
        }
        return attribute;
    }

    /// The literal of the one comparison, or null after a problem.
    Node const* comparison(Node const& node, HouseRule& rule, AttributeRow const& row) {
        using C = HouseRule::Comparison;
        std::pair<std::string_view, C> const comparisons[] = {
            {"at_least", C::at_least}, {"at_most", C::at_most}, {"is", C::is}, {"is_not", C::is_not}};
        Node const* literal = nullptr;
        int count = 0;
        for (auto const& [key, comparison] : comparisons) {
            Node const* found = node.find(key);
            if (found == nullptr) continue;
            ++count;
            literal = found;
            rule.comparison = comparison;
        }
        if (count != 1) {
            reader_.problem(count == 0 ? "LS-C002" : "LS-C003", node.where,
                            fmt::format("the house rule has {} comparisons", count), "exactly one of at_least, at_most, is, is_not");
            return nullptr;
        }
        bool const ordered = rule.comparison == C::at_least || rule.comparison == C::at_most;
        bool const quantity = row.kind == ValueKind::quantity;
        if (row.kind == ValueKind::curve || row.kind == ValueKind::reference || (ordered && !quantity)) {
            reader_.problem("LS-C003", literal->where, fmt::format("\"{}\" cannot be compared like this", row.name),
                            quantity || row.kind == ValueKind::choice || row.kind == ValueKind::set ? "is or is_not" : "a quantity, a choice or a set");
            return nullptr;
        }
        return literal;
    }
};

}  // namespace

PackEntry read_pack(FileReader& reader) {
    reader.only_keys(reader.root(), {"levelswap", "name", "title", "edition", "rows", "house"}, "a pack file");
    PackEntry entry;
    entry.document = &reader.document();
    if (Node const* name = reader.required(reader.root(), "name", "the file")) {
        entry.where = name->where;
        std::string const* text = reader.text(*name, "\"name\"");
        if (text != nullptr && reader.is_plain_id(name->where, *text, "a pack")) entry.pack.name = *text;
    }
    entry.pack.title = reader.optional_text(reader.root(), "title");
    entry.pack.edition = reader.optional_text(reader.root(), "edition");
    PackReader pack(reader, entry.pack.name);
    if (Node const* rows = reader.root().find("rows")) entry.pack.rows = pack.rows(*rows);
    if (Node const* house = reader.root().find("house")) entry.pack.house = pack.house(*house);
    return entry;
}

}  // namespace levelswap::reading
