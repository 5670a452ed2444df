#include "properties.hpp"

#include <exception>

namespace levelswap::bindings {

namespace {

// Made once when the module is imported and kept as long as the interpreter runs.
PyObject* error_class = nullptr;
PyObject* data_error_class = nullptr;
PyObject* usage_error_class = nullptr;

PyObject* make_exception(py::module_& module, char const* name, py::tuple const& bases, char const* doc,
                         py::dict const& members = {}) {
    auto const qualified = std::string("levelswap._core.") + name;
    auto* made = PyErr_NewExceptionWithDoc(qualified.c_str(), doc, bases.ptr(), members.ptr());
    if (made == nullptr) throw py::error_already_set();
    module.attr(name) = py::handle(made);
    return made;
}

void raise_data_error(DataError const& error) {
    py::object const raised = py::handle(data_error_class)(error.what());
    raised.attr("_diagnostics") = Shown<std::vector<Diagnostic>>::show(error.diagnostics());
    PyErr_SetObject(data_error_class, raised.ptr());
}

void translate(std::exception_ptr raised) {
    try {
        if (raised) std::rethrow_exception(raised);
    } catch (DataError const& error) {
        raise_data_error(error);
    } catch (UsageError const& error) {
        PyErr_SetString(usage_error_class, error.what());
    } catch (Error const& error) {
        PyErr_SetString(error_class, error.what());
    }
}

py::typing::Tuple<Diagnostic, py::ellipsis> diagnostics_of(py::object const& error) {
    return py::getattr(error, "_diagnostics", py::tuple());
}

void bind_exceptions(py::module_& module) {
    py::handle const value_error = PyExc_ValueError;
    error_class = make_exception(module, "Error", py::make_tuple(py::handle(PyExc_Exception)),
                                 "Base of every error that levelswap raises.");
    py::dict members;
    py::handle const property(reinterpret_cast<PyObject*>(&PyProperty_Type));
    members["diagnostics"] = property(py::cpp_function(&diagnostics_of), py::none(), py::none(),
                                      "Every problem found, each with file, line and column.");
    data_error_class =
        make_exception(module, "DataError", py::make_tuple(py::handle(error_class), value_error),
                       "A catalogue, pack, site or swap file that cannot be used.", members);
    usage_error_class =
        make_exception(module, "UsageError", py::make_tuple(py::handle(error_class), value_error),
                       "A wrong call: an unknown part id, a position that the site does not have.");
    py::register_local_exception_translator(&translate);
}

std::string repr(Diagnostic const& self) {
    return repr_of("Diagnostic", {{"code", ascii(self.code)},
                                  {"file", ascii(self.where.file)},
                                  {"line", std::to_string(self.where.line)},
                                  {"column", std::to_string(self.where.column)},
                                  {"message", ascii(self.message)}});
}

std::optional<py::typing::Tuple<std::string, int, int>> second_place(Diagnostic const& self) {
    if (self.also.file.empty()) return std::nullopt;
    return py::make_tuple(self.also.file, self.also.line, self.also.column);
}

}  // namespace

void bind_errors(py::module_& module) {
    py::class_<Diagnostic> bound(module, "Diagnostic",
                                 "One problem of an input file. Lines and columns count from 1; "
                                 "line 0 is the file as a whole.");
    show_member(bound, "code", &Diagnostic::code,
                "Code of the problem, never reused, for example 'LS-D003'.");
    bound.def_property_readonly(
        "severity",
        [](Diagnostic const& self) { return self.severity == Severity::error ? "error" : "warning"; },
        "'error' or 'warning'.");
    bound.def_property_readonly("file", [](Diagnostic const& self) { return self.where.file; }, "The file.");
    bound.def_property_readonly("line", [](Diagnostic const& self) { return self.where.line; },
                                "Line, counted from 1; 0 is the file as a whole.");
    bound.def_property_readonly("column", [](Diagnostic const& self) { return self.where.column; },
                                "Column of the first character at fault, counted from 1.");
    bound.def_property_readonly("length", [](Diagnostic const& self) { return self.where.length; },
                                "Number of characters at fault.");
    bound.def_property_readonly("also", &second_place,
                                "File, line and column of the other entry when two clash, or None.");
    show_member(bound, "message", &Diagnostic::message, "What was found, with the offending value.");
    show_member(bound, "expected", &Diagnostic::expected, "What would be right; may be empty.");
    show_member(bound, "hint", &Diagnostic::hint, "What to do; may be empty.");
    show_member(bound, "excerpt", &Diagnostic::excerpt, "The line of the file that is at fault.");
    bound.def("__str__", [](Diagnostic const& self) { return render(self); });
    bound.def("__repr__", &repr);
    give_value_manners(bound);
    bind_exceptions(module);
}

Units units_of(std::string const& word) {
    if (word == "us") return Units::us;
    if (word == "si") return Units::si;
    throw UsageError("units are '" + word + "'; expected 'us' (inch, psi) or 'si' (mm, bar)");
}

std::vector<std::string> pack_names_of(Catalog const& catalog) {
    std::vector<std::string> names;
    for (auto const& pack : catalog.packs) names.push_back(pack.name);
    return names;
}

void require_same_catalog(Catalog const& catalog, BoundSite const& site) {
    if (site.part_ids == catalog.ids() && site.pack_names == pack_names_of(catalog)) return;
    throw UsageError("the site '" + site.site.name +
                     "' was read against a catalogue with other parts or packs; load it again with this one: "
                     "Site.load(path, catalog)");
}

std::string repr_of(char const* type, std::initializer_list<std::pair<char const*, std::string>> members) {
    std::string text;
    for (auto const& [name, value] : members) {
        text += (text.empty() ? "" : ", ") + std::string(name) + "=" + value;
    }
    return type + ("(" + text) + ")";
}

std::string escape_html(std::string const& text) {
    std::string escaped;
    for (char const c : text) {
        switch (c) {
            case '&': escaped += "&amp;"; break;
            case '<': escaped += "&lt;"; break;
            case '>': escaped += "&gt;"; break;
            case '"': escaped += "&quot;"; break;
            case '\'': escaped += "&#39;"; break;
            default: escaped += c;
        }
    }
    return escaped;
}

}  // namespace levelswap::bindings
