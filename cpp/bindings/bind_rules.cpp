#include "properties.hpp"

#include <functional>

namespace levelswap::bindings {

namespace {

using GivenCatalog = std::optional<std::reference_wrapper<Catalog const>>;

py::typing::Tuple<Diagnostic, py::ellipsis> find_problems(std::string const& path, GivenCatalog given) {
    Catalog const* catalog = given ? &given->get() : nullptr;
    std::vector<Diagnostic> problems;
    {
        py::gil_scoped_release const released;
        problems = validate(path, catalog);
    }
    return Shown<std::vector<Diagnostic>>::show(problems);
}

py::typing::Tuple<RuleInfo, py::ellipsis> all_rules() { return Shown<std::vector<RuleInfo>>::show(rules()); }

}  // namespace

void bind_rules(py::module_& module) {
    py::class_<RuleInfo> bound(module, "Rule", "One row of the table of rules.");
    show_member(bound, "id", &RuleInfo::id, "Its id, for example 'travel.slide_wire'.");
    show_member(bound, "family", &RuleInfo::family, "The family it belongs to.");
    show_member(bound, "title", &RuleInfo::title, "What it is about.");
    show_member(bound, "level", &RuleInfo::level, "How strongly it binds.");
    show_member(bound, "source", &RuleInfo::source, "Where it comes from.");
    show_member(bound, "protects", &RuleInfo::protects, "What it protects against.");
    show_member(bound, "figure", &RuleInfo::figure, "The figure of a rule pack that it uses; may be empty.");
    show_member(bound, "reads", &RuleInfo::reads, "The facts it reads.");
    bound.def("__repr__", [](RuleInfo const& self) {
        return repr_of("Rule", {{"id", ascii(self.id)},
                                {"level", ascii(self.level)},
                                {"title", ascii(self.title)}});
    });
    give_value_manners(bound);
    module.def("rules", &all_rules,
               "Return the table of rules.\n\nReturns\n-------\ntuple of Rule");
    module.def("validate", &find_problems, py::arg("path"), py::arg("catalog") = py::none(),
               "Find every problem of the files below a path.\n\n"
               "Parameters\n----------\n"
               "path : str\n    A catalogue folder, or one site, swap, pack or parts file.\n"
               "catalog : Catalog, optional\n    The parts that a site may hold, when `path` has none.\n\n"
               "Returns\n-------\ntuple of Diagnostic\n    Empty when the files are sound.");
}

}  // namespace levelswap::bindings
