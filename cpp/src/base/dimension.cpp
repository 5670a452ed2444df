#include "levelswap/base/dimension.hpp"

#include <array>

namespace levelswap {

namespace {

// In the order of the enumeration; a test walks the table and compares the
// quantum with detail::quanta_per_si.
constexpr std::array<DimensionRow, dimension_count> rows{{
    {Dimension::length, "length", 1e-9, "m", "nm"},
    {Dimension::angle, "angle", 1e-6, "rad", "urad"},
    {Dimension::pressure_gauge, "gauge pressure", 1, "Pa", "Pa"},
    {Dimension::pressure_absolute, "absolute pressure", 1, "Pa", "Pa"},
    {Dimension::pressure_difference, "pressure difference", 1, "Pa", "Pa"},
    {Dimension::temperature, "temperature", 1e-3, "K", "mK"},
    {Dimension::temperature_difference, "temperature difference", 1e-3, "K", "mK"},
    {Dimension::mass, "mass", 1e-6, "kg", "mg"},
    {Dimension::moment, "moment", 1e-6, "N*m", "uN*m"},
    {Dimension::force, "force", 1e-6, "N", "uN"},
    {Dimension::current, "current", 1e-6, "A", "uA"},
    {Dimension::voltage, "voltage", 1e-3, "V", "mV"},
    {Dimension::apparent_power, "apparent power", 1e-3, "VA", "mVA"},
    {Dimension::power, "power", 1e-3, "W", "mW"},
    {Dimension::heat_flow, "heat flow", 1e-3, "W", "mW"},
    {Dimension::frequency, "frequency", 1e-3, "Hz", "mHz"},
    {Dimension::resistance, "resistance", 1e-3, "ohm", "mohm"},
    {Dimension::time, "time", 1e-3, "s", "ms"},
    {Dimension::mass_flow, "mass flow", 1e-6, "kg/s", "mg/s"},
    {Dimension::area, "area", 1e-6, "m2", "mm2"},
    {Dimension::density, "density", 1e-3, "kg/m3", "g/m3"},
    {Dimension::lift_per_angle, "lift per angle", 1e-9, "m/rad", "nm/rad"},
    {Dimension::volume, "volume", 1e-9, "m3", "mm3"},
    {Dimension::volume_flow, "volume flow", 1e-9, "m3/s", "mm3/s"},
    {Dimension::conductivity, "conductivity", 1e-9, "S/m", "nS/m"},
    {Dimension::cell_constant, "cell constant", 1e-6, "1/m", "1/Mm"},
    {Dimension::flow_coefficient, "flow coefficient", 1e-6, "Kv", "uKv"},
    {Dimension::start_rate, "starts per hour", 1e-6, "1/h", "u/h"},
    {Dimension::ratio, "ratio", 1e-6, "1", "ppm"},
    {Dimension::count, "count", 1, "1", "1"},
    {Dimension::money, "money", 1e-2, "1", "hundredths"},
}};

}  // namespace

DimensionRow const& row_of(Dimension dimension) { return rows.at(static_cast<std::size_t>(dimension)); }

}  // namespace levelswap
