#include "properties.hpp"

namespace levelswap::bindings {

namespace {

using Facts = std::map<std::string, std::string>;

/// Visits the facts that a file states, by the name they have there.
template <class Visit>
Facts stated(FactTable const& table, Visit visit) {
    Facts result;
    for (auto const& row : attributes()) {
        Fact const* fact = table.find(row.id);
        if (fact != nullptr && fact->origin) result.emplace(row.name, visit(*fact->origin));
    }
    return result;
}

std::string text_of(Origin const& origin) { return origin.text; }

std::string origin_of(Origin const& origin) {
    std::string text = origin.kind.empty() ? "catalogue" : origin.kind;
    if (origin.remembered) text += ", from memory";
    if (!origin.where.file.empty()) {
        text += ", " + origin.where.file + ":" + std::to_string(origin.where.line);
    }
    return text;
}

Facts facts_of(Part const& part) { return stated(part.facts, text_of); }
Facts origins_of(Part const& part) { return stated(part.facts, origin_of); }

template <class Visit>
std::map<std::string, Facts> of_outputs(Part const& part, Visit visit) {
    std::map<std::string, Facts> result;
    for (auto const& output : part.outputs) result.emplace(output.name, stated(output.facts, visit));
    return result;
}

std::string kind_of(Part const& part) { return std::string(name_of(part.kind)); }

std::string repr(Part const& part) {
    return repr_of("Part",
                   {{"id", ascii(part.id)}, {"kind", ascii(kind_of(part))}, {"about", ascii(part.about)}});
}

std::string repr(Catalog const& catalog) {
    return repr_of("Catalog", {{"directory", ascii(catalog.directory)},
                               {"parts", std::to_string(catalog.parts.size())},
                               {"packs", std::to_string(catalog.packs.size())}});
}

Part const& part_of(Catalog const& catalog, std::string const& id) {
    int const index = catalog.find(id);
    if (index >= 0) return catalog.parts[static_cast<std::size_t>(index)];
    auto const near = nearest(id, catalog.ids());
    throw UsageError("the catalogue has no part '" + id + "'" +
                     (near.empty() ? std::string{} : "; did you mean '" + near + "'?"));
}

void bind_part(py::module_& module) {
    py::class_<Part> bound(module, "Part", "A part of the catalogue: its id, kind, facts and outputs.");
    show_member(bound, "id", &Part::id, "Its id, in plain words.");
    bound.def_property_readonly("kind", &kind_of, "Its kind, for example 'float_head'.");
    show_member(bound, "about", &Part::about, "One line about it.");
    bound.def_property_readonly("facts", &facts_of,
                                "Each stated fact by its name, as the file states it, with its unit.");
    bound.def_property_readonly("origins", &origins_of, "Where each stated fact comes from, by its name.");
    bound.def_property_readonly(
        "outputs", [](Part const& part) { return of_outputs(part, text_of); },
        "The stated facts of each output of a switch set, by the output's name.");
    bound.def_property_readonly(
        "output_origins", [](Part const& part) { return of_outputs(part, origin_of); },
        "Where each stated fact of each output comes from.");
    bound.def("__repr__", [](Part const& part) { return repr(part); });
    give_value_manners(bound);
}

void bind_catalog_class(py::module_& module) {
    py::class_<Catalog> bound(module, "Catalog", "All parts and rule packs of a catalogue folder.");
    bound.def_static("load", &read_catalog, py::arg("directory"), py::call_guard<py::gil_scoped_release>(),
                     "Read a catalogue folder.\n\n"
                     "Parameters\n----------\ndirectory : str\n"
                     "    Folder with ``parts/*.yaml`` and ``packs/*.yaml``.\n\n"
                     "Returns\n-------\nCatalog\n\n"
                     "Raises\n------\nDataError\n    With every problem of every file.");
    show_member(bound, "directory", &Catalog::directory, "The folder it was read from.");
    bound.def_property_readonly(
        "parts",
        [](Catalog const& self) { return Shown<std::vector<std::string>>::show(self.ids()); },
        "The ids of its parts, in order.");
    bound.def_property_readonly(
        "packs",
        [](Catalog const& self) { return Shown<std::vector<std::string>>::show(pack_names_of(self)); },
        "The names of its rule packs, in order.");
    bound.def("part", &part_of, py::arg("id"), py::return_value_policy::copy,
              "Return one part.\n\n"
              "Parameters\n----------\nid : str\n    Its id, in plain words.\n\n"
              "Returns\n-------\nPart\n\n"
              "Raises\n------\nUsageError\n    When there is no such part; names the nearest one.");
    bound.def("__getitem__", &part_of, py::arg("id"), py::return_value_policy::copy,
              "The part with this id; raises UsageError when there is none.");
    bound.def(
        "__contains__", [](Catalog const& self, std::string const& id) { return self.find(id) >= 0; },
        py::arg("id"));
    bound.def("__len__", [](Catalog const& self) { return self.parts.size(); });
    bound.def("_ipython_key_completions_", &Catalog::ids);
    bound.def("__repr__", [](Catalog const& self) { return repr(self); });
    give_value_manners(bound);
}

}  // namespace

void bind_catalog(py::module_& module) {
    bind_part(module);
    bind_catalog_class(module);
}

}  // namespace levelswap::bindings
