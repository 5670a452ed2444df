#include "json_writer.hpp"
#include "levelswap/engine/sheet.hpp"

namespace levelswap {

namespace {

/// A table row in JSON: its members by name, in the order of the schema.
class SheetJson {
public:
    void member(char const* name, std::string const& value) {
        json_.name(name);
        json_.text(value);
    }
    void member(char const* name, double value) {
        json_.name(name);
        json_.number(value);
    }
    void member(char const* name, int value) {
        json_.name(name);
        json_.number(value);
    }
    void member(char const* name, std::vector<std::string> const& values) {
        json_.name(name);
        json_.list(values, [&](std::string const& value) { json_.text(value); });
    }
    template <class T>
    void member(char const* name, std::vector<T> const& rows) {
        json_.name(name);
        json_.list(rows, [&](T const& row) { json_.object([&] { members_of(row); }); });
    }
    template <class Body>
    void object(char const* name, Body body) {
        json_.name(name);
        json_.object(body);
    }
    template <class Body>
    std::string document(Body body) {
        json_.object(body);
        return json_.take() + "\n";
    }

private:
    void members_of(SheetLevel const& x) {
        member("duty", x.duty);
        member("output", x.output);
        member("part", x.part);
        member("falling", x.falling);
        member("rising", x.rising);
        member("old_falling", x.old_falling);
        member("old_rising", x.old_rising);
        member("in_glass", x.in_glass);
    }
    void members_of(SheetMounting const& x) {
        member("station", x.station);
        member("now", x.now);
        member("window", x.window);
        member("action", x.action);
    }
    void members_of(SheetCircuit const& x) {
        member("duty", x.duty);
        member("output", x.output);
        member("contact", x.contact);
        member("circuit", x.circuit);
        member("supply", x.supply);
        member("load", x.load);
        member("rating", x.rating);
        member("protection", x.protection);
    }
    void members_of(SheetState const& x) {
        member("duty", x.duty);
        member("wet", x.wet);
        member("dry", x.dry);
        member("unpowered", x.unpowered);
        member("float_sunk", x.float_sunk);
        member("wire_open", x.wire_open);
        member("reset", x.reset);
        member("after_power_loss", x.after_power_loss);
        member("held_reset", x.held_reset);
    }
    void members_of(SheetCheck const& x) {
        member("text", x.text);
        member("expected", x.expected);
        member("blank", x.blank);
    }
    void members_of(SheetStep const& x) {
        member("number", x.number);
        member("title", x.title);
        member("checks", x.checks);
    }
    void members_of(SheetCaution const& x) {
        member("work", x.work);
        member("text", x.text);
    }
    void members_of(Question const& x) {
        member("fact", x.fact);
        member("how", x.how);
        member("threshold", x.threshold);
        member("rule", x.rule);
    }
    void members_of(ValvePoint const& x) {
        member("opening", x.opening);
        member("level", x.level);
    }
    void members_of(WalkEvent const& x) {
        member("phase", x.phase);
        member("event", x.event);
        member("effect", x.effect);
        member("duty", x.duty);
        member("level", x.level);
        member("in_glass", x.in_glass);
        member("nominal", x.nominal);
        member("lowest", x.lowest);
        member("highest", x.highest);
    }

    JsonWriter json_;
};

}  // namespace

std::string render_json(Sheet const& s) {
    SheetJson json;
    return json.document([&] {
        json.member("schema_version", std::string("1"));
        json.member("kind", std::string("sheet"));
        json.member("outcome", std::string(name_of(s.outcome)));
        json.member("answer", s.answer);
        json.member("reason", s.reason);
        json.member("site", s.site);
        json.member("datum", s.datum);
        json.member("changes", s.changes);
        json.member("levels", s.levels);
        json.member("mountings", s.mountings);
        json.member("wiring", s.wiring);
        json.member("states", s.states);
        json.member("differences", s.differences);
        json.member("fixed", s.fixed);
        json.member("adjustments", s.adjustments);
        json.member("packs", s.packs);
        json.member("steps", s.steps);
        json.member("abort_rule", s.abort_rule);
        json.member("cautions", s.cautions);
        json.member("wrong", s.wrong);
        json.member("questions", s.questions);
        json.object("walk", [&] {
            json.member("glass", s.walk.glass);
            json.member("events", s.walk.events);
            json.member("valve", s.walk.valve);
            json.member("valve_band", s.walk.valve_band);
            json.member("faults", s.walk.faults);
        });
    });
}

}  // namespace levelswap
