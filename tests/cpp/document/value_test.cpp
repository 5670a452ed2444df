#include "levelswap/document/value.hpp"

#include <gtest/gtest.h>

#include <clocale>
#include <cmath>
#include <limits>
#include <random>

// Sizes: 1 in = 25.4 mm and 1 lb = 0.45359237 kg by the yard and pound
// agreement of 1959; 1 psi = 6894.757293168361 Pa follows from them.

namespace levelswap::document {
namespace {

using enum Value::Nature;

Value read(std::string_view text, Dimension dimension) {
    ValueProblem problem;
    auto const value = read_value(text, dimension, problem);
    EXPECT_TRUE(value) << text << ": " << problem.message;
    return value.value_or(Value{});
}

ValueProblem refused(std::string_view text, Dimension dimension) {
    ValueProblem problem;
    EXPECT_FALSE(read_value(text, dimension, problem)) << text;
    return problem;
}

void expect_range(std::string_view text, Dimension dimension, std::int64_t lo, std::int64_t hi, Value::Nature nature = uncertain) {
    Value const value = read(text, dimension);
    EXPECT_EQ(value.nature, nature) << text;
    ASSERT_TRUE(value.lo && value.hi) << text;
    EXPECT_EQ(*value.lo, lo) << text;
    EXPECT_EQ(*value.hi, hi) << text;
}

void expect_point(std::string_view text, Dimension dimension, std::int64_t quanta) { expect_range(text, dimension, quanta, quanta); }

TEST(value, every_sixty_fourth_of_an_inch_is_exact) {
    for (int n = 1; n < 64; ++n) expect_point(std::to_string(n) + "/64 in", Dimension::length, n * std::int64_t{396'875});
    expect_point("0.015625 in", Dimension::length, 396'875);
    expect_point("7 33/64 in", Dimension::length, 190'896'875);
}

TEST(value, fractions_are_read_in_the_three_usual_forms) {
    expect_point("1/2 in", Dimension::length, 12'700'000);
    expect_point("2 1/2 in", Dimension::length, 63'500'000);
    expect_point("2-1/2 in", Dimension::length, 63'500'000);
    expect_point("-2 1/2in", Dimension::length, -63'500'000);
}

TEST(value, decimals_with_and_without_blank_or_leading_digit) {
    expect_point("7.5 in", Dimension::length, 190'500'000);
    expect_point("7.5in", Dimension::length, 190'500'000);
    expect_point(".02 in", Dimension::length, 508'000);
    expect_point("  +7.50 in ", Dimension::length, 190'500'000);
    expect_point("0 mm", Dimension::length, 0);
    expect_point("-0 mm", Dimension::length, 0);
}

TEST(value, halves_of_a_quantum_round_away_from_zero) {
    expect_point("1/128 in", Dimension::length, 198'438);  // 198437.5 nm
    expect_point("-1/128 in", Dimension::length, -198'438);
    expect_point("0.0000004 mm", Dimension::length, 0);  // 0.4 nm
    expect_point("0.0000005 mm", Dimension::length, 1);
}

TEST(value, tolerance_may_stand_in_another_unit_and_with_either_sign) {
    expect_range("7.5 in +/- .02 in", Dimension::length, 189'992'000, 191'008'000);
    expect_range("7.5in +/- 0.5mm", Dimension::length, 190'000'000, 191'000'000);
    expect_range("7.5 in \xC2\xB1 0.5 mm", Dimension::length, 190'000'000, 191'000'000);
    expect_range("~ +/- 1 mm", Dimension::length, -1'000'000, 1'000'000, varying);
    expect_range("+/- 1 mm", Dimension::length, -1'000'000, 1'000'000);
    expect_range("7.5 in +/- 0 in", Dimension::length, 190'500'000, 190'500'000);
}

TEST(value, ends_of_a_tolerance_are_rounded_once_and_not_twice) {
    // 0.4 nm + 0.4 nm is nearest to 1 nm, although each alone is nearest to 0.
    expect_range("0.0000004 mm +/- 0.0000004 mm", Dimension::length, 0, 1);
}

TEST(value, ranges_and_varying_ranges) {
    expect_range("2.4 in .. 2.6 in", Dimension::length, 60'960'000, 66'040'000);
    expect_range("2.4in..66.04mm", Dimension::length, 60'960'000, 66'040'000);
    expect_range("~ 102 V .. 132 V", Dimension::voltage, 102'000, 132'000, varying);
    expect_range("~102V .. 132V", Dimension::voltage, 102'000, 132'000, varying);
    expect_range("3 in .. 3 in", Dimension::length, 76'200'000, 76'200'000);
    EXPECT_EQ(refused("3 in .. 76.199999 mm", Dimension::length).code, "LS-V008");
}

TEST(value, one_sided_values_leave_the_other_end_open) {
    Value const least = read("at least 3 in", Dimension::length);
    EXPECT_EQ(least.lo, 76'200'000);
    EXPECT_FALSE(least.hi);
    Value const most = read("at most 3 in", Dimension::length);
    EXPECT_FALSE(most.lo);
    EXPECT_EQ(most.hi, 76'200'000);
    EXPECT_EQ(refused("at least 3 in .. 4 in", Dimension::length).code, "LS-V012");
    EXPECT_EQ(refused("~ at least 3 in", Dimension::length).code, "LS-V012");
}

TEST(value, unknown_and_none_are_different_and_have_no_ends) {
    EXPECT_EQ(read("unknown", Dimension::mass).nature, unknown);
    EXPECT_EQ(read("none", Dimension::mass).nature, none);
    EXPECT_FALSE(read("unknown", Dimension::mass).lo || read("none", Dimension::mass).hi);
    EXPECT_EQ(refused("~ unknown", Dimension::mass).code, "LS-V012");
    EXPECT_EQ(refused("Unknown", Dimension::mass).code, "LS-V001");
}

TEST(value, temperature_has_an_offset_and_its_tolerance_has_none) {
    expect_point("212 degF", Dimension::temperature, 373'150);  // 100 degC
    expect_point("-40 degF", Dimension::temperature, 233'150);  // -40 degC, the same
    expect_point("-40 degC", Dimension::temperature, 233'150);
    expect_range("20 degC +/- 9 degF", Dimension::temperature, 288'150, 298'150);
    expect_range("20 degC +/- 5 K", Dimension::temperature, 288'150, 298'150);
    expect_point("9 degF", Dimension::temperature_difference, 5'000);
}

TEST(value, pressure_says_gauge_or_absolute_and_its_tolerance_does_not) {
    expect_point("300 psi(g)", Dimension::pressure_gauge, 2'068'427);  // 2068427.19
    expect_range("14.7 psi(a) +/- .3 psi", Dimension::pressure_absolute, 99'285, 103'421);  // 99284.505 .. 103421.36
    expect_point("16 bar(g)", Dimension::pressure_gauge, 1'600'000);
    expect_point("2 inH2O", Dimension::pressure_difference, 498);  // 2 x 249.0889
    EXPECT_EQ(refused("300 psi", Dimension::pressure_gauge).hint, "say \"psi(g)\" or \"psi(a)\"");
    EXPECT_EQ(refused("300 psi(g) +/- 5 psi(g)", Dimension::pressure_gauge).hint, "write \"psi\"");
    EXPECT_EQ(refused("300 psi(a)", Dimension::pressure_gauge).code, "LS-V004");
    EXPECT_EQ(refused("300 psig", Dimension::pressure_gauge).hint, "did you mean \"psi(g)\"?");
}

TEST(value, one_over_a_unit_is_no_fraction) {
    expect_point("6 1/h", Dimension::start_rate, 6'000'000);
    expect_point("0.5 1/cm", Dimension::cell_constant, 50'000'000);
    expect_range("6 1/h .. 8 1/h", Dimension::start_rate, 6'000'000, 8'000'000);
    expect_range("6 1/h +/- 1 1/h", Dimension::start_rate, 5'000'000, 7'000'000);
    expect_point("6 1/2 1/h", Dimension::start_rate, 6'500'000);
    expect_point("6 1/2 in", Dimension::length, 165'100'000);
}

TEST(value, ratio_count_and_money_take_plain_numbers) {
    expect_point("125 %", Dimension::ratio, 1'250'000);
    expect_point("1.25", Dimension::ratio, 1'250'000);
    expect_point("1.25 1", Dimension::ratio, 1'250'000);
    expect_point("4", Dimension::count, 4);
    expect_range("2 .. 3", Dimension::count, 2, 3);
    expect_point("12.50", Dimension::money, 1'250);
    EXPECT_EQ(refused("4.5", Dimension::count).code, "LS-V010");
    EXPECT_EQ(refused("4 mm", Dimension::count).code, "LS-V014");
    EXPECT_EQ(refused("0.5 in", Dimension::money).code, "LS-V014");
}

TEST(value, numbers_that_can_be_misread_are_refused) {
    for (char const* text : {"012 mm", "00 mm", "0x1F mm", "0b1 mm", "1e3 mm", "1E-3 mm", "1_000 mm", "1,5 mm", "1,000 mm", "1.5,2 mm", "5. mm", "1.2.3 mm", "1 000 mm"}) {
        EXPECT_EQ(refused(text, Dimension::length).code, "LS-V006") << text;
    }
    expect_point("0.5 mm", Dimension::length, 500'000);
    expect_point("0 in", Dimension::length, 0);
}

TEST(value, words_that_are_not_numbers_are_refused) {
    for (char const* text : {"abc", "inf mm", "nan mm", "on", "- 5 mm", "--5 mm", "mm", "\xE2\x88\x92" "5 mm", ">= 3 mm", "$5"}) {
        EXPECT_EQ(refused(text, Dimension::length).code, "LS-V001") << text;
    }
}

TEST(value, the_largest_length_is_two_to_the_53_nanometres) {
    expect_point("9007199.254740992 m", Dimension::length, std::int64_t{1} << 53);
    expect_point("-9007199.254740992 m", Dimension::length, -(std::int64_t{1} << 53));
    EXPECT_EQ(refused("9007199.254740993 m", Dimension::length).code, "LS-V007");
    EXPECT_EQ(refused("-9007199.254740993 m", Dimension::length).code, "LS-V007");
    EXPECT_EQ(refused("9007199.254740992 m +/- 1 mm", Dimension::length).code, "LS-V007");
    EXPECT_EQ(refused("99999999999999999 h", Dimension::time).code, "LS-V007");
    EXPECT_EQ(refused(std::string(10'000, '9') + " mm", Dimension::length).code, "LS-V007");
}

TEST(value, seventeen_digits_are_read_and_eighteen_refused) {
    expect_point("0.0000000000000001 m", Dimension::length, 0);
    EXPECT_EQ(refused("0.00000000000000001 m", Dimension::length).code, "LS-V007");
}

TEST(value, unfinished_ranges_and_doubled_marks_are_refused) {
    for (char const* text : {"3 in ..", ".. 3 in", "3 in +/-", "1 in .. 2 in .. 3 in", "1 in +/- 1 in .. 2 in", "2 in - 3 in", "2 in to 3 in", "at 3 in", "~"}) {
        EXPECT_EQ(refused(text, Dimension::length).code, "LS-V012") << text;
    }
    EXPECT_EQ(refused("3 .. 4 in", Dimension::length).code, "LS-V002");
}

TEST(value, a_unit_with_another_capital_or_spelling_is_suggested) {
    EXPECT_EQ(refused("5 MM", Dimension::length).hint, "did you mean \"mm\"?");
    EXPECT_EQ(refused("5 \xC2\xB0" "C", Dimension::temperature).hint, "did you mean \"degC\"?");
    EXPECT_EQ(refused("5 \"", Dimension::length).hint, "did you mean \"in\"?");
    EXPECT_EQ(refused("5 Nm", Dimension::moment).hint, "did you mean \"N*m\"?");
    EXPECT_EQ(refused("5 gpm", Dimension::volume_flow).hint, "did you mean \"gal/min\"?");
    EXPECT_EQ(refused("5 \xC2\xB5S/cm", Dimension::conductivity).hint, "did you mean \"uS/cm\"?");
    EXPECT_EQ(refused("5 furlongs", Dimension::length).code, "LS-V003");
}

TEST(value, the_fault_is_located_in_characters_and_not_in_bytes) {
    ValueProblem const problem = refused("7.5 in \xC2\xB1 5 mn", Dimension::length);
    EXPECT_EQ(problem.offset, 11);
    EXPECT_EQ(problem.length, 2);
}

TEST(value, reading_does_not_depend_on_the_locale) {
    std::string const before = std::setlocale(LC_ALL, nullptr);
    for (char const* name : {"de_DE.UTF-8", "C.UTF-8", "C"}) {  // those that are not installed change nothing
        std::setlocale(LC_ALL, name);
        expect_point("7.5 in", Dimension::length, 190'500'000);
    }
    std::setlocale(LC_ALL, before.c_str());
}

TEST(value, random_decimals_equal_the_long_double_conversion) {
    std::mt19937_64 random(3);
    std::uniform_int_distribution<int> whole(-2000, 2000);
    std::uniform_int_distribution<int> part(0, 999);
    for (int i = 0; i < 5'000; ++i) {
        int const w = whole(random);
        std::string decimals = std::to_string(1000 + part(random)).substr(1);
        std::string const number = std::to_string(w) + "." + decimals;
        long double const exact = std::stold(number) * 6894.757293168361L;
        if (std::abs(std::abs(exact - std::floor(exact)) - 0.5L) < 1e-6L) continue;  // too near to a tie for this source
        expect_point(number + " psi", Dimension::pressure_difference, std::llround(exact));
    }
}

TEST(format_quanta, uses_the_unit_of_a_fitter_and_four_figures) {
    EXPECT_EQ(format_quanta(190'500'000, Dimension::length, UnitSystem::us), "7.5 in");
    EXPECT_EQ(format_quanta(190'500'000, Dimension::length, UnitSystem::si), "190.5 mm");
    EXPECT_EQ(format_quanta(373'150, Dimension::temperature, UnitSystem::us), "212 degF");
    EXPECT_EQ(format_quanta(373'150, Dimension::temperature, UnitSystem::si), "100 degC");
    EXPECT_EQ(format_quanta(2'068'427, Dimension::pressure_gauge, UnitSystem::us), "300 psi(g)");
    EXPECT_EQ(format_quanta(5'000, Dimension::temperature_difference, UnitSystem::us), "9 degF");
    EXPECT_EQ(format_quanta(5'000, Dimension::temperature_difference, UnitSystem::si), "5 K");
    EXPECT_EQ(format_quanta(1'250'000, Dimension::ratio, UnitSystem::us), "125 %");
    EXPECT_EQ(format_quanta(1'000'000, Dimension::length, UnitSystem::us), "0.03937 in");
}

TEST(format_quanta, never_shows_an_exponent_or_a_negative_zero) {
    EXPECT_EQ(format_quanta(123'456'000'000, Dimension::length, UnitSystem::si), "123500 mm");
    EXPECT_EQ(format_quanta(-0.0, Dimension::length, UnitSystem::si), "0 mm");
    EXPECT_EQ(format_quanta(999'960'000, Dimension::length, UnitSystem::si), "1000 mm");
    EXPECT_EQ(format_quanta(1, Dimension::length, UnitSystem::si), "0.000001 mm");
    EXPECT_EQ(format_quanta(std::numeric_limits<double>::infinity(), Dimension::length, UnitSystem::si), "unlimited");
}

TEST(format_quanta, flows_and_water_have_their_usual_units) {
    EXPECT_EQ(format_quanta(3'785'411.784, Dimension::volume, UnitSystem::us), "1 gal");
    EXPECT_EQ(format_quanta(5e6, Dimension::volume, UnitSystem::si), "5 l");
    EXPECT_EQ(format_quanta(63'090.1964, Dimension::volume_flow, UnitSystem::us), "1 gal/min");
    EXPECT_EQ(format_quanta(1e6, Dimension::volume_flow, UnitSystem::si), "60 l/min");
    EXPECT_EQ(format_quanta(2e6, Dimension::conductivity, UnitSystem::us), "20 uS/cm");
    EXPECT_EQ(format_quanta(864'977.6554, Dimension::flow_coefficient, UnitSystem::us), "1 Cv");
    EXPECT_EQ(format_quanta(1e8, Dimension::cell_constant, UnitSystem::us), "1 1/cm");
    EXPECT_EQ(format_quanta(6e6, Dimension::start_rate, UnitSystem::si), "6 1/h");
}

TEST(format_quanta, counts_and_money_keep_every_digit) {
    EXPECT_EQ(format_quanta(12'345, Dimension::count, UnitSystem::us), "12345");
    EXPECT_EQ(format_quanta(1'234'550, Dimension::money, UnitSystem::us), "12345.50");
    EXPECT_EQ(format_quanta(1'200, Dimension::money, UnitSystem::us), "12");
}

TEST(format_quanta, with_many_digits_reads_back_to_the_same_quantum) {
    std::mt19937_64 random(5);
    std::uniform_int_distribution<std::int64_t> quanta(1, 400'000'000);
    for (int i = 0; i < dimension_count; ++i) {
        auto const d = static_cast<Dimension>(i);
        for (UnitSystem const system : {UnitSystem::us, UnitSystem::si}) {
            for (int n = 0; n < 50; ++n) {
                std::int64_t const q = quanta(random);
                expect_point(format_quanta(static_cast<double>(q), d, system, 13), d, q);
            }
        }
    }
}

}  // namespace
}  // namespace levelswap::document
