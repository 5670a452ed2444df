#pragma once

#include "levelswap/catalog/part.hpp"
#include "levelswap/document/node.hpp"

#include <string>
#include <vector>

namespace levelswap::reading {

/// A catalogue from files that have been read: parts and packs by their headers.
/// Raises DataError with every problem of every file.
Catalog catalog_of(std::vector<document::Document> const& documents);

/// The same from files on disk, in the order given; the order does not change the result.
Catalog read_catalog_files(std::vector<std::string> const& files);

/// What read_catalog does.
Catalog read_folder(std::string const& directory);

/// A part, and where its id and its references stand.
struct PartEntry {
    Part part;
    SourceSpan where;
    document::Document const* document = nullptr;
};

/// A pack, and where its name stands.
struct PackEntry {
    Pack pack;
    SourceSpan where;
    document::Document const* document = nullptr;
};

class FileReader;

/// The parts of one file with the header parts/1.
std::vector<PartEntry> read_parts(FileReader& reader);
/// The pack of one file with the header pack/1; its name is empty when it cannot be told.
PackEntry read_pack(FileReader& reader);

/// The kinds of source that a fact may have.
std::vector<std::string> source_kinds();

}  // namespace levelswap::reading
