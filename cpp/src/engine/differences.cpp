#include "consequences.hpp"
#include "walk_words.hpp"

namespace levelswap {

namespace {

/// What of an output a works notices when it changes.
constexpr Attribute noticed[] = {Attribute::acts, Attribute::reset_type, Attribute::after_power_loss, Attribute::unpowered,
                                 Attribute::trip_free, Attribute::float_sunk, Attribute::broken_wire};

class Differences {
public:
    Differences(Case const& c, Units units)
        : c_(c), words_(c.judge, c.after, c.changed, units), before_(*c.judgement_before.wiring), after_(*c.judgement_after.wiring) {}

    std::vector<Difference> all() {
        for (std::size_t f = 0; f < c_.judge.site().functions.size(); ++f) {
            duty_ = c_.judge.site().functions[f].duty;
            same_output_ = before_.output[f] == after_.output[f];
            if (before_.output[f].position >= 0 && after_.output[f].position >= 0)
                add("contact that it is wired to", output_label(c_, before_.output[f], c_.before), output_label(c_, after_.output[f], c_.after));
            choices(before_.output[f], after_.output[f]);
            for (bool const rising : {false, true}) level(rising);
            differential();
        }
        return std::move(out_);
    }

private:
    void add(std::string what, std::string before, std::string after, std::string moved = {}) {
        if (before != after) out_.push_back({std::string(words_of(duty_)), std::move(what), std::move(before), std::move(after), std::move(moved)});
    }

    std::string choice(Assignment const& parts, OutputRef o, Attribute a) const {
        Stand stand;
        stand.output = o;
        if (o.position < 0 || parts[static_cast<std::size_t>(o.position)] == nothing) return "none";
        auto const* fact = c_.judge.fact({From::output, a}, stand, parts, nullptr);
        if (!fact || fact->nature == Fact::Nature::none) return "none";
        return fact->nature == Fact::Nature::unknown ? "not known" : words_of_bits(a, fact->may);
    }

    void choices(OutputRef before, OutputRef after) {
        for (Attribute const a : noticed)
            add(std::string(row_of(a).meaning), choice(c_.before, before, a), choice(c_.after, after, a));
    }

    /// Where what the level hangs on is, column or tip of a rod; nothing where nobody has measured it.
    std::optional<Interval> hangs_at(ActingLevel const& l) const {
        auto const* m = c_.judge.station_fact(l.elevation->station, hangs_on[static_cast<std::size_t>(l.elevation->rod)]);
        return m->nature == Fact::Nature::unknown ? std::nullopt : std::optional{Interval{m->lo, m->hi} + l.elevation->moved};
    }
    static bool hang_on_one(ActingLevel const& x, ActingLevel const& y) {
        return x.elevation->station == y.elevation->station && x.elevation->rod == y.elevation->rod &&
               x.elevation->moved == y.elevation->moved;
    }
    std::string elevation(ActingLevel const& l) const {
        if (!l.known) return "not known";
        auto const at = hangs_at(l);
        auto const& station = c_.judge.site().stations[static_cast<std::size_t>(l.elevation->station)];
        if (at) return words_.quantity(l.above_face + *at, Dimension::length) + " above the vessel datum";
        if (l.elevation->rod) return setting_name(c_.judge.site(), l.elevation->station, l.elevation->rod) + ", not measured";
        return words_.quantity(l.above_face, Dimension::length) + " above the face centre of " + station.name;
    }
    /// The first above the second, where that is known. What both hang on counts once: it is one thing, measured roughly.
    std::optional<Interval> above(ActingLevel const& upper, ActingLevel const& lower) const {
        Interval const apart = upper.above_face - lower.above_face;
        if (hang_on_one(upper, lower)) return apart;
        auto const &u = *upper.elevation, &l = *lower.elevation;
        if (u.station == l.station && u.rod == l.rod) return apart + u.moved - l.moved;
        auto const first = hangs_at(upper), second = hangs_at(lower);
        return first && second ? std::optional{apart + *first - *second} : std::nullopt;
    }

    /// Does the same output act at the same height above the face? Only another column has moved that.
    bool only_its_face_moved(ActingLevel const& before, ActingLevel const& after) const {
        auto const& site = c_.judge.site();
        std::uint64_t others = (before.elevation->positions | after.elevation->positions) & c_.changed;
        int const station = after.elevation->station;
        if (station >= 0)
            if (int const column = site.stations[static_cast<std::size_t>(station)].positions[static_cast<std::size_t>(Role::column)]; column >= 0)
                others &= ~(std::uint64_t{1} << column);
        return same_output_ && others == 0 && before.elevation->station == station && before.elevation->rod == after.elevation->rod &&
               before.above_face == after.above_face;
    }

    void level(bool rising) {
        auto const b = acting_level(before_, duty_, rising), a = acting_level(after_, duty_, rising);
        if (!b.elevation || !a.elevation) return;
        if (hang_on_one(b, a) && b.above_face == a.above_face) return;
        std::string moved;
        if (b.known && a.known)
            if (auto const by = only_its_face_moved(b, a) ? std::optional{a.elevation->moved - b.elevation->moved} : above(a, b))
                moved = words_.quantity(*by, Dimension::length);
        add(rising ? "level, rising" : "level, falling", elevation(b), elevation(a), moved);
    }

    std::optional<Interval> between(Wiring const& w) const {
        auto const low = acting_level(w, duty_, false), high = acting_level(w, duty_, true);
        if (!low.elevation || !high.elevation || !low.known || !high.known) return {};
        auto const &l = *low.elevation, &h = *high.elevation;
        if (l.swings && h.swings) return height_difference(h.share, l.share);
        return l.at_mark && h.at_mark ? std::optional{h.own - l.own} : above(high, low);
    }
    void differential() {
        auto const b = between(before_), a = between(after_);
        if (!b || !a || *b == *a) return;
        add("differential", words_.quantity(*b, Dimension::length), words_.quantity(*a, Dimension::length),
            words_.quantity(*a - *b, Dimension::length));
    }

    Case const& c_;
    Explainer words_;
    Wiring const &before_, &after_;
    Duty duty_ = Duty::primary_cut_off;
    bool same_output_ = false;
    std::vector<Difference> out_;
};

}  // namespace

std::vector<Difference> differences_of(Case const& c, Units units) {
    if (!c.changed || !c.judgement_before.wiring || !c.judgement_after.wiring) return {};
    return Differences(c, units).all();
}

}  // namespace levelswap
