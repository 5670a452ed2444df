#include "sheet_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

namespace levelswap {

namespace {

constexpr std::size_t width = 79;
constexpr char const* rule_off = "______";

/// Text of at most 79 columns.
class TextSheet {
public:
    /// Words broken into lines: the first begins with `lead`, the others hang under its end or at `hang`.
    void line(std::string const& lead, std::string const& text, std::size_t hang) {
        std::istringstream words(text);
        std::string current = lead, word;
        bool fresh = true;
        while (words >> word) {
            if (!fresh && current.size() + 1 + word.size() > width) {
                out_ += current + '\n';
                current.assign(hang, ' ');
                fresh = true;
            }
            if (!fresh) current += ' ';
            current += word;
            fresh = false;
        }
        out_ += current + '\n';
    }
    void line(std::string const& text, std::size_t indent = 0) { line(std::string(indent, ' '), text, indent + 2); }
    void labelled(std::string const& label, std::string const& text) {
        if (!text.empty()) line(fmt::format("    {:<12}", label), text, 16);
    }
    void raw(std::string const& text) { out_ += text + '\n'; }
    void title(std::string const& text) { out_ += '\n' + text + '\n' + std::string(text.size(), '=') + '\n'; }
    void heading(std::string const& text) { out_ += '\n' + text + '\n'; }
    void list(std::string const& head, std::vector<std::string> const& items) {
        if (items.empty()) return;
        heading(head);
        for (auto const& item : items) line("- " + item, 2);
    }
    [[nodiscard]] std::string take() { return std::move(out_); }

private:
    std::string out_;
};

void levels(TextSheet& page, Sheet const& s) {
    page.heading("Levels above the vessel datum: most likely (range over all tolerances)");
    for (auto const& l : s.levels) {
        page.line(l.duty + " -- " + l.output + " of " + l.part, 2);
        page.raw(fmt::format("    {:<9}{:<32}was {:<11}marked {}", "falling", l.falling, l.old_falling, rule_off));
        page.raw(fmt::format("    {:<9}{:<32}was {:<11}marked {}", "rising", l.rising, l.old_rising, rule_off));
        if (l.in_glass != "yes" && l.in_glass != "no glass") page.line("in the glass: " + l.in_glass, 4);
    }
}

void valve(TextSheet& page, LevelWalk const& walk) {
    if (walk.valve.empty()) return;
    page.heading("Feed valve against level");
    if (!walk.valve_band.empty()) page.line(walk.valve_band, 2);
    for (auto const& v : walk.valve) page.line(fmt::format("    {:<12}", v.opening), v.level, 16);
}

void mountings(TextSheet& page, Sheet const& s) {
    page.heading("Mounting: height of each face centre, and of each rod tip that may be set");
    for (auto const& m : s.mountings) {
        page.line(m.station + ": now at " + m.now + "; " + m.action, 2);
        if (!m.window.empty()) page.line("window that is right whatever the tolerances do: " + m.window, 4);
    }
    if (auto const words = windows_together(s); !words.empty()) page.line(words, 2);
}

void wiring(TextSheet& page, Sheet const& s) {
    page.heading("Wiring: contact to circuit to load");
    for (auto const& w : s.wiring) {
        page.line(w.duty + " -- " + w.output, 2);
        page.labelled("contact", w.contact);
        page.labelled("terminals", w.terminals);
        page.labelled("circuit", w.circuit);
        page.labelled("supply", w.supply);
        page.labelled("load", w.load);
        page.labelled("rating", w.rating);
        page.labelled("protection", w.protection);
    }
}

void states(TextSheet& page, Sheet const& s) {
    page.heading("State of each output");
    page.raw(fmt::format("  {:<28}{:<13}{:<13}{:<13}{}", "", "wet", "dry", "no power", "float sunk"));
    for (auto const& x : s.states) {
        page.raw(fmt::format("  {:<28}{:<13}{:<13}{:<13}{}", x.duty, x.wet, x.dry, x.unpowered, x.float_sunk));
        std::string more;
        auto say = [&](char const* what, std::string const& is) {
            if (is != "-") more += (more.empty() ? "" : "; ") + std::string(what) + is;
        };
        say("wire broken: ", x.wire_open);
        say("wire shorted: ", x.wire_shorted);
        say("float stuck: ", x.float_stuck);
        say("reset ", x.reset);
        say("held while low: ", x.held_reset);
        say("lockout after a power failure: ", x.after_power_loss);
        if (!more.empty()) page.line(more, 6);
    }
}

std::string filled_in_by_hand(std::string const& blank) {
    if (blank.empty()) return {};
    if (blank == "level") return " -- found at ______";
    return " -- " + blank + ": " + (blank == "count" || blank == "reading" ? "______" : "____________________");
}

void steps(TextSheet& page, Sheet const& s) {
    for (auto const& step : s.steps) {
        page.raw("");
        page.line(fmt::format("{}  ", step.number), step.title, 3);
        for (auto const& c : step.checks) {
            page.line("   [ ] ", c.text, 7);
            if (c.expected.empty() && c.blank.empty()) continue;
            auto const expected = c.expected.empty() ? std::string() : "must be: " + c.expected;
            auto const blank = filled_in_by_hand(c.blank);
            page.line(std::string(9, ' '), c.expected.empty() ? blank.substr(4) : expected + blank, 11);
        }
    }
}

void walk(TextSheet& page, LevelWalk const& w) {
    if (w.events.empty()) return;
    page.heading("What the water would do to it, feed shut, falling and rising again");
    for (auto const& e : w.events)
        page.line("- " + e.phase + ", " + e.level + ": " + e.event + " -> " + e.effect, 2);
}

void refusal(TextSheet& page, Sheet const& s) {
    page.heading("No setting or proving sheet: there is one only for a swap that fits.");
    page.list("What is wrong or missing", s.wrong);
    if (!s.questions.empty()) page.heading("Measure this");
    for (auto const& q : s.questions) page.line("- " + q.fact + " -- " + q.how + "; for " + q.rule + ": " + q.threshold, 2);
    page.list("What would go wrong", s.walk.faults);
    walk(page, s.walk);
    valve(page, s.walk);
    if (s.walk.faults.empty()) page.line("The water finds nothing wrong: what stands against this swap is named above.", 2);
}

}  // namespace

std::string render_text(Sheet const& s) {
    TextSheet page;
    page.line(s.answer);
    if (!s.reason.empty()) page.line(s.reason);
    bool const fits = s.outcome == Outcome::fits;
    page.title((fits ? "SETTING SHEET: " : "SHEET: ") + s.site);
    page.list("Change", s.changes);
    page.heading("Datum");
    page.line(s.datum, 2);
    if (!fits) refusal(page, s);
    if (fits) {
        levels(page, s);
        mountings(page, s);
        valve(page, s.walk);
        wiring(page, s);
        states(page, s);
        page.list("Acts otherwise than before", s.differences);
        page.list("Factory-fixed", s.fixed);
    }
    page.list("Also set", s.adjustments);
    page.list("Used up by the work", s.consumables);
    page.list("Rule packs", s.packs);
    page.heading("Cautions");
    for (auto const& c : s.cautions) page.line("- " + c.work + ": " + c.text, 2);
    if (fits) {
        page.title("PROVING SHEET: " + s.site);
    }
    page.heading("Abort rule");
    page.line(s.abort_rule, 2);
    steps(page, s);
    return page.take();
}

}  // namespace levelswap
