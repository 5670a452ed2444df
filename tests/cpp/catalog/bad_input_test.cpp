// Outside sources: none. The texts in tests/bad_input/catalog are read in review like prose.
#include "catalog/read_catalog.hpp"
#include "support/bad_input.hpp"

namespace levelswap {
namespace {

namespace fs = std::filesystem;

std::vector<Diagnostic> problems_of(fs::path const& file) {
    try {
        reading::catalog_of({document::read_text(bad_input::content(file), file.filename().string())});
    } catch (DataError const& error) {
        return error.diagnostics();
    }
    return {};
}

TEST(bad_catalog_input, every_file_is_refused_with_the_expected_text) { bad_input::expect_every_text("catalog", problems_of); }

TEST(bad_catalog_input, every_catalogue_code_has_a_file_that_shows_it) {
    bad_input::expect_codes("catalog", problems_of,
                            {"LS-C001", "LS-C002", "LS-C003", "LS-C005", "LS-C006", "LS-C007", "LS-C008", "LS-C009", "LS-C010",
                             "LS-C011", "LS-C013", "LS-C016", "LS-C017", "LS-S001"});
}

TEST(bad_catalog_input, a_file_that_its_name_would_hide_is_refused_with_the_expected_text) {
    auto const folder = fs::path(LEVELSWAP_TEST_DATA) / "bad_input" / "folder";
    try {
        read_catalog(folder.string());
        ADD_FAILURE() << "a file named *.yml was passed over in silence";
    } catch (DataError const& error) {
        auto diagnostics = error.diagnostics();
        for (auto& d : diagnostics) d.where.file = fs::path(d.where.file).lexically_relative(folder).generic_string();
        bad_input::expect_text(render(diagnostics), fs::path(folder).replace_extension(".expected"));
    }
}

}  // namespace
}  // namespace levelswap
