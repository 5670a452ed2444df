#include "units.hpp"

#include "levelswap/document/value.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace levelswap::document {

namespace {

/// The unit that a fitter reads off his gauge, rule or scale.
std::string_view usual_unit(Dimension d, bool us) {
    switch (d) {
        case Dimension::length: return us ? "in" : "mm";
        case Dimension::angle: return "deg";
        case Dimension::pressure_gauge: return us ? "psi(g)" : "bar(g)";
        case Dimension::pressure_absolute: return us ? "psi(a)" : "bar(a)";
        case Dimension::pressure_difference: return us ? "psi" : "bar";
        case Dimension::temperature: return us ? "degF" : "degC";
        case Dimension::temperature_difference: return us ? "degF" : "K";
        case Dimension::mass: return us ? "lb" : "kg";
        case Dimension::moment: return us ? "lbf*in" : "N*m";
        case Dimension::force: return us ? "lbf" : "N";
        case Dimension::current: return "A";
        case Dimension::voltage: return "V";
        case Dimension::apparent_power: return "VA";
        case Dimension::power: return us ? "hp" : "kW";
        case Dimension::heat_flow: return us ? "Btu/h" : "kW";
        case Dimension::frequency: return "Hz";
        case Dimension::resistance: return "ohm";
        case Dimension::time: return "s";
        case Dimension::mass_flow: return us ? "lb/h" : "kg/h";
        case Dimension::area: return us ? "in2" : "cm2";
        case Dimension::density: return us ? "lb/ft3" : "kg/m3";
        case Dimension::lift_per_angle: return us ? "in/deg" : "mm/deg";
        case Dimension::volume: return us ? "gal" : "l";
        case Dimension::volume_flow: return us ? "gal/min" : "l/min";
        case Dimension::conductivity: return "uS/cm";
        case Dimension::cell_constant: return "1/cm";
        case Dimension::flow_coefficient: return us ? "Cv" : "Kv";
        case Dimension::start_rate: return "1/h";
        case Dimension::ratio: return "%";
        case Dimension::count:
        case Dimension::money: return "1";
    }
    return "1";
}

std::string without_trailing_zeros(std::string text) {
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return text == "-0" ? "0" : text;
}

/// `digits` significant figures, never an exponent.
std::string significant(double x, int digits) {
    if (x == 0) return "0";
    int const magnitude = static_cast<int>(std::floor(std::log10(std::abs(x))));
    int const decimals = digits - 1 - magnitude;
    if (decimals >= 0) return without_trailing_zeros(fmt::format("{:.{}f}", x, std::min(decimals, 12)));
    double const step = std::pow(10.0, -decimals);
    return without_trailing_zeros(fmt::format("{:.0f}", std::round(x / step) * step));
}

}  // namespace

ExactUnit const* unit_in(std::string_view text, Dimension dimension) {
    ExactUnit const* found = find_unit("1", dimension);
    for (ExactUnit const& unit : exact_units())
        if (unit.dimension == dimension && text.ends_with(unit.word) && unit.word != "1" && (!found || found->word == "1" || unit.word.size() > found->word.size()))
            found = &unit;
    return found;
}

std::string format_in(double quanta, ExactUnit const& unit, int digits) {
    auto const raw = static_cast<long double>(quanta) * static_cast<long double>(unit.divisor);
    auto const number = (raw - static_cast<long double>(unit.offset)) / static_cast<long double>(unit.scale);
    std::string const text = significant(static_cast<double>(number), std::clamp(digits, 1, 15));
    return unit.word == "1" ? text : fmt::format("{} {}", text, unit.word);
}

std::string format_quanta(double quanta, Dimension dimension, UnitSystem system, int digits) {
    if (std::isinf(quanta)) return quanta > 0 ? "unlimited" : "-unlimited";
    // Parts and money are counted, not measured: every digit stays.
    if (dimension == Dimension::count) return without_trailing_zeros(fmt::format("{:.0f}", quanta));
    if (dimension == Dimension::money) {
        return fmt::format("{:.{}f}", quanta / 100, std::fmod(quanta, 100) == 0 ? 0 : 2);
    }
    std::string_view const word = usual_unit(dimension, system == UnitSystem::us);
    return format_in(quanta, *find_unit(word, dimension), digits);
}

}  // namespace levelswap::document
