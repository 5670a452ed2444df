#pragma once

#include "file_reader.hpp"
#include "levelswap/catalog/fact.hpp"

#include <optional>

namespace levelswap::reading {

/// What all facts of one entry share: printed with an answer.
struct Provenance {
    std::string kind = "catalogue";
    bool remembered = false;
};

/// A fact as it was written.
struct WrittenFact {
    Attribute attribute;
    Fact fact;
};

/// Reads every attribute of `owner` in the map, groups included; keys in
/// `other_keys` belong to the caller. `what` names the entry in messages.
std::vector<WrittenFact> read_facts(FileReader& reader, Node const& map, Owner owner, Words const& other_keys,
                                    Provenance const& provenance, std::string_view what);

/// The same, put into a table.
void read_facts_into(FactTable& table, FileReader& reader, Node const& map, Words const& other_keys,
                     Provenance const& provenance, std::string_view what);

/// Does the file give a value?
inline bool stated(Fact const* fact) {
    return fact && fact->origin && (fact->nature == Fact::Nature::uncertain || fact->nature == Fact::Nature::varying);
}
/// The value that is reached whatever the true one is: all of what varies occurs, of what is uncertain perhaps the lowest.
inline double surely_reaches(Fact const& fact) { return fact.nature == Fact::Nature::varying ? fact.hi : fact.lo; }

/// Reports facts of one owner that cannot all be true, such as a lower stop above the upper one. Of pairs that this
/// file does not touch nothing is said.
void check_order(FileReader& reader, FactTable const& table, std::string_view what);

/// One value of one attribute; nothing after a problem.
std::optional<Fact> read_fact(FileReader& reader, Node const& node, AttributeRow const& row,
                              Provenance const& provenance);

/// The fact of an attribute that was declared absent.
Fact absent_fact(Attribute attribute);

/// The attribute of that name, or nothing.
std::optional<Attribute> find_attribute(Owner owner, std::string_view name);
Words attribute_names(Owner owner);

/// The words of a choice or a set.
Words choice_words(AttributeRow const& row);

/// A jurisdiction, in plain words so that packs and sites mean the same one; empty after a problem.
std::string jurisdiction_of(FileReader& reader, Node const& node);

/// One plain number of the dimension in quanta; nothing after a problem.
std::optional<double> read_number(FileReader& reader, Node const& node, Dimension dimension, std::string_view what);

}  // namespace levelswap::reading
