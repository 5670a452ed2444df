// Outside source: tests/reference/motor_flc.csv (row ids beside each check),
// NFPA 70 (NEC) 2023, read in a public copy of the tables.
#include "levelswap/physics/motor_tables.hpp"

#include <gtest/gtest.h>

namespace levelswap::physics {
namespace {

Power hp(double n) { return Power::from_si(Interval{n} * Interval{horsepower}); }
Voltage volts(Interval v) { return Voltage::from_si(v); }
double full(double n, int phases, double v) {
    auto const found = full_load_current(hp(n), phases, volts(v));
    return found ? found->amperes.si().middle() : -1;
}
double locked(double n, int phases, double v) {
    auto const found = locked_rotor_current(hp(n), phases, volts(v));
    return found ? found->amperes.si().middle() : -1;
}

TEST(MotorTables, corners_of_the_full_load_tables) {
    EXPECT_EQ(full(1.0 / 6, 1, 115), 4.4);  // MOT001
    EXPECT_EQ(full(1.0 / 6, 1, 230), 2.2);  // MOT004
    EXPECT_EQ(full(10, 1, 115), 100);       // MOT045
    EXPECT_EQ(full(10, 1, 230), 50);        // MOT048
    EXPECT_EQ(full(0.5, 3, 200), 2.5);      // MOT049
    EXPECT_EQ(full(0.5, 3, 575), 0.9);      // MOT053
    EXPECT_EQ(full(1.5, 3, 575), 2.4);      // MOT068, misprinted 2.1 in some copies
    EXPECT_EQ(full(50, 3, 460), 65);        // MOT122
    EXPECT_EQ(full(50, 3, 575), 52);        // MOT123
}

TEST(MotorTables, a_system_voltage_uses_the_column_of_its_motors) {
    EXPECT_EQ(full(1, 1, 120), full(1, 1, 115));  // MOT147
    EXPECT_EQ(full(1, 1, 110), full(1, 1, 115));
    EXPECT_EQ(full(1, 3, 240), full(1, 3, 230));
    EXPECT_EQ(full(1, 3, 480), full(1, 3, 460));
    EXPECT_EQ(full(1, 3, 600), full(1, 3, 575));
    EXPECT_EQ(full(1, 1, 208), 8.8);  // MOT023
}

TEST(MotorTables, between_two_rows_the_larger_motor_counts) {
    EXPECT_EQ(full(4, 1, 230), full(5, 1, 230));
    EXPECT_EQ(full(0.1, 1, 115), full(1.0 / 6, 1, 115));
    EXPECT_EQ(full_load_current(Power::from_si(746.0), 1, volts(115))->amperes.si().middle(), 16);  // MOT021, 1 hp rounded
    Interval const range = full_load_current({Interval{hp(1).quanta.lo, hp(3).quanta.hi}}, 1, volts(230))->amperes.si();
    EXPECT_TRUE(range.contains(8));
    EXPECT_TRUE(range.contains(17));
}

TEST(MotorTables, outside_the_tables_nothing_is_guessed) {
    EXPECT_EQ(full(11, 1, 115), -1);
    EXPECT_EQ(full(60, 3, 460), -1);
    EXPECT_EQ(full(1, 3, 115), -1);
    EXPECT_EQ(full(1, 1, 460), -1);
    EXPECT_EQ(full(1, 2, 230), -1);
    EXPECT_EQ(full(1, 3, 400), -1);
    EXPECT_FALSE(full_load_current(hp(1), 1, volts({115, 230})).has_value());
}

TEST(MotorTables, corners_of_the_locked_rotor_tables) {
    EXPECT_NEAR(locked(0.5, 1, 115), 58.8, 1e-9);   // MOT148
    EXPECT_NEAR(locked(7.5, 1, 230), 240, 1e-9);    // MOT171
    EXPECT_NEAR(locked(0.5, 3, 208), 22.1, 1e-9);   // MOT172
    EXPECT_NEAR(locked(7.5, 3, 460), 63.5, 1e-9);   // MOT195
    EXPECT_NEAR(locked(15, 3, 480), 116, 1e-9);     // MOT201
    EXPECT_EQ(locked(10, 1, 115), -1);
}

TEST(MotorTables, code_letters_give_their_upper_end) {
    EXPECT_EQ(code_letter_upper_kva_per_hp('A'), Interval(3.14));   // MOT124
    EXPECT_EQ(code_letter_upper_kva_per_hp('B'), Interval(3.54));   // MOT125, not 3.55
    EXPECT_EQ(code_letter_upper_kva_per_hp('U'), Interval(22.39));  // MOT141
    for (char letter : {'V', 'I', 'O', 'Q', 'h', '1'})
        EXPECT_FALSE(code_letter_upper_kva_per_hp(letter).has_value()) << letter;
}

TEST(MotorTables, locked_rotor_current_of_a_code_letter) {
    // MOT146 works the low end, 6.3: 39.5 A; the upper end of H is 7.09.
    auto const current = code_letter_locked_rotor_current('H', hp(5), 3, volts(460));
    ASSERT_TRUE(current.has_value());
    EXPECT_NEAR(current->amperes.si().middle() * 6.3 / 7.09, 39.5, 0.05);
    EXPECT_TRUE(current->remembered);
    EXPECT_FALSE(code_letter_locked_rotor_current('H', hp(5), 2, volts(460)).has_value());
}

TEST(MotorTables, bounds_over_a_range_hold_every_row_of_it) {
    auto bounds = [](Interval horsepowers, Interval phases, Interval v) {
        return full_load_bounds({Interval{hp(horsepowers.lo).quanta.lo, hp(horsepowers.hi).quanta.hi}}, phases, volts(v));
    };
    EXPECT_EQ(bounds(0.5, 3, 230), Interval(2.2));               // MOT051
    EXPECT_EQ(bounds({0.5, 3}, 3, 230), Interval(2.2, 9.6));     // MOT051 to MOT076
    EXPECT_EQ(bounds(0.5, 3, {230, 460}), Interval(0, 2.2));     // 300 V is in no column
    EXPECT_EQ(bounds(0.5, {1, 3}, 230), Interval(0, 4.9));       // one phase MOT016; two phases are in no table
    EXPECT_EQ(bounds({40, 60}, 3, 230), Interval(0, 130));       // MOT121; 60 hp is beyond the table
    EXPECT_EQ(bounds(60, 3, 230), Interval(0));
    EXPECT_EQ(bounds(0.25, 3, 230), Interval(0));                // smaller than the first row
    EXPECT_EQ(bounds(1, 3, 400), Interval(0));
    EXPECT_EQ(bounds({0, 1000}, {1, 3}, {0, 700}), Interval(0, 150));
}

TEST(MotorTables, a_rating_in_power_alone_stands_for_the_currents_of_such_a_motor) {
    auto const running = [](Interval horsepowers, Interval phases, Interval v) {
        return rated_currents({Interval{hp(horsepowers.lo).quanta.lo, hp(horsepowers.hi).quanta.hi}}, phases, volts(v))->running.si();
    };
    EXPECT_NEAR(running(0.5, 1, 115).lo, 9.8, 1e-6);             // NEC 430.248
    EXPECT_NEAR(running(0.5, 3, 230).hi, 2.2, 1e-6);             // MOT051, NEC 430.250
    EXPECT_NEAR(running(0.6, 3, 230).hi, 2.2, 1e-6);             // between rows the smaller motor is sure
    EXPECT_NEAR(running(0.5, 1, 125).lo, 9.8, 1e-6);             // plates of switches: common practice, no source
    EXPECT_NEAR(running(0.5, 1, 250).lo, 4.9, 1e-6);
    EXPECT_NEAR(running(0.5, 1, 260).lo, 4.9 * 230 / 260, 1e-6);  // above them
    EXPECT_NEAR(running(1, 1, 277).lo, 8.0 * 230 / 277, 1e-6);    // UL 508: 17 % less than at 230 V (from memory)
    EXPECT_NEAR(running(0.5, {1, 3}, 230).lo, 2.2, 1e-6);
    EXPECT_NEAR(running(0.5, {1, 3}, 230).hi, 4.9, 1e-6);
    auto const start = [](double horsepowers, Interval phases, double v) {
        return rated_currents(hp(horsepowers), phases, volts(v))->locked.si().middle();
    };
    EXPECT_NEAR(start(0.5, 1, 115), 58.8, 1e-6);        // NEC 430.251(A)
    EXPECT_NEAR(start(0.5, 3, 230), 20, 1e-6);          // NEC 430.251(B)
    EXPECT_NEAR(start(1.0 / 3, 1, 115), 6 * 7.2, 1e-6);  // smaller than the first row of 430.251
    EXPECT_FALSE(rated_currents(hp(0.1), 1, volts(115)).has_value());
    EXPECT_FALSE(rated_currents(hp(0.5), 3, volts(115)).has_value());
    EXPECT_FALSE(rated_currents(hp(0.5), 1, volts(100)).has_value());
    EXPECT_FALSE(rated_currents(Power::from_si(Interval{0, horsepower}), 1, volts(115)).has_value());
}

TEST(MotorTables, a_code_letter_reaches_from_the_end_of_the_letter_before_it) {
    EXPECT_EQ(code_letter_kva_per_hp('A'), Interval(0, 3.14));       // MOT124
    EXPECT_EQ(code_letter_kva_per_hp('H'), Interval(6.29, 7.09));    // MOT130, MOT131
    EXPECT_EQ(code_letter_kva_per_hp('V')->lo, 22.39);               // MOT142
    for (char letter : {'I', 'O', 'Q'}) EXPECT_FALSE(code_letter_kva_per_hp(letter).has_value()) << letter;
}

TEST(MotorTables, locked_rotor_bounds_agree_with_the_worked_example) {
    // MOT146: 5 hp, 460 V, three phases at 6.3 kVA for each hp is 39.5 A.
    EXPECT_NEAR(locked_rotor_bounds(6.3, hp(5), 3, volts(460)).middle(), 39.5, 0.05);
    Interval const one_or_three = locked_rotor_bounds(6.3, hp(5), {1, 3}, volts(460));
    EXPECT_NEAR(one_or_three.hi, 6300 * 5 / 460.0, 0.01);  // one phase: no square root of three
    EXPECT_NEAR(one_or_three.lo, 39.5, 0.05);
}

}  // namespace
}  // namespace levelswap::physics
