#include "units.hpp"

#include "levelswap/document/value.hpp"

#include <array>
#include <string>
#include <vector>

namespace levelswap::document {

namespace {

using D = Dimension;

// Exact by definition, international yard and pound agreement of 1959:
// 1 in = 25.4 mm, 1 lb = 0.45359237 kg. Standard gravity 9.80665 m/s2 (3rd
// General Conference on Weights and Measures, 1901). So 1 lbf =
// 4.4482216152605 N exactly, and 1 psi = 1 lbf/in2.
constexpr std::int64_t inch = 25'400'000;          // nm
constexpr std::int64_t pound = 45'359'237;         // 10 ug
constexpr std::int64_t lbf = 44'482'216'152'605;   // 0.1 pN
constexpr std::int64_t square_inch = 64'516;       // 0.01 mm2
constexpr std::int64_t square_foot = 9'290'304;    // 0.01 mm2
constexpr std::int64_t cubic_foot = 28'316'846'592;  // mm3

constexpr std::int64_t gallon = 3'785'411'784;  // 231 in3 (United States), in 0.001 mm3

// 1 lbf/in2 = (lbf * 1e-13 N) / (6.4516e-4 m2).
constexpr std::int64_t psi_divisor = 6'451'600'000;

// 180/pi and pi/180 are irrational: 17 digits, beyond what a double holds.
constexpr std::int64_t degree = 17'453'292'519'943'296;      // 1e-12 urad
constexpr std::int64_t per_radian = 57'295'779'513'082'321;  // 1e-15 deg

constexpr std::int64_t e12 = 1'000'000'000'000;

constexpr std::array table{
    ExactUnit{"in", D::length, inch, 0, 1},
    ExactUnit{"ft", D::length, 12 * inch, 0, 1},
    ExactUnit{"mm", D::length, 1'000'000, 0, 1},
    ExactUnit{"cm", D::length, 10'000'000, 0, 1},
    ExactUnit{"m", D::length, 1'000'000'000, 0, 1},
    ExactUnit{"um", D::length, 1'000, 0, 1},

    ExactUnit{"deg", D::angle, degree, 0, e12},
    ExactUnit{"rad", D::angle, 1'000'000, 0, 1},
    ExactUnit{"mrad", D::angle, 1'000, 0, 1},

    ExactUnit{"psi(g)", D::pressure_gauge, lbf, 0, psi_divisor},
    ExactUnit{"bar(g)", D::pressure_gauge, 100'000, 0, 1},
    ExactUnit{"mbar(g)", D::pressure_gauge, 100, 0, 1},
    ExactUnit{"kPa(g)", D::pressure_gauge, 1'000, 0, 1},
    ExactUnit{"MPa(g)", D::pressure_gauge, 1'000'000, 0, 1},
    ExactUnit{"Pa(g)", D::pressure_gauge, 1, 0, 1},

    ExactUnit{"psi(a)", D::pressure_absolute, lbf, 0, psi_divisor},
    ExactUnit{"bar(a)", D::pressure_absolute, 100'000, 0, 1},
    ExactUnit{"mbar(a)", D::pressure_absolute, 100, 0, 1},
    ExactUnit{"kPa(a)", D::pressure_absolute, 1'000, 0, 1},
    ExactUnit{"MPa(a)", D::pressure_absolute, 1'000'000, 0, 1},
    ExactUnit{"Pa(a)", D::pressure_absolute, 1, 0, 1},

    ExactUnit{"psi", D::pressure_difference, lbf, 0, psi_divisor},
    ExactUnit{"bar", D::pressure_difference, 100'000, 0, 1},
    ExactUnit{"mbar", D::pressure_difference, 100, 0, 1},
    ExactUnit{"kPa", D::pressure_difference, 1'000, 0, 1},
    ExactUnit{"MPa", D::pressure_difference, 1'000'000, 0, 1},
    ExactUnit{"Pa", D::pressure_difference, 1, 0, 1},
    // Conventional inch of water: 1000 kg/m3 and standard gravity, 249.08891 Pa.
    ExactUnit{"inH2O", D::pressure_difference, 24'908'891, 0, 100'000},

    // 0 degC = 273.15 K and 0 degF = 459.67/1.8 K, exact by definition.
    ExactUnit{"degF", D::temperature, 5'000, 2'298'350, 9},
    ExactUnit{"degC", D::temperature, 1'000, 273'150, 1},
    ExactUnit{"K", D::temperature, 1'000, 0, 1},

    ExactUnit{"degF", D::temperature_difference, 5'000, 0, 9},
    ExactUnit{"degC", D::temperature_difference, 1'000, 0, 1},
    ExactUnit{"K", D::temperature_difference, 1'000, 0, 1},

    ExactUnit{"lb", D::mass, pound, 0, 100},
    ExactUnit{"oz", D::mass, pound, 0, 1'600},
    ExactUnit{"kg", D::mass, 1'000'000, 0, 1},
    ExactUnit{"g", D::mass, 1'000, 0, 1},

    ExactUnit{"lbf*in", D::moment, lbf * 254, 0, e12 / 10},
    ExactUnit{"lbf*ft", D::moment, lbf * 254 * 12, 0, e12 / 10},
    ExactUnit{"ozf*in", D::moment, lbf * 254, 0, e12 / 10 * 16},
    ExactUnit{"N*m", D::moment, 1'000'000, 0, 1},
    ExactUnit{"N*mm", D::moment, 1'000, 0, 1},

    ExactUnit{"lbf", D::force, lbf, 0, 10'000'000},
    ExactUnit{"N", D::force, 1'000'000, 0, 1},

    ExactUnit{"A", D::current, 1'000'000, 0, 1},
    ExactUnit{"mA", D::current, 1'000, 0, 1},

    ExactUnit{"V", D::voltage, 1'000, 0, 1},
    ExactUnit{"mV", D::voltage, 1, 0, 1},
    ExactUnit{"kV", D::voltage, 1'000'000, 0, 1},

    ExactUnit{"VA", D::apparent_power, 1'000, 0, 1},
    ExactUnit{"kVA", D::apparent_power, 1'000'000, 0, 1},

    // 550 ft*lbf/s. A boiler horsepower is an evaporation and no unit here.
    ExactUnit{"hp", D::power, lbf * 16'764, 0, e12},
    ExactUnit{"W", D::power, 1'000, 0, 1},
    ExactUnit{"kW", D::power, 1'000'000, 0, 1},

    // International table Btu: 1055.05585262 J. In horsepower nobody could tell a motor's from a boiler's.
    ExactUnit{"Btu/h", D::heat_flow, 105'505'585'262, 0, 360'000'000},
    ExactUnit{"W", D::heat_flow, 1'000, 0, 1},
    ExactUnit{"kW", D::heat_flow, 1'000'000, 0, 1},
    ExactUnit{"MW", D::heat_flow, 1'000'000'000, 0, 1},

    ExactUnit{"Hz", D::frequency, 1'000, 0, 1},

    ExactUnit{"ohm", D::resistance, 1'000, 0, 1},
    ExactUnit{"kohm", D::resistance, 1'000'000, 0, 1},

    ExactUnit{"s", D::time, 1'000, 0, 1},
    ExactUnit{"ms", D::time, 1, 0, 1},
    ExactUnit{"min", D::time, 60'000, 0, 1},
    ExactUnit{"h", D::time, 3'600'000, 0, 1},

    ExactUnit{"lb/h", D::mass_flow, pound, 0, 360'000},
    ExactUnit{"kg/h", D::mass_flow, 2'500, 0, 9},
    ExactUnit{"kg/s", D::mass_flow, 1'000'000, 0, 1},

    ExactUnit{"in2", D::area, square_inch, 0, 100},
    ExactUnit{"ft2", D::area, square_foot, 0, 100},
    ExactUnit{"mm2", D::area, 1, 0, 1},
    ExactUnit{"cm2", D::area, 100, 0, 1},
    ExactUnit{"m2", D::area, 1'000'000, 0, 1},

    ExactUnit{"lb/ft3", D::density, pound * 10'000'000, 0, cubic_foot},
    ExactUnit{"kg/m3", D::density, 1'000, 0, 1},

    ExactUnit{"in/deg", D::lift_per_angle, per_radian * 127, 0, 5'000'000'000},
    ExactUnit{"mm/deg", D::lift_per_angle, per_radian, 0, 1'000'000'000},
    ExactUnit{"mm/rad", D::lift_per_angle, 1'000'000, 0, 1},

    ExactUnit{"gal", D::volume, gallon, 0, 1'000},
    ExactUnit{"ft3", D::volume, cubic_foot, 0, 1'000},
    ExactUnit{"l", D::volume, 1'000'000, 0, 1},
    ExactUnit{"ml", D::volume, 1'000, 0, 1},
    ExactUnit{"m3", D::volume, 1'000'000'000, 0, 1},

    ExactUnit{"gal/min", D::volume_flow, gallon, 0, 60'000},
    ExactUnit{"gal/h", D::volume_flow, gallon, 0, 3'600'000},
    ExactUnit{"l/min", D::volume_flow, 50'000, 0, 3},
    ExactUnit{"l/s", D::volume_flow, 1'000'000, 0, 1},
    ExactUnit{"l/h", D::volume_flow, 2'500, 0, 9},
    ExactUnit{"m3/h", D::volume_flow, 2'500'000, 0, 9},

    ExactUnit{"uS/cm", D::conductivity, 100'000, 0, 1},
    ExactUnit{"mS/cm", D::conductivity, 100'000'000, 0, 1},
    ExactUnit{"mS/m", D::conductivity, 1'000'000, 0, 1},
    ExactUnit{"S/m", D::conductivity, 1'000'000'000, 0, 1},

    ExactUnit{"1/cm", D::cell_constant, 100'000'000, 0, 1},
    ExactUnit{"1/m", D::cell_constant, 1'000'000, 0, 1},

    // Cv is gal/min at 1 psi, Kv m3/h at 1 bar: 0.2271247... / sqrt(0.0689475...)
    // is irrational, 17 digits. Standards round it to 0.865.
    ExactUnit{"Cv", D::flow_coefficient, 86'497'765'544'230'176, 0, 100'000'000'000},
    ExactUnit{"Kv", D::flow_coefficient, 1'000'000, 0, 1},

    ExactUnit{"1/h", D::start_rate, 1'000'000, 0, 1},
    ExactUnit{"1/min", D::start_rate, 60'000'000, 0, 1},

    ExactUnit{"%", D::ratio, 10'000, 0, 1},
    ExactUnit{"1", D::ratio, 1'000'000, 0, 1},
    ExactUnit{"1", D::count, 1, 0, 1},
    ExactUnit{"1", D::money, 100, 0, 1},
};

std::vector<UnitRow> public_rows() {
    std::vector<UnitRow> rows;
    for (ExactUnit const& u : table) {
        long double const divisor = static_cast<long double>(u.divisor) * detail::quanta_per_si(u.dimension);
        rows.push_back({u.word, u.dimension, static_cast<double>(static_cast<long double>(u.scale) / divisor),
                        static_cast<double>(static_cast<long double>(u.offset) / divisor)});
    }
    return rows;
}

}  // namespace

std::span<ExactUnit const> exact_units() { return table; }

ExactUnit const* find_unit(std::string_view word, Dimension dimension) {
    for (ExactUnit const& u : table) {
        if (u.dimension == dimension && u.word == word) return &u;
    }
    return nullptr;
}

ExactUnit const* find_unit(std::string_view word) {
    for (ExactUnit const& u : table) {
        if (u.word == word) return &u;
    }
    return nullptr;
}

bool takes_plain_numbers(Dimension dimension) { return find_unit("1", dimension) != nullptr; }

UnitTable units() {
    static std::vector<UnitRow> const rows = public_rows();
    return {rows.data(), rows.size()};
}

std::string accepted_units(Dimension dimension) {
    std::string out;
    for (ExactUnit const& u : table) {
        if (u.dimension != dimension) continue;
        if (!out.empty()) out += ", ";
        out += u.word == "1" ? "a plain number" : u.word;
    }
    return out;
}

}  // namespace levelswap::document
