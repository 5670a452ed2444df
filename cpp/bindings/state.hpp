#pragma once

// The whole state of a value as nested tuples of plain Python values, and back. Equality, hash and pickle of
// every bound class come from it, so that a member that is added to a shape takes part in all three.

#include "bindings.hpp"

#include <array>
#include <memory>
#include <optional>
#include <tuple>
#include <type_traits>

namespace levelswap::bindings {

/// The members of a struct, in order: specialised in shapes.hpp with a constexpr tuple `members`.
template <class T>
struct Shape;

template <class T>
concept HasShape = requires { Shape<T>::members; };

template <class T>
struct State {  // numbers, bool and text
    static py::object save(T const& value) { return py::cast(value); }
    static T load(py::handle state) { return state.cast<T>(); }
};

template <class T>
    requires std::is_enum_v<T>
struct State<T> {
    using Number = long long;
    static py::object save(T value) { return py::int_(static_cast<Number>(value)); }
    static T load(py::handle state) { return static_cast<T>(state.cast<Number>()); }
};

template <class T>
struct State<std::vector<T>> {
    static py::object save(std::vector<T> const& values) {
        py::tuple state(values.size());
        for (std::size_t i = 0; i < values.size(); ++i) state[i] = State<T>::save(values[i]);
        return state;
    }
    static std::vector<T> load(py::handle state) {
        std::vector<T> values;
        for (auto const& item : state.cast<py::tuple>()) values.push_back(State<T>::load(item));
        return values;
    }
};

template <class T, std::size_t N>
struct State<std::array<T, N>> {
    static py::object save(std::array<T, N> const& values) {
        return State<std::vector<T>>::save({values.begin(), values.end()});
    }
    static std::array<T, N> load(py::handle state) {
        auto const values = State<std::vector<T>>::load(state);
        if (values.size() != N) throw py::value_error("a pickle of another version of levelswap");
        std::array<T, N> result{};
        std::copy(values.begin(), values.end(), result.begin());
        return result;
    }
};

template <class A, class B>
struct State<std::pair<A, B>> {
    static py::object save(std::pair<A, B> const& value) {
        return py::make_tuple(State<A>::save(value.first), State<B>::save(value.second));
    }
    static std::pair<A, B> load(py::handle state) {
        auto const items = state.cast<py::tuple>();
        return {State<A>::load(items[0]), State<B>::load(items[1])};
    }
};

template <class T>
struct State<std::optional<T>> {
    static py::object save(std::optional<T> const& value) {
        return value ? State<T>::save(*value) : py::none();
    }
    static std::optional<T> load(py::handle state) {
        if (state.is_none()) return std::nullopt;
        return State<T>::load(state);
    }
};

template <class T>
struct State<std::shared_ptr<T const>> {
    static py::object save(std::shared_ptr<T const> const& value) {
        return value ? State<T>::save(*value) : py::none();
    }
    static std::shared_ptr<T const> load(py::handle state) {
        if (state.is_none()) return nullptr;
        return std::make_shared<T const>(State<T>::load(state));
    }
};

template <HasShape T>
struct State<T> {
    static py::object save(T const& value) {
        return std::apply(
            [&value](auto... member) { return py::make_tuple(save_member(value.*member)...); },
            Shape<T>::members);
    }
    static T load(py::handle state) {
        auto const items = state.cast<py::tuple>();
        if (items.size() != std::tuple_size_v<decltype(Shape<T>::members)>) {
            throw py::value_error("a pickle of another version of levelswap");
        }
        T value{};
        std::size_t next = 0;
        std::apply([&](auto... member) { (load_member(value.*member, items[next++]), ...); },
                   Shape<T>::members);
        return value;
    }

private:
    template <class M>
    static py::object save_member(M const& member) {
        return State<M>::save(member);
    }
    template <class M>
    static void load_member(M& member, py::handle state) {
        member = State<M>::load(state);
    }
};

/// Equality, hash and pickle of a bound class, all from its state.
template <class T, class... Options>
void give_value_manners(py::class_<T, Options...>& bound) {
    bound.def(
        "__eq__",
        [](T const& self, py::object const& other) -> bool {
            return py::isinstance<T>(other) &&
                   State<T>::save(self).equal(State<T>::save(other.cast<T const&>()));
        },
        py::arg("other"));
    bound.def("__hash__", [](T const& self) { return py::hash(State<T>::save(self)); });
    using Saved = py::typing::Tuple<py::object, py::ellipsis>;
    bound.def(py::pickle([](T const& self) { return State<T>::save(self).template cast<Saved>(); },
                         [](Saved const& state) { return State<T>::load(state); }));
}

}  // namespace levelswap::bindings
