#include "levelswap/engine/engine.hpp"

#include <concepts>
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

std::string_view token_of(Outcome outcome) {
    switch (outcome) {
        case Outcome::fits: return "fits";
        case Outcome::does_not_fit: return "does_not_fit";
        default: return "cannot_tell";
    }
}

void put(Writer& json, std::string const& value) { json.text(value); }
void put(Writer& json, bool value) { json.raw(value ? "true" : "false"); }
template <std::integral Number>
    requires(!std::same_as<Number, bool>)
void put(Writer& json, Number value) {
    json.raw(std::to_string(value));
}
void put(Writer& json, Outcome value) { json.text(token_of(value)); }
void put(Writer& json, Finding const& value);
void put(Writer& json, Question const& value);
void put(Writer& json, Repair const& value);
void put(Writer& json, BlockedRemedy const& value);
void put(Writer& json, RuledOut const& value);

template <class T>
void put(Writer& json, std::optional<T> const& value) {
    if (value) {
        put(json, *value);
    } else {
        json.raw("null");
    }
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

/// Pairs as objects with named members.
template <class A, class B>
void pairs(Writer& json, std::string_view name, std::vector<std::pair<A, B>> const& values,
           std::string_view first, std::string_view second) {
    json.name(name);
    json.list(values, [&](auto const& item) {
        json.object([&] {
            member(json, first, item.first);
            member(json, second, item.second);
        });
    });
}

void put(Writer& json, Finding const& value) {
    json.object([&] {
        member(json, "rule", value.rule);
        member(json, "title", value.title);
        member(json, "level", value.level);
        member(json, "state", value.state);
        member(json, "subject", value.subject);
        member(json, "quantity", value.quantity);
        member(json, "required", value.required);
        member(json, "available", value.available);
        member(json, "margin", value.margin);
        member(json, "source", value.source);
        member(json, "why", value.why);
        member(json, "facts", value.facts);
        member(json, "notes", value.notes);
        member(json, "positions", value.positions);
        member(json, "before", value.before);
    });
}

void put(Writer& json, Question const& value) {
    json.object([&] {
        member(json, "fact", value.fact);
        member(json, "how", value.how);
        member(json, "threshold", value.threshold);
        member(json, "rule", value.rule);
    });
}

void put(Writer& json, Repair const& value) {
    json.object([&] {
        member(json, "positions", value.positions);
        member(json, "tuples", value.tuples);
        member(json, "more", value.more);
        member(json, "outage", value.outage);
        member(json, "question", value.question);
    });
}

void put(Writer& json, BlockedRemedy const& value) {
    json.object([&] {
        member(json, "position", value.position);
        member(json, "part", value.part);
        member(json, "cures", value.cures);
        member(json, "reason", value.reason);
    });
}

void put(Writer& json, RuledOut const& value) {
    json.object([&] {
        member(json, "position", value.position);
        pairs(json, "removed_by", value.removed_by, "rule", "count");
        member(json, "nearest_miss", value.nearest_miss);
    });
}

void alternatives_members(Writer& json, Alternatives const& value) {
    member(json, "keep", value.keep);
    member(json, "release", value.release);
    member(json, "undecided", value.undecided);
    member(json, "blocked", value.blocked);
    member(json, "ruled_out", value.ruled_out);
    member(json, "complete_up_to", value.complete_up_to);
    member(json, "checks", value.checks);
}

void verdict_members(Writer& json, Verdict const& value) {
    member(json, "outcome", value.outcome);
    member(json, "proved", value.proved);
    member(json, "answer", value.answer);
    member(json, "reason", value.reason);
    member(json, "before", value.before);
    member(json, "findings", value.findings);
    member(json, "site_work", value.site_work);
    member(json, "once_site_work_is_done", value.once_site_work_is_done);
    member(json, "if_assumed", value.if_assumed);
    member(json, "assumptions", value.assumptions);
    member(json, "works", value.works);
    pairs(json, "wiring", value.wiring, "duty", "output");
    pairs(json, "settings", value.settings, "setting", "window");
    member(json, "questions", value.questions);
    member(json, "packs", value.packs);
    member(json, "cautions", value.cautions);
    member(json, "changes", value.changes);
    member(json, "remarks", value.remarks);
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
        verdict_members(json, verdict);
        json.name("alternatives");
        if (alternatives) {
            json.object([&] { alternatives_members(json, *alternatives); });
        } else {
            json.raw("null");
        }
    });
}

std::string render_json(Alternatives const& alternatives) {
    return document("alternatives", [&](Writer& json) { alternatives_members(json, alternatives); });
}

}  // namespace levelswap
