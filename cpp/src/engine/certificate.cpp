#include "certificate.hpp"

#include "levelswap/document/value.hpp"

#include <algorithm>
#include <bit>

namespace levelswap {

namespace {

constexpr int all_digits = 17;

std::string exact(double quanta, Dimension d) {
    return document::format_quanta(quanta, d, document::UnitSystem::si, all_digits);
}

std::string words_of(std::uint64_t bits, AttributeRow const& row) {
    std::string text;
    for (std::uint64_t rest = bits; rest; rest &= rest - 1)
        text += (text.empty() ? "" : ", ") + std::string(choice_word(row, std::countr_zero(rest)));
    return text;
}

std::string value_of(Fact const& f, Attribute attribute) {
    auto const& row = row_of(attribute);
    switch (row.kind) {
        case ValueKind::quantity: return f.lo == f.hi ? exact(f.lo, row.dimension) : exact(f.lo, row.dimension) + " .. " + exact(f.hi, row.dimension);
        case ValueKind::choice: return words_of(f.may, row);
        case ValueKind::set: return "[" + words_of(f.may, row) + "]";
        case ValueKind::curve: return exact(f.curve->points.front().second, row.dimension) + " at every temperature";
        case ValueKind::reference: return f.reference;
    }
    return {};
}

void add_wiring(Certificate& out, Case const& c, Wiring const& w) {
    auto const& site = c.judge.site();
    for (std::size_t f = 0; f < w.output.size(); ++f) {
        auto const at = static_cast<std::size_t>(w.output[f].position);
        auto const& part = c.judge.catalog().parts[static_cast<std::size_t>(c.after[at])];
        out.wiring.emplace_back(name_of(site.functions[f].duty),
                                site.positions[at].name + "." + part.outputs[static_cast<std::size_t>(w.output[f].output)].name);
    }
    for (auto const& window : w.windows) {
        std::int64_t const middle = window.lo + (window.hi - window.lo) / 2;
        out.settings.emplace_back(setting_name(site, window.station, window.rod), exact(static_cast<double>(middle), Dimension::length));
    }
}

}  // namespace

std::string fact_name(Case const& c, FactKey const& key) {
    auto const& site = c.judge.site();
    auto const index = static_cast<std::size_t>(key.index);
    std::string owner;
    switch (key.owner) {
        case Owner::vessel: owner = "vessel"; break;
        case Owner::station: owner = site.stations[index].name; break;
        case Owner::circuit: owner = site.circuits[index].name; break;
        case Owner::line: owner = site.lines[index].name; break;
        case Owner::output: {
            auto const& part = c.judge.catalog().parts[static_cast<std::size_t>(c.after[index])];
            owner = site.positions[index].name + "." + part.outputs[static_cast<std::size_t>(key.output)].name;
            break;
        }
        default: owner = site.positions[index].name; break;
    }
    return owner + " / " + std::string(row_of(key.attribute).name);
}

Certificate certificate_of(Case const& c, Verdict const& verdict, std::optional<Settled> const& settled) {
    Certificate out;
    switch (verdict.outcome) {
        case Outcome::fits:
            out.kind = "setting sheet";
            if (c.judgement_after.wiring) add_wiring(out, c, *c.judgement_after.wiring);
            break;
        case Outcome::does_not_fit:
            out.kind = "conflict";
            for (auto const* found : {&verdict.findings, &verdict.site_work})   // a fault of before the swap refuses too
                for (auto const& f : *found)
                    if (f.state == "fails" && std::find(out.rules.begin(), out.rules.end(), f.rule) == out.rules.end())
                        out.rules.push_back(f.rule);
            if (settled)
                for (auto const& key : settled->shared) out.facts.emplace_back(fact_name(c, key), "any value");
            break;
        case Outcome::cannot_tell:
            if (!settled || !settled->world) break;
            out.kind = "world";
            for (auto const& [key, fact] : *settled->world) out.facts.emplace_back(fact_name(c, key), value_of(fact, key.attribute));
            if (auto const there = c.judge.within(*settled->world).judge(c.after); there.wiring) add_wiring(out, c, *there.wiring);
            break;
    }
    return out;
}

void show_exclusion(Case const& c, Settled const& settled, Verdict& verdict) {
    std::string facts;
    for (auto const& key : settled.shared) facts += (facts.empty() ? "" : ", ") + fact_name(c, key);
    std::vector<std::string_view> rules;
    for (auto const& i : settled.excluding) rules.push_back(rule_table()[static_cast<std::size_t>(i.rule)].id);
    auto excludes = [&](Finding const& f) { return std::find(rules.begin(), rules.end(), f.rule) != rules.end(); };
    // Where none of them is named, it is the levels, and all that is open takes part.
    bool const named = std::any_of(verdict.findings.begin(), verdict.findings.end(), excludes);
    for (auto& f : verdict.findings) {
        if (named && !excludes(f)) continue;
        f.state = "fails";
        f.notes.push_back("this and the other requirements that fail exclude one another at every value of: " + facts);
    }
    std::erase_if(verdict.findings, [](Finding const& f) { return f.state != "fails"; });
    verdict.questions.clear();
}

}  // namespace levelswap
