#include "consequences.hpp"
#include "levelswap/document/value.hpp"
#include "levelswap/physics/column_water.hpp"

#include <algorithm>
#include <cmath>

namespace levelswap {

namespace {

constexpr double unknown_from = 4.9e9;   // nm: an elevation that nothing bounds is 5 m either way
constexpr double assumed_cooler = 60;    // K; common practice, no source: nobody measures the column's water

struct Acts {
    Duty duty;
    bool rising;
    char const* direction;
};
// What it means that the boiler's water stands higher than the column's when the output acts.
constexpr Acts acts[] = {
    {Duty::primary_cut_off, false, "trips early, safe side"},
    {Duty::secondary_cut_off, false, "trips early, safe side"},
    {Duty::low_alarm, false, "sounds early, safe side"},
    {Duty::pump, false, "pump starts early, the boiler is held higher"},
    {Duty::pump, true, "pump stops late, the boiler is held higher"},
    {Duty::modulating_feed, false, "valve opens early, the boiler is held higher"},
    {Duty::modulating_feed, true, "valve closes late, the boiler is held higher"},
    {Duty::high_alarm, true, "high alarm late, unsafe side"},
};

bool steam(Site const& site) { return site.vessel.find(Attribute::vessel_service)->may & bits<Attribute::vessel_service>("steam"); }

}  // namespace

ActingLevel acting_level(Wiring const& w, Duty duty, bool rising) {
    auto const name = std::string(words_of(duty)) + (rising ? ", rising" : ", falling");
    auto const e = std::find_if(w.elevations.begin(), w.elevations.end(), [&](Elevation const& x) { return x.name == name; });
    if (e == w.elevations.end()) return {};
    Interval const above = e->at_mark ? e->own + e->mark : e->own;
    return {&*e, above, std::abs(above.lo) < unknown_from && std::abs(above.hi) < unknown_from};
}

std::vector<Shift> shifts_of(Case const& c, Units units) {
    std::vector<Shift> out;
    auto const& site = c.judge.site();
    auto const& wiring = c.judgement_after.wiring;
    if (!wiring || !steam(site)) return out;
    Explainer const words(c.judge, c.after, c.changed, units);
    auto fact = [&](From from, Attribute a, int station) {
        Stand stand;
        stand.station = station;
        return c.judge.fact({from, a}, stand, c.after, nullptr);
    };
    auto const* mawp = site.vessel.find(Attribute::mawp);
    auto const* atmosphere = site.vessel.find(Attribute::atmosphere);
    auto const pressure = absolute(GaugePressure{{mawp->lo, mawp->hi}}, AbsolutePressure{{atmosphere->lo, atmosphere->hi}});
    auto const cooler = TemperatureDifference::from_si(assumed_cooler);
    auto const system = units == Units::us ? document::UnitSystem::us : document::UnitSystem::si;
    auto const condition = "assumed: the boiler at saturation at its highest allowed pressure, the water in the column anything from as hot to " +
                           document::format_quanta(cooler.quanta.hi, Dimension::temperature_difference, system) + " cooler";
    for (auto const& [duty, rising, direction] : acts) {
        auto const level = acting_level(*wiring, duty, rising);
        if (!level.elevation || level.elevation->station < 0) continue;
        auto const* water = fact(From::column, Attribute::tapping_water, level.elevation->station);
        if (!water) continue;
        auto const f = static_cast<std::size_t>(std::find_if(site.functions.begin(), site.functions.end(), [&](Function const& x) {
                           return x.duty == duty;
                       }) - site.functions.begin());
        Shift s;
        s.output = level.elevation->name + ", on " + words.output_name(wiring->output[f]);
        s.condition = condition;
        s.direction = direction;
        auto shift = [&](Interval height) { return physics::boiler_above_column(Length{height}, pressure, cooler).quanta; };
        Interval height = level.above_face - Interval{water->lo, water->hi};
        bool known = level.known && water->nature != Fact::Nature::unknown;
        if (int const rod = level.elevation->rod) {   // rods are measured from the vessel datum, as the column's face is
            auto const* tip = c.judge.station_fact(level.elevation->station, hangs_on[static_cast<std::size_t>(rod)]);
            auto const* face = c.judge.station_fact(level.elevation->station, Attribute::mounting);
            height = height + Interval{tip->lo, tip->hi} - Interval{face->lo, face->hi};
            known &= tip->nature != Fact::Nature::unknown && face->nature != Fact::Nature::unknown;
        }
        s.level = known ? words.quantity(height, Dimension::length) : "a height not known";
        if (mawp->nature == Fact::Nature::unknown) s.shift = "an amount not known";
        else if (known) s.shift = words.quantity(shift(height), Dimension::length);
        else s.shift = words.quantity(shift(1e6), Dimension::ratio) + " of that height";   // of 1 mm, in ppm
        out.push_back(std::move(s));
    }
    return out;
}

}  // namespace levelswap
