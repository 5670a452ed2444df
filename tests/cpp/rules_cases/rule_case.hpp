#pragma once

// One case of one rule: the base catalogue and site with a few facts replaced. See tests/cases/README.md.

#include "assembly/read_site.hpp"
#include "case_file.hpp"
#include "catalog/read_catalog.hpp"
#include "levelswap/explain/findings.hpp"

#include <memory>
#include <optional>

namespace levelswap::cases {

/// "plain column / flange.circle" → plain column, flange, circle.
inline std::vector<std::string> steps_of(std::string const& path) {
    std::vector<std::string> steps(1);
    for (std::size_t i = 0; i < path.size(); ++i) {
        if (path.compare(i, 3, " / ") == 0) { steps.emplace_back(); i += 2; }
        else if (path[i] == '.') steps.emplace_back();
        else steps.back() += path[i];
    }
    return steps;
}

/// The documents of one case; the base is read once and copied.
struct Documents {
    std::vector<Document> catalog;   ///< parts and packs
    Document site;

    explicit Documents(std::string const& site_name) {
        static auto const base = [] {
            std::vector<fs::path> files;
            for (auto const* folder : {"parts", "packs"})
                for (auto const& entry : fs::directory_iterator(cases_folder() / "base" / folder)) files.push_back(entry.path());
            std::sort(files.begin(), files.end());
            std::vector<Document> read;
            for (auto const& file : files) read.push_back(document::read_file(file.string()));
            return read;
        }();
        catalog = base;
        site = document::read_file((cases_folder() / "base" / site_name).string());
    }

    /// The map that the first step of a path names; `used` counts the steps taken.
    Node& owner(std::vector<std::string> const& steps, std::size_t& used) {
        used = 1;
        // One step names an entry of the site itself, there or not.
        if (child(site.root, steps[0]) || steps.size() == 1) { used = 0; return site.root; }
        for (Document& d : catalog) {
            if (Node* parts = child(d.root, "parts"))
                if (Node* part = child(*parts, steps[0])) return *part;
            Node const* name = d.root.find("name");
            if (!name || "pack " + name->text != steps[0]) continue;
            used = 2;
            for (Node& row : child(d.root, "rows")->items)
                if (row.find("figure")->text == steps.at(1)) return row;
        }
        throw std::runtime_error("nothing in the base is called \"" + steps[0] + "\"");
    }

    /// Replaces, adds or (without a value) deletes what stands at a path.
    void change(std::string const& path, Node const* value) {
        auto const steps = steps_of(path);
        std::size_t at = 0;
        Node* map = &owner(steps, at);
        for (; at + 1 < steps.size(); ++at)
            if (!(map = child(*map, steps[at]))) throw std::runtime_error("nothing at \"" + path + "\"");
        if (!map->is_map()) throw std::runtime_error("no map holds \"" + path + "\"");
        Node* old = child(*map, steps.back());
        if (!old && !value) throw std::runtime_error("nothing to delete at \"" + path + "\"");
        if (old && value) *old = *value;
        else if (old) {
            auto const index = old - map->items.data();
            map->items.erase(map->items.begin() + index);
            map->keys.erase(map->keys.begin() + index);
            map->key_spans.erase(map->key_spans.begin() + index);
        } else {
            map->items.push_back(*value);
            map->keys.push_back(steps.back());
            map->key_spans.push_back(value->where);
        }
    }

private:
    static Node* child(Node& map, std::string_view key) { return const_cast<Node*>(map.find(key)); }
};

/// The case as a judged assembly.
struct JudgedCase {
    Catalog catalog;
    Site site;
    Assignment parts;
    std::unique_ptr<Judge> judge;
    Judgement judgement;

    JudgedCase(JudgedCase const&) = delete;   // the judge looks at the catalogue and the site beside it
    JudgedCase& operator=(JudgedCase const&) = delete;
    explicit JudgedCase(RuleCase const& c) {
        Documents documents(c.site);
        for (auto const& [path, value] : c.set) documents.change(path, &value);
        for (auto const& path : c.without) documents.change(path, nullptr);
        if (c.packs.is_list()) documents.change("packs", &c.packs);
        catalog = reading::catalog_of(documents.catalog);
        site = reading::site_of(documents.site, catalog);
        parts = proposed(site, catalog, c.put);
        judge = std::make_unique<Judge>(catalog, site);
        judgement = judge->judge(parts);
    }

    /// The rule wherever it stands. Where no wiring is possible, at every option: the cases leave the switch sets
    /// in place, so that each function has one.
    [[nodiscard]] std::vector<Judged> places(int rule) const {
        std::vector<Judged> found;
        auto take = [&](std::vector<Judged> const& from) {
            std::copy_if(from.begin(), from.end(), std::back_inserter(found), [&](Judged const& j) { return j.instance.rule == rule; });
        };
        take(judgement.fixed);
        if (judgement.wiring) {
            take(judgement.wiring->pairs);
            take(judgement.wiring->whole);
        } else {
            for (auto const& function : judgement.options)
                for (auto const& option : function) take(option.second);
        }
        auto const& row = rule_table()[static_cast<std::size_t>(rule)];
        if (!row.required && row.scope == Scope::station)  // a recommended rule that holds leaves no remark
            for (auto const& [pack, at] : figures(row))
                for (int s = 0; s < static_cast<int>(site.stations.size()); ++s) {
                    Instance i;
                    i.rule = rule;
                    i.pack = pack;
                    i.row = at;
                    i.stand.station = s;
                    found.push_back({i, judge->truth_of(i, parts), judge->positions_read(i)});
                }
        if (!row.required && row.scope == Scope::line)
            for (int l = 0; l < static_cast<int>(site.lines.size()); ++l) {
                Instance i;
                i.rule = rule;
                i.stand.line = l;
                found.push_back({i, judge->truth_of(i, parts), judge->positions_read(i)});
            }
        if (!row.required && row.scope == Scope::pair && judgement.wiring)
            for (std::size_t f = 0; f < judgement.wiring->output.size(); ++f) {
                Instance i;
                i.rule = rule;
                i.stand.function = static_cast<int>(f);
                i.stand.output = judgement.wiring->output[f];
                i.stand.station = site.positions[static_cast<std::size_t>(i.stand.output.position)].station;
                i.stand.circuit = site.functions[f].circuit;
                found.push_back({i, judge->truth_of(i, parts), judge->positions_read(i)});
            }
        return found;
    }

    /// The pack rows in force that state the rule's figure: pack and row. No row: -1 and -1, unless the rule needs one.
    [[nodiscard]] std::vector<std::pair<int, int>> figures(RuleRow const& row) const {
        std::vector<std::pair<int, int>> found;
        for (int p : site.packs) {
            auto const& rows = catalog.packs[static_cast<std::size_t>(p)].rows;
            for (int r = 0; r < static_cast<int>(rows.size()); ++r)
                if (row.figure != Figure::none && rows[static_cast<std::size_t>(r)].figure == row.figure) found.emplace_back(p, r);
        }
        if (found.empty() && !row.only_with_figure) found.emplace_back(-1, -1);
        return found;
    }

    [[nodiscard]] std::vector<LevelRule> level_places(int rule) const {
        std::vector<LevelRule> found;
        if (judgement.wiring)
            for (auto const& r : judgement.wiring->levels)
                if (r.rule == rule) found.push_back(r);
        return found;
    }

    /// The worst truth of the rule; nothing when it stands nowhere.
    [[nodiscard]] std::optional<Truth> truth(std::string_view id) const {
        std::optional<Truth> worst;
        auto add = [&](Truth t) { worst = worst ? both(*worst, t) : t; };
        int const rule = rule_index(id);
        for (auto const& j : places(rule)) add(j.truth);
        for (auto const& r : level_places(rule)) add(r.in_conflict ? Truth::fails : r.alone);
        // One mounting for all levels is what the level network as a whole says.
        if (id == "levels.mounting" && judgement.wiring && !judgement.wiring->levels.empty()) add(judgement.wiring->levels_truth);
        return worst;
    }

    /// What is told of the places where the rule fails.
    [[nodiscard]] std::vector<Finding> refusals(std::string_view id) const {
        Explainer const explainer(*judge, parts, 0, Units::si);
        std::vector<Finding> found;
        for (auto const& j : places(rule_index(id)))
            if (j.truth == Truth::fails) std::ranges::move(explainer.findings(j), std::back_inserter(found));
        if (judgement.wiring)
            for (auto& [instance, f] : explainer.level_findings(*judgement.wiring))
                if (f.state == "fails" && (f.rule == id || id == "levels.mounting")) found.push_back(std::move(f));
        return found;
    }
};

}  // namespace levelswap::cases
