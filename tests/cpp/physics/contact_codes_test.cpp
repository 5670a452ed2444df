// Outside source: tests/reference/contact_ratings.csv (row ids beside each
// check). Thermal currents were found on a public page citing NEMA ICS 5;
// volt-amperes and make and break currents are from memory.
#include "levelswap/physics/contact_codes.hpp"

#include <gtest/gtest.h>

#include <set>
#include <string>

namespace levelswap::physics {
namespace {

PilotDuty duty(std::string_view code, Interval volts) { return pilot_duty(code, Voltage::from_si(volts)).value(); }

TEST(ContactCodes, amperes_at_tabulated_voltages_are_the_tables) {
    EXPECT_EQ(duty("A300", 120).make.si().middle(), 60);      // CON009
    EXPECT_EQ(duty("A300", 120).break_.si().middle(), 6);     // CON010
    EXPECT_EQ(duty("A300", 240).make.si().middle(), 30);      // CON011
    EXPECT_EQ(duty("A300", 240).break_.si().middle(), 3);     // CON012
    EXPECT_EQ(duty("A300", 240).carry.si().middle(), 10);     // CON006
    EXPECT_NEAR(duty("C600", 480).break_.si().middle(), 0.375, 1e-9);  // CON067
    EXPECT_NEAR(duty("B600", 600).make.si().middle(), 6, 1e-9);        // CON045
    EXPECT_NEAR(duty("D300", 240).make.si().middle(), 1.8, 1e-9);      // CON080
    EXPECT_NEAR(duty("N300", 250).make.si().middle(), 1.1, 1e-9);      // CON088
    EXPECT_NEAR(duty("P600", 600).break_.si().middle(), 0.2, 1e-9);    // CON105
    EXPECT_NEAR(duty("Q300", 250).break_.si().middle(), 0.27, 1e-9);   // CON112
    EXPECT_NEAR(duty("R300", 125).make.si().middle(), 0.22, 1e-9);     // CON123
    EXPECT_NEAR(duty("R300", 250).make.si().middle(), 0.1, 1e-9);      // CON184, the lower of two sources
}

TEST(ContactCodes, below_120_volts_the_120_volt_amperes_stand) {
    EXPECT_EQ(duty("B300", 24).make.si(), duty("B300", 120).make.si());
    EXPECT_EQ(duty("B300", 24).break_.si(), duty("B300", 119).break_.si());
    EXPECT_LT(duty("B300", 121).break_.si().hi, duty("B300", 120).break_.si().lo);
}

TEST(ContactCodes, above_its_design_voltage_a_code_makes_and_breaks_nothing) {
    EXPECT_GT(duty("A150", 150).make.si().lo, 0);
    EXPECT_EQ(duty("A150", 151).make.si(), Interval(0.0));
    EXPECT_EQ(duty("R150", 250).break_.si(), Interval(0.0));
    Interval const across = duty("A150", {140, 160}).make.si();
    EXPECT_EQ(across.lo, 0);
    EXPECT_GE(across.hi, 7200.0 / 140);
}

TEST(ContactCodes, a_range_of_supply_gives_a_range_of_amperes) {
    Interval const make = duty("A300", {108, 240}).make.si();
    EXPECT_EQ(make.hi, 60);
    EXPECT_EQ(make.lo, 30);
}

TEST(ContactCodes, every_listed_code_has_figures_and_no_other_has) {
    std::set<std::string> seen;
    for (std::string_view code : pilot_duty_codes()) {
        EXPECT_TRUE(seen.emplace(code).second);
        auto const d = duty(code, 24);
        EXPECT_GT(d.make.si().lo, 0);
        EXPECT_LE(d.break_.si().hi, d.carry.si().lo);
        EXPECT_TRUE(d.remembered);
        EXPECT_EQ(d.direct_current, code[0] >= 'N');
    }
    EXPECT_EQ(seen.size(), 22U);  // CON130 and CON131 less E150
    for (std::string_view code : {"D600", "R600", "E150", "A200", "a300", "A", ""})
        EXPECT_FALSE(pilot_duty(code, Voltage::from_si(24.0)).has_value()) << code;
}

TEST(ContactCodes, the_iec_category_of_a_d_code_is_not_that_of_the_others) {
    EXPECT_EQ(iec_category("A300"), "AC-15");  // CON133
    EXPECT_EQ(iec_category("D300"), "AC-14");  // CON163
    EXPECT_EQ(iec_category("R300"), "DC-13");  // CON182
    EXPECT_FALSE(iec_category("D600").has_value());
}

}  // namespace
}  // namespace levelswap::physics
