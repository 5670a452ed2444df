#include "standard_tables.hpp"

#include "document/text.hpp"
#include "levelswap/document/value.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <map>

namespace levelswap::reading {

namespace {

struct Drilling {
    std::string_view standard, size, circle, bolts, bolt_size, hole;
};
struct RatingPoint {
    std::string_view name;
    bool remembered;
    std::string_view temperature, pressure;
};
struct NominalSize {
    std::string_view inches, millimetres, outside;
};

#include "standard_tables.inc"

/// A figure of the tables in quanta: they are written as files are.
double quanta(std::string_view text, Dimension dimension) {
    document::ValueProblem p;
    return static_cast<double>(*document::read_value(text, dimension, p)->lo);
}

Fact const* find(std::vector<WrittenFact> const& facts, Attribute attribute) {
    auto const at = std::find_if(facts.begin(), facts.end(), [&](WrittenFact const& w) { return w.attribute == attribute; });
    return at == facts.end() || at->fact.nature == Fact::Nature::none || at->fact.nature == Fact::Nature::unknown ? nullptr : &at->fact;
}

bool exact(Fact const& f) { return f.nature == Fact::Nature::uncertain && f.lo == f.hi; }

/// The nominal sizes in quanta, read once: a catalogue asks for each of its parts.
struct Size {
    NominalSize const* row;
    double inches, millimetres, outside;
};
std::vector<Size> const& sizes() {
    static auto const all = [] {
        std::vector<Size> made;
        auto length = [](std::string_view text) { return text.empty() ? 0 : quanta(text, Dimension::length); };
        for (NominalSize const& n : nominal_sizes) made.push_back({&n, length(n.inches), length(n.millimetres), length(n.outside)});
        return made;
    }();
    return all;
}

Size const* nominal(double size) {
    auto const at = std::find_if(sizes().begin(), sizes().end(), [&](Size const& n) { return n.inches == size || n.millimetres == size; });
    return at == sizes().end() ? nullptr : &*at;
}

/// A diameter that somebody measured where the nominal size is asked for, to 1 %.
std::string size_of_outside(double measured) {
    for (Size const& n : sizes())
        if (n.outside > 0 && std::abs(n.outside - measured) <= 0.01 * measured)
            return fmt::format("a pipe thread of {} outside diameter has the nominal size {}", n.row->outside, n.row->inches);
    return "look the size up by the outside diameter and the threads per inch";
}

/// A thread or a flange of pipe: where its nominal size and its standard stand.
struct Pipe {
    Attribute size;
    std::optional<Attribute> standard;
    std::string_view others = {};   ///< the word among the standards that has no nominal pipe sizes
};
constexpr Pipe pipes[] = {
    {Attribute::connection_size, Attribute::connection_standard, "un"},
    {Attribute::tapping_size, Attribute::tapping_standard},
    {Attribute::flange_size, Attribute::flange_standard},
    {Attribute::drain_size, std::nullopt},
};

class StandardTables {
public:
    StandardTables(FileReader& reader, std::vector<WrittenFact>& facts, std::string_view what)
        : reader_(reader), facts_(facts), what_(what) {}

    void use() {
        for (Pipe const& pipe : pipes) nominal_size(pipe);
        drilling();
    }

private:
    FileReader& reader_;
    std::vector<WrittenFact>& facts_;
    std::string_view what_;

    void nominal_size(Pipe const& pipe) {
        Fact const* const standard = pipe.standard ? find(facts_, *pipe.standard) : nullptr;
        auto const at = std::find_if(facts_.begin(), facts_.end(), [&](WrittenFact const& w) { return w.attribute == pipe.size; });
        if (at == facts_.end() || at->fact.nature == Fact::Nature::none || at->fact.nature == Fact::Nature::unknown) return;
        int const other = pipe.others.empty() ? -1 : find_choice(row_of(*pipe.standard).choices, pipe.others);
        if (standard && other >= 0 && (standard->may >> other & 1u) != 0) return;
        if (!exact(at->fact)) return no_band(pipe, at->fact);
        if (Size const* n = nominal(at->fact.lo)) {
            at->fact.lo = at->fact.hi = n->inches;
        } else if (standard) {
            Words names;
            for (Size const& n : sizes()) names.push_back(fmt::format("{} ({})", n.row->inches, n.row->millimetres));
            reader_.problem("LS-C018", at->fact.origin->where,
                            fmt::format("\"{}\" of {}: {} is no nominal size", row_of(pipe.size).name, what_, document::shown_text(at->fact.origin->text)),
                            fmt::format("one of {}", listed(names)), size_of_outside(at->fact.lo));
        }
    }

    /// One of two sizes, nobody knows which: written as a range. A size is a name and has no tolerance, and it never varies.
    void no_band(Pipe const& pipe, Fact const& size) {
        std::string const& text = size.origin->text;
        if (size.nature != Fact::Nature::varying && text.find("+/-") == std::string::npos) return;
        reader_.problem("LS-C018", size.origin->where,
                        fmt::format("\"{}\" of {}: {} has a band, and a nominal size is a name", row_of(pipe.size).name, what_, document::shown_text(text)),
                        "a nominal size such as 3/4 in or 20 mm", "where two sizes are possible, write both: 3/4 in .. 1 in");
    }

    void drilling() {
        Fact const *standard = find(facts_, Attribute::flange_standard), *size = find(facts_, Attribute::flange_size);
        if (!standard || !size || !exact(*size) || !nominal(size->lo)) return;
        std::string const words = "standard table " + standard->origin->text + ", " + size->origin->text + " (read)";
        Origin const from{standard->origin->where, {}, words, false};
        std::vector<Drilling const*> rows;
        for (Drilling const& d : drillings)
            if ((standard->may >> find_choice(row_of(Attribute::flange_standard).choices, d.standard) & 1u) != 0 &&
                quanta(d.size, Dimension::length) == size->lo)
                rows.push_back(&d);
        // Several standards may be meant; where the table lacks the size in one of them nothing can be said.
        if (static_cast<int>(rows.size()) != std::popcount(standard->may)) {
            reader_.problem("LS-C018", size->origin->where, fmt::format("\"flange.size\" of {}: the flange tables hold no {}", what_, document::shown_text(size->origin->text)),
                            fmt::format("one of {}", listed(sizes_of_the_table())), "leave the size out and state circle, bolts, bolt_size and hole");
            return;
        }
        figure(Attribute::flange_circle, rows, &Drilling::circle, from);
        figure(Attribute::flange_bolts, rows, &Drilling::bolts, from);
        figure(Attribute::flange_bolt_size, rows, &Drilling::bolt_size, from);
        figure(Attribute::flange_hole, rows, &Drilling::hole, from);
    }

    static Words sizes_of_the_table() {
        Words names;
        for (Drilling const& d : drillings)
            if (d.standard == drillings[0].standard) names.emplace_back(d.size);
        return names;
    }

    void figure(Attribute attribute, std::vector<Drilling const*> const& rows, std::string_view Drilling::* column, Origin from) {
        Fact fact = unknown_fact(attribute);
        fact.nature = Fact::Nature::uncertain;
        fact.lo = fact.hi = quanta(rows.front()->*column, row_of(attribute).dimension);
        from.text = rows.front()->*column;
        for (Drilling const* d : rows) {
            double const q = quanta(d->*column, row_of(attribute).dimension);
            if (q < fact.lo || q > fact.hi) from.text += " or " + std::string(d->*column);
            fact.lo = std::min(fact.lo, q);
            fact.hi = std::max(fact.hi, q);
        }
        auto const stated = std::find_if(facts_.begin(), facts_.end(), [&](WrittenFact const& w) { return w.attribute == attribute; });
        if (stated != facts_.end() && stated->fact.nature != Fact::Nature::unknown) {
            bool const agree = stated->fact.nature != Fact::Nature::none && stated->fact.lo <= fact.hi && fact.lo <= stated->fact.hi;
            if (!agree)
                reader_.clash("LS-C016", stated->fact.origin->where, reader_.document(), from.where,
                              fmt::format("\"{}\" of {} is stated as {}, but is {} by the {}", row_of(attribute).name, what_,
                                          document::shown_text(stated->fact.origin->text), from.text, document::shown_text(from.kind)),
                              "measure it; or delete what is wrong: the standard, the size or the figure");
            return;
        }
        fact.origin = std::make_shared<Origin const>(std::move(from));
        if (stated != facts_.end()) stated->fact = std::move(fact);
        else facts_.push_back({attribute, std::move(fact)});
    }
};

}  // namespace

std::optional<StandardRating> standard_rating(std::string_view name) {
    static auto const ratings = [] {
        std::map<std::string_view, std::pair<std::shared_ptr<Curve>, bool>> made;
        for (RatingPoint const& p : rating_points) {
            auto& [curve, remembered] = made[p.name];
            if (!curve) curve = std::make_shared<Curve>();
            remembered = remembered || p.remembered;
            curve->points.emplace_back(quanta(p.temperature, Dimension::temperature), quanta(p.pressure, Dimension::pressure_gauge));
        }
        return made;
    }();
    auto const at = ratings.find(name);
    return at == ratings.end() ? std::nullopt : std::optional(StandardRating{at->second.first, at->second.second});
}

double in_nominal_inches(double length) {
    Size const* const n = nominal(length);
    return n ? n->inches : length;
}

void use_standard_tables(FileReader& reader, std::vector<WrittenFact>& facts, std::string_view what) {
    StandardTables(reader, facts, what).use();
}

}  // namespace levelswap::reading
