#include "levelswap/physics/motor_tables.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace levelswap::physics {

namespace {

constexpr int columns = 6;

struct MotorRow {
    double horsepower;
    std::array<double, columns> amperes;
};
struct LetterRow {
    char letter;
    double upper;  // kVA per hp
};

#include "motor_tables.inc"

/// System voltages that each column serves (NEC, note to the tables).
constexpr std::array<Interval, columns> served{Interval{110, 120}, Interval{200, 200}, Interval{208, 208},
                                               Interval{220, 240}, Interval{440, 480}, Interval{550, 600}};

std::optional<std::size_t> column_for(Voltage nominal) {
    Interval const volts = nominal.si();
    for (std::size_t i = 0; i < served.size(); ++i)
        if (volts.lo >= served[i].lo && volts.hi <= served[i].hi) return i;
    return std::nullopt;
}

/// The first row at or above the power that has a figure in the column.
std::optional<double> row_current(std::span<MotorRow const> rows, double power, std::size_t column) {
    constexpr double rounding_of_files = 1.001;
    for (MotorRow const& row : rows)
        if (power <= row.horsepower * horsepower * rounding_of_files && row.amperes[column] > 0)
            return row.amperes[column];
    return std::nullopt;
}

std::optional<TableCurrent> look_up(std::span<MotorRow const> rows, Power power, Voltage nominal,
                                    std::string_view source) {
    auto const column = column_for(nominal);
    if (!column) return std::nullopt;
    auto const low = row_current(rows, power.si().lo, *column);
    auto const high = row_current(rows, power.si().hi, *column);
    if (!low || !high) return std::nullopt;
    return TableCurrent{Current::from_si(Interval{*low, *high}), source, false};
}

/// Bounds in one column for every power of the range. Currents rise with the power.
Interval column_bounds(std::span<MotorRow const> rows, Interval watts, std::size_t column) {
    auto const high = row_current(rows, watts.hi, column);
    bool const starts_inside = watts.lo * 1.001 >= rows.front().horsepower * horsepower;
    auto const low = starts_inside ? row_current(rows, watts.lo, column) : std::nullopt;
    if (watts.hi * 1.001 < rows.front().horsepower * horsepower) return 0.0;
    double most = high.value_or(0);
    for (MotorRow const& row : rows)  // a range that leaves the table has passed its last row
        if (!high && row.horsepower * horsepower * 1.001 >= watts.lo) most = std::max(most, row.amperes[column]);
    return {high && low ? *low : 0, most};
}

Interval table_bounds(std::span<MotorRow const> rows, Interval watts, Interval volts) {
    std::optional<Interval> all;
    auto add = [&](Interval one) { all = all ? hull(*all, one) : one; };
    bool inside = false;
    for (std::size_t i = 0; i < served.size(); ++i) {
        if (volts.hi < served[i].lo || volts.lo > served[i].hi) continue;
        inside |= volts.lo >= served[i].lo && volts.hi <= served[i].hi;
        add(column_bounds(rows, watts, i));
    }
    if (!inside) add(0.0);
    return *all;
}

}  // namespace

Interval full_load_bounds(Power power, Interval phases, Voltage nominal) {
    bool const one = phases.contains(1), three = phases.contains(3);
    std::optional<Interval> all;
    auto add = [&](Interval bounds) { all = all ? hull(*all, bounds) : bounds; };
    if (one) add(table_bounds(full_load_single, power.si(), nominal.si()));
    if (three) add(table_bounds(full_load_three, power.si(), nominal.si()));
    if (phases.lo != phases.hi || !(one || three)) add(0.0);
    return *all;
}

namespace {

/// What a plate that states one power and one voltage surely means, 0 where the table says nothing: the row at or below
/// the power; above the voltages that a column serves, the current falls as the voltage rises. Plates of switches that say
/// 125 or 250 V stand for motors of 115 and 230 V (common practice, no source).
double rated_current(std::span<MotorRow const> rows, double watts, double volts) {
    constexpr std::array<double, columns> nominal{115, 200, 208, 230, 460, 575}, on_plates{125, 200, 208, 250, 480, 600};
    double amperes = 0;
    for (std::size_t i = 0; i < served.size() && served[i].lo <= volts; ++i) {
        double here = 0;
        for (MotorRow const& row : rows)
            if (row.horsepower * horsepower <= watts * 1.001 && row.amperes[i] > 0) here = row.amperes[i];
        if (here > 0) amperes = volts > on_plates[i] ? here * nominal[i] / volts : here;
    }
    return amperes;
}

}  // namespace

Current table_current(Interval amperes) {
    constexpr double quanta = detail::quanta_per_si(Dimension::current);
    return {Interval{std::round(amperes.lo * quanta), std::round(amperes.hi * quanta)}};
}

std::optional<RatedCurrents> rated_currents(Power rated, Interval phases, Voltage highest) {
    Interval const volts = highest.si(), watts = rated.si();
    std::optional<Interval> running, locked;
    auto add = [](std::optional<Interval>& all, double amperes) { all = all ? hull(*all, Interval{amperes}) : Interval{amperes}; };
    auto add_table = [&](std::span<MotorRow const> full_load, std::span<MotorRow const> locked_rotor) {
        for (double const w : {watts.lo, watts.hi})
            for (double const v : {volts.lo, volts.hi}) {
                double const run = rated_current(full_load, w, v), start = rated_current(locked_rotor, w, v);
                add(running, run);
                add(locked, start > 0 ? start : 6 * run);
            }
    };
    if (phases.contains(1)) add_table(full_load_single, locked_rotor_single);
    if (phases.contains(3)) add_table(full_load_three, locked_rotor_three);
    if (!running || running->lo <= 0) return std::nullopt;
    return RatedCurrents{table_current(*running), table_current(*locked)};
}

std::optional<Interval> code_letter_kva_per_hp(char letter) {
    constexpr double beyond_any_plate = 100;
    double before = 0;
    for (LetterRow const& row : code_letters) {
        if (row.letter == letter) return Interval{before, row.upper};
        before = row.upper;
    }
    return letter == 'V' ? std::optional{Interval{before, beyond_any_plate}} : std::nullopt;
}

Interval locked_rotor_bounds(Interval kva_per_hp, Power power, Interval phases, Voltage nominal) {
    Interval const volt_amperes = kva_per_hp * Interval{1000} * power.si() / Interval{horsepower};
    Interval const along{1, phases.hi > 1 ? sqrt(Interval{3}).hi : 1};
    Interval const factor = phases.lo >= 3 ? sqrt(Interval{3}) : along;
    return volt_amperes / (factor * max(nominal.si(), Interval{1}));
}

std::optional<TableCurrent> full_load_current(Power power, int phases, Voltage nominal) {
    if (phases == 1) return look_up(full_load_single, power, nominal, "NEC 2023 Table 430.248");
    if (phases == 3) return look_up(full_load_three, power, nominal, "NEC 2023 Table 430.250");
    return std::nullopt;
}

std::optional<TableCurrent> locked_rotor_current(Power power, int phases, Voltage nominal) {
    if (phases == 1) return look_up(locked_rotor_single, power, nominal, "NEC 2023 Table 430.251(A)");
    if (phases == 3) return look_up(locked_rotor_three, power, nominal, "NEC 2023 Table 430.251(B)");
    return std::nullopt;
}

std::optional<Interval> code_letter_upper_kva_per_hp(char letter) {
    for (LetterRow const& row : code_letters)
        if (row.letter == letter) return Interval{row.upper};
    return std::nullopt;
}

std::optional<TableCurrent> code_letter_locked_rotor_current(char letter, Power power, int phases, Voltage nominal) {
    auto const per_horsepower = code_letter_upper_kva_per_hp(letter);
    if (!per_horsepower || (phases != 1 && phases != 3) || nominal.si().lo <= 0) return std::nullopt;
    Interval const volt_amperes = *per_horsepower * Interval{1000.0} * power.si() / Interval{horsepower};
    Interval const volts = phases == 3 ? nominal.si() * sqrt(3.0) : nominal.si();
    return TableCurrent{Current::from_si(volt_amperes / volts), "NEC 2023 Table 430.7(B), upper end", true};
}

}  // namespace levelswap::physics
