#include "levelswap/explain/answer.hpp"
#include "levelswap/rules/rule.hpp"

#include <algorithm>
#include <sstream>

namespace levelswap {


namespace {

constexpr std::size_t width = 79;

/// Lines of at most 79 columns; later lines are indented under the first.
class Page {
public:
    void line(std::string const& text, std::size_t indent = 0) {
        std::istringstream words(text);
        std::string word, current(indent, ' ');
        bool empty = true;
        while (words >> word) {
            if (!empty && current.size() + 1 + word.size() > width) {
                out_ << current << '\n';
                current.assign(indent + 2, ' ');
                empty = true;
            }
            if (!empty) current += ' ';
            current += word;
            empty = false;
        }
        out_ << current << '\n';
    }
    void heading(std::string const& text) { out_ << '\n' << text << '\n'; }
    [[nodiscard]] std::string text() const { return out_.str(); }

private:
    std::ostringstream out_;
};

void comparison(Page& page, Finding const& f) {
    if (!f.quantity.empty()) page.line(f.quantity + ":", 6);
    if (!f.required.empty()) page.line("needs  " + f.required, 8);
    if (!f.available.empty()) page.line("has    " + f.available, 8);
    if (!f.margin.empty()) page.line("margin " + f.margin, 8);
}

/// Comparisons of one rule at one place stand together, and what they share is said once.
void findings(Page& page, std::vector<Finding> const& all) {
    for (std::size_t i = 0; i < all.size();) {
        auto const& f = all[i];
        page.line((f.state == "fails" ? "x not so: " : "? not known: ") + f.title + " -- " + f.subject, 2);
        auto same = [&](Finding const& g) { return g.rule == f.rule && g.subject == f.subject && g.state == f.state && g.source == f.source; };
        std::size_t next = i;
        while (next < all.size() && same(all[next])) comparison(page, all[next++]);
        for (auto const& n : f.notes) page.line(n, 6);
        if (!f.facts.empty()) page.line("from:", 6);
        for (auto const& x : f.facts) page.line("- " + x, 8);
        if (!f.used.empty()) page.line("and, though it fails whatever each of these is:", 6);
        for (auto const& x : f.used) page.line("- " + x, 8);
        page.line("rule " + f.rule + "; " + f.why + "; source: " + f.source, 6);
        i = next;
    }
}

std::string title_of(std::string const& rule) {
    int const i = rule_index(rule);
    return i < 0 ? rule : std::string(rule_table()[static_cast<std::size_t>(i)].title);
}

/// One fact, one entry: what each rule asks of it follows.
void questions(Page& page, std::vector<Question> const& all) {
    if (all.empty()) return;
    page.heading("Measure this");
    for (std::size_t i = 0; i < all.size(); ++i) {
        auto same = [&](Question const& q) { return q.fact == all[i].fact; };
        if (std::any_of(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(i), same)) continue;
        page.line("- " + all[i].fact + " -- " + all[i].how, 2);
        for (auto const& q : all)
            if (same(q)) page.line("so that " + title_of(q.rule) + (q.subject.empty() ? "" : " (" + q.subject + ")") + ": " + q.threshold + " [" + q.rule + "]", 6);
    }
}

void list(Page& page, std::string const& heading, std::vector<std::string> const& items) {
    if (items.empty()) return;
    page.heading(heading);
    for (auto const& item : items) page.line("- " + item, 2);
}

std::string joined(std::vector<std::string> const& words, std::string const& between) {
    std::string out;
    for (auto const& w : words) out += (out.empty() ? "" : between) + w;
    return out;
}

/// What all the work of a repair uses up, each thing once.
std::string consumables(std::vector<Work> const& work) {
    std::vector<std::string> once;
    for (auto const& w : work)
        for (auto const& c : w.consumables)
            if (std::find(once.begin(), once.end(), c) == once.end()) once.push_back(c);
    return joined(once, ", ");
}

void work(Page& page, std::vector<Work> const& all) {
    if (all.empty()) return;
    page.heading("The work (never judged)");
    for (auto const& w : all) {
        page.line("- " + w.position, 2);
        page.line("isolate: " + w.isolate, 6);
        page.line("drain: " + w.drain, 6);
        page.line("cool: " + w.cool, 6);
        page.line("take along: " + joined(w.consumables, ", "), 6);
        if (!w.note.empty()) page.line(w.note, 6);
    }
}

void differences(Page& page, std::vector<Difference> const& all) {
    if (all.empty()) return;
    page.heading("What will be different (allowed or not)");
    for (auto const& d : all)
        page.line("- " + d.function + ", " + d.what + ": " + d.before + " -> " + d.after +
                      (d.moved.empty() ? "" : " (moved by " + d.moved + ")"), 2);
}

void shifts(Page& page, std::vector<Shift> const& all) {
    if (all.empty()) return;
    page.heading("Cooler water in the column stands lower (never judged)");
    for (auto const& s : all)
        page.line("- " + s.output + ", at " + s.level + " above the water connection: the boiler's water then stands " + s.shift +
                      " higher: " + s.direction, 2);
    page.line(all.front().condition, 4);
}

void repairs(Page& page, std::string const& heading, std::vector<Repair> const& all, std::size_t most) {
    if (all.empty()) return;
    page.heading(heading);
    std::size_t shown = 0;
    for (auto const& r : all) {
        if (shown++ == most) {
            page.line("... and " + std::to_string(all.size() - most) + " more ways", 2);
            break;
        }
        page.line("- change " + joined(r.positions, " + "), 2);
        std::size_t tuples = 0;
        for (auto const& t : r.tuples) {
            if (tuples++ == 3) break;
            page.line("to " + joined(t, " + "), 6);
        }
        std::size_t const rest = r.more + (r.tuples.size() > 3 ? r.tuples.size() - 3 : 0);
        if (rest) page.line("and " + std::to_string(rest) + " more", 6);
        if (!r.question.empty()) page.line("open: " + r.question, 6);
        else page.line("outage: " + r.outage, 6);
        if (auto const used = consumables(r.work); !used.empty()) page.line("take along: " + used, 6);
    }
}

void ruled_out(Page& page, std::string const& heading, std::vector<RuledOut> const& all) {
    page.heading(heading);
    for (auto const& r : all) {
        page.line("- " + r.position + ", nearest miss: " + r.nearest_miss, 2);
        for (auto const& [rule, n] : r.removed_by) page.line(std::to_string(n) + (n == 1 ? " part" : " parts") + " -- not so: " + title_of(rule), 6);
    }
}

enum class Detail : std::uint8_t { brief, full };

void offers(Page& page, Alternatives const& a, Detail detail) {
    std::size_t const most = detail == Detail::brief ? 3 : 10;
    repairs(page, "What would work, keeping the proposed part", a.keep, most);
    repairs(page, "What would work with another part instead", a.release, most);
    if (!a.blocked.empty()) {
        page.heading("What does not help alone");
        for (auto const& b : a.blocked)
            page.line("- " + b.part + " at " + b.position + " would cure \"" + b.cures + "\"; " + b.reason, 2);
    }
    repairs(page, "What might work, once measured", a.undecided, most);
    auto blockers = [&](std::string const& heading, auto const& sets) {
        if (sets.empty()) return;
        page.heading(heading);
        for (auto const& b : sets) page.line("- " + joined(b, " and "), 2);
    };
    blockers("While these stay as they are, nothing that keeps the proposed part works", a.keep_blockers);
    blockers("While these stay as they are, nothing works at all", a.release_blockers);
    if (a.keep.empty() && a.release.empty() && a.undecided.empty() && !a.ruled_out.empty()) {
        auto const nothing_works = std::string("Nothing ") + (a.release_searched ? "works" : "that keeps it works");
        if (detail == Detail::brief) page.heading(nothing_works + "; `levelswap alternatives` lists what was tried");
        else ruled_out(page, nothing_works + ". What was tried, one position at a time", a.ruled_out);
    }
    if (a.fits_as_it_was && a.keep.empty() && a.release.empty() && a.release_searched)
        page.line("As it was before the swap, it fits.", 0);
    if (a.complete_up_to == 0) page.line("The search was cut short: there may be more.", 0);
}

}  // namespace

std::string render_text(Verdict const& v, std::optional<Alternatives> const& alternatives) {
    Page page;
    page.line(v.answer);
    if (!v.reason.empty()) page.line(v.reason);
    list(page, "Change", v.changes);
    if (!v.site_work.empty()) {
        page.heading("Site work: wrong before the swap, whatever part is put in");
        findings(page, v.site_work);
    }
    if (!v.findings.empty()) page.heading("Why");
    findings(page, v.findings);
    list(page, v.outcome == Outcome::fits ? "What works" : "What still works", v.works);
    if (!v.wiring.empty()) page.heading("Wiring");
    for (auto const& [duty, output] : v.wiring) page.line("- " + duty + ": " + output, 2);
    if (!v.settings.empty()) page.heading("Settings (window that is right whatever the tolerances do)");
    for (auto const& [setting, window] : v.settings) page.line("- " + setting + ": " + window, 2);
    if (v.settings.size() > 1) page.line("A window holds while the other settings can follow; the setting sheet settles them together.", 2);
    if (alternatives) offers(page, *alternatives, Detail::brief);
    questions(page, v.questions);
    differences(page, v.differences);
    shifts(page, v.shifts);
    work(page, v.work);
    list(page, "Ask always", v.ask_always);
    list(page, "Assumptions (never turn an answer green)", v.assumptions);
    list(page, "Remarks", v.remarks);
    list(page, "Rule packs", v.packs);
    list(page, "Cautions", v.cautions);
    return page.text();
}

std::string render_text(Alternatives const& a) {
    Page page;
    if (!a.needed) {
        page.line("NO REPAIR NEEDED: the swap fits, or does once the site work is done; `check` says which.");
        return page.text();
    }
    std::size_t const n = a.keep.size() + a.release.size();
    bool const both = a.keep_searched && a.release_searched;
    std::string const kind = both ? "" : a.keep_searched ? " that keeps the proposed part" : " that gives up the proposed part";
    std::string const kinds = both ? "" : a.keep_searched ? " that keep the proposed part" : " that give up the proposed part";
    page.line(n == 1 ? "1 minimal repair" + kind + "." : n ? std::to_string(n) + " minimal repairs" + kinds + "."
              : a.undecided.empty() ? "NO REPAIR" + kind + " within the changes looked at."
                                    : "NO CERTAIN REPAIR" + kind + "; some are possible once measured.");
    if (!both) page.line(std::string("Repairs that ") + (a.keep_searched ? "give it up" : "keep it") + " were not looked for.");
    if (a.complete_up_to) page.line("Complete up to " + std::to_string(a.complete_up_to) + " changes.");
    offers(page, a, Detail::full);
    return page.text();
}

}  // namespace levelswap
