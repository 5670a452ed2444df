#include "read_site.hpp"

#include "catalog/read_facts.hpp"
#include "document/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace levelswap {

namespace reading {

using document::shown_text;

namespace {

/// Facts that the site file states.
Provenance site_provenance() { return {"site", false}; }

class SiteReader {
public:
    SiteReader(FileReader& reader, Catalog const& catalog) : reader_(reader), catalog_(catalog) {}

    Site read() {
        Node const& root = reader_.root();
        reader_.only_keys(root, {"levelswap", "name", "about", "vessel", "stations", "circuits", "lines", "functions", "packs", "jurisdiction"}, "a site file");
        site_.file = reader_.document().file;
        if (Node const* name = reader_.required(root, "name", "the site"))
            if (std::string const* text = reader_.text(*name, "\"name\"")) site_.name = *text;
        if (Node const* named = root.find("jurisdiction"); named != nullptr && named->text != "unknown") site_.jurisdiction = jurisdiction_of(reader_, *named);
        if (Node const* vessel = reader_.required(root, "vessel", "the site"))
            if (reader_.expect_map(*vessel, "\"vessel\"")) read_facts_into(site_.vessel, reader_, *vessel, {}, site_provenance(), "the vessel");
        if (Node const* lines = root.find("lines")) each(*lines, "a feed line", &SiteReader::line);
        Node const* stations = reader_.required(root, "stations", "the site");
        if (stations != nullptr) each(*stations, "a station", &SiteReader::station);
        if (Node const* circuits = root.find("circuits")) each(*circuits, "a circuit", &SiteReader::circuit);
        if (Node const* packs = root.find("packs")) read_packs(*packs);
        // Without stations every function would only repeat that its position is missing.
        if (stations != nullptr && stations->is_map()) read_functions(reader_, catalog_, site_, unread_);
        share_lines();
        check_heat(reader_, site_);
        check_rods(reader_, site_);
        return std::move(site_);
    }

private:
    FileReader& reader_;
    Catalog const& catalog_;
    Site site_;
    std::map<std::string, SourceSpan> owners_;  ///< stations, circuits and lines
    Words unread_;                              ///< positions of which it is not known what they hold

    void each(Node const& map, std::string_view what, void (SiteReader::*one)(std::string const&, Node const&)) {
        if (!reader_.expect_map(map, fmt::format("the list of {}s", what.substr(2)))) return;
        for (std::size_t i = 0; i < map.items.size(); ++i) {
            SourceSpan const& where = map.key_spans[i];
            bool const named = reader_.is_plain_id(where, map.keys[i], what);
            if (named) {
                auto const [before, is_new] = owners_.emplace(map.keys[i], where);
                if (!is_new)
                    reader_.clash("LS-C004", where, reader_.document(), before->second,
                                  fmt::format("\"{}\" names two things of the site", map.keys[i]), "rename one of the two");
            }
            if (reader_.expect_map(map.items[i], fmt::format("\"{}\"", shown_text(map.keys[i])))) (this->*one)(map.keys[i], map.items[i]);
        }
    }

    void station(std::string const& name, Node const& node) {
        Station station;
        station.name = name;
        read_facts_into(station.facts, reader_, node, {"glass_on", "line", "positions"}, site_provenance(),
                        fmt::format("the station \"{}\"", shown_text(name)));
        if (Node const* datum = node.find("glass_on"))
            station.glass_on_vessel = reader_.one_of(*datum, "glass_on", {"column", "vessel"}) != 0;
        else ask_for_datum(node, name);
        station.line = named_line(node);
        auto const index = static_cast<int>(site_.stations.size());
        read_positions(node, name, 0, station_role_count, [&](Role role, int position) {
            site_.positions[static_cast<std::size_t>(position)].station = index;
            station.positions[static_cast<std::size_t>(role)] = position;
        });
        site_.stations.push_back(std::move(station));
    }

    /// A tank is filled through one line, whichever of the two names it: the station of its float valve or probes, or the
    /// circuit of the make-up.
    void share_lines() {
        for (Function const& f : site_.functions) {
            int const at = f.now.position < 0 ? -1 : site_.positions[static_cast<std::size_t>(f.now.position)].station;
            if (f.duty != Duty::make_up || at < 0 || f.circuit < 0) continue;
            int &by_station = site_.stations[static_cast<std::size_t>(at)].line, &by_circuit = site_.circuits[static_cast<std::size_t>(f.circuit)].line;
            if (by_station < 0) by_station = by_circuit;
            else if (by_circuit < 0) by_circuit = by_station;
        }
    }

    /// A glass that is taken to stand on the vessel while it moves with its column, or the other way round, is read wrong.
    void ask_for_datum(Node const& node, std::string const& name) {
        Node const* positions = node.find("positions");
        Node const* glass = positions == nullptr ? nullptr : positions->find(name_of(Role::glass));
        if (glass == nullptr) return;
        reader_.problem("LS-S010", glass->where, fmt::format("the station \"{}\" has a glass, and no key \"glass_on\"", shown_text(name)),
                        "what the levels of the glass are measured from: column, its face centre; or vessel, the vessel datum",
                        "add \"glass_on: column\" or \"glass_on: vessel\" to the station");
    }

    void line(std::string const& name, Node const& node) {
        Line line;
        line.name = name;
        read_facts_into(line.facts, reader_, node, {"positions"}, site_provenance(),
                        fmt::format("the feed line \"{}\"", shown_text(name)));
        auto const index = static_cast<int>(site_.lines.size());
        read_positions(node, name, circuit_role_end, role_count, [&](Role role, int position) {
            site_.positions[static_cast<std::size_t>(position)].line = index;
            line.positions[static_cast<std::size_t>(role) - circuit_role_end] = position;
        });
        site_.lines.push_back(std::move(line));
    }

    /// The feed line that a station or a circuit names, or −1.
    int named_line(Node const& node) {
        Node const* named = node.find("line");
        std::string const* name = named == nullptr ? nullptr : reader_.text(*named, "\"line\"");
        if (name == nullptr) return -1;
        Words names;
        for (Line const& l : site_.lines) names.push_back(l.name);
        auto const at = std::find(names.begin(), names.end(), *name);
        if (at != names.end()) return static_cast<int>(at - names.begin());
        reader_.problem("LS-S011", named->where, fmt::format("there is no feed line \"{}\"", shown_text(*name)),
                        fmt::format("one of {}", listed(names)), suggestion(*name, names));
        return -1;
    }

    void circuit(std::string const& name, Node const& node) {
        Circuit circuit;
        circuit.name = name;
        read_facts_into(circuit.facts, reader_, node, {"coils", "line", "positions"}, site_provenance(),
                        fmt::format("the circuit \"{}\"", shown_text(name)));
        if (Node const* coils = node.find("coils")) read_coils(*coils, node, circuit);
        circuit.line = named_line(node);
        auto const index = static_cast<int>(site_.circuits.size());
        read_positions(node, name, station_role_count, circuit_role_end, [&](Role role, int position) {
            site_.positions[static_cast<std::size_t>(position)].circuit = index;
            circuit.positions[static_cast<std::size_t>(role) - station_role_count] = position;
        });
        site_.circuits.push_back(std::move(circuit));
    }

    /// Sums the coils of a circuit; `coil: {inrush, holding}` states the sum itself.
    void read_coils(Node const& coils, Node const& node, Circuit& circuit) {
        if (Node const* sum = node.find("coil")) {
            reader_.clash("LS-S008", sum->where, reader_.document(), coils.where,
                          "the load of the coils is stated as a sum and coil by coil", "keep one of the two");
            return;
        }
        bool const word = coils.is_scalar() && (coils.text == "none" || coils.text == "unknown");
        if (!word && !reader_.expect_map(coils, "\"coils\"")) return;
        for (Attribute const a : {Attribute::coil_inrush, Attribute::coil_holding}) {
            Fact fact = coils.text == "none" || (coils.is_map() && coils.items.empty()) ? absent_fact(a) : unknown_fact(a);
            fact.origin = std::make_shared<Origin const>(Origin{coils.where, coils.text, "site", false});
            circuit.facts.set(a, std::move(fact));
        }
        if (!word && !coils.items.empty()) sum_coils(coils, circuit);
    }

    void sum_coils(Node const& coils, Circuit& circuit) {
        std::vector<Fact> inrush, holding;
        for (std::size_t i = 0; i < coils.items.size(); ++i) {
            Node const& coil = coils.items[i];
            std::string const what = fmt::format("the coil \"{}\"", shown_text(coils.keys[i]));
            if (!reader_.expect_map(coil, what)) continue;
            reader_.only_keys(coil, {"inrush", "holding"}, what);
            inrush.push_back(load(coil, "inrush", Attribute::coil_inrush));
            holding.push_back(load(coil, "holding", Attribute::coil_holding));
        }
        circuit.several_coils = coils.items.size() > 1;
        set_sum(coils, circuit, inrush, Attribute::coil_inrush);
        set_sum(coils, circuit, holding, Attribute::coil_holding);
    }

    Fact load(Node const& coil, std::string_view key, Attribute attribute) {
        Node const* node = coil.find(key);
        auto fact = node == nullptr ? std::nullopt : read_fact(reader_, *node, row_of(attribute), site_provenance());
        return fact ? std::move(*fact) : unknown_fact(attribute);
    }

    void set_sum(Node const& coils, Circuit& circuit, std::vector<Fact> const& loads, Attribute attribute) {
        Fact sum = sum_of(loads, attribute);
        std::string text;
        for (Fact const& f : loads) text += (text.empty() ? "" : " + ") + (f.origin ? f.origin->text : std::string("unknown"));
        sum.origin = std::make_shared<Origin const>(Origin{coils.where, text, "site", false});
        circuit.facts.set(attribute, std::move(sum));
    }

    template <class Place>
    void read_positions(Node const& owner, std::string const& owner_name, int first, int end, Place place) {
        Node const* map = owner.find("positions");
        if (map == nullptr || !reader_.expect_map(*map, "\"positions\"")) return;
        Words roles;
        for (int r = first; r < end; ++r) roles.emplace_back(name_of(static_cast<Role>(r)));
        for (std::size_t i = 0; i < map->items.size(); ++i) {
            auto const at = std::find(roles.begin(), roles.end(), map->keys[i]);
            if (at == roles.end()) {
                reader_.problem("LS-S006", map->key_spans[i], fmt::format("\"{}\" has no position \"{}\"", shown_text(owner_name), shown_text(map->keys[i])),
                                fmt::format("one of {}", listed(roles)), suggestion(map->keys[i], roles));
                continue;
            }
            auto const role = static_cast<Role>(first + (at - roles.begin()));
            Position position;
            position.name = fmt::format("{}.{}", owner_name, name_of(role));
            position.role = role;
            position.where = map->key_spans[i];
            fill(position, map->items[i]);
            site_.positions.push_back(std::move(position));
            place(role, static_cast<int>(site_.positions.size()) - 1);
        }
    }

    void fill(Position& position, Node const& node) {
        std::string const what = fmt::format("the position \"{}\"", position.name);
        if (!reader_.expect_map(node, what)) return;
        reader_.only_keys(node, {"holds", "measured"}, what);
        Node const* holds = reader_.required(node, "holds", what);
        bool const found = holds != nullptr && find_part(position, *holds);
        if (!found) unread_.push_back(position.name);
        Node const* measured = node.find("measured");
        if (measured == nullptr || !found || !reader_.expect_map(*measured, "\"measured\"")) return;
        if (position.holds == nothing) {
            reader_.problem("LS-C003", measured->where, fmt::format("{} holds nothing that could be measured", what), {},
                            "name the part it holds, or delete the measurements");
            return;
        }
        read_measured(position, *measured);
    }

    /// True when the position holds a part that it accepts, or nothing.
    bool find_part(Position& position, Node const& holds) {
        std::string const* id = reader_.text(holds, "\"holds\"");
        if (id == nullptr) return false;
        if (*id == "nothing") return true;
        int const part = catalog_.find(*id);
        if (part < 0) {
            reader_.problem("LS-S001", holds.where, fmt::format("there is no part \"{}\" in the catalogue", shown_text(*id)),
                            "the id of a part of the catalogue, or nothing", suggestion(*id, catalog_.ids()));
            return false;
        }
        auto const kinds = accepted_kinds(position.role);
        Owner const kind = catalog_.parts[static_cast<std::size_t>(part)].kind;
        if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) {
            Words names;
            for (Owner const k : kinds) names.emplace_back(name_of(k));
            reader_.problem("LS-S002", holds.where, fmt::format("\"{}\" is a {}; \"{}\" does not accept one", *id, name_of(kind), position.name),
                            fmt::format("a {}", fmt::join(names, " or a ")));
            return false;
        }
        position.holds = part;
        return true;
    }

    void read_measured(Position& position, Node const& measured) {
        Part const& part = catalog_.parts[static_cast<std::size_t>(position.holds)];
        Words const own_keys = has_outputs(part.kind) ? Words{"outputs"} : Words{};
        position.measured = narrowed(measured, part.facts, own_keys, fmt::format("the part \"{}\"", part.id), part.id);
        Node const* outputs = measured.find("outputs");
        if (own_keys.empty() || outputs == nullptr || !reader_.expect_map(*outputs, "\"outputs\"")) return;
        Words names;
        for (Output const& o : part.outputs) names.push_back(o.name);
        for (std::size_t i = 0; i < outputs->items.size(); ++i) {
            std::string const &name = outputs->keys[i];
            auto const at = std::find(names.begin(), names.end(), name) - names.begin();
            if (at == static_cast<std::ptrdiff_t>(names.size())) {
                reader_.problem("LS-S005", outputs->key_spans[i], fmt::format("\"{}\" has no output \"{}\"", part.id, shown_text(name)),
                                fmt::format("one of {}", listed(names)), suggestion(name, names));
                continue;
            }
            std::string const what = fmt::format("the output \"{}\" of \"{}\"", name, part.id);
            if (!reader_.expect_map(outputs->items[i], what)) continue;
            for (auto& [attribute, fact] : narrowed(outputs->items[i], part.outputs[static_cast<std::size_t>(at)].facts, {}, what, fmt::format("{}, output {}", part.id, name)))
                position.measured_outputs.push_back({static_cast<int>(at), attribute, std::move(fact)});
        }
    }

    /// What was measured together with what is stated, of one owner.
    std::vector<std::pair<Attribute, Fact>> narrowed(Node const& measured, FactTable const& of, Words const& own_keys, std::string const& what,
                                                     std::string const& owner) {
        std::vector<std::pair<Attribute, Fact>> found;
        FactTable known = of;
        for (WrittenFact& w : read_facts(reader_, measured, of.owner(), own_keys, {"measured", false}, what)) {
            Fact const& stated = *of.find(w.attribute);
            auto both = intersection(stated, w.fact, row_of(w.attribute).kind);
            if (both) {
                known.set(w.attribute, *both);
                found.emplace_back(w.attribute, std::move(*both));
                continue;
            }
            // The lines of the catalogue's file have been let go: the message quotes what it states.
            document::Document other;
            reader_.clash("LS-S008", w.fact.origin->where, other, stated.origin->where,
                          fmt::format("\"{}\" of \"{}\" was measured as {}, but is stated as {}", row_of(w.attribute).name, owner,
                                      shown_text(w.fact.origin->text), shown_text(stated.origin->text)),
                          "measure again; or the part is another one, or the catalogue is wrong");
        }
        check_order(reader_, known, what);
        return found;
    }

    void read_packs(Node const& list) {
        if (!reader_.expect_list(list, "\"packs\"")) return;
        Words names;
        for (Pack const& pack : catalog_.packs) names.push_back(pack.name);
        for (Node const& item : list.items) {
            std::string const* name = reader_.text(item, "a pack");
            if (name == nullptr) continue;
            auto const at = static_cast<int>(std::find(names.begin(), names.end(), *name) - names.begin());
            if (at == static_cast<int>(names.size())) {
                reader_.problem("LS-S007", item.where, fmt::format("there is no pack \"{}\"", shown_text(*name)),
                                fmt::format("one of {}", listed(names)), suggestion(*name, names));
            } else if (std::find(site_.packs.begin(), site_.packs.end(), at) != site_.packs.end()) {
                reader_.problem("LS-C004", item.where, fmt::format("the pack \"{}\" is listed twice", *name), {}, "delete one of the two");
            } else {
                site_.packs.push_back(at);
            }
        }
    }
};

}  // namespace

Site site_of(document::Document const& document, Catalog const& catalog) {
    FileReader reader(document);
    Site site;
    if (reader.has_header("site/1")) site = SiteReader(reader, catalog).read();
    auto problems = reader.take_problems();
    if (!problems.empty()) throw DataError(std::move(problems));
    order_canonically(site);
    return site;
}

}  // namespace reading

Site read_site(std::string const& file, Catalog const& catalog) {
    return reading::site_of(document::read_file(file), catalog);
}

}  // namespace levelswap
