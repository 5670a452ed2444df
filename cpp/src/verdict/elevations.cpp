// Where things are: what a level hangs on, and the elevation of outputs, glass and connections in one assembly.

#include "wiring.hpp"

#include "levelswap/rules/signal_level.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

namespace levelswap {

namespace {

Interval range_of(Fact const* fact) { return fact ? Interval{fact->lo, fact->hi} : Interval{-far, far}; }

constexpr std::array anchor_words = {"mounting", "tip of the low rod", "tip of the middle rod", "tip of the high rod"};

}  // namespace

std::string setting_name(Site const& site, int station, int rod) {
    return std::string(anchor_words[static_cast<std::size_t>(rod)]) + (rod == 0 ? " of " : " at ") +
           site.stations[static_cast<std::size_t>(station)].name;
}

bool LevelBuilder::is_setting(int station, int rod) const {
    if (station < 0) return false;   // as the site says, whatever a search has pinned
    auto const& facts = judge_.site_.stations[static_cast<std::size_t>(station)].facts;
    return facts.find(hangs_on_may_be[static_cast<std::size_t>(rod)])->nature == Fact::Nature::uncertain;
}

Interval LevelBuilder::now(int station, int rod) const {
    Interval const stands = range_of(judge_.station_fact(station, hangs_on[static_cast<std::size_t>(rod)]));
    return rod == 0 ? stands + moved(station) : stands;
}

Interval LevelBuilder::moved(int station) const { return station < 0 ? Interval{0} : face_moves(judge_, station, parts_); }

namespace {

/// A stated fact; one that is declared absent leaves its place open.
Interval stated_range(Fact const* fact) { return range_of(fact && fact->nature != Fact::Nature::none ? fact : nullptr); }

/// A fact of the part that stands at a position now, as the site knows it. Pins narrow facts of the assembly that is
/// judged: where another part is judged in its place, they are not this one's.
Fact const* installed_fact(Judge const& judge, Position const& position, Attribute a) {
    for (auto const& [attribute, measured] : position.measured)
        if (attribute == a) return &measured;
    return judge.catalog().parts[static_cast<std::size_t>(position.holds)].facts.find(a);
}

/// New less old, of a fact of the column at a station; zero where the column stays.
Interval column_differs(Judge const& judge, int station, Attribute a, Assignment const& parts) {
    if (!column_is_new(judge.site(), station, parts)) return 0;
    auto const& site = judge.site();
    int const p = site.stations[static_cast<std::size_t>(station)].positions[static_cast<std::size_t>(Role::column)];
    Stand stand;
    stand.station = station;
    return stated_range(judge.fact({From::column, a}, stand, parts, nullptr)) -
           stated_range(installed_fact(judge, site.positions[static_cast<std::size_t>(p)], a));
}

}  // namespace

bool column_is_new(Site const& site, int station, Assignment const& parts) {
    int const p = site.stations[static_cast<std::size_t>(station)].positions[static_cast<std::size_t>(Role::column)];
    if (p < 0) return false;
    int const old = site.positions[static_cast<std::size_t>(p)].holds, held = parts[static_cast<std::size_t>(p)];
    return old != held && old != nothing && held != nothing;
}

Interval face_moves(Judge const& judge, int station, Assignment const& parts) {
    auto const& s = judge.site().stations[static_cast<std::size_t>(station)];
    if (s.face_is_new) return 0;
    Interval const by = -column_differs(judge, station, Attribute::tapping_water, parts);
    auto const* piping = judge.station_fact(station, Attribute::piping);
    bool const close = piping->nature != Fact::Nature::none && piping->may == bits<Attribute::piping>("close");
    return close ? by : hull(by, Interval{0});
}

Interval glass_moves(Judge const& judge, int station, Assignment const& parts) {
    return column_differs(judge, station, Attribute::tapping_glass, parts);
}

/// Of the face of the column that is judged: what the piping allows, it allows to the connections.
Interval LevelBuilder::may_be(int station, int rod) const {
    for (auto piece = pieces_.rbegin(); piece != pieces_.rend(); ++piece)
        if (piece->station == station && piece->rod == rod) return {static_cast<double>(piece->lo), static_cast<double>(piece->hi)};
    Interval const range = range_of(judge_.station_fact(station, hangs_on_may_be[static_cast<std::size_t>(rod)]));
    return rod == 0 ? range + moved(station) : range;
}

/// `at`: the station whose level it is, also where that is dimensioned from the vessel.
Elevation LevelBuilder::fact_elevation(Mark mark, int at, int station, Fact const* fact) const {
    static constexpr std::array names = {"lowest visible part of the glass", "lowest permissible water level", "water connection",
                                         "steam connection", "end of the longest rod", "end of the holder that the rods hang from"};
    static_assert(names.size() == marks_of_a_station);
    Elevation e;
    e.name = names[static_cast<std::size_t>(mark)];
    // Outputs take the keys from 0 up, two for each function.
    e.key = -2 - (at * marks_of_a_station + static_cast<int>(mark));
    e.station = station;
    e.own = range_of(fact);
    e.moved = moved(station);
    return e;
}

/// A probe acts where the water leaves or reaches the tip of a rod.
void LevelBuilder::read_rod(Elevation& e, Stand const& stand, bool rising) const {
    auto const* rod = judge_.fact({From::output, rising ? Attribute::reset_rod : Attribute::trip_rod}, stand, parts_, nullptr);
    std::uint64_t const may = rod ? rod->may : 0;
    bool const known = may != 0 && (may & (may - 1)) == 0 && rod->nature != Fact::Nature::none;
    e.own = known ? Interval{0} : Interval{-far, far};
    e.moved = 0;
    if (known) e.rod = 1 + std::countr_zero(may);
}

namespace {

/// The column leans as the head is made for, within a degree: common practice, no source.
bool stands_as_made(Fact const* design, Fact const* tilt) {
    if (!design || !tilt) return false;
    Interval const off = range_of(design) - range_of(tilt);
    constexpr double degree = 17453;
    return off.lo >= -degree && off.hi <= degree;
}

}  // namespace

/// A stated level governs when float and head are those that it is stated for and the column leans as that head is made
/// for; otherwise geometry does. What has no float of its own position acts at the tip of a rod, or at a level stated
/// from its connection.
Elevation LevelBuilder::output_elevation(int function, OutputRef output, bool rising) const {
    auto const& site = judge_.site_;
    Stand const stand = stand_of(site, function, output);
    auto fact = [&](From from, Attribute a) { return judge_.fact({from, a}, stand, parts_, nullptr); };
    auto const& station = site.stations[static_cast<std::size_t>(stand.station)];
    Elevation e;
    e.key = 2 * function + (rising ? 1 : 0);
    e.station = stand.station;
    e.moved = moved(stand.station);
    e.name = std::string(words_of(site.functions[static_cast<std::size_t>(function)].duty)) + (rising ? ", rising" : ", falling");
    for (Role r : {Role::head, Role::switch_half, Role::column, Role::float_, Role::switch_set, Role::probe_holder,
                   Role::probe_relay, Role::transmitter, Role::float_control, Role::float_valve})
        if (int const p = station.positions[static_cast<std::size_t>(r)]; p >= 0) e.positions |= 1ull << p;
    auto const* repeat = fact(From::output, Attribute::repeatability);
    if (repeat) {
        double const most = std::max(std::abs(repeat->lo), std::abs(repeat->hi));
        // Only a stated band surely occurs; an unknown one may be as narrow as nothing.
        e.repeatability = {repeat->nature == Fact::Nature::varying ? most : 0.0, most};
    }
    int const held_here = parts_[static_cast<std::size_t>(output.position)];
    Owner const kind = held_here == nothing ? Owner::switch_set : judge_.catalog_.parts[static_cast<std::size_t>(held_here)].kind;
    if (kind == Owner::probe_relay) {
        read_rod(e, stand, rising);
        return e;
    }
    auto const* stated = fact(From::output, rising ? Attribute::reset_at_mark : Attribute::trip_at_mark);
    auto const* reference = fact(From::switch_set, Attribute::stated_float);
    int const float_position = station.positions[static_cast<std::size_t>(Role::float_)];
    int const held = float_position < 0 ? nothing : parts_[static_cast<std::size_t>(float_position)];
    if (kind == Owner::transmitter) {
        auto const level = signal_level(judge_.operands(signal_level_slots(), stand, parts_, assume_), rising);
        e.own = {std::max(level.at.lo, -far), std::min(level.at.hi, far)};
        e.repeatability = e.repeatability + Interval{level.strays};
        return e;
    }
    if (kind != Owner::switch_set) {
        e.own = stated && stated->nature != Fact::Nature::none ? range_of(stated) : Interval{-far, far};
        return e;
    }
    auto names = [&](Fact const* named, int part) {
        return named && part != nothing && named->reference == judge_.catalog_.parts[static_cast<std::size_t>(part)].id;
    };
    int const head_position = judge_.position_for(From::head, stand);
    auto const* stated_head = fact(From::switch_set, Attribute::stated_head);
    auto const* swing = fact(From::head, Attribute::swing_as);
    bool const shares_swing = stated_head && swing && !swing->reference.empty() && swing->reference == stated_head->reference;
    bool const governs = stated && stated->nature != Fact::Nature::unknown && stated->nature != Fact::Nature::none &&
                         names(reference, held) && head_position >= 0 &&
                         (names(stated_head, parts_[static_cast<std::size_t>(head_position)]) || shares_swing) &&
                         stands_as_made(fact(From::head, Attribute::design_tilt), fact(From::column, Attribute::tilt));
    if (governs) {
        e.at_mark = true;
        e.own = range_of(stated);
        e.mark = range_of(fact(From::head, Attribute::mark));
        return e;
    }
    bool const slides = fact(From::output, Attribute::acts)->may == bits<Attribute::acts>("proportional");
    e.share = output_height(judge_.operands(output_height_slots(), stand, parts_, assume_),
                            slides ? (rising ? Acting::high_end : Acting::low_end) : (rising ? Acting::reset : Acting::trip));
    e.swings = e.share.known;
    e.own = e.share.known ? e.share.height : Interval{-far, far};
    return e;
}

}  // namespace levelswap
