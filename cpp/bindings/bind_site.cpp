#include "properties.hpp"

#include <filesystem>

namespace levelswap::bindings {

namespace {

BoundSite load_site(std::string const& path, Catalog const& catalog) {
    return {read_site(path, catalog), catalog.ids(), pack_names_of(catalog)};
}

BoundSite load_site_of(Swap const& swap, Catalog const& catalog) {
    return {read_site_of(swap, catalog), catalog.ids(), pack_names_of(catalog)};
}

/// What each position holds now: a part id or "nothing".
std::map<std::string, std::string> holds(BoundSite const& self) {
    std::map<std::string, std::string> held;
    for (auto const& position : self.site.positions) {
        held.emplace(position.name, position.holds < 0
                                        ? std::string("nothing")
                                        : self.part_ids.at(static_cast<std::size_t>(position.holds)));
    }
    return held;
}

std::string repr(BoundSite const& self) {
    return repr_of("Site", {{"name", ascii(self.site.name)},
                            {"file", ascii(self.site.file)},
                            {"positions", std::to_string(self.site.positions.size())}});
}

std::string repr(Swap const& self) {
    auto const put = py::cast(Put(self.put.begin(), self.put.end()));
    return repr_of("Swap", {{"file", ascii(self.file)}, {"put", ascii(put)}});
}

std::string site_path(Swap const& self) {
    auto const folder = std::filesystem::path(self.file).parent_path();
    return (folder / self.site_file).lexically_normal().string();
}

void bind_site_class(py::module_& module) {
    py::class_<BoundSite> bound(module, "Site", "What is installed at one vessel, and what it must do.");
    bound.def_static("load", &load_site, py::arg("path"), py::arg("catalog"),
                     py::call_guard<py::gil_scoped_release>(),
                     "Read a site file.\n\n"
                     "Parameters\n----------\npath : str\n    The site file.\n"
                     "catalog : Catalog\n    The catalogue that knows the parts it holds.\n\n"
                     "Returns\n-------\nSite\n\n"
                     "Raises\n------\nDataError\n    With every problem of the file.");
    bound.def_property_readonly("name", [](BoundSite const& self) { return self.site.name; }, "Its name.");
    bound.def_property_readonly("file", [](BoundSite const& self) { return self.site.file; },
                                "The file it was read from.");
    bound.def_property_readonly(
        "positions",
        [](BoundSite const& self) {
            return Shown<std::vector<std::string>>::show(self.site.position_names());
        },
        "The names of its positions.");
    bound.def_property_readonly("holds", &holds, "The part at each position now, or 'nothing'.");
    bound.def("_ipython_key_completions_", [](BoundSite const& self) { return self.site.position_names(); });
    bound.def("__getitem__",
              [](BoundSite const& self, std::string const& position) {
                  auto const held = holds(self);
                  auto const found = held.find(position);
                  if (found != held.end()) return found->second;
                  auto const near = nearest(position, self.site.position_names());
                  throw UsageError("the site has no position '" + position + "'" +
                                   (near.empty() ? std::string{} : "; did you mean '" + near + "'?"));
              },
              py::arg("position"), "The part at a position now, or 'nothing'.");
    bound.def("__repr__", [](BoundSite const& self) { return repr(self); });
    give_value_manners(bound);
}

void bind_swap(py::module_& module) {
    py::class_<Swap> bound(module, "Swap", "What is proposed at a site.");
    bound.def_static("load", &read_swap, py::arg("path"), py::call_guard<py::gil_scoped_release>(),
                     "Read a swap file.\n\n"
                     "Parameters\n----------\npath : str\n    The swap file.\n\n"
                     "Returns\n-------\nSwap\n\n"
                     "Raises\n------\nDataError\n    With every problem of the file.");
    show_member(bound, "about", &Swap::about, "One line on what it shows.");
    show_member(bound, "file", &Swap::file, "The file it was read from.");
    show_member(bound, "site_file", &Swap::site_file, "The site file as written, relative to the swap file.");
    bound.def_property_readonly("site_path", &site_path, "The path of the site file.");
    bound.def("load_site", &load_site_of, py::arg("catalog"), py::call_guard<py::gil_scoped_release>(),
              "Read the site that the swap names, and check the swap against it.\n\n"
              "Parameters\n----------\ncatalog : Catalog\n    The catalogue that knows the parts.\n\n"
              "Returns\n-------\nSite\n\n"
              "Raises\n------\nDataError\n    With every problem of the site file; when it has none, with every position, part or kind\n"
              "    of part in the swap file that is wrong.");
    bound.def_property_readonly(
        "put", [](Swap const& self) { return Put(self.put.begin(), self.put.end()); },
        "The proposed part, or 'nothing', by position.");
    show_member(bound, "old_may_return", &Swap::old_may_return,
                "Whether alternatives may use the parts that the swap takes out.");
    bound.def("__repr__", [](Swap const& self) { return repr(self); });
    give_value_manners(bound);
}

}  // namespace

void bind_site(py::module_& module) {
    bind_site_class(module);
    bind_swap(module);
}

}  // namespace levelswap::bindings
