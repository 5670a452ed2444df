#include "sheet_rows.hpp"

namespace levelswap {

namespace {

std::string what_is_wrong(Finding const& f) {
    std::string text = (f.before ? "before the swap already: " : "") + f.title + " (" + f.subject + ")";
    if (!f.quantity.empty()) text += " -- " + f.quantity;
    if (!f.available.empty()) text += ": " + f.available;
    if (!f.required.empty()) text += ", needs " + f.required;
    return text + (f.state == "undecided" ? " (cannot be told)." : ".");
}

std::string height_of(Site const& site, LevelWords const& words, Attribute a) {
    auto const* fact = site.vessel.find(a);
    return fact->nature == Fact::Nature::unknown ? "not known" : words.range({fact->lo, fact->hi});
}

std::string datum(Site const& site, LevelWords const& words, WalkModel const& model, std::string const& glass) {
    return "All levels are above the vessel datum. Lowest permissible water level " + height_of(site, words, Attribute::lpwl) +
           "; normal water level " + height_of(site, words, Attribute::nwl) +
           (!model.has_glass ? "." : glass.empty() ? "; what the glass shows is not known." : "; the glass shows " + glass + ".");
}

void set_up(Sheet& out, SheetCase const& s) {
    out.levels = sheet_levels(s);
    out.mountings = sheet_mountings(s);
    out.adjustments = sheet_adjustments(s);
    out.consumables = sheet_consumables(s);
    out.wiring = sheet_circuits(s);
    out.states = sheet_states(s);
    out.differences = sheet_differences(s);
    out.fixed = factory_fixed(s);
    out.steps = proving_steps(s);
}

}  // namespace

Sheet sheet(Catalog const& catalog, Site const& site, std::vector<std::pair<std::string, std::string>> const& put,
            Units units) {
    Verdict const verdict = check(catalog, site, put, units);
    Sheet out;
    out.outcome = verdict.outcome;
    out.answer = verdict.answer;
    out.reason = verdict.reason;
    out.site = site.name;
    out.changes = verdict.changes;
    out.packs = verdict.packs;
    out.questions = verdict.questions;
    for (auto const* list : {&verdict.site_work, &verdict.findings})
        for (auto const& f : *list) out.wrong.push_back(what_is_wrong(f));
    out.abort_rule = abort_rule(site);

    LevelWords const words(units);
    Case const asked(catalog, site, put);
    auto const settled = settle_mountings(asked);
    Case const c(catalog, settled.site, put);
    auto const model = walk_model(c);
    out.walk = describe_walk(c, model, units);
    out.datum = datum(settled.site, words, model, out.walk.glass);
    out.cautions = sheet_cautions(c, words);
    if (out.outcome == Outcome::fits) set_up(out, {c, asked, model, settled.mountings, words});
    return out;
}

}  // namespace levelswap
