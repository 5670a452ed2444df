#include "levelswap/physics/water.hpp"

#include <cmath>

namespace levelswap::physics {

namespace {

struct Term {
    int i, j;
    double n;
};

#include "if97.inc"

constexpr double gas_constant = 461.526;   // J/(kg·K), IAPWS R7-97(2012) eq. 1
constexpr double freezing = 273.15;        // K, lower end of the formulation
constexpr double region_1_end = 623.15;    // K
constexpr double highest_pressure = 100e6; // Pa, upper end of region 1
constexpr double critical_temperature = 647.096;
constexpr double critical_pressure = 22.064e6;  // Pa
constexpr double lowest_pressure = 611.2126774; // Pa, saturation at 273.15 K

/// Liquid water is densest near 277.13 K at low pressure and at less at higher
/// pressure: from here upward its density falls.
constexpr double falls_from = 277.2;

Interval outward(Interval x) {
    constexpr double share = 1e-12;
    return {x.lo - share * std::abs(x.lo), x.hi + share * std::abs(x.hi)};
}

double power(double base, int exponent) {
    if (exponent < 0) return 1 / power(base, -exponent);
    double result = 1;
    for (; exponent > 0; exponent >>= 1, base *= base)
        if (exponent & 1) result *= base;
    return result;
}

/// IF97 eq. 31, the backward equation, kelvin from pascal.
double saturation_kelvin(double pascal) {
    auto const& n = region_4;
    double const b2 = std::sqrt(std::clamp(pascal, lowest_pressure, critical_pressure) / 1e6), b = std::sqrt(b2);
    double const e = b2 + n[2] * b + n[5];
    double const f = n[0] * b2 + n[3] * b + n[6];
    double const g = n[1] * b2 + n[4] * b + n[7];
    double const d = 2 * g / (-f - std::sqrt(f * f - 4 * e * g));
    double const s = n[9] + d;
    return (s - std::sqrt(s * s - 4 * (n[8] + n[9] * d))) / 2;
}

/// IF97 eq. 30, pascal from kelvin.
double saturation_pascal(double kelvin) {
    auto const& n = region_4;
    double const t = std::clamp(kelvin, freezing, critical_temperature);
    double const v = t + n[8] / (t - n[9]);
    double const a = v * v + n[0] * v + n[1];
    double const b = n[2] * v * v + n[3] * v + n[4];
    double const c = n[5] * v * v + n[6] * v + n[7];
    double const root = 2 * c / (-b + std::sqrt(b * b - 4 * a * c));
    return power(root, 4) * 1e6;
}

/// Region 1, IF97 eq. 7: v = R·T/p · π·γ_π.
double region_1_density(double kelvin, double pascal) {
    constexpr double reference_pressure = 16.53e6, reference_temperature = 1386;
    double const x = 7.1 - pascal / reference_pressure, y = reference_temperature / kelvin - 1.222;
    double slope = 0;
    for (Term const& t : region_1)
        if (t.i > 0) slope -= t.n * t.i * power(x, t.i - 1) * power(y, t.j);
    return reference_pressure / (gas_constant * kelvin * slope);
}

/// Region 1, IF97 eq. 7: h = R·T·τ·γ_τ, and T·τ is the reference temperature.
double region_1_enthalpy(double kelvin, double pascal) {
    constexpr double reference_pressure = 16.53e6, reference_temperature = 1386;
    double const x = 7.1 - pascal / reference_pressure, y = reference_temperature / kelvin - 1.222;
    double slope = 0;
    for (Term const& t : region_1)
        if (t.j != 0) slope += t.n * power(x, t.i) * t.j * power(y, t.j - 1);
    return gas_constant * reference_temperature * slope;
}

/// Region 2, IF97 eq. 15: v = R·T/p · π·(1/π + γr_π).
double region_2_density(double kelvin, double pascal) {
    double const x = pascal / 1e6, y = 540 / kelvin - 0.5;
    double slope = 1 / x;
    for (Term const& t : region_2_residual) slope += t.n * t.i * power(x, t.i - 1) * power(y, t.j);
    return 1e6 / (gas_constant * kelvin * slope);
}

double liquid(double kelvin, double pascal) {
    return region_1_density(kelvin, std::clamp(pascal, saturation_pascal(kelvin), highest_pressure));
}

/// The greatest density over a range of temperature: at its cold end, except
/// that below 277.2 K the density first rises and then falls.
double densest(double cold, double warm, double pascal) {
    if (cold >= falls_from) return liquid(cold, pascal);
    double low = cold, high = std::min(warm, falls_from);
    for (int i = 0; i < 60; ++i) {
        double const third = (high - low) / 3;
        if (liquid(low + third, pascal) < liquid(high - third, pascal)) low += third;
        else high -= third;
    }
    // Near a flat crest the search is blind below about 1e-8 of the value.
    return liquid(low, pascal) * (1 + 1e-8);
}

Interval liquid_range(Interval kelvin, Interval pascal) {
    double const cold = std::clamp(kelvin.lo, freezing, region_1_end);
    double const warm = std::clamp(kelvin.hi, freezing, region_1_end);
    return outward({std::min(liquid(cold, pascal.lo), liquid(warm, pascal.lo)), densest(cold, warm, pascal.hi)});
}

/// Up to here the enthalpy of liquid rises with the pressure (the expansion
/// coefficient stays below 1/T), so bounds come from the ends of both ranges.
constexpr double enthalpy_end = 500;  // K

double liquid_heat(double kelvin, double pascal) {
    double const t = std::clamp(kelvin, freezing, enthalpy_end);
    return region_1_enthalpy(t, std::clamp(pascal, saturation_pascal(t), highest_pressure));
}

/// The sums round to about 1e-12 of the enthalpy of hot water; near freezing the
/// enthalpy itself passes through zero.
Interval outward_heat(Interval x) { return {x.lo - 1e-6, x.hi + 1e-6}; }

/// Closes in on the temperature where the enthalpy reaches a value.
double kelvin_of_heat(double enthalpy, double pascal) {
    double low = freezing, high = enthalpy_end;
    for (int i = 0; i < 60; ++i) {
        double const middle = low + 0.5 * (high - low);
        (liquid_heat(middle, pascal) < enthalpy ? low : high) = middle;
    }
    return high;
}

double vapour_on_saturation_line(double pascal) {
    double const kelvin = std::min(saturation_kelvin(pascal), region_1_end);
    return region_2_density(kelvin, saturation_pascal(kelvin));
}

}  // namespace

Temperature saturation_temperature(AbsolutePressure pressure) {
    Interval const p = pressure.si();
    return Temperature::from_si(outward({saturation_kelvin(p.lo), saturation_kelvin(p.hi)}));
}

AbsolutePressure saturation_pressure(Temperature temperature) {
    Interval const t = temperature.si();
    return AbsolutePressure::from_si(outward({saturation_pascal(t.lo), saturation_pascal(t.hi)}));
}

Density saturated_liquid_density(AbsolutePressure pressure) {
    Interval const p = pressure.si();
    Interval const t = outward({saturation_kelvin(p.lo), saturation_kelvin(p.hi)});
    // The pressure of zero stands for "as low as saturation allows".
    return Density::from_si(liquid_range(t, 0.0));
}

Density saturated_vapour_density(AbsolutePressure pressure) {
    Interval const p = pressure.si();
    return Density::from_si(outward({vapour_on_saturation_line(p.lo), vapour_on_saturation_line(p.hi)}));
}

Density liquid_density(Temperature temperature, AbsolutePressure pressure) {
    return Density::from_si(liquid_range(temperature.si(), pressure.si()));
}

/// dρ/dp is least near 50 °C, somewhere within 15 K, over which it changes by less
/// than 1 %, and greater on either side of that; where a pressure is cut to
/// saturation it has a corner. Between these temperatures and the ends it is monotone.
Density compression(Temperature temperature, AbsolutePressure from, AbsolutePressure to) {
    double const cold = std::clamp(temperature.si().lo, freezing, region_1_end);
    double const warm = std::clamp(temperature.si().hi, freezing, region_1_end);
    Interval const p = from.si(), q = to.si();
    auto gain = [](double kelvin, double low, double high) { return liquid(kelvin, high) - liquid(kelvin, low); };
    Interval all{std::min(gain(cold, p.hi, q.lo), gain(warm, p.hi, q.lo)), std::max(gain(cold, p.lo, q.hi), gain(warm, p.lo, q.hi))};
    double const slack = std::min(0.01, 0.001 * (warm - cold));
    for (double const kelvin : {std::clamp(323.15, cold, warm), saturation_kelvin(p.lo), saturation_kelvin(p.hi), saturation_kelvin(q.lo), saturation_kelvin(q.hi)}) {
        if (kelvin < cold || kelvin > warm) continue;
        Interval const here{gain(kelvin, p.hi, q.lo), gain(kelvin, p.lo, q.hi)};
        all = hull(all, here + Interval{-slack, slack} * Interval{std::max(std::abs(here.lo), std::abs(here.hi))});
    }
    // Two densities of about 1000 kg/m³, each to 1e-12 of itself.
    return Density::from_si(all + Interval{-2e-9, 2e-9});
}

Interval liquid_enthalpy(Temperature temperature, AbsolutePressure pressure) {
    Interval const t = temperature.si(), p = pressure.si();
    return outward_heat({liquid_heat(t.lo, p.lo), liquid_heat(t.hi, p.hi)});
}

Temperature liquid_temperature(Interval enthalpy, AbsolutePressure pressure) {
    Interval const h = outward_heat(enthalpy), p = pressure.si();
    return Temperature::from_si(outward({kelvin_of_heat(h.lo, p.hi), kelvin_of_heat(h.hi, p.lo)}));
}

}  // namespace levelswap::physics
