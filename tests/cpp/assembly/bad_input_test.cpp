// Outside sources: none. The texts in tests/bad_input/assembly are read in review like prose.
#include "assembly/read_site.hpp"
#include "small_catalog.hpp"
#include "support/bad_input.hpp"

namespace levelswap {
namespace {

/// What a swap that can be read is checked against.
Site site_to_swap_at() {
    return reading::site_of(document::read_text("levelswap: site/1\nname: north quay boiler\nvessel: {}\n"
                                                "stations: {primary: {positions: {float: {holds: ball float}, switch_set: {holds: old set}}}}\n",
                                                "north.yaml"),
                            small_catalog());
}

std::vector<Diagnostic> problems_of(std::filesystem::path const& file) {
    try {
        auto const document = document::read_text(bad_input::content(file), file.filename().string());
        if (document.root.find("levelswap")->text == "swap/1")
            reading::check_swap(document, reading::swap_of(document), site_to_swap_at(), small_catalog());
        else
            reading::site_of(document, small_catalog());
    } catch (DataError const& error) {
        return error.diagnostics();
    }
    return {};
}

TEST(bad_site_or_swap_input, every_file_is_refused_with_the_expected_text) { bad_input::expect_every_text("assembly", problems_of); }

TEST(bad_site_or_swap_input, every_site_code_has_a_file_that_shows_it) {
    bad_input::expect_codes("assembly", problems_of,
                            {"LS-C001", "LS-C002", "LS-C003", "LS-C004", "LS-C005", "LS-C016", "LS-S001", "LS-S002", "LS-S003",
                             "LS-S004", "LS-S005", "LS-S006", "LS-S007", "LS-S008", "LS-S009", "LS-S010"});
}

}  // namespace
}  // namespace levelswap
