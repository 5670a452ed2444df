#pragma once

// What the binding files share. module.cpp is the table of contents; each bind_<topic>.cpp holds one topic.

#include "levelswap/engine/engine.hpp"

#include <pybind11/native_enum.h>
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>
#include <pybind11/typing.h>

#include <initializer_list>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace py = pybind11;

namespace levelswap::bindings {

void bind_errors(py::module_& module);
void bind_catalog(py::module_& module);
void bind_site(py::module_& module);
void bind_verdict(py::module_& module);
void bind_alternatives(py::module_& module);
void bind_rules(py::module_& module);
void bind_sheet(py::module_& module);

/// A site, with the names that its indices into the catalogue stand for: a site read against one
/// catalogue must not be judged with another.
struct BoundSite {
    Site site;
    std::vector<std::string> part_ids;
    std::vector<std::string> pack_names;
};

using Put = std::map<std::string, std::string>;
inline std::vector<std::pair<std::string, std::string>> pairs_of(Put const& put) {
    return {put.begin(), put.end()};
}

/// Raises UsageError for anything but "us" and "si".
Units units_of(std::string const& word);
/// Raises UsageError when `site` was read against a catalogue with other parts.
void require_same_catalog(Catalog const& catalog, BoundSite const& site);
std::vector<std::string> pack_names_of(Catalog const& catalog);

/// Text as Python writes it in ASCII: quoted and escaped.
inline std::string ascii(py::handle value) {
    return py::reinterpret_steal<py::str>(PyObject_ASCII(value.ptr())).cast<std::string>();
}
inline std::string ascii(std::string const& text) { return ascii(py::str(text)); }

/// A repr in one line of ASCII: Part(id='quay head', kind='float_head').
std::string repr_of(char const* type, std::initializer_list<std::pair<char const*, std::string>> members);

/// Text for an HTML page: nothing in it can become markup.
std::string escape_html(std::string const& text);

}  // namespace levelswap::bindings
