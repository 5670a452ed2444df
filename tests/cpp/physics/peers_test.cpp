// Outside source: tests/reference/physics_peers.csv, written by
// tests/support/physics_peers.py with fluids (valve sizing), CoolProp (water and
// steam of IAPWS-95) and scipy (integrals, roots and simulations in time);
// test_physics_reference_against_peers.py computes each row again.
#include "levelswap/physics/column_shift.hpp"
#include "levelswap/physics/float_valve.hpp"
#include "levelswap/physics/make_up.hpp"
#include "levelswap/physics/probe_circuit.hpp"
#include "levelswap/physics/pump_cycling.hpp"
#include "levelswap/physics/tank_mixing.hpp"
#include "levelswap/physics/valve_sizing.hpp"
#include "levelswap/physics/vessel_volume.hpp"
#include "levelswap/physics/water.hpp"
#include "levelswap/physics/wet_leg.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <functional>
#include <sstream>
#include <string>
#include <tuple>
#include <vector>

namespace levelswap::physics {
namespace {

struct Row {
    std::vector<double> inputs;
    double value = 0;
};

std::vector<Row> rows_of(std::string const& function) {
    std::ifstream file(std::string(LEVELSWAP_TEST_DATA) + "/reference/physics_peers.csv");
    std::vector<Row> rows;
    for (std::string line; std::getline(file, line);) {
        std::istringstream cells(line);
        std::string name, inputs, value;
        std::getline(cells, name, ',');
        std::getline(cells, inputs, ',');
        std::getline(cells, value, ',');
        if (name != function) continue;
        Row row{{}, std::stod(value)};
        std::istringstream numbers(inputs);
        for (std::string number; std::getline(numbers, number, ';');) row.inputs.push_back(std::stod(number));
        rows.push_back(row);
    }
    return rows;
}

/// Every row's value, within a share of it and an amount.
void expect_rows(std::string const& function, double share, double amount,
                 std::function<Interval(std::vector<double> const&, double)> const& ours) {
    auto const rows = rows_of(function);
    ASSERT_EQ(rows.size(), 8u) << function;
    for (Row const& row : rows) {
        Interval const found = ours(row.inputs, row.value);
        EXPECT_NEAR(found.middle(), row.value, share * std::abs(row.value) + amount) << function;
        EXPECT_LT(found.width(), 1e-6 * std::abs(row.value) + 1e-6) << function;
    }
}

Length metres(double x) { return Length::from_si(x); }
Density density(double x) { return Density::from_si(x); }
Temperature kelvin(double x) { return Temperature::from_si(x); }
AbsolutePressure pascal(double x) { return AbsolutePressure::from_si(x); }
PressureDifference difference(double x) { return PressureDifference::from_si(x); }
Mass kilograms(double x) { return Mass::from_si(x); }
VolumeFlow flow(double x) { return VolumeFlow::from_si(x); }

using Inputs = std::vector<double>;

// fluids takes 999.103 kg/m³ as the reference density, the standard prints 999.1.
constexpr double same_valve = 1e-5;

// Between reducers fluids stops when a step changes C by less than 1 %, as the
// standard does; the steps shrink so fast that the rest is below this share.
constexpr double same_fixed_point = 3e-5;

// The two formulations' enthalpies of hot water differ by up to 70 J/kg, which
// is 17 mK.
constexpr double same_heat = 0.02;

// IAPWS-95 and IF97 differ by up to 0.03 % in the density of steam and less in water's.
constexpr double same_water = 3e-4;

ValveStream stream(Inputs const& x) { return {pascal(x[0]), pascal(x[1]), pascal(x[2]), density(x[3])}; }

TEST(Peers, valves_are_sized_as_fluids_sizes_them) {
    expect_rows("valve_kv", same_valve, 0, [](Inputs const& x, double) {
        auto const sizing = sizing_drop(stream(x), choked_drop(stream(x), x[5]));
        return required_coefficient(flow(x[4]), sizing, density(x[3])).si();
    });
}

TEST(Peers, a_valve_sized_by_fluids_between_reducers_passes_the_flow_it_was_sized_for) {
    expect_rows("reduced_valve_kv", same_fixed_point, 0, [](Inputs const& x, double kv) {
        auto const c = FlowCoefficient::from_si(kv);
        Interval const piping = piping_geometry_factor(c, metres(x[6]), metres(x[7]));
        Interval const recovery = combined_recovery_factor(c, x[5], metres(x[6]), metres(x[7]));
        auto const sizing = sizing_drop(stream(x), choked_drop(stream(x), recovery, piping));
        EXPECT_LT(piping.hi, 1);
        EXPECT_NEAR(flow_through(c, sizing, density(x[3]), piping).si().middle(), x[4], same_fixed_point * x[4]);
        return required_coefficient(flow(x[4]), sizing, density(x[3])).si() / piping;
    });
}

TEST(Peers, wet_legs_weigh_what_coolprop_says) {
    expect_rows("wet_leg_pressure", same_water, 2, [](Inputs const& x, double) {
        AbsolutePressure const p = pascal(x[0]);
        WetLeg const boiler{metres(x[2]), saturated_liquid_density(p), saturated_vapour_density(p), liquid_density(kelvin(x[1]), p)};
        return wet_leg_difference(boiler, metres(x[3])).si();
    });
}

TEST(Peers, water_is_compressed_as_coolprop_says) {
    // Two formulations that agree to about 1e-5 of the density: within 1 % of what a pressure adds.
    expect_rows("compression", 0.01, 0, [](Inputs const& x, double) { return compression(kelvin(x[0]), pascal(x[1]), pascal(x[2])).si(); });
}

TEST(Peers, a_level_is_where_the_legs_of_coolprop_balance_at_another_pressure) {
    expect_rows("true_level", 0, 5e-5, [](Inputs const& x, double) {
        auto const [ranged_at, now, leg] = std::tuple{pascal(x[0]), pascal(x[1]), kelvin(x[2])};
        auto state = [&](AbsolutePressure p) {
            return WetLeg{metres(x[3]), saturated_liquid_density(p), saturated_vapour_density(p), liquid_density(leg, p)};
        };
        // What one ranged for the boiler as it is now would show of the boiler that this one is ranged for.
        return x[4] + level_error(state(now), state(ranged_at), compression(leg, now, ranged_at), metres(x[4])).si();
    });
}

TEST(Peers, columns_stand_where_legs_of_coolprop_balance) {
    expect_rows("column_level", same_water, 0, [](Inputs const& x, double) {
        AbsolutePressure const p = pascal(x[0]);
        return column_level(metres(x[3]), saturated_liquid_density(p), liquid_density(kelvin(x[1]), p), saturated_vapour_density(p)).si();
    });
}

TEST(Peers, mixed_water_has_the_temperature_of_its_heat) {
    auto const mixed = [](Inputs const& x, double) {
        return mixed_temperature(kilograms(x[0]), kelvin(x[1]), kilograms(x[2]), kelvin(x[3]), pascal(x[4])).si();
    };
    expect_rows("mixed_temperature", 0, same_heat, mixed);
    expect_rows("filled_temperature", 0, same_heat, mixed);  // stepped through time
}

TEST(Peers, enthalpy_of_liquid_is_that_of_another_if97) {
    expect_rows("liquid_enthalpy", 1e-8, 0, [](Inputs const& x, double) { return liquid_enthalpy(kelvin(x[0]), pascal(x[1])); });
}

TEST(Peers, preheat_is_the_integral_of_the_specific_heat) {
    expect_rows("heating_power", same_water, 0, [](Inputs const& x, double) {
        return heating_power(MassFlow::from_si(x[0]), kelvin(x[1]), kelvin(x[2]), pascal(x[3])).si();
    });
}

TEST(Peers, a_pump_stepped_through_time_starts_as_often) {
    expect_rows("starts_per_hour", 1e-7, 0, [](Inputs const& x, double) {
        return starts_per_hour(Volume::from_si(x[0]), flow(x[1]), flow(x[2])).si();
    });
}

FloatValve valve(Inputs const& x) {
    return {FloatForm::sphere, metres(x[0]), metres(0), kilograms(x[1]), metres(x[2]), Moment::from_si(x[3]), Area::from_si(x[4]), metres(x[5])};
}

TEST(Peers, float_valves_shut_against_the_integrated_lift) {
    expect_rows("float_valve_pressure", 1e-7, 0, [](Inputs const& x, double) {
        return largest_shut_off_pressure(valve(x), density(985), metres(x[6]), 1.15).si();
    });
    expect_rows("float_valve_draught", 1e-7, 0, [](Inputs const& x, double) {
        return shut_off_draught(valve(x), density(985), difference(x[6]), 1.15).si();
    });
}

TEST(Peers, drums_hold_the_integral_of_their_width) {
    expect_rows("drum_volume", 1e-8, 0, [](Inputs const& x, double) {
        return horizontal_cylinder_volume(metres(x[0]), metres(x[1]), metres(x[2]), metres(x[3])).si();
    });
}

TEST(Peers, water_round_a_rod_resists_as_its_shells_do) {
    expect_rows("coaxial_resistance", 1e-6, 0, [](Inputs const& x, double) {
        return water_resistance(coaxial_cell_constant(metres(x[0]), metres(x[1]), metres(x[2])), Conductivity::from_si(x[3])).si();
    });
}

TEST(Peers, suction_head_agrees_with_the_vapour_pressure_of_coolprop) {
    expect_rows("suction_head", same_water, 1e-3, [](Inputs const& x, double) {
        auto const surface = pascal(x[0]);
        return npsh_available(surface, saturation_pressure(kelvin(x[1])), difference(x[2]), metres(x[3]), liquid_density(kelvin(x[1]), surface)).si();
    });
}

}  // namespace
}  // namespace levelswap::physics
