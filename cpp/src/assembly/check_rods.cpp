#include "read_site.hpp"

#include "catalog/read_facts.hpp"
#include "document/text.hpp"

#include <fmt/format.h>

namespace levelswap::reading {

/// A holder without piping hangs in the vessel itself: none of its rods ends below the lowest point inside.
void check_rods(FileReader& reader, Site const& site) {
    Fact const* const bottom = site.vessel.find(Attribute::bottom);
    if (!stated(bottom)) return;
    for (Station const& station : site.stations) {
        Fact const* const piping = station.facts.find(Attribute::piping);
        if (!piping->origin || piping->nature != Fact::Nature::none) continue;
        for (Attribute const rod : {Attribute::rod_low, Attribute::rod_middle, Attribute::rod_high}) {
            Fact const* const tip = station.facts.find(rod);
            if (!stated(tip) || tip->hi >= bottom->lo) continue;
            reader.clash("LS-C016", tip->origin->where, reader.document(), bottom->origin->where,
                         fmt::format("\"{}\" ({}) of the station \"{}\" lies below \"bottom\" ({}) of the vessel that it hangs in", row_of(rod).name,
                                     document::shown_text(tip->origin->text), station.name, document::shown_text(bottom->origin->text)),
                         "check both figures, their signs and their units; heights are above the vessel datum");
        }
    }
}

}  // namespace levelswap::reading
