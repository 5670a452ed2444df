// Every rule of the table is judged on cases that hold, that fail and that cannot be told (tests/cases/README.md).
// Where a refusal states numbers, the case states them too, worked by hand.

#include "rule_case.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

namespace levelswap::cases {
namespace {

using namespace testing;

/// Rules that can never be undecided, and why.
std::map<std::string, std::string> const never_undecided = {
    {"insertion.one_part", "it reads only whether positions of the station hold a part or nothing"},
    {"probes.relay", "it reads only whether the positions of holder and relay hold a part or nothing"},
    {"contacts.shared_relay", "it reads only whether a position of the site holds a relay, and a position holds a part or nothing"},
};

std::vector<fs::path> case_files() {
    std::vector<fs::path> files;
    for (auto const& entry : fs::recursive_directory_iterator(cases_folder())) {
        auto const inside = fs::relative(entry.path(), cases_folder());
        if (entry.path().extension() == ".yaml" && *inside.begin() != "base") files.push_back(inside);
    }
    std::sort(files.begin(), files.end());
    return files;
}

std::string word_of(Truth t) { return t == Truth::fails ? "fails" : t == Truth::undecided ? "undecided" : "holds"; }

/// The words of a figure; "at least" and "at most" are the rule's, not the case's.
std::vector<std::string> words_of(std::string text) {
    if (text.starts_with("at ")) text.erase(0, text.find(' ', 3) + 1);
    std::istringstream in(text);
    return {std::istream_iterator<std::string>(in), {}};
}

/// Two figures agree in their units and in three digits of their numbers.
bool agree(std::string const& told, std::string const& by_hand) {
    auto const x = words_of(told), y = words_of(by_hand);
    auto same = [](std::string const& a, std::string const& b) {
        char *end_a = nullptr, *end_b = nullptr;
        double const p = std::strtod(a.c_str(), &end_a), q = std::strtod(b.c_str(), &end_b);
        bool const numbers = *end_a == 0 && *end_b == 0;
        return numbers ? std::abs(p - q) <= 0.005 * std::abs(q) : a == b;
    };
    return x.size() == y.size() && std::equal(x.begin(), x.end(), y.begin(), same);
}

void expect_figures_by_hand(RuleCase const& c, std::vector<Finding> const& refusals) {
    auto const at = std::find_if(refusals.begin(), refusals.end(), [&](Finding const& f) {
        return !f.margin.empty() && (c.finding.empty() || f.quantity == c.finding);
    });
    if (at == refusals.end()) {
        EXPECT_EQ(c.margin + c.required + c.available, "") << "the refusal states no numbers";
        return;
    }
    ASSERT_NE(c.margin, "") << at->quantity << ": required " << at->required << ", available " << at->available
                            << ", margin " << at->margin << "; the case must state the margin";
    EXPECT_PRED2(agree, at->margin, c.margin) << at->quantity;
    if (!c.required.empty()) {
        EXPECT_PRED2(agree, at->required, c.required) << at->quantity;
    }
    if (!c.available.empty()) {
        EXPECT_PRED2(agree, at->available, c.available) << at->quantity;
    }
}

/// A rule that looks away holds without having judged anything.
bool is_judged_somewhere(JudgedCase const& judged, std::string_view rule) {
    int const index = rule_index(rule);
    if (!rule_table()[static_cast<std::size_t>(index)].body.recorded) return true;  // judged on the wiring: truth() found it
    auto const places = judged.places(index);
    return std::any_of(places.begin(), places.end(), [&](Judged const& j) { return judged.judge->record(j.instance, judged.parts).applies; });
}

class ARuleCase : public TestWithParam<fs::path> {};

TEST_P(ARuleCase, is_judged_as_it_says) {
    SCOPED_TRACE(GetParam().string());
    RuleCase const c = read_case(cases_folder() / GetParam());
    ASSERT_GE(rule_index(c.rule), 0) << "no rule is called " << c.rule;
    try {
        JudgedCase const judged(c);
        auto const truth = judged.truth(c.rule);
        ASSERT_TRUE(truth) << c.rule << " stands nowhere";
        EXPECT_EQ(word_of(*truth), c.expect == "looks_away" ? "holds" : c.expect);
        if (c.expect == "holds") {
            EXPECT_TRUE(is_judged_somewhere(judged, c.rule)) << c.rule << " looks away everywhere";
        }
        if (c.expect == "looks_away") {
            EXPECT_FALSE(is_judged_somewhere(judged, c.rule)) << c.rule << " judges something";
        }
        if (c.expect == "fails") expect_figures_by_hand(c, judged.refusals(c.rule));
    } catch (DataError const& e) {
        FAIL() << e.what();
    }
}

TEST_P(ARuleCase, stands_in_the_folder_of_its_rule_under_what_it_expects) {
    RuleCase const c = read_case(cases_folder() / GetParam());
    std::string folder = c.rule;
    std::replace(folder.begin(), folder.end(), '.', '/');
    EXPECT_EQ(GetParam().parent_path().string(), folder);
    EXPECT_THAT(GetParam().filename().string(), StartsWith(c.expect + "_"));
    EXPECT_THAT(c.expect, AnyOf("holds", "fails", "undecided", "looks_away"));
}

std::string test_name(TestParamInfo<fs::path> const& info) {
    std::string name = info.param.parent_path().string() + "_" + info.param.stem().string();
    std::replace_if(name.begin(), name.end(), [](unsigned char ch) { return !std::isalnum(ch); }, '_');
    return name;
}

INSTANTIATE_TEST_SUITE_P(all, ARuleCase, ValuesIn(case_files()), test_name);

TEST(RuleTable, has_a_holding_a_failing_and_an_open_case_for_every_rule) {
    std::map<std::string, std::set<std::string>> seen;
    for (auto const& file : case_files()) {
        auto const c = read_case(cases_folder() / file);
        if (c.expect != "looks_away") seen[c.rule].insert(c.expect);
    }
    for (auto const& row : rule_table()) {
        std::set<std::string> wanted = {"holds", "fails", "undecided"};
        if (never_undecided.contains(std::string(row.id))) wanted.erase("undecided");
        EXPECT_EQ(seen[std::string(row.id)], wanted) << row.id;
    }
}

/// The marks of a quantity in a file of tests/reference: "found", "memory", or both.
std::set<std::string> marks_of(std::string const& file, std::string const& quantity) {
    std::ifstream in(std::string(LEVELSWAP_TEST_DATA) + "/reference/" + file);
    std::set<std::string> marks;
    for (std::string line; std::getline(in, line);) {
        if (line.find("," + quantity + ",") == std::string::npos) continue;
        for (std::string const mark : {"found", "memory"})
            if (line.find("," + mark + ",") != std::string::npos) marks.insert(mark);
    }
    return marks;
}

TEST(RuleTable, says_of_the_figures_of_contacts_and_motors_whether_they_were_read) {
    auto source = [](char const* rule) { return std::string(rule_table()[static_cast<std::size_t>(rule_index(rule))].source); };
    struct Row {
        char const *file, *quantity, *rule;
    };
    for (auto const& [file, quantity, rule] : {Row{"contact_ratings.csv", "thermal_continuous_current", "contacts.carry"},
                                               Row{"contact_ratings.csv", "thermal_continuous_current", "contacts.fuse"},
                                               Row{"contact_ratings.csv", "make_current", "contacts.make"},
                                               Row{"contact_ratings.csv", "break_current", "contacts.break"},
                                               Row{"motor_flc.csv", "full_load_current", "contacts.motor_direct"},
                                               Row{"motor_flc.csv", "locked_rotor_current", "contacts.contactor"}}) {
        auto const marks = marks_of(file, quantity);
        ASSERT_EQ(marks.size(), 1u) << quantity;
        EXPECT_THAT(source(rule), HasSubstr(*marks.begin() == "found" ? "(read)" : "(from memory)")) << rule;
    }
}

TEST(BaseOfTheCases, fits_as_it_stands) {
    for (auto const* site : {"site.yaml", "slide_wire_site.yaml", "probe_site.yaml", "transmitter_site.yaml", "screw_in_site.yaml", "pumped_site.yaml", "feed_valve_site.yaml", "float_valve_site.yaml", "two_probe_site.yaml"}) {
        RuleCase c;
        c.site = site;
        JudgedCase const judged(c);
        EXPECT_EQ(word_of(judged.judgement.truth), "holds") << site;
        EXPECT_THAT(judged.judgement.remarks, IsEmpty()) << site;
        for (auto const& row : rule_table())
            EXPECT_EQ(word_of(judged.truth(row.id).value_or(Truth::holds)), "holds") << site << ": " << row.id;
    }
}

}  // namespace
}  // namespace levelswap::cases
