#include "families/buoyancy.hpp"
#include "families/contacts.hpp"
#include "families/feed.hpp"
#include "families/insertion.hpp"
#include "families/interfaces.hpp"
#include "families/piping.hpp"
#include "families/probes.hpp"
#include "families/ratings.hpp"
#include "families/roles.hpp"
#include "families/surroundings.hpp"
#include "families/tank_heat.hpp"
#include "families/transmitter.hpp"
#include "families/travel.hpp"
#include "levelswap/rules/rule.hpp"

namespace levelswap {

namespace {

namespace f = families;
using enum Scope;
using F = Figure;

constexpr bool required = true;
constexpr bool recommended = false;
constexpr bool only_with_figure = true;
constexpr bool always = false;

constexpr std::string_view physics = "physics";
constexpr std::string_view practice = "common practice, no source";
// Marks of the figures as tests/reference/contact_ratings.csv and motor_flc.csv have them.
#define LEVELSWAP_HELD "; coils held at +10 % volts (amperes x 1.1, volt-amperes x 1.21) are common practice, no source"
constexpr std::string_view pilot_duty = "NEMA ICS 5 / IEC 60947-5-1 pilot duty: thermal current read, make and break figures from memory" LEVELSWAP_HELD;
constexpr std::string_view carry_figures = "NEMA ICS 5 / IEC 60947-5-1 thermal current of the code (read)" LEVELSWAP_HELD;
constexpr std::string_view make_figures = "NEMA ICS 5 / IEC 60947-5-1 pilot duty, make figures (from memory)";
constexpr std::string_view break_figures = "NEMA ICS 5 / IEC 60947-5-1 pilot duty, break figures (from memory)" LEVELSWAP_HELD;
#undef LEVELSWAP_HELD
constexpr std::string_view motor_figures = "NFPA 70 (NEC) Tables 430.248 to 430.251 and 430.7(B) (read); that the larger of plate and table counts, 430.6, and the current of a code letter are from memory";
constexpr std::string_view hazardous = "NFPA 70 (NEC) article 500; IEC 60079-14 (from memory)";

RuleFunctions const no_body{};  // judged on the level network or on the wiring as a whole

// id, title, level, source, what it protects against, where it stands, figure, needs a pack row, body
RuleRow const rows[] = {
    {"interfaces.flange", "the flanges bolt together", required, physics, "a head that does not seat", station, F::none, always, f::interfaces::flange()},
    {"interfaces.tilt", "the head sits at the tilt it is made for", recommended, practice, "every angle shifted by the column's tilt", station, F::none, always, f::interfaces::tilt()},
    {"interfaces.opening", "the float passes the opening", required, physics, "a float that cannot go in", station, F::none, always, f::interfaces::opening()},
    {"interfaces.stem", "the float screws on to the arm", required, physics, "a float that cannot be fixed", station, F::none, always, f::interfaces::stem()},
    {"interfaces.thread", "the equalizing connections match", required, "physics; that an adapter is no cure is common practice, no source", "a joint matched on nominal size alone", station, F::none, always, f::interfaces::thread()},
    {"interfaces.bay", "the switch set suits the bay", required, physics, "a set that the head cannot drive", station, F::none, always, f::interfaces::bay()},
    {"interfaces.tube", "the switch half suits the magnet tube", required, physics, "a magnet that does not carry the switch", station, F::none, always, f::interfaces::tube()},
    {"interfaces.tappings", "the column stands on the vessel's tappings", required, physics, "elbows and bushings in the equalizing lines", station, F::none, always, f::interfaces::tappings()},
    {"interfaces.signal", "the slide-wire suits the actuator", required, practice, "a valve that hunts or sits at one end", pair, F::none, always, f::interfaces::signal()},
    {"interfaces.supply", "coils suit the supply", required, practice, "a coil that does not pull in, or hums and burns", circuit, F::supply_under, always, f::interfaces::supply()},
    {"interfaces.overvoltage", "the supply does not burn the coils", required, practice, "a coil that burns out", circuit, F::supply_over, always, f::interfaces::overvoltage()},
    {"interfaces.withdrawal", "the head can be taken out", required, physics, "a head that nobody can put in or take out", station, F::none, always, f::interfaces::withdrawal()},
    {"interfaces.hand", "the conduit comes on the right side", recommended, practice, "a conduit or drain on the wrong side", station, F::none, always, f::interfaces::hand()},
    {"interfaces.feed_thread", "the valves suit the feed line", required, "physics; that an adapter is no cure is common practice, no source", "a valve that does not go into the pipe", line_part, F::none, always, f::interfaces::feed_thread()},
    {"travel.contact", "the float reaches every contact", required, physics, "a contact that never makes or breaks", pair, F::overtravel, always, f::travel::contact()},
    {"travel.slide_wire", "the float sweeps the whole slide-wire", required, physics, "a feed valve that cannot close or cannot open", pair, F::none, always, f::travel::slide_wire()},
    {"travel.binding", "the float clears the sides over its whole arc", required, "physics; how much clearance is enough is common practice, no source", "a float that jams cannot fall, and cannot trip", station, F::side_clearance, always, f::travel::binding()},
    {"buoyancy.lift", "the float lifts the switch", required, physics, "a float that rides low and does not act", pair, F::lift_factor, always, f::buoyancy::lift()},
    {"buoyancy.sink", "the float's weight pulls the switch down", required, physics, "a float that hangs on its switch", pair, F::sink_factor, always, f::buoyancy::sink()},
    {"buoyancy.crush", "the float is proof against the pressure", required, physics, "a float that collapses and sinks", station, F::none, always, f::buoyancy::crush()},
    {"ratings.temperature", "every wetted part stands the temperature there", required, "IAPWS-IF97 region 4", "a part used above its temperature", part, F::none, always, f::ratings::temperature()},
    {"ratings.pressure", "every wetted part stands MAWP at its temperature", required, "IAPWS-IF97 region 4; ASME B16.1 and B16.5 interpolation", "a part that bursts", part, F::none, always, f::ratings::pressure()},
    {"ratings.service", "every wetted part is made for this service", required, practice, "a part of another duty on a boiler", part, F::none, always, f::ratings::service()},
    {"ratings.low_pressure", "parts limited to 15 psi stay below it", required, "46 CFR 53.01-10(b)(1)", "a part made for 15 psi under more pressure than that", part, F::none, always, f::ratings::low_pressure()},
    {"ratings.feed_pressure", "every part of a feed line stands its pressure", required, "46 CFR 56.50-30(a)(3)", "a valve that bursts when the pump runs against it", line_part, F::none, always, f::ratings::feed_pressure()},
    {"ratings.feed_temperature", "every part of a feed line stands its water", required, physics, "a seat that softens in hot feed water", line_part, F::none, always, f::ratings::feed_temperature()},
    {"ratings.feed_service", "every part of a feed line is made for its water", required, practice, "a cold-water part in hot feed, or the reverse", line_part, F::none, always, f::ratings::feed_service()},
    {"contacts.voltage", "the contact is rated for the supply voltage", required, physics, "an arc that does not go out", pair, F::none, always, f::contacts::voltage()},
    {"contacts.carry", "the contact carries the load", required, carry_figures, "an overheated contact", pair, F::coil_margin, always, f::contacts::carry()},
    {"contacts.make", "the contact makes the inrush", required, make_figures, "a contact that welds", pair, F::coil_margin, always, f::contacts::make()},
    {"contacts.break", "the contact breaks the load", required, break_figures, "a contact that burns away or does not open", pair, F::coil_margin, always, f::contacts::break_()},
    {"contacts.minimum_load", "the load is enough for the contact", required, practice, "a power contact that fails on a logic input", pair, F::none, always, f::contacts::minimum_load()},
    {"contacts.fuse", "the fuse protects the contact", recommended, "IEC 60947-5-1 conventional thermal current of the code (read); that the fuse stays below it is common practice, no source", "a contact that burns before the fuse does", pair, F::none, always, f::contacts::fuse()},
    {"contacts.motor_direct", "a motor straight on a contact needs a motor rating", required, motor_figures, "a pilot contact that welds on the pump motor", pair, F::none, always, f::contacts::motor_direct()},
    {"contacts.motor_supply", "a motor straight on a contact suits its supply", required, "NEMA MG 1 12.44, plate voltage within 10 % (from memory)", "a motor that stalls, or burns", pair, F::none, always, f::contacts::motor_supply()},
    {"contacts.contactor", "the contactor is rated for the motor", required, motor_figures, "a contactor too small for the motor", circuit, F::none, always, f::contacts::contactor()},
    {"contacts.relay_contact", "the relay's own contact carries the load", required, pilot_duty, "a relay that welds or fails on the load it was put in for", circuit, F::coil_margin, always, f::contacts::relay_contact()},
    {"contacts.transformer", "the transformer carries the circuit", required, "physics; coils held at +10 % volts (volt-amperes x 1.21) are common practice, no source", "a supply that sags when the coils hold, or none at all", circuit, F::coil_margin, always, f::contacts::transformer()},
    {"contacts.conductor", "the ungrounded conductor is broken", required, practice, "a circuit left live, or closed by a fault to ground", circuit, F::none, always, f::contacts::conductor()},
    {"contacts.in_series", "the cut-off stands in series with the other limits", required, "common practice, no source; the code in force asks for it", "a cut-off that another control is wired round", pair, F::none, always, f::contacts::in_series()},
    {"contacts.common", "outputs on one common have one supply", required, physics, "two supplies tied together", wiring, F::none, always, no_body},
    {"contacts.relay_in_fuel_chain", "no relay weakens the fuel cut-off", required, practice, "a welded relay that keeps the burner on", pair, F::relay_in_fuel_chain, always, f::contacts::relay_in_fuel_chain()},
    {"contacts.shared_relay", "no relay serves both cut-offs", required, practice, "one weld that defeats both cut-offs", wiring, F::none, always, no_body},
    {"roles.output", "every function has an output of the right form", required, "physics; which functions are in use is for the wiring to show (common practice, no source)", "a function with nothing to perform it", pair, F::none, always, f::roles::output()},
    {"roles.reset", "the secondary cut-off locks out, the pump does not", required, "ASME CSD-1 CW-140(b); see the pack", "a burner that restarts unseen", pair, F::secondary_manual_reset, always, f::roles::reset()},
    {"roles.primary_reset", "the primary cut-off resets by itself", required, practice, "a boiler that cannot catch up", pair, F::primary_automatic_reset, only_with_figure, f::roles::primary_reset()},
    {"roles.unattended", "heat comes back with nobody there", recommended, practice, "a cold building, and a jumper round the lockout", pair, F::none, always, f::roles::unattended()},
    {"roles.lockout", "a lockout holds until it is reset", required, "ASME CSD-1 CW-140(b); what a power failure does is common practice, no source", "a lockout that a power failure or a held button clears", pair, F::none, always, f::roles::lockout()},
    {"roles.listed", "cut-offs are listed for the duty", required, practice, "a part that nobody has tested as a cut-off", pair, F::none, always, f::roles::listed()},
    {"roles.count", "there are as many cut-offs as the code asks", required, "the pack in force", "a boiler with too few cut-offs", vessel, F::cut_offs, only_with_figure, f::roles::count()},
    {"roles.independent", "cut-offs stand on water connections of their own", required, "ASME CSD-1 CW-140(a)", "one blocked line that blinds both", wiring, F::none, always, no_body},
    {"roles.unlike_principles", "cut-offs tell the level by unlike principles", required, "the pack in force", "one kind of fault, such as scale, that blinds both", wiring, F::unlike_principles, only_with_figure, no_body},
    {"roles.state_table", "the burner contact is open unless proven wet", required, physics, "a fault that keeps the burner on", pair, F::none, always, f::roles::state_table()},
    {"levels.glass_over_lpwl", "the glass shows water above the lowest permissible level", required, "the pack in force", "a glass that still shows water when there is too little", wiring, F::glass_over_lpwl, always, no_body},
    {"levels.cut_off_visible", "cut-offs trip while water is visible", required, "ASME CSD-1 CW-140(a)", "a burner that fires with no water in the glass", wiring, F::cut_off_above_visible, always, no_body},
    {"levels.cut_off_over_lpwl", "where there is no glass, cut-offs act above the lowest permissible level", required, "physics; the lowest level is the boiler maker's", "a burner that fires with too little water, and nobody sees it", wiring, F::none, always, no_body},
    {"levels.order", "everything happens in the right order", required, physics, "a cut-off before the pump, or a secondary before the primary", wiring, F::separation, always, no_body},
    {"levels.bracket", "the column's connections bracket every output", required, physics, "an output level that the column never shows", wiring, F::none, always, no_body},
    {"levels.mounting", "one mounting satisfies every level", required, physics, "levels that exclude each other", wiring, F::none, always, no_body},
    {"levels.delay", "the cut-off acts in time at full fire", required, physics, "a burner that fires while the water leaves the glass", wiring, F::delay_margin, always, no_body},
    {"surroundings.ambient", "the switch stands the heat of its place", required, practice, "insulation and electronics that age early", station, F::none, always, f::surroundings::ambient()},
    {"surroundings.enclosure", "the enclosure suits the place", required, practice, "water in the switch", station, F::none, always, f::surroundings::enclosure()},
    {"surroundings.plumb", "a tilt switch is mounted plumb", required, practice, "a tilt switch that acts at another level", station, F::none, always, f::surroundings::plumb()},
    {"surroundings.mercury", "no mercury where it is forbidden", required, "the pack in force", "unlawful sale, spilled mercury", station, F::mercury_allowed, only_with_figure, f::surroundings::mercury()},
    {"surroundings.circuit_mercury", "no mercury relay or contactor where it is forbidden", required, "the pack in force", "unlawful sale, spilled mercury", circuit, F::mercury_allowed, only_with_figure, f::surroundings::circuit_mercury()},
    {"surroundings.circuit_ambient", "relays, contactors and converters stand the heat of their place", required, practice, "coils that burn out", circuit, F::none, always, f::surroundings::circuit_ambient()},
    {"surroundings.circuit_enclosure", "enclosures of relays, contactors and converters suit the place", required, practice, "water in the enclosure", circuit, F::none, always, f::surroundings::circuit_enclosure()},
    {"surroundings.hazardous", "what stands in a hazardous area is made for one", required, hazardous, "a spark or a hot surface that sets off gas or dust", station, F::none, always, f::surroundings::hazardous()},
    {"surroundings.circuit_hazardous", "relays, contactors and valves in a hazardous area are made for one", required, hazardous, "a spark or a hot surface that sets off gas or dust", circuit, F::none, always, f::surroundings::circuit_hazardous()},
    {"feed.path", "what senses the level works something that feeds", required, practice, "a boiler or tank that nobody feeds, or a valve that nothing opens", pair, F::none, always, f::feed::path()},
    {"feed.valve_capacity", "the valve passes the demand", required, "IEC 60534-2-1 liquid sizing", "water that goes out faster than it comes in", line, F::none, always, f::feed::valve_capacity()},
    {"feed.valve_opening", "the feed valve has travel left at full demand", required, "the pack in force", "a feed valve that stands wide open and no longer controls", line, F::opening_most, only_with_figure, f::feed::valve_opening()},
    {"feed.valve_nearly_shut", "the feed valve is not nearly shut at full demand", required, "the pack in force", "a feed valve that hunts on its seat", line, F::opening_least, only_with_figure, f::feed::valve_nearly_shut()},
    {"feed.choked", "the drop at the valve stays below the choked drop", recommended, "IEC 60534-2-1 liquid sizing", "water that flashes in the valve and wears it away", line, F::none, always, f::feed::choked()},
    {"feed.float_valve_capacity", "the float valve passes the make-up", required, "IEC 60534-2-1 liquid sizing", "a tank that runs dry when the returns are lost", station, F::none, always, f::feed::float_valve_capacity()},
    {"feed.float_valve_shutoff", "the float shuts its valve against the supply", required, physics, "a tank that overflows because the supply holds the valve open", station, F::float_valve_factor, always, f::feed::float_valve_shutoff()},
    {"feed.regulator_window", "one set pressure feeds enough and lets everything shut", required, physics, "a reducing valve that cures one fault with another", pair, F::float_valve_factor, always, f::feed::regulator_window()},
    {"feed.regulator_inlet", "the reducing valve stands the pressure before it", required, physics, "a reducing valve that lets the whole pressure of the supply through", line, F::none, always, f::feed::regulator_inlet()},
    {"feed.solenoid", "the solenoid valve opens against the supply, and stays open", required, "physics; the least difference of a pilot valve is common practice, no source", "a coil that cannot lift the valve, or a pilot that cannot", line, F::none, always, f::feed::solenoid()},
    {"feed.pump", "the pump delivers the demand", required, physics, "a pump that never catches up", line, F::pump_flow_factor, always, f::feed::pump()},
    {"feed.pump_pressure", "supply and pump feed against the safety valve", required, physics, "a pump that cannot feed just when the pressure is highest", line, F::pump_pressure_factor, always, f::feed::pump_pressure()},
    {"feed.npsh", "the water does not boil in the pump", required, physics, "a pump that cavitates on hot water", line, F::npsh_margin, always, f::feed::npsh()},
    {"feed.dead_head", "a pump before a valve has a by-pass", required, practice, "a pump that boils its own water against a shut valve", pair, F::none, always, f::feed::dead_head()},
    {"feed.actuator", "the actuator takes the signal and moves the valve", required, practice, "a valve that hunts, sits at one end, or does not shut", pair, F::none, always, f::feed::actuator()},
    {"feed.lost_signal", "the feed valve does not open when its signal is lost", required, "the pack in force", "a boiler flooded by a broken wire", pair, F::feed_may_open, only_with_figure, f::feed::lost_signal()},
    {"feed.swing", "on/off feeding leaves the level within half of the glass", recommended, practice, "cold slugs, dips of pressure, water carried over, trips on shrink", pair, F::none, always, f::feed::swing()},
    {"feed.cycling", "the pump does not start too often", required, physics, "a motor that burns out from starting", wiring, F::none, always, no_body},
    {"tank_heat.fill", "a fill with cold water leaves the tank warm enough", required, "IAPWS-IF97 enthalpy of mixing", "a tank shocked by cold water, and oxygen in the feed", wiring, F::none, always, no_body},
    {"tank_heat.balance", "preheat and returns hold the tank at its temperature", required, "IAPWS-IF97 enthalpy", "a tank that grows colder whatever feeds it", line, F::none, always, f::tank_heat::balance()},
    {"probes.relay", "a probe holder has its relay", required, physics, "a probe that nothing listens to", station, F::none, always, f::probes::relay()},
    {"probes.sensitivity", "the relay feels the water", required, "ASTM D1125: R = K/conductivity; Hayashi, Environ. Monit. Assess. 96 (2004) 119", "water too pure for the relay, which then sees none", station, F::probe_margin, always, f::probes::sensitivity()},
    {"probes.film", "a film on the insulator is no water to the relay", required, physics, "a fouled insulator that reads as water", station, F::probe_margin, always, f::probes::film()},
    {"probes.rods", "the rods reach the levels", required, physics, "a rod that is missing or cannot be as long as its level asks", pair, F::none, always, f::probes::rods()},
    {"probes.clearance", "the rods stand clear", required, practice, "a rod that touches metal and reads as water", station, F::rod_clearance, always, f::probes::clearance()},
    {"probes.reference", "the probe's current finds its way back", required, physics, "a relay that never sees water", station, F::none, always, f::probes::reference()},
    {"probes.open_wire", "an open probe wire does no harm", required, physics, "a cut-off that does not trip, or a vessel that overfills, when a wire comes off", pair, F::none, always, f::probes::open_wire()},
    {"probes.short", "the relay tells a shorted wire from water", recommended, "bulletin of the inspectors' association", "probe and ground wires swapped or shorted, which reads as water", station, F::none, always, f::probes::shorted()},
    {"probes.supply", "the relay suits its supply", required, practice, "electronics that burn or do not start", station, F::none, always, f::probes::supply()},
    {"probes.wire", "the probe wire stands its heat", required, "bulletin of the inspectors' association", "insulation that leaks to ground and reads as water", station, F::none, always, f::probes::wire()},
    {"transmitter.range", "the calibration lies within the transmitter's limits", required, "hydrostatics with IAPWS-IF97 densities", "a range too small for the wet leg", station, F::none, always, f::transmitter::range()},
    {"transmitter.span", "the span is wide enough for the transmitter", required, "hydrostatics with IAPWS-IF97 densities", "a signal that is mostly noise", station, F::none, always, f::transmitter::span()},
    {"transmitter.dry_leg", "no dry leg on steam", required, physics, "a leg that fills with condensate and shifts the level unseen", station, F::none, always, f::transmitter::dry_leg()},
    {"transmitter.loop", "the loop leaves the transmitter its voltage", required, physics, "a signal that stops short of its high end", pair, F::none, always, f::transmitter::loop()},
    {"transmitter.error", "away from its calibration it still reads near the truth", recommended, "hydrostatics with IAPWS-IF97 densities", "a level read high at low pressure", station, F::level_error, only_with_figure, f::transmitter::error()},
    {"transmitter.half_leg", "a half-lost wet leg shows little more water", recommended, "hydrostatics with IAPWS-IF97 densities", "an empty boiler that looks half full", station, F::level_error, only_with_figure, f::transmitter::half_leg()},
    {"insertion.thread", "what is screwed in suits its tapping", required, "physics; that an adapter is no cure is common practice, no source", "a joint matched on nominal size alone", station, F::none, always, f::interfaces::connection()},
    {"insertion.one_part", "one part is screwed into one connection", required, physics, "two parts in a hole that takes one", station, F::none, always, f::insertion::one_part()},
    {"insertion.room", "what is screwed in touches nothing inside", required, physics, "a float that strikes a tube or a nipple and hangs", station, F::side_clearance, always, f::insertion::room()},
    {"insertion.withdrawal", "it can be put in and taken out", required, physics, "a control that nobody can take out", station, F::none, always, f::insertion::withdrawal()},
    {"insertion.shroud", "the shroud stays on", required, practice, "a float that bobs in the boiling water", station, F::none, always, f::insertion::shroud()},
    {"piping.isolating_valves", "no shut-off valve cuts off the cut-off", required, "ASME CSD-1-2009 CW-140(c)", "a valve left shut that blinds the cut-off", pair, F::locked_open_valves, always, f::piping::isolating_valves()},
    {"piping.feed_path", "nothing feeds through the chamber", required, "COMAR 09.12.01.04 (Maryland); Kan. Admin. Regs. 49-52-11(c)", "sediment, and a level that is the pump's and not the boiler's", station, F::none, always, f::piping::feed_path()},
    {"piping.drain", "the chamber can be blown down and tested", required, "COMAR 09.12.01.04 (Maryland)", "mud that holds the float up", station, F::none, always, f::piping::drain()},
    {"piping.drain_size", "the drain is large enough", required, "the pack in force", "a drain that does not flush", station, F::drain_size, only_with_figure, f::piping::drain_size()},
    {"piping.cross_tees", "the water line can be rodded", recommended, practice, "a water line that nobody can clean", station, F::none, always, f::piping::cross_tees()},
    {"piping.size", "the equalizing connections are large enough", required, "the pack in force", "a line that scale closes", station, F::equalizing_size, only_with_figure, f::piping::size()},
    {"house.comparison", "a rule of the house", required, "the pack in force", "what the firm has decided against", house, F::none, only_with_figure, no_body},
};

}  // namespace

std::span<RuleRow const> rule_table() { return rows; }

int rule_index(std::string_view id) {
    for (std::size_t i = 0; i < std::size(rows); ++i)
        if (rows[i].id == id) return static_cast<int>(i);
    return -1;
}

}  // namespace levelswap
