#include "levelswap/physics/contact_codes.hpp"

#include <array>

namespace levelswap::physics {

namespace {

/// tests/reference/contact_ratings.csv, rows CON001 to CON081: NEMA ICS 5 and UL 508.
struct AlternatingRow {
    char letter;
    double carry;        // A
    double make, break_; // VA
    std::string_view category;
};
constexpr AlternatingRow alternating[] = {
    {'A', 10, 7200, 720, "AC-15"},
    {'B', 5, 3600, 360, "AC-15"},
    {'C', 2.5, 1800, 180, "AC-15"},
    {'D', 1, 432, 72, "AC-14"},
};

/// Rows CON082 to CON124. Where the volt-amperes, the amperes at 250 V and the
/// IEC figure disagree by rounding, `watts` is the least of them (Q: 0.27 A at
/// 250 V; R: 0.1 A at 250 V, IEC). Above 300 V a fixed current; zero: no such code.
struct DirectRow {
    char letter;
    double carry;         // A
    double up_to_125;     // A
    double watts;         // from 125 to 300 V
    double above_300;     // A
};
constexpr DirectRow direct[] = {
    {'N', 10, 2.2, 275, 0.4},
    {'P', 5, 1.1, 137.5, 0.2},
    {'Q', 2.5, 0.55, 67.5, 0.1},
    {'R', 1, 0.22, 25, 0},
};

constexpr std::array<std::string_view, 22> codes{"A150", "A300", "A600", "B150", "B300", "B600", "C150", "C300",
                                                 "C600", "D150", "D300", "N150", "N300", "N600", "P150", "P300",
                                                 "P600", "Q150", "Q300", "Q600", "R150", "R300"};

bool exists(std::string_view code) { return std::find(codes.begin(), codes.end(), code) != codes.end(); }

double most_volts(std::string_view code) { return code[1] == '1' ? 150 : code[1] == '3' ? 300 : 600; }

Interval amperes(double volt_amperes, Interval volts) { return Interval{volt_amperes} / max(volts, 120.0); }

double direct_amperes(DirectRow const& row, double volts) {
    if (volts <= 125) return row.up_to_125;
    return volts <= 300 ? rounding::divide_down(row.watts, volts) : row.above_300;
}

/// The part of the range above the design voltage makes and breaks nothing.
Interval within(Interval current, Interval volts, double most) {
    return {volts.hi > most ? 0 : current.lo, volts.lo > most ? 0 : current.hi};
}

}  // namespace

std::optional<PilotDuty> pilot_duty(std::string_view code, Voltage supply) {
    if (!exists(code)) return std::nullopt;
    double const most = most_volts(code);
    Interval const volts = abs(supply.si());
    auto duty = [&](Interval make, Interval broken, double carry, bool is_direct) {
        return PilotDuty{Current::from_si(within(make, volts, most)), Current::from_si(within(broken, volts, most)),
                         Current::from_si(carry), Voltage::from_si(most), is_direct, true};
    };
    for (auto const& row : alternating)
        if (row.letter == code[0])
            return duty(amperes(row.make, volts), amperes(row.break_, volts), row.carry, false);
    for (auto const& row : direct)
        if (row.letter == code[0]) {
            Interval const both{direct_amperes(row, volts.hi), direct_amperes(row, volts.lo)};
            return duty(both, both, row.carry, true);
        }
    return std::nullopt;
}

std::span<std::string_view const> pilot_duty_codes() { return codes; }

std::optional<std::string_view> iec_category(std::string_view code) {
    if (!exists(code)) return std::nullopt;
    for (auto const& row : alternating)
        if (row.letter == code[0]) return row.category;
    return "DC-13";
}

}  // namespace levelswap::physics
