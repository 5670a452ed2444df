#pragma once

#include "catalog/file_reader.hpp"
#include "levelswap/assembly/site.hpp"

#include <optional>

namespace levelswap::reading {

/// The same as read_site and read_swap, from a document that has been read.
Site site_of(document::Document const& document, Catalog const& catalog);
Swap swap_of(document::Document const& document);

/// Raises DataError with every entry of the swap that the site or the catalogue does not know.
void check_swap(document::Document const& document, Swap const& swap, Site const& site, Catalog const& catalog);

/// What both sources say together; nothing when they contradict each other.
std::optional<Fact> intersection(Fact const& stated, Fact const& measured, ValueKind kind);

/// The sum of the loads of several coils, each in quanta of the attribute. A
/// load that is not known leaves the sum open above.
Fact sum_of(std::vector<Fact> const& loads, Attribute attribute);

/// Puts stations, circuits, positions, functions and packs in an order that does not depend on the file's, so that
/// the same site gives the same answer to the byte.
void order_canonically(Site& site);

/// Reports water that is said to be hotter than it boils at MAWP, and a tank of steam.
void check_heat(FileReader& reader, Site const& site);
/// Reports rods that end below the vessel that they hang in.
void check_rods(FileReader& reader, Site const& site);

/// Reads the functions once stations and circuits are there. Of an output at one of the `unread` positions nothing
/// is said: what is wrong there has been told.
void read_functions(FileReader& reader, Catalog const& catalog, Site& site, Words const& unread);

}  // namespace levelswap::reading
