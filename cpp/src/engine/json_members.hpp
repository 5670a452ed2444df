#pragma once

// From a struct to JSON by a table of its members, which each renderer writes for the structs that it shows.

#include "json_writer.hpp"
#include "levelswap/explain/answer.hpp"

#include <concepts>
#include <optional>
#include <tuple>
#include <type_traits>

namespace levelswap {

/// A member by its name; of pairs, the names of both halves.
template <class Owner, class Value>
struct Member {
    std::string_view name;
    Value Owner::*at;
    std::string_view first = {}, second = {};
};

/// What each struct of an answer shows, in this order.
template <class T>
inline constexpr std::tuple<> members{};
template <>
inline constexpr auto members<Question> = std::tuple{
    Member{"fact", &Question::fact}, Member{"how", &Question::how}, Member{"threshold", &Question::threshold},
    Member{"rule", &Question::rule}, Member{"subject", &Question::subject}};

inline void put(JsonWriter& json, std::string const& value) { json.text(value); }
inline void put(JsonWriter& json, double value) { json.number(value); }
inline void put(JsonWriter& json, bool value) { json.raw(value ? "true" : "false"); }
template <std::integral Number>
    requires(!std::same_as<Number, bool>)
void put(JsonWriter& json, Number value) {
    json.raw(std::to_string(value));
}
inline void put(JsonWriter& json, Outcome value) { json.text(name_of(value)); }
template <class T>
void put(JsonWriter& json, std::optional<T> const& value);
template <class T>
void put(JsonWriter& json, std::vector<T> const& values);
template <class T>
    requires(std::tuple_size_v<std::remove_const_t<decltype(members<T>)>> > 0)
void put(JsonWriter& json, T const& value);

template <class T>
void put(JsonWriter& json, std::optional<T> const& value) {
    if (value) put(json, *value);
    else json.raw("null");
}
template <class T>
void put(JsonWriter& json, std::vector<T> const& values) {
    json.list(values, [&](T const& item) { put(json, item); });
}

template <class T>
void member(JsonWriter& json, std::string_view name, T const& value) {
    json.name(name);
    put(json, value);
}

template <class T, class Value>
void put_member(JsonWriter& json, T const& owner, Member<T, Value> const& m) {
    member(json, m.name, owner.*m.at);
}
/// Pairs as objects with named members.
template <class T, class A, class B>
void put_member(JsonWriter& json, T const& owner, Member<T, std::vector<std::pair<A, B>>> const& m) {
    json.name(m.name);
    json.list(owner.*m.at, [&](auto const& item) {
        json.object([&] {
            member(json, m.first, item.first);
            member(json, m.second, item.second);
        });
    });
}
template <class T>
void put_members(JsonWriter& json, T const& value) {
    std::apply([&](auto const&... m) { (put_member(json, value, m), ...); }, members<T>);
}
template <class T>
    requires(std::tuple_size_v<std::remove_const_t<decltype(members<T>)>> > 0)
void put(JsonWriter& json, T const& value) {
    json.object([&] { put_members(json, value); });
}

/// One document: what it is first, then its members.
template <class Body>
std::string document(std::string const& kind, Body body) {
    JsonWriter json;
    json.object([&] {
        member(json, "schema_version", std::string("1"));
        member(json, "kind", kind);
        body(json);
    });
    return json.take() + "\n";
}

}  // namespace levelswap
