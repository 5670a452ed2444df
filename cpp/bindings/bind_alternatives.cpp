#include "properties.hpp"

namespace levelswap::bindings {

namespace {

WhichRepairs which_of(std::string const& word) {
    if (word == "both") return WhichRepairs::both;
    if (word == "keep") return WhichRepairs::keep;
    if (word == "release") return WhichRepairs::release;
    throw UsageError("which repairs? '" + word + "' is neither 'keep', 'release' nor 'both'");
}

Alternatives find_alternatives(Catalog const& catalog, BoundSite const& site, Put const& put, int max_changes,
                               bool old_may_return, std::string const& units, std::string const& which) {
    require_same_catalog(catalog, site);
    return alternatives(catalog, site.site, pairs_of(put), max_changes, old_may_return, units_of(units),
                        which_of(which));
}

std::string repr(Alternatives const& self) {
    return repr_of("Alternatives", {{"keep", std::to_string(self.keep.size())},
                                    {"release", std::to_string(self.release.size())},
                                    {"undecided", std::to_string(self.undecided.size())},
                                    {"complete_up_to", std::to_string(self.complete_up_to)}});
}

void bind_work(py::module_& module) {
    py::class_<Work> bound(module, "Work", "What changing one position asks of the works.");
    show_member(bound, "position", &Work::position, "The position.");
    show_member(bound, "isolate", &Work::isolate, "What to isolate and lock out.");
    show_member(bound, "drain", &Work::drain, "What to drain.");
    show_member(bound, "cool", &Work::cool, "What to let cool.");
    show_member(bound, "consumables", &Work::consumables, "What is used up.");
    show_member(bound, "note", &Work::note, "On firing while the part is off; may be empty.");
    bound.def("__repr__", [](Work const& self) {
        return repr_of("Work", {{"position", ascii(self.position)}, {"isolate", ascii(self.isolate)}});
    });
    give_value_manners(bound);
}

void bind_repair(py::module_& module) {
    py::class_<Repair> bound(module, "Repair", "Positions to change, and the parts that work there.");
    show_member(bound, "positions", &Repair::positions, "The positions that change.");
    show_member(bound, "tuples", &Repair::tuples, "Part ids for the positions, best first; at most 20.");
    show_member(bound, "more", &Repair::more, "How many more there are beyond those shown.");
    show_member(bound, "outage", &Repair::outage, "What has to be shut down for it.");
    show_member(bound, "question", &Repair::question,
                "The measurement that would settle it; empty when it is known to work.");
    show_member(bound, "work", &Repair::work, "What each of its changes, and of the swap's, asks of the works.");
    bound.def("__repr__", [](Repair const& self) {
        using Names = std::vector<std::string>;
        return repr_of("Repair", {{"positions", ascii(Shown<Names>::show(self.positions))},
                                  {"tuples", std::to_string(self.tuples.size())},
                                  {"more", std::to_string(self.more)},
                                  {"outage", ascii(self.outage)}});
    });
    give_value_manners(bound);
}

void bind_blocked(py::module_& module) {
    py::class_<BlockedRemedy> blocked(module, "BlockedRemedy",
                                      "A part that would cure the fault but cannot go in.");
    show_member(blocked, "position", &BlockedRemedy::position, "Where it would go.");
    show_member(blocked, "part", &BlockedRemedy::part, "The part id.");
    show_member(blocked, "cures", &BlockedRemedy::cures, "What it would cure.");
    show_member(blocked, "reason", &BlockedRemedy::reason, "Why it does not work here.");
    blocked.def("__repr__", [](BlockedRemedy const& self) {
        return repr_of("BlockedRemedy", {{"position", ascii(self.position)},
                                         {"part", ascii(self.part)},
                                         {"reason", ascii(self.reason)}});
    });
    give_value_manners(blocked);

    py::class_<RuledOut> ruled_out(module, "RuledOut", "How the candidates of a position were ruled out.");
    show_member(ruled_out, "position", &RuledOut::position, "The position.");
    show_member(ruled_out, "removed_by", &RuledOut::removed_by,
                "Rule ids with how many candidates each removed.");
    show_member(ruled_out, "nearest_miss", &RuledOut::nearest_miss, "The candidate that came nearest.");
    ruled_out.def("__repr__", [](RuledOut const& self) {
        return repr_of("RuledOut", {{"position", ascii(self.position)},
                                    {"nearest_miss", ascii(self.nearest_miss)}});
    });
    give_value_manners(ruled_out);
}

}  // namespace

void bind_alternatives(py::module_& module) {
    bind_work(module);
    bind_repair(module);
    bind_blocked(module);
    py::class_<Alternatives> bound(module, "Alternatives", "What works instead, and why the rest does not.");
    show_member(bound, "keep", &Alternatives::keep, "Repairs that keep the proposed parts.");
    show_member(bound, "release", &Alternatives::release, "Repairs that give up the proposed parts.");
    show_member(bound, "undecided", &Alternatives::undecided, "Repairs that hang on an open question.");
    show_member(bound, "blocked", &Alternatives::blocked,
                "Parts that would cure the fault but cannot go in.");
    show_member(bound, "ruled_out", &Alternatives::ruled_out, "By position, what removed the candidates.");
    show_member(bound, "keep_blockers", &Alternatives::keep_blockers,
                "Smallest sets of positions that bar every repair that keeps the proposed parts while they stay as "
                "they are; empty unless the search went to full depth.");
    show_member(bound, "release_blockers", &Alternatives::release_blockers,
                "The same when every part may be given up.");
    show_member(bound, "keep_searched", &Alternatives::keep_searched,
                "Whether repairs that keep the proposed parts were looked for.");
    show_member(bound, "release_searched", &Alternatives::release_searched,
                "Whether repairs that give up the proposed parts were looked for.");
    show_member(bound, "needed", &Alternatives::needed,
                "Whether a repair is needed: not when the swap fits, or does once the site work is done.");
    show_member(bound, "fits_as_it_was", &Alternatives::fits_as_it_was,
                "Whether it fits as it was before the swap; what is taken out is a repair only where it may return.");
    show_member(bound, "complete_up_to", &Alternatives::complete_up_to,
                "Every repair of up to this many changes is listed.");
    show_member(bound, "checks", &Alternatives::checks, "How many combinations were judged.");
    bound.def("to_text", [](Alternatives const& self) { return render_text(self); },
              "Return the text that the command line shows.");
    bound.def("to_json", [](Alternatives const& self) { return render_json(self); },
              "Return a JSON document that ``catalog_schema/v1/answer.schema.json`` describes.");
    bound.def("__repr__", [](Alternatives const& self) { return repr(self); });
    give_value_manners(bound);
    module.def("alternatives", &find_alternatives, py::arg("catalog"), py::arg("site"), py::kw_only(),
               py::arg("put"), py::arg("max_changes") = 3, py::arg("old_may_return") = false,
               py::arg("units") = "us", py::arg("which") = "both", py::call_guard<py::gil_scoped_release>(),
               "Find all minimal repairs of a swap.\n\n"
               "Parameters\n----------\n"
               "catalog : Catalog\n    The parts to choose from.\n"
               "site : Site\n    Read against the same catalogue.\n"
               "put : mapping of str to str\n    The proposed part id, or 'nothing', by position.\n"
               "max_changes : int\n    At most so many positions change in one repair.\n"
               "old_may_return : bool\n    Whether parts that the swap takes out may be used again.\n"
               "units : {'us', 'si'}\n    Units of the numbers in the texts: inch and psi, or mm and bar.\n"
               "which : {'both', 'keep', 'release'}\n    Look for repairs that keep the proposed parts, that give one "
               "up, or both.\n\n"
               "Returns\n-------\nAlternatives\n\n"
               "Raises\n------\nUsageError\n"
               "    For an unknown position or part, or a part of the wrong kind; names the nearest.");
}

}  // namespace levelswap::bindings
