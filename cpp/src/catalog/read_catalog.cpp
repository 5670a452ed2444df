#include "read_catalog.hpp"

#include "document/text.hpp"
#include "file_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <tuple>
#include <unordered_map>

namespace levelswap {

namespace reading {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view parts_format = "parts/1";
constexpr std::string_view pack_format = "pack/1";

/// A mistyped id is compared with every id: not for more than this many.
constexpr int most_suggestions = 50;

/// Puts the entries of all files together; problems stay with their file.
class Gatherer {
public:
    void read(document::Document const& document) {
        FileReader reader(document);
        bool const pack = says_pack(document.root);
        if (reader.has_header(pack ? pack_format : parts_format)) {
            if (pack) {
                packs_.push_back(read_pack(reader));
            } else {
                auto entries = read_parts(reader);
                std::move(entries.begin(), entries.end(), std::back_inserter(parts_));
            }
        }
        take(reader);
    }

    Catalog finish() {
        sort_parts();
        sort_packs();
        check_references();
        // By place, so that the order in which files are read does not show.
        std::stable_sort(problems_.begin(), problems_.end(), [](Diagnostic const& x, Diagnostic const& y) {
            return std::tie(x.where.file, x.where.line, x.where.column) < std::tie(y.where.file, y.where.line, y.where.column);
        });
        if (!problems_.empty()) throw DataError(std::move(problems_));
        Catalog catalog;
        catalog.parts.reserve(parts_.size());
        for (PartEntry& entry : parts_) catalog.parts.push_back(std::move(entry.part));
        for (PackEntry& entry : packs_) catalog.packs.push_back(std::move(entry.pack));
        index_parts(catalog);
        return catalog;
    }

    void add(Diagnostic diagnostic) { problems_.push_back(std::move(diagnostic)); }
    [[nodiscard]] bool has_problems() const { return !problems_.empty(); }

private:
    std::vector<PartEntry> parts_;
    std::vector<PackEntry> packs_;
    std::vector<Diagnostic> problems_;

    static bool says_pack(Node const& root) {
        Node const* header = root.find("levelswap");
        return header != nullptr && header->text.starts_with("pack/");
    }

    void take(FileReader& reader) {
        auto found = reader.take_problems();
        std::move(found.begin(), found.end(), std::back_inserter(problems_));
    }

    template <class Entry>
    void twice(Entry const& first, Entry const& second, std::string const& name, std::string_view what) {
        document::Document bare;  // the file's own problems have been taken already
        bare.file = second.document->file;
        bare.lines = second.document->lines;
        FileReader reader(bare);
        reader.clash("LS-C004", second.where, *first.document, first.where,
                     fmt::format("{} \"{}\" is given twice", what, name), "rename or delete one of the two");
        take(reader);
    }

    void sort_parts() {
        std::stable_sort(parts_.begin(), parts_.end(),
                         [](PartEntry const& x, PartEntry const& y) { return x.part.id < y.part.id; });
        for (std::size_t i = 1; i < parts_.size(); ++i)
            if (parts_[i - 1].part.id == parts_[i].part.id)
                twice(parts_[i - 1], parts_[i], parts_[i].part.id, "the part");
    }

    void sort_packs() {
        std::stable_sort(packs_.begin(), packs_.end(),
                         [](PackEntry const& x, PackEntry const& y) { return x.pack.name < y.pack.name; });
        for (std::size_t i = 1; i < packs_.size(); ++i)
            if (packs_[i - 1].pack.name == packs_[i].pack.name && !packs_[i].pack.name.empty())
                twice(packs_[i - 1], packs_[i], packs_[i].pack.name, "the pack");
    }

    void check_references() {
        std::unordered_map<std::string_view, Owner> kinds;
        for (PartEntry const& entry : parts_) kinds.emplace(entry.part.id, entry.part.kind);
        int suggestions = 0;
        for (PartEntry const& entry : parts_) {
            for (Attribute const named : {Attribute::stated_float, Attribute::stated_head, Attribute::swing_as}) {
                Fact const* const found = entry.part.facts.find(named);
                if (!found || found->reference.empty()) continue;
                Fact const& fact = *found;
                bool const head = named != Attribute::stated_float;
                auto const at = kinds.find(fact.reference);
                if (at != kinds.end() && suits(at->second, head)) continue;
                wrong_reference(entry, fact, head, at != kinds.end(), ++suggestions <= most_suggestions);
            }
        }
    }

    static bool suits(Owner kind, bool head) {
        return head ? kind == Owner::float_head || kind == Owner::float_half : kind == Owner::float_;
    }

    void wrong_reference(PartEntry const& entry, Fact const& fact, bool head, bool known, bool suggest) {
        std::string const shown = document::shown_text(fact.reference);
        std::string const wanted = head ? "head" : "float", expected = "the id of a " + wanted + " of the catalogue";
        if (known) {
            problems_.push_back(entry.document->problem("LS-C013", fact.origin->where, fmt::format("\"{}\" is not a {}", shown, wanted), expected));
            return;
        }
        Words suiting;
        if (suggest)
            for (PartEntry const& other : parts_)
                if (suits(other.part.kind, head)) suiting.push_back(other.part.id);
        problems_.push_back(entry.document->problem("LS-S001", fact.origin->where, fmt::format("there is no part \"{}\"", shown),
                                                    expected, suggestion(fact.reference, suiting)));
    }
};

/// The files *.yaml of a folder, by name; none when there is no such folder.
std::vector<std::string> yaml_files(fs::path const& folder) {
    std::vector<std::string> files;
    std::error_code failed;
    for (fs::directory_iterator it(folder, failed), end; !failed && it != end; it.increment(failed)) {
        if (it->path().extension() == ".yaml" && it->is_regular_file(failed)) files.push_back(it->path().generic_string());
    }
    std::sort(files.begin(), files.end());
    return files;
}

/// A file *.yml looks like one of ours and would be missed without a word.
void refuse_other_names(Gatherer& gatherer, fs::path const& folder) {
    std::error_code failed;
    for (fs::directory_iterator it(folder, failed), end; !failed && it != end; it.increment(failed)) {
        if (it->path().extension() != ".yml") continue;
        Diagnostic d;
        d.code = "LS-C015";
        d.where.file = it->path().generic_string();
        d.message = fmt::format("\"{}\" would not be read: files are found by the name *.yaml", document::shown_text(it->path().filename().string()));
        d.expected = "files named *.yaml";
        d.hint = fmt::format("rename it to {}.yaml, or take it out of the folder", document::shown_text(it->path().stem().string()));
        gatherer.add(std::move(d));
    }
}

[[noreturn]] void refuse_folder(std::string const& directory, std::string_view code, std::string message, std::string hint) {
    Diagnostic d;
    d.code = code;
    d.where.file = directory;
    d.message = std::move(message);
    d.expected = "a folder that holds parts/*.yaml, and packs/*.yaml if there are rule packs";
    d.hint = std::move(hint);
    throw DataError({std::move(d)});
}

/// The header that the folder asks for; a pack among the parts is a slip that hides it.
void check_folder(Gatherer& gatherer, document::Document const& document, std::string_view format) {
    FileReader reader(document);
    if (reader.has_header(format)) return;
    for (Diagnostic& d : reader.take_problems()) gatherer.add(std::move(d));
}

bool has_header(document::Document const& document, std::string_view format) {
    Node const* header = document.root.find("levelswap");
    return header != nullptr && document.root.keys.front() == "levelswap" && header->text == format;
}

}  // namespace

Catalog catalog_of(std::vector<document::Document> const& documents) {
    Gatherer gatherer;
    for (document::Document const& document : documents) gatherer.read(document);
    return gatherer.finish();
}

Catalog read_catalog_files(std::vector<std::string> const& files) {
    std::vector<document::Document> documents;
    documents.reserve(files.size());
    for (std::string const& file : files) documents.push_back(document::read_file(file));
    return catalog_of(documents);
}

Catalog read_folder(std::string const& directory) {
    std::error_code failed;
    if (!fs::is_directory(directory, failed))
        refuse_folder(directory, "LS-D001", fmt::format("\"{}\" is not a folder", document::shown_text(directory)), "check the path");
    auto const parts = yaml_files(fs::path(directory) / "parts");
    auto const packs = yaml_files(fs::path(directory) / "packs");
    Gatherer gatherer;
    for (char const* folder : {"parts", "packs", "sites", "swaps"}) refuse_other_names(gatherer, fs::path(directory) / folder);
    if (parts.empty() && !gatherer.has_problems())
        refuse_folder(directory, "LS-C014", fmt::format("the folder \"{}/parts\" holds no part files", document::shown_text(directory)), "put part files named *.yaml there");
    std::vector<document::Document> documents;
    documents.reserve(parts.size() + packs.size());  // entries point at them
    for (bool const is_pack : {false, true}) {
        std::string_view const format = is_pack ? pack_format : parts_format;
        for (std::string const& file : is_pack ? packs : parts) {
            documents.push_back(document::read_file(file));
            if (has_header(documents.back(), format)) gatherer.read(documents.back());
            else check_folder(gatherer, documents.back(), format);
        }
    }
    Catalog catalog = gatherer.finish();
    catalog.directory = directory;
    return catalog;
}

}  // namespace reading

Catalog read_catalog(std::string const& directory) { return reading::read_folder(directory); }

}  // namespace levelswap
