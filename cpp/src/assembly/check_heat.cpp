#include "read_site.hpp"

#include "catalog/read_facts.hpp"
#include "document/text.hpp"
#include "levelswap/document/value.hpp"
#include "levelswap/physics/water.hpp"

#include <fmt/format.h>

namespace levelswap::reading {

namespace {

using document::shown_text;

/// Water boils at MAWP no hotter than at saturation: what is said to be hotter is steam, or wrongly read.
class HeatCheck {
public:
    HeatCheck(FileReader& reader, Site const& site) : reader_(reader), site_(site), mawp_(site.vessel.find(Attribute::mawp)) {}

    void run() {
        tank_of_steam();
        if (!stated(mawp_)) return;
        boils(site_.vessel, Attribute::water_temperature, "the vessel");
        for (Station const& station : site_.stations)
            boils(station.facts, Attribute::leg_temperature, fmt::format("the station \"{}\"", station.name));
    }

private:
    FileReader& reader_;
    Site const& site_;
    Fact const* mawp_;
    static constexpr double rounding = 1000;   ///< mK: temperatures are written to a degree (common practice, no source)

    void boils(FactTable const& facts, Attribute attribute, std::string const& what) {
        Fact const* const water = facts.find(attribute);
        if (!stated(water)) return;
        GaugePressure const highest{{mawp_->hi}};
        AbsolutePressure const atmosphere{{site_.vessel.find(Attribute::atmosphere)->hi}};
        double const boiling = physics::saturation_temperature(absolute(highest, atmosphere)).quanta.hi;
        if (surely_reaches(*water) <= boiling + rounding) return;
        reader_.clash("LS-C016", water->origin->where, reader_.document(), mawp_->origin->where,
                      fmt::format("\"{}\" ({}) of {} lies above the boiling point at \"mawp\" ({}), at most {}", row_of(attribute).name,
                                  shown_text(water->origin->text), what, shown_text(mawp_->origin->text),
                                  document::format_quanta(boiling, Dimension::temperature, document::UnitSystem::us)),
                      "check both figures and their units; one of them is wrong");
    }

    [[nodiscard]] Fact const* surely(Attribute attribute, std::string_view word) const {
        Fact const* const f = site_.vessel.find(attribute);
        return stated(f) && f->may == std::uint64_t{1} << find_choice(row_of(attribute).choices, word) ? f : nullptr;
    }

    void tank_of_steam() {
        Fact const *tank = surely(Attribute::vessel_kind, "tank"), *steam = surely(Attribute::vessel_service, "steam");
        if (tank && steam)
            reader_.clash("LS-C016", tank->origin->where, reader_.document(), steam->origin->where, "the \"kind\" of the vessel is tank and its \"service\" is steam",
                          "a tank holds feed_water, hot_water or cold_make_up; a boiler is firetube, watertube or sectional");
    }
};

}  // namespace

void check_heat(FileReader& reader, Site const& site) { HeatCheck(reader, site).run(); }

}  // namespace levelswap::reading
