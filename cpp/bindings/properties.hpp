#pragma once

// Read-only members as Python sees them: lists are tuples, so that nothing can be changed.

#include "shapes.hpp"

namespace levelswap::bindings {

/// The Python type of a member and the conversion to it; plain values go as they are.
template <class T>
struct Shown {
    using Type = T;
    static T show(T const& value) { return value; }
};
template <class A, class B>
struct Shown<std::pair<A, B>> {
    using Type = py::typing::Tuple<A, B>;
    static Type show(std::pair<A, B> const& value) { return py::make_tuple(value.first, value.second); }
};
template <class T>
struct Shown<std::vector<T>> {
    using Type = py::typing::Tuple<typename Shown<T>::Type, py::ellipsis>;
    static Type show(std::vector<T> const& values) {
        py::tuple shown(values.size());
        for (std::size_t i = 0; i < values.size(); ++i) shown[i] = Shown<T>::show(values[i]);
        return shown;
    }
};

/// Binds a member as a read-only property.
template <class T, class M, class... Options>
void show_member(py::class_<T, Options...>& bound, char const* name, M T::*member, char const* doc) {
    bound.def_property_readonly(
        name, [member](T const& self) -> typename Shown<M>::Type { return Shown<M>::show(self.*member); },
        doc);
}

}  // namespace levelswap::bindings
