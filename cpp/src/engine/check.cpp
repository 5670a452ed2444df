#include "certificate.hpp"
#include "consequences.hpp"
#include "levelswap/verdict/nearest_miss.hpp"
#include "level_remarks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>
#include <map>
#include <set>

namespace levelswap {

namespace {

/// Findings of one kind of truth, the nearest to the change first: rules that read a changed position lead.
class Report {
public:
    Report(Case const& c, Units units) : c_(c), units_(units), words_(c.judge, c.after, c.changed, units) {}

    void fill(Verdict& v) {
        auto const& j = c_.judgement_after;
        for (auto const& judged : j.fixed) add(v, judged);
        if (!j.wiring) too_few_outputs(v);
        if (!j.wiring || j.wiring->truth == Truth::fails) as_wired_now(v);
        if (j.wiring) {
            for (auto const& judged : j.wiring->pairs) add(v, judged);
            for (auto const& judged : j.wiring->whole) add_pair(v, *j.wiring, judged);
            add_levels(v, *j.wiring);
        } else
            without_wiring(v);
        if (!c_.judge.site().functions_complete) ask_for_functions(v);
        for (auto const& f : c_.site_work)
            for (auto& finding : f.first >= 0 ? std::vector{words_.pair_finding(*j.wiring, f)} : words_.findings(f)) {
                finding.before = true;
                v.site_work.push_back(std::move(finding));
            }
        levels_of_before(v);
        for (auto const& r : j.remarks)
            for (auto const& f : words_.findings(r))
                v.remarks.push_back(std::string(f.state == "fails" ? "Not so: " : "Not known: ") + f.title + " (" + f.subject + "): " +
                                    (f.quantity.empty() ? "" : f.quantity + ": ") + "has " + f.available + ", practice asks " + f.required);
        std::stable_sort(v.findings.begin(), v.findings.end(), [&](Finding const& x, Finding const& y) {
            auto key = [&](Finding const& f) { return std::pair{f.state != "fails", !touches(f)}; };
            return key(x) < key(y);
        });
        say_what_a_flange_proves(v);
        works(v);
        wiring_and_settings(v);
    }

private:
    bool touches(Finding const& f) const {
        auto const& site = c_.judge.site();
        return std::any_of(f.positions.begin(), f.positions.end(), [&](std::string const& p) {
            int const i = site.find_position(p);
            return i >= 0 && (c_.changed >> i & 1u);
        });
    }

    void say_what_a_flange_proves(Verdict& v) const {
        bool const inside = std::any_of(v.findings.begin(), v.findings.end(), [](auto const& f) { return f.rule.starts_with("travel."); });
        int const flange = rule_index("interfaces.flange");
        bool const bolts_on = std::all_of(c_.judgement_after.fixed.begin(), c_.judgement_after.fixed.end(), [&](auto const& j) {
            return j.instance.rule != flange || j.truth == Truth::holds;
        });
        if (inside && bolts_on)
            v.remarks.push_back("The flange matches and the head bolts on; that, and an equal tilt, prove nothing about the inside of the chamber.");
    }

    void levels_of_before(Verdict& v) const {
        if (!c_.judgement_before.wiring) return;
        for (auto& [instance, f] : Explainer(c_.judge, c_.before, c_.changed, units_).level_findings(*c_.judgement_before.wiring))
            if (aside(instance)) {
                f.before = true;
                v.site_work.push_back(std::move(f));
            }
    }

    [[nodiscard]] bool aside(Instance const& i) const {
        return std::find(c_.set_aside.begin(), c_.set_aside.end(), i) != c_.set_aside.end();
    }

    void add(Verdict& v, Judged const& judged) {
        if (judged.truth == Truth::holds) return;
        if (aside(judged.instance)) return;
        for (auto& f : words_.findings(judged)) v.findings.push_back(std::move(f));
        if (judged.truth != Truth::undecided) return;
        ask(v, words_.questions(judged));
    }

    void ask(Verdict& v, std::vector<Question> questions) {
        for (auto& q : questions) {
            auto const [at, is_new] = asked_.emplace(q.fact + q.rule + q.threshold, v.questions.size());
            if (is_new) v.questions.push_back(std::move(q));
            else if (auto& subject = v.questions[at->second].subject; (", " + subject + ", ").find(", " + q.subject + ", ") == std::string::npos) subject += ", " + q.subject;
        }
    }

    /// A rule on two functions together.
    void add_pair(Verdict& v, Wiring const& w, Judged const& judged) {
        if (judged.truth == Truth::holds || aside(judged.instance)) return;
        v.findings.push_back(words_.pair_finding(w, judged));
        if (judged.truth == Truth::undecided) ask(v, words_.pair_questions(w, judged));
    }

    void add_levels(Verdict& v, Wiring const& w) {
        for (auto& [instance, f] : words_.level_findings(w))
            if (!aside(instance)) v.findings.push_back(std::move(f));
        if (w.levels_truth != Truth::undecided) return;
        auto const [rules, together] = Explainer::levels_shown(w);
        for (auto const& r : rules)
            if (!aside(instance_of(r, w.elevations))) ask(v, words_.level_questions(w, r, together));
    }

    /// What the outputs of the same names fail, where nothing is connected anew: that is what a reader looks at first.
    void as_wired_now(Verdict& v) {
        for (std::size_t f = 0; f < c_.judgement_after.options.size(); ++f)
            for (auto const& r : rules_as_wired(f))
                if (r.truth == Truth::fails) {
                    add(v, r);
                    shown_.push_back(r.instance);
                }
    }

    /// The rules of the output that is called as the one which the function is wired to now; none where there is no such.
    std::vector<Judged> rules_as_wired(std::size_t function) const {
        auto const now = c_.judge.site().functions[function].now;
        if (now.position < 0) return {};
        int const before = c_.before[static_cast<std::size_t>(now.position)], after = c_.after[static_cast<std::size_t>(now.position)];
        if (before == nothing || after == nothing) return {};
        auto name_of = [&](int part, int output) -> std::string const& {
            return c_.judge.catalog().parts[static_cast<std::size_t>(part)].outputs[static_cast<std::size_t>(output)].name;
        };
        for (auto const& [output, rules] : c_.judgement_after.options[function])
            if (output.position == now.position && name_of(after, output.output) == name_of(before, now.output)) return rules;
        return {};
    }

    /// Fewer outputs than functions, or fewer of the form that they ask: then no connection helps, and no better contact.
    void too_few_outputs(Verdict& v) {
        if (auto const any = lacking([](Judged const&) { return true; }); !any.functions.empty())
            v.findings.push_back(no_output(any.functions, any.outputs, "number of outputs left"));
        else if (auto const right = lacking(right_form); !right.functions.empty())
            v.findings.push_back(no_output(right.functions, right.outputs, "number of outputs of the right form left"));
    }

    /// A function with no output that can serve it: what the nearest one fails. If each has one but not at the
    /// same time, two functions want the same output.
    void without_wiring(Verdict& v) {
        auto const& options = c_.judgement_after.options;
        bool each_has_one = true;
        for (std::size_t f = 0; f < options.size(); ++f) {
            auto const* nearest = nearest_miss(c_.judge, c_.after, options[f]);
            if (!nearest && !options[f].empty()) continue;
            each_has_one = false;
            if (nearest)
                for (auto const& r : *nearest)
                    if (r.truth == Truth::fails && std::find(shown_.begin(), shown_.end(), r.instance) == shown_.end()) add(v, r);
            if (!nearest) v.findings.push_back(no_output({static_cast<int>(f)}, 0, outputs_that_serve));
        }
        if (!each_has_one || !lacking(right_form).functions.empty()) return;
        auto const served = lacking([](Judged const& r) { return r.truth != Truth::fails; });
        v.findings.push_back(no_output(served.functions, served.outputs, outputs_that_serve));
    }

    static constexpr char const* outputs_that_serve = "number of outputs that can serve";

    static bool right_form(Judged const& r) {
        static int const form = rule_index("roles.output");
        return r.instance.rule != form || r.truth != Truth::fails;
    }

    struct Lack {
        std::vector<int> functions;
        int outputs = 0;   ///< that all of them have together
    };

    /// The functions that lack the most outputs, of those that have any whose rules all pass; the smallest such set.
    template <class Passes>
    [[nodiscard]] Lack lacking(Passes passes) const {
        auto const& options = c_.judgement_after.options;
        std::vector<std::set<OutputRef>> reach(options.size());
        for (std::size_t f = 0; f < options.size(); ++f)
            for (auto const& [output, rules] : options[f])
                if (std::all_of(rules.begin(), rules.end(), passes)) reach[f].insert(output);
        Lack most;
        for (unsigned set = 1; set < 1u << options.size(); ++set) {
            Lack here;
            std::set<OutputRef> together;
            for (std::size_t f = 0; f < options.size(); ++f)
                if ((set >> f & 1u) && !reach[f].empty()) {
                    here.functions.push_back(static_cast<int>(f));
                    together.insert(reach[f].begin(), reach[f].end());
                }
            here.outputs = static_cast<int>(together.size());
            auto key = [](Lack const& l) { return std::pair{l.outputs - static_cast<int>(l.functions.size()), l.functions.size()}; };
            if (key(here) < key(most)) most = std::move(here);
        }
        return most;
    }

    /// A finding of roles.output that no single pair carries.
    static Finding about_outputs(std::string state) {
        auto const& row = rule_table()[static_cast<std::size_t>(rule_index("roles.output"))];
        Finding f;
        f.rule = row.id;
        f.title = row.title;
        f.level = "required";
        f.state = std::move(state);
        f.source = row.source;
        f.why = "guards against " + std::string(row.protects);
        return f;
    }

    /// The functions have too few outputs between them.
    Finding no_output(std::vector<int> const& functions, int outputs, std::string quantity) const {
        Finding f = about_outputs("fails");
        f.quantity = std::move(quantity);
        for (std::size_t i = 0; i < functions.size(); ++i) {
            auto const& function = c_.judge.site().functions[static_cast<std::size_t>(functions[i])];
            f.subject += (i == 0 ? "" : i + 1 == functions.size() ? " and " : ", ") + std::string(words_of(function.duty));
            if (function.now.position >= 0)
                f.positions.push_back(c_.judge.site().positions[static_cast<std::size_t>(function.now.position)].name);
        }
        f.required = std::to_string(functions.size());
        f.available = std::to_string(outputs);
        f.margin = std::to_string(outputs - static_cast<int>(functions.size()));
        return f;
    }

    void ask_for_functions(Verdict& v) {
        Finding f = about_outputs("undecided");
        f.subject = "functions of the site";
        f.quantity = "list of functions";
        f.required = "a list that is said to be complete";
        f.available = "a list that may lack some";
        f.source = "the site file";
        f.why = "a function that is not on the list would lose its output unseen";
        v.findings.push_back(f);
        v.questions.push_back({"functions of the site", "trace the wiring of the part that is there now",
                               "say `complete: yes` when all of them are listed", "roles.output", "the site"});
    }

    /// Does the rule stand on something that the function needs: its output, its station, its circuit, its feed line?
    bool concerns(Instance const& rule, std::size_t function, OutputRef output) const {
        auto const& site = c_.judge.site();
        auto const here = stand_of(site, static_cast<int>(function), output);
        auto const& at = rule.stand;
        auto one_of = [](int x, std::initializer_list<int> all) { return x >= 0 && std::find(all.begin(), all.end(), x) != all.end(); };
        int const by_circuit = here.circuit < 0 ? -1 : site.circuits[static_cast<std::size_t>(here.circuit)].line;
        int const by_station = site.stations[static_cast<std::size_t>(here.station)].line;
        if (at.position >= 0) {
            auto const& p = site.positions[static_cast<std::size_t>(at.position)];
            return one_of(p.station, {here.station}) || one_of(p.circuit, {here.circuit}) || one_of(p.line, {by_circuit, by_station});
        }
        return one_of(at.station, {here.station}) || one_of(at.circuit, {here.circuit}) || one_of(at.line, {by_circuit, by_station});
    }

    /// Some requirement on what it needs fails or is open, also one that failed before the swap.
    bool is_blamed(std::size_t function, OutputRef output) const {
        auto const& j = c_.judgement_after;
        auto open = [](Judged const& r) { return r.truth != Truth::holds; };
        if (std::any_of(j.fixed.begin(), j.fixed.end(), [&](auto const& r) { return open(r) && concerns(r.instance, function, output); })) return true;
        if (!j.wiring) return false;
        int const f = static_cast<int>(function);
        for (auto const& r : j.wiring->whole)
            if (open(r) && (r.first == f || r.instance.stand.function == f)) return true;
        for (auto const& r : Explainer::levels_shown(*j.wiring).rules)
            for (int const end : {r.upper, r.lower})
                if (int const key = j.wiring->elevations[static_cast<std::size_t>(end)].key; key >= 0 && key / 2 == f) return true;
        return false;
    }

    /// The function on the output that it is connected to; where nothing is connected yet, on one that can serve it.
    void works(Verdict& v) const {
        auto const& site = c_.judge.site();
        auto const& j = c_.judgement_after;
        std::set<OutputRef> taken;
        for (std::size_t f = 0; f < j.options.size(); ++f)
            for (auto const& [output, rules] : j.options[f]) {
                if (j.wiring ? output != j.wiring->output[f] : taken.contains(output)) continue;
                bool const holds = std::all_of(rules.begin(), rules.end(), [](auto const& r) { return r.truth == Truth::holds; });
                if (!holds || is_blamed(f, output)) continue;
                v.works.push_back(std::string(words_of(site.functions[f].duty)) + " on " + words_.output_name(output));
                taken.insert(output);
                break;
            }
    }

    void wiring_and_settings(Verdict& v) const {
        auto const& j = c_.judgement_after;
        if (!j.wiring || j.wiring->truth == Truth::fails) return;
        auto const& site = c_.judge.site();
        for (std::size_t f = 0; f < j.wiring->output.size(); ++f)
            v.wiring.emplace_back(words_of(site.functions[f].duty), words_.output_name(j.wiring->output[f]));
        for (auto const& window : j.wiring->windows)
            v.settings.emplace_back(
                setting_name(site, window.station, window.rod),
                words_.quantity({static_cast<double>(window.lo), static_cast<double>(window.hi)}, Dimension::length));
        for (auto const& p : set_pressures(c_))
            v.settings.emplace_back("set pressure of the " + p.valve + ", read beside it", words_.quantity(p.window, Dimension::pressure_gauge));
    }

    Case const& c_;
    Units units_;
    Explainer words_;
    std::map<std::string, std::size_t> asked_;   ///< where the question stands
    std::vector<Instance> shown_;   ///< of the outputs as they are wired now
};

std::string reason_of(Finding const& f) {
    std::string const state = f.state == "fails" ? "not so: " : "not known: ";
    if (f.available.empty()) return f.subject + ": " + state + f.title + ".";
    for (auto const& side : {f.available, f.required})
        if (side.starts_with(std::string(not_known) + ": ")) return f.subject + ": " + f.quantity + ": " + side + ".";
    if (f.margin.empty()) return f.subject + ": " + f.quantity + ": " + f.available + "; needs: " + f.required + ".";
    return f.subject + ": " + f.quantity + " is " + f.available + ", needs " + f.required + " (margin " + f.margin + ").";
}

/// Parts put in that no function is connected to: they fit, and do nothing.
std::vector<std::string> idle_parts(Case const& c) {
    std::vector<std::string> out;
    if (!c.judgement_after.wiring) return out;
    auto const& outputs = c.judgement_after.wiring->output;
    for (std::size_t p = 0; p < c.after.size(); ++p) {
        if (!(c.changed >> p & 1u) || c.after[p] == nothing) continue;
        auto const& part = c.judge.catalog().parts[static_cast<std::size_t>(c.after[p])];
        bool const used = std::any_of(outputs.begin(), outputs.end(), [&](OutputRef const& o) { return o.position == static_cast<int>(p); });
        if (!part.outputs.empty() && !used)
            out.push_back(part.id + " at " + c.judge.site().positions[p].name + " works nothing: no function of the site file is connected to it.");
    }
    return out;
}

void conclude(Verdict& v, Case const& c) {
    auto const put = v.changes.empty() ? std::string("the installation as it is") : std::string("this swap");
    switch (v.outcome) {
        case Outcome::fits: v.answer = "FITS: " + put + " meets every required rule."; break;
        case Outcome::does_not_fit:
            v.answer = v.once_site_work_is_done == Outcome::fits ? "FITS ONCE THE SITE WORK IS DONE: the site has a fault of its own."
                                                                 : "DOES NOT FIT: " + put + " breaks a required rule.";
            break;
        case Outcome::cannot_tell:
            v.answer = v.once_measured ? "CANNOT TELL: fits once measured on site, then set."
                                       : "CANNOT TELL: a fact that decides is missing; measure it.";
            break;
    }
    for (auto const& idle : idle_parts(c)) {
        v.remarks.push_back(idle);
        if (v.reason.empty()) v.reason = idle;
    }
    if (!v.findings.empty()) v.reason = reason_of(v.findings.front());
    else if (!v.site_work.empty()) v.reason = "Before the swap already: " + reason_of(v.site_work.front());
    if (v.outcome == Outcome::cannot_tell && v.if_assumed)
        v.remarks.push_back(*v.if_assumed == Outcome::fits           ? "If the assumptions named are right, it fits."
                            : *v.if_assumed == Outcome::does_not_fit ? "If the assumptions named are right, it does not fit."
                                                                     : "Even if the assumptions named are right, it cannot be told.");
    if (v.outcome == Outcome::cannot_tell && !c.judgement_after.every_wiring)
        v.remarks.push_back(fmt::format("None of the first {} ways to connect the functions is certain to serve; the others were not tried.", c.judgement_after.wirings));
    v.cautions = cautions_for(c);
}

}  // namespace

Verdict check(Catalog const& catalog, Site const& site, std::vector<std::pair<std::string, std::string>> const& put,
              Units units) {
    Case const c(catalog, site, put);
    Verdict v;
    v.outcome = outcome_of(c.judgement_after.truth);
    std::optional<Settled> settled;
    // Worlds are not taken apart where not even the wirings of one of them were all tried.
    if (v.outcome == Outcome::cannot_tell && c.judgement_after.every_wiring) {
        settled = settle(c.judge, c.after, {});
        v.outcome = outcome_of(settled->truth);
        v.once_measured = settled->once_set;
    }
    v.proved = settled ? settled->proved : v.outcome != Outcome::cannot_tell;
    v.before = outcome_of(c.judgement_before.truth);
    for (std::size_t p = 0; p < c.after.size(); ++p)
        if (c.changed >> p & 1u)
            v.changes.push_back(site.positions[p].name + ": " + part_name(catalog, c.before[p]) + " -> " + part_name(catalog, c.after[p]));
    if (!c.set_aside.empty()) v.once_site_work_is_done = outcome_of(c.judge.truth(c.after, c.set_aside));
    if (v.outcome == Outcome::cannot_tell && !c.judge.assumptions().empty()) {
        v.if_assumed = outcome_of(c.judge.judge(c.after, true).truth);
        for (auto const& a : c.judge.assumptions())
            if (a.circuit >= 0 || *v.if_assumed != Outcome::cannot_tell) v.assumptions.push_back(a.text);
    }
    for (int p : site.packs) {
        auto const& pack = catalog.packs[static_cast<std::size_t>(p)];
        v.packs.push_back(pack.name + " (" + pack.edition + ")");
    }
    Report(c, units).fill(v);
    if (settled && v.outcome == Outcome::does_not_fit) show_exclusion(c, *settled, v);
    conclude(v, c);
    for (auto& remark : far_stated_levels(c, units)) v.remarks.push_back(std::move(remark));
    for (auto& remark : levels_out_of_sight(c, units)) v.remarks.push_back(std::move(remark));
    v.certificate = certificate_of(c, v, settled);
    v.shifts = shifts_of(c, units);
    v.differences = differences_of(c, units);
    v.work = work_of(c, c.changed, &c.after);
    v.ask_always = ask_always(c);
    return v;
}

}  // namespace levelswap
