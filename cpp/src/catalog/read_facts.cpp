#include "read_facts.hpp"

#include "standard_tables.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <unordered_map>
#include <vector>

namespace levelswap::reading {


namespace {

/// The names of one owner: attributes by dotted name, groups by the word before the dot.
struct Names {
    std::unordered_map<std::string_view, Attribute> attributes;
    std::unordered_map<std::string_view, std::vector<Attribute>> groups;
};

Names const& names_of(Owner owner) {
    static std::array<Names, owner_count> const tables = [] {
        std::array<Names, owner_count> made;
        for (int o = 0; o < owner_count; ++o) {
            for (AttributeRow const& row : attributes()) {
                if (!belongs(row, static_cast<Owner>(o))) continue;
                Names& names = made[static_cast<std::size_t>(o)];
                names.attributes.emplace(row.name, row.id);
                std::size_t const dot = row.name.find('.');
                if (dot != std::string_view::npos) names.groups[row.name.substr(0, dot)].push_back(row.id);
            }
        }
        return made;
    }();
    return tables[static_cast<std::size_t>(owner)];
}

/// What may stand in the map itself, in the order of the table.
Words outer_keys(Owner owner, Words const& other_keys) {
    Words keys;
    for (AttributeRow const& row : attributes()) {
        if (!belongs(row, owner)) continue;
        std::string key(row.name.substr(0, row.name.find('.')));
        if (keys.empty() || keys.back() != key) keys.push_back(std::move(key));
    }
    keys.insert(keys.end(), other_keys.begin(), other_keys.end());
    return keys;
}

Words inner_keys(std::vector<Attribute> const& group) {
    Words keys;
    for (Attribute const a : group) keys.emplace_back(row_of(a).name.substr(row_of(a).name.find('.') + 1));
    return keys;
}


/// Reads the entries of one map for one owner.
class EntryReader {
public:
    EntryReader(FileReader& reader, Owner owner, Words const& other_keys, Provenance const& provenance,
                std::string_view what)
        : reader_(reader), owner_(owner), names_(names_of(owner)), other_keys_(other_keys), provenance_(provenance),
          what_(what) {}

    std::vector<WrittenFact> read(Node const& map) {
        for (std::size_t i = 0; i < map.keys.size(); ++i) entry(map.keys[i], map.key_spans[i], map.items[i]);
        use_standard_tables(reader_, found_, what_);
        return std::move(found_);
    }

private:
    FileReader& reader_;
    Owner owner_;
    Names const& names_;
    Words const& other_keys_;
    Provenance const& provenance_;
    std::string_view what_;
    std::vector<WrittenFact> found_;

    void entry(std::string const& key, SourceSpan const& where, Node const& value) {
        auto const attribute = names_.attributes.find(key);
        if (attribute != names_.attributes.end() && key.find('.') == std::string::npos) {
            one(attribute->second, value);
        } else if (auto const group = names_.groups.find(key); group != names_.groups.end()) {
            whole_group(key, group->second, value);
        } else if (std::find(other_keys_.begin(), other_keys_.end(), key) == other_keys_.end()) {
            not_known(key, where);
        }
    }

    void one(Attribute attribute, Node const& value) {
        if (auto fact = read_fact(reader_, value, row_of(attribute), provenance_))
            found_.push_back({attribute, std::move(*fact)});
    }

    void whole_group(std::string const& key, std::vector<Attribute> const& group, Node const& value) {
        if (value.is_scalar() && (value.text == "none" || value.text == "unknown")) {
            auto const origin = std::make_shared<Origin const>(
                Origin{value.where, value.text, provenance_.kind, provenance_.remembered});
            for (Attribute const a : group) {
                Fact fact = value.text == "none" ? absent_fact(a) : unknown_fact(a);
                fact.origin = origin;
                found_.push_back({a, std::move(fact)});
            }
            return;
        }
        if (!value.is_map()) {
            reader_.problem("LS-C003", value.where, fmt::format("\"{}\" is not a map", key),
                            fmt::format("entries such as {}; or none, or unknown", listed(inner_keys(group))));
            return;
        }
        for (std::size_t i = 0; i < value.keys.size(); ++i) {
            auto const inner = names_.attributes.find(fmt::format("{}.{}", key, value.keys[i]));
            if (inner != names_.attributes.end()) {
                one(inner->second, value.items[i]);
            } else {
                reader_.unknown_key(value.key_spans[i], value.keys[i], inner_keys(group),
                                    fmt::format("\"{}\" of {}", key, what_));
            }
        }
    }

    void not_known(std::string const& key, SourceSpan const& where) {
        if (names_.attributes.contains(key)) {
            std::size_t const dot = key.find('.');
            reader_.problem("LS-C001", where, fmt::format("\"{}\" is written with a dot", key), "groups as nested maps",
                            fmt::format("write {}: {{{}: ...}}", key.substr(0, dot), key.substr(dot + 1)));
        } else {
            reader_.unknown_key(where, key, outer_keys(owner_, other_keys_), what_);
        }
    }
};

}  // namespace

std::vector<WrittenFact> read_facts(FileReader& reader, Node const& map, Owner owner, Words const& other_keys,
                                    Provenance const& provenance, std::string_view what) {
    return EntryReader(reader, owner, other_keys, provenance, what).read(map);
}

void read_facts_into(FactTable& table, FileReader& reader, Node const& map, Words const& other_keys,
                     Provenance const& provenance, std::string_view what) {
    for (WrittenFact& w : read_facts(reader, map, table.owner(), other_keys, provenance, what))
        table.set(w.attribute, std::move(w.fact));
    check_order(reader, table, what);
}

std::optional<Attribute> find_attribute(Owner owner, std::string_view name) {
    auto const at = names_of(owner).attributes.find(name);
    return at == names_of(owner).attributes.end() ? std::nullopt : std::optional(at->second);
}

Words attribute_names(Owner owner) {
    Words names;
    for (AttributeRow const& row : attributes())
        if (belongs(row, owner)) names.emplace_back(row.name);
    return names;
}

}  // namespace levelswap::reading
