#include "levelswap/engine/engine.hpp"

#include <concepts>
#include <tuple>
#include <type_traits>
#include <utility>

namespace levelswap {

namespace {

/// Writes JSON text. Members come out in the order they are added: same input, same bytes.
class Writer {
public:
    void text(std::string_view value) {
        out_ += '"';
        for (char const c : value) character(static_cast<unsigned char>(c));
        out_ += '"';
    }
    void raw(std::string_view token) { out_ += token; }

    template <class Body>
    void object(Body body) {
        enclosed('{', '}', body);
    }
    template <class Items, class Each>
    void list(Items const& items, Each each) {
        enclosed('[', ']', [&] {
            for (auto const& item : items) {
                comma();
                each(item);
            }
        });
    }
    void name(std::string_view member) {
        comma();
        text(member);
        out_ += ':';
    }
    [[nodiscard]] std::string take() { return std::move(out_); }

private:
    template <class Body>
    void enclosed(char open, char close, Body body) {
        out_ += open;
        bool const outer = std::exchange(first_, true);
        body();
        first_ = outer;
        out_ += close;
    }
    void comma() {
        if (!std::exchange(first_, false)) out_ += ',';
    }
    // RFC 8259 section 7: the quote, the backslash and what is below U+0020 must be escaped.
    void character(unsigned char c) {
        constexpr std::string_view hex = "0123456789abcdef";
        switch (c) {
            case '"': out_ += "\\\""; return;
            case '\\': out_ += "\\\\"; return;
            case '\n': out_ += "\\n"; return;
            case '\t': out_ += "\\t"; return;
            case '\r': out_ += "\\r"; return;
            default: break;
        }
        if (c >= 0x20) {
            out_ += static_cast<char>(c);
            return;
        }
        out_ += "\\u00";
        out_ += hex[c >> 4];
        out_ += hex[c & 15];
    }

    std::string out_;
    bool first_ = true;
};

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
inline constexpr auto members<Finding> = std::tuple{
    Member{"rule", &Finding::rule}, Member{"title", &Finding::title}, Member{"level", &Finding::level},
    Member{"state", &Finding::state}, Member{"subject", &Finding::subject}, Member{"quantity", &Finding::quantity},
    Member{"required", &Finding::required}, Member{"available", &Finding::available},
    Member{"margin", &Finding::margin}, Member{"source", &Finding::source}, Member{"why", &Finding::why},
    Member{"facts", &Finding::facts}, Member{"notes", &Finding::notes}, Member{"positions", &Finding::positions},
    Member{"before", &Finding::before}};
template <>
inline constexpr auto members<Question> = std::tuple{
    Member{"fact", &Question::fact}, Member{"how", &Question::how}, Member{"threshold", &Question::threshold},
    Member{"rule", &Question::rule}};
template <>
inline constexpr auto members<Shift> = std::tuple{
    Member{"output", &Shift::output}, Member{"level", &Shift::level}, Member{"shift", &Shift::shift},
    Member{"condition", &Shift::condition}, Member{"direction", &Shift::direction}};
template <>
inline constexpr auto members<Difference> = std::tuple{
    Member{"function", &Difference::function}, Member{"what", &Difference::what}, Member{"before", &Difference::before},
    Member{"after", &Difference::after}, Member{"moved", &Difference::moved}};
template <>
inline constexpr auto members<Work> = std::tuple{
    Member{"position", &Work::position}, Member{"isolate", &Work::isolate}, Member{"drain", &Work::drain},
    Member{"cool", &Work::cool}, Member{"consumables", &Work::consumables}, Member{"note", &Work::note}};
template <>
inline constexpr auto members<Repair> = std::tuple{
    Member{"positions", &Repair::positions}, Member{"tuples", &Repair::tuples}, Member{"more", &Repair::more},
    Member{"outage", &Repair::outage}, Member{"question", &Repair::question}, Member{"work", &Repair::work}};
template <>
inline constexpr auto members<BlockedRemedy> = std::tuple{
    Member{"position", &BlockedRemedy::position}, Member{"part", &BlockedRemedy::part},
    Member{"cures", &BlockedRemedy::cures}, Member{"reason", &BlockedRemedy::reason}};
template <>
inline constexpr auto members<RuledOut> = std::tuple{
    Member{"position", &RuledOut::position}, Member{"removed_by", &RuledOut::removed_by, "rule", "count"},
    Member{"nearest_miss", &RuledOut::nearest_miss}};
template <>
inline constexpr auto members<Alternatives> = std::tuple{
    Member{"keep", &Alternatives::keep}, Member{"release", &Alternatives::release},
    Member{"undecided", &Alternatives::undecided}, Member{"blocked", &Alternatives::blocked},
    Member{"ruled_out", &Alternatives::ruled_out}, Member{"keep_blockers", &Alternatives::keep_blockers},
    Member{"release_blockers", &Alternatives::release_blockers}, Member{"keep_searched", &Alternatives::keep_searched},
    Member{"release_searched", &Alternatives::release_searched},
    Member{"complete_up_to", &Alternatives::complete_up_to}, Member{"checks", &Alternatives::checks}};
template <>
inline constexpr auto members<Certificate> = std::tuple{
    Member{"kind", &Certificate::kind}, Member{"wiring", &Certificate::wiring, "duty", "output"},
    Member{"settings", &Certificate::settings, "setting", "value"}, Member{"facts", &Certificate::facts, "fact", "value"},
    Member{"rules", &Certificate::rules}};
template <>
inline constexpr auto members<Verdict> = std::tuple{
    Member{"outcome", &Verdict::outcome}, Member{"proved", &Verdict::proved}, Member{"once_measured", &Verdict::once_measured},
    Member{"answer", &Verdict::answer},
    Member{"reason", &Verdict::reason}, Member{"before", &Verdict::before}, Member{"findings", &Verdict::findings},
    Member{"site_work", &Verdict::site_work}, Member{"once_site_work_is_done", &Verdict::once_site_work_is_done},
    Member{"if_assumed", &Verdict::if_assumed}, Member{"assumptions", &Verdict::assumptions},
    Member{"works", &Verdict::works}, Member{"wiring", &Verdict::wiring, "duty", "output"},
    Member{"settings", &Verdict::settings, "setting", "window"}, Member{"questions", &Verdict::questions},
    Member{"packs", &Verdict::packs}, Member{"cautions", &Verdict::cautions}, Member{"changes", &Verdict::changes},
    Member{"remarks", &Verdict::remarks}, Member{"shifts", &Verdict::shifts},
    Member{"differences", &Verdict::differences}, Member{"work", &Verdict::work},
    Member{"ask_always", &Verdict::ask_always}, Member{"certificate", &Verdict::certificate}};

void put(Writer& json, std::string const& value) { json.text(value); }
void put(Writer& json, bool value) { json.raw(value ? "true" : "false"); }
template <std::integral Number>
    requires(!std::same_as<Number, bool>)
void put(Writer& json, Number value) {
    json.raw(std::to_string(value));
}
void put(Writer& json, Outcome value) { json.text(name_of(value)); }
template <class T>
void put(Writer& json, std::optional<T> const& value);
template <class T>
void put(Writer& json, std::vector<T> const& values);
template <class T>
    requires(std::tuple_size_v<std::remove_const_t<decltype(members<T>)>> > 0)
void put(Writer& json, T const& value);

template <class T>
void put(Writer& json, std::optional<T> const& value) {
    if (value) put(json, *value);
    else json.raw("null");
}
template <class T>
void put(Writer& json, std::vector<T> const& values) {
    json.list(values, [&](T const& item) { put(json, item); });
}

template <class T>
void member(Writer& json, std::string_view name, T const& value) {
    json.name(name);
    put(json, value);
}

template <class T, class Value>
void put_member(Writer& json, T const& owner, Member<T, Value> const& m) {
    member(json, m.name, owner.*m.at);
}
/// Pairs as objects with named members.
template <class T, class A, class B>
void put_member(Writer& json, T const& owner, Member<T, std::vector<std::pair<A, B>>> const& m) {
    json.name(m.name);
    json.list(owner.*m.at, [&](auto const& item) {
        json.object([&] {
            member(json, m.first, item.first);
            member(json, m.second, item.second);
        });
    });
}
template <class T>
void put_members(Writer& json, T const& value) {
    std::apply([&](auto const&... m) { (put_member(json, value, m), ...); }, members<T>);
}
template <class T>
    requires(std::tuple_size_v<std::remove_const_t<decltype(members<T>)>> > 0)
void put(Writer& json, T const& value) {
    json.object([&] { put_members(json, value); });
}

/// One document: what it is first, then its members.
template <class Body>
std::string document(std::string const& kind, Body body) {
    Writer json;
    json.object([&] {
        member(json, "schema_version", std::string("1"));
        member(json, "kind", kind);
        body(json);
    });
    return json.take() + "\n";
}

}  // namespace

std::string render_json(Verdict const& verdict, std::optional<Alternatives> const& alternatives) {
    return document("verdict", [&](Writer& json) {
        put_members(json, verdict);
        member(json, "alternatives", alternatives);
    });
}

std::string render_json(Alternatives const& alternatives) {
    return document("alternatives", [&](Writer& json) { put_members(json, alternatives); });
}

}  // namespace levelswap
