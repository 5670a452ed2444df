#include "read_catalog.hpp"
#include "read_facts.hpp"

#include "document/text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace levelswap::reading {

namespace {

Words kind_names() {
    Words names;
    for (int i = 0; i < kind_count; ++i) names.emplace_back(name_of(static_cast<Owner>(i)));
    return names;
}

std::optional<Owner> read_kind(FileReader& reader) {
    Node const* node = reader.required(reader.root(), "kind", "the file");
    std::string const* word = node == nullptr ? nullptr : reader.text(*node, "\"kind\"");
    if (word == nullptr) return std::nullopt;
    auto const kind = find_kind(*word);
    if (!kind) {
        reader.problem("LS-C007", node->where, fmt::format("\"{}\" is no kind of part", document::shown_text(*word)),
                       fmt::format("one of {}", listed(kind_names())), suggestion(*word, kind_names()));
    }
    return kind;
}

/// Reads the parts of one file, all of one kind.
class PartsReader {
public:
    PartsReader(FileReader& reader, Owner kind) : reader_(reader), kind_(kind) {
        own_keys_ = {"about", "source", "known"};
        if (has_outputs(kind)) own_keys_.emplace_back("outputs");
    }

    std::vector<PartEntry> read(Node const& parts) {
        std::vector<PartEntry> entries;
        entries.reserve(parts.items.size());
        for (std::size_t i = 0; i < parts.items.size(); ++i) {
            bool const named = reader_.is_plain_id(parts.key_spans[i], parts.keys[i], "a part");
            PartEntry entry = one(parts.keys[i], parts.items[i]);
            entry.where = parts.key_spans[i];
            entry.document = &reader_.document();
            if (named) entries.push_back(std::move(entry));
        }
        return entries;
    }

private:
    FileReader& reader_;
    Owner kind_;
    Words own_keys_;

    PartEntry one(std::string const& id, Node const& node) {
        PartEntry entry;
        entry.part.id = id;
        entry.part.kind = kind_;
        entry.part.facts = FactTable(kind_);
        std::string const what = fmt::format("the part \"{}\"", document::shown_text(id));
        if (!reader_.expect_map(node, what)) return entry;
        entry.part.about = reader_.optional_text(node, "about");
        Provenance const provenance = provenance_of(node);
        read_facts_into(entry.part.facts, reader_, node, own_keys_, provenance, what);
        if (has_outputs(kind_)) entry.part.outputs = outputs(node, provenance, what);
        check_stroke(entry.part, what);
        return entry;
    }

    /// Outputs that act further apart than the stroke of their own bay are no outputs of that bay.
    void check_stroke(Part const& part, std::string const& what) {
        auto known = [](Fact const* f) { return f && f->origin && (f->nature == Fact::Nature::uncertain || f->nature == Fact::Nature::varying); };
        Fact const *stroke = part.facts.find(Attribute::bay_stroke), *lowest = nullptr, *highest = nullptr;
        if (!known(stroke)) return;
        for (Output const& o : part.outputs)
            for (Attribute const a : {Attribute::trip, Attribute::reset, Attribute::end_low, Attribute::end_high})
                if (Fact const* f = o.facts.find(a); known(f)) {
                    if (!lowest || f->hi < lowest->hi) lowest = f;
                    if (!highest || f->lo > highest->lo) highest = f;
                }
        if (!lowest || highest->lo - lowest->hi <= stroke->hi) return;
        reader_.clash("LS-C016", highest->origin->where, reader_.document(), lowest->origin->where,
                      fmt::format("outputs of {} act at {} and at {} of bay travel, further apart than \"bay.stroke\" ({})", what,
                                  document::shown_text(lowest->origin->text), document::shown_text(highest->origin->text),
                                  document::shown_text(stroke->origin->text)),
                      "check the figures, their signs and their units; one of them is wrong");
    }

    Provenance provenance_of(Node const& node) {
        Provenance found;
        if (Node const* source = node.find("source")) {
            int const at = reader_.one_of(*source, "source", source_kinds());
            if (at >= 0) found.kind = source_kinds()[static_cast<std::size_t>(at)];
        }
        if (Node const* known = node.find("known"))
            found.remembered = reader_.one_of(*known, "known", {"read", "remembered"}) == 1;
        return found;
    }

    std::vector<Output> outputs(Node const& node, Provenance const& provenance, std::string const& what) {
        std::vector<Output> found;
        Node const* map = reader_.required(node, "outputs", what);
        if (map == nullptr || !reader_.expect_map(*map, "\"outputs\"")) return found;
        if (map->items.empty())
            reader_.problem("LS-C002", map->where, fmt::format("{} has no output", what), "at least one output");
        for (std::size_t i = 0; i < map->items.size(); ++i) {
            std::string const& name = map->keys[i];
            Output output{name, FactTable(Owner::output)};
            std::string const said = fmt::format("the output \"{}\"", document::shown_text(name));
            bool const named = reader_.is_plain_id(map->key_spans[i], name, "an output");
            if (reader_.expect_map(map->items[i], said))
                read_facts_into(output.facts, reader_, map->items[i], {}, provenance, said);
            if (named) found.push_back(std::move(output));
        }
        // As parts and positions stand in an order of their own: whatever order a file has, the answer is the same.
        std::sort(found.begin(), found.end(), [](Output const& x, Output const& y) { return x.name < y.name; });
        return found;
    }
};

}  // namespace

std::vector<std::string> source_kinds() { return {"catalogue", "data plate", "measured", "standard table", "assumed"}; }

std::vector<PartEntry> read_parts(FileReader& reader) {
    reader.only_keys(reader.root(), {"levelswap", "kind", "parts"}, "a parts file");
    auto const kind = read_kind(reader);
    Node const* parts = reader.required(reader.root(), "parts", "the file");
    if (parts == nullptr || !reader.expect_map(*parts, "\"parts\"") || !kind) return {};
    return PartsReader(reader, *kind).read(*parts);
}

}  // namespace levelswap::reading
