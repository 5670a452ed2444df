#include "sheet_words.hpp"

namespace levelswap {

namespace {

// Black on white; what belongs together stays on one page of A4 or Letter, and the proving sheet begins a new one.
constexpr char const* style = R"(
:root { color-scheme: only light; }
body { background: #fff; color: #000; font: 1rem/1.4 sans-serif; margin: 1rem auto; max-width: 60rem; padding: 0 1rem; }
h1 { font-size: 1.5rem; } h2 { font-size: 1.2rem; border-bottom: 2px solid #000; margin-top: 1.6rem; } h3 { font-size: 1rem; margin-bottom: .3rem; }
table { border-collapse: collapse; width: 100%; } th, td { border: 1px solid #000; padding: .2rem .4rem; text-align: left; vertical-align: top; overflow-wrap: break-word; }
.scroll { overflow-x: auto; } .answer, .abort { border: 3px solid #000; padding: .5rem; font-weight: bold; }
.box { display: inline-block; width: .9em; height: .9em; border: 1px solid #000; } .blank { display: inline-block; min-width: 6em; border-bottom: 1px solid #000; }
.long { min-width: 9em; } .hand { white-space: nowrap; }
table.steps { table-layout: fixed; } .steps th, .steps td { font-weight: normal; } .steps thead th { font-weight: bold; }
.steps th:nth-child(1), .steps td:nth-child(1) { width: 2.6em; } .steps th:nth-child(3) { width: 28%; } .steps th:nth-child(4) { width: 13em; }
@page { margin: 15mm; }
@media screen and (max-width: 40rem) { .steps th:nth-child(4) { width: 7em; } .hand { white-space: normal; } .long { min-width: 6em; } }
@media print { body { font-size: 9.5pt; margin: 0; max-width: none; padding: 0; } .proving { break-before: page; } .scroll { overflow: visible; }
section.step, tr, li, .abort { break-inside: avoid; } h2, h3 { break-after: avoid; } h2 { margin-top: 1rem; } thead { display: table-header-group; } }
)";

std::string escaped(std::string const& text) {
    std::string out;
    for (char const c : text) {
        switch (c) {
            case '&': out += "&amp;"; break;
            case '<': out += "&lt;"; break;
            case '>': out += "&gt;"; break;
            case '"': out += "&quot;"; break;
            case '\'': out += "&#39;"; break;
            default: out += c;
        }
    }
    return out;
}

using Row = std::vector<std::string>;

class HtmlSheet {
public:
    void begin(std::string const& title) {
        out_ += "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
                "<title>" + escaped(title) + "</title>\n<style>" + style + "</style>\n</head>\n<body>\n<main>\n<h1>" + escaped(title) + "</h1>\n";
    }
    std::string end() {
        out_ += "</main>\n</body>\n</html>\n";
        return std::move(out_);
    }
    void element(std::string const& tag, std::string const& text, std::string const& kind = "") {
        out_ += "<" + tag + (kind.empty() ? "" : " class=\"" + kind + "\"") + ">" + escaped(text) + "</" + tag + ">\n";
    }
    void open(std::string const& kind) { out_ += "<section class=\"" + kind + "\">\n"; }
    void close() { out_ += "</section>\n"; }
    void list(std::string const& heading, std::vector<std::string> const& items) {
        if (items.empty()) return;
        element("h2", heading);
        out_ += "<ul>\n";
        for (auto const& item : items) element("li", item);
        out_ += "</ul>\n";
    }
    /// The first cell of each row names the row.
    void table(Row const& head, std::vector<Row> const& rows, bool last_is_blank = false) {
        out_ += "<div class=\"scroll\"><table>\n<thead><tr>";
        for (auto const& h : head) out_ += "<th scope=\"col\">" + escaped(h) + "</th>";
        out_ += "</tr></thead>\n<tbody>\n";
        for (auto const& row : rows) {
            out_ += "<tr><th scope=\"row\">" + escaped(row.front()) + "</th>";
            for (std::size_t i = 1; i < row.size(); ++i) out_ += "<td>" + escaped(row[i]) + "</td>";
            out_ += last_is_blank ? "<td><span class=\"blank\"></span></td></tr>\n" : "</tr>\n";
        }
        out_ += "</tbody>\n</table></div>\n";
    }
    void steps(std::vector<SheetStep> const& all) {
        for (auto const& step : all) {
            open("step");
            element("h3", std::to_string(step.number) + ". " + step.title);
            out_ += "<table class=\"steps\">\n<thead><tr><th scope=\"col\">Done</th><th scope=\"col\">What is looked at</th>"
                    "<th scope=\"col\">What must be seen</th><th scope=\"col\">Written down</th></tr></thead>\n<tbody>\n";
            for (auto const& c : step.checks)
                out_ += "<tr><td><span class=\"box\"></span></td><th scope=\"row\">" + escaped(c.text) + "</th><td>" +
                        escaped(c.expected) + "</td><td class=\"hand\">" + blank(c.blank) + "</td></tr>\n";
            out_ += "</tbody>\n</table>\n";
            close();
        }
    }

private:
    static std::string blank(std::string const& kind) {
        if (kind.empty()) return "";
        bool const wide = kind == "reason" || kind == "name" || kind == "date";
        return escaped(kind) + ": <span class=\"blank" + (wide ? " long" : "") + "\"></span>";
    }
    std::string out_;
};

void walk(HtmlSheet& page, LevelWalk const& w) {
    std::vector<Row> rows;
    for (auto const& e : w.events) rows.push_back({e.event, e.phase, e.level, e.effect, e.in_glass});
    page.table({"Event", "Water", "Level", "Effect", "In the glass"}, rows);
}

void valve(HtmlSheet& page, LevelWalk const& w) {
    if (w.valve.empty()) return;
    page.element("h2", "Feed valve against level");
    page.element("p", w.valve_band);
    std::vector<Row> rows;
    for (auto const& v : w.valve) rows.push_back({v.opening, v.level});
    page.table({"Feed valve", "Level above the vessel datum"}, rows);
}

void setting(HtmlSheet& page, Sheet const& s) {
    std::vector<Row> rows;
    page.element("h2", "Levels above the vessel datum: most likely (range over all tolerances)");
    for (auto const& l : s.levels) {
        rows.push_back({l.duty + ", falling", l.output + " of " + l.part, l.falling, l.old_falling, l.in_glass});
        rows.push_back({l.duty + ", rising", l.output + " of " + l.part, l.rising, l.old_rising, ""});
    }
    page.table({"Event", "Output", "Level", "Was", "In the glass", "Marked at"}, rows, true);
    rows.clear();
    page.element("h2", "Mounting: height of each face centre, and of each rod tip that may be set");
    for (auto const& m : s.mountings) rows.push_back({m.station, m.now, m.window.empty() ? "none" : m.window, m.action});
    page.table({"Column or rod", "Now", "Window that is right whatever the tolerances do", "Do"}, rows);
    if (auto const words = windows_together(s); !words.empty()) page.element("p", words);
    valve(page, s.walk);
    rows.clear();
    page.element("h2", "Wiring: contact to circuit to load");
    for (auto const& w : s.wiring)
        rows.push_back({w.duty, w.output + "; " + w.contact + (w.terminals.empty() ? "" : "; terminals " + w.terminals), w.circuit + "; " + w.supply, w.load, w.rating, w.protection});
    page.table({"Duty", "Output and contact", "Circuit and supply", "Load", "Rating", "Protection"}, rows);
    rows.clear();
    page.element("h2", "State of each output");
    for (auto const& x : s.states)
        rows.push_back({x.duty, x.wet, x.dry, x.unpowered, x.float_sunk, x.float_stuck, x.wire_open, x.wire_shorted});
    page.table({"Duty", "Wet", "Dry", "No power", "Float sunk", "Float stuck", "Wire broken", "Wire shorted"}, rows);
    rows.clear();
    for (auto const& x : s.states)
        if (x.reset != "-") rows.push_back({x.duty, x.reset, x.held_reset, x.after_power_loss});
    if (!rows.empty()) {
        page.element("h2", "Reset and lockout");
        page.table({"Duty", "Reset", "Reset held while the water is low", "Lockout after a power failure"}, rows);
    }
    page.list("Acts otherwise than before", s.differences);
    page.list("Factory-fixed", s.fixed);
}

void refusal(HtmlSheet& page, Sheet const& s) {
    page.element("p", "No setting or proving sheet: there is one only for a swap that fits.");
    page.list("What is wrong or missing", s.wrong);
    std::vector<std::string> questions;
    for (auto const& q : s.questions) questions.push_back(q.fact + " -- " + q.how + "; for " + q.rule + ": " + q.threshold);
    page.list("Measure this", questions);
    page.list("What would go wrong", s.walk.faults);
    if (!s.walk.events.empty()) {
        page.element("h2", "What the water would do to it, feed shut, falling and rising again");
        walk(page, s.walk);
    }
    valve(page, s.walk);
}

}  // namespace

std::string render_html(Sheet const& s) {
    HtmlSheet page;
    bool const fits = s.outcome == Outcome::fits;
    page.begin((fits ? "Setting and proving sheet: " : "Sheet: ") + s.site);
    page.element("p", s.answer, "answer");
    if (!s.reason.empty()) page.element("p", s.reason);
    page.element("p", s.abort_rule, "abort");
    page.list("Change", s.changes);
    page.element("h2", "Datum");
    page.element("p", s.datum);
    if (fits) setting(page, s);
    else refusal(page, s);
    page.list("Also set", s.adjustments);
    page.list("Used up by the work", s.consumables);
    page.list("Rule packs", s.packs);
    std::vector<std::string> cautions;
    for (auto const& c : s.cautions) cautions.push_back(c.work + ": " + c.text);
    page.list("Cautions", cautions);
    if (!fits) return page.end();
    page.open("proving");
    page.element("h2", "Proving sheet");
    page.element("p", s.abort_rule, "abort");
    page.steps(s.steps);
    page.close();
    return page.end();
}

}  // namespace levelswap
