// Consumables, isolation and cooling by role: common practice, no source. A part maker's instructions come first.
#include "consequences.hpp"

#include <algorithm>
#include <bit>

namespace levelswap {

namespace {

/// Does a cut-off act through this position?
bool serves_a_cut_off(Site const& site, Position const& position) {
    if (position.role == Role::glass) return false;
    return std::any_of(site.functions.begin(), site.functions.end(), [&](Function const& f) {
        if (!is_cut_off(f.duty)) return false;
        if (position.circuit >= 0) return f.circuit == position.circuit;
        return f.now.position >= 0 && site.positions[static_cast<std::size_t>(f.now.position)].station == position.station;
    });
}

/// "8 bolts 5/8 in with nuts" when the part's flange is known.
std::string bolts(Part const* part) {
    auto written = [&](Attribute a) {
        auto const* f = part ? part->facts.find(a) : nullptr;
        return f && f->origin && f->nature != Fact::Nature::unknown && f->nature != Fact::Nature::none ? f->origin->text : std::string();
    };
    auto const count = written(Attribute::flange_bolts), size = written(Attribute::flange_bolt_size);
    return count.empty() || size.empty() ? "bolts and nuts of the flange" : count + " bolts " + size + " with nuts";
}

void opens_a_flange(Work& w, Part const* part) {
    w.isolate = "fuel, feed, common steam and electricity, locked out";
    w.drain = "boiler and column below the joint, vented first";
    w.cool = "boiler and column, until they can be touched";
    w.consumables = {"gasket of the flange", bolts(part)};
}

void electrics(Work& w) {
    w.consumables.insert(w.consumables.end(), {"cable and terminals", "conduit seal"});
}

Work work_at(Position const& position, Part const* part) {
    Work w;
    w.position = position.name;
    switch (position.role) {
        case Role::head:
            opens_a_flange(w, part);
            electrics(w);
            break;
        case Role::column: {
            opens_a_flange(w, part);
            auto const* ends = part ? part->facts.find(Attribute::tapping_standard) : nullptr;
            auto const flanged = bits<Attribute::tapping_standard>("flanged");
            if (!ends || (ends->may & ~flanged)) w.consumables.push_back("thread sealant for the equalizing connections");
            if (!ends || (ends->may & flanged)) w.consumables.push_back("gaskets of the equalizing connections");
            break;
        }
        case Role::float_:
            opens_a_flange(w, nullptr);
            break;
        case Role::glass:
            w.isolate = "fuel and feed, locked out; gauge cocks shut";
            w.drain = "the glass, through its drain cock";
            w.cool = "glass and cocks, until they can be touched";
            w.consumables = {"glass seals and washers"};
            break;
        case Role::switch_half:
        case Role::switch_set:
            w.isolate = "fuel locked out; electricity isolated, both supplies, and proved dead";
            w.drain = "nothing";
            w.cool = position.role == Role::switch_half ? "nothing has to: hot surfaces" : "the head, until it can be touched";
            electrics(w);
            break;
        case Role::probe_holder:
        case Role::float_control:
        case Role::transmitter:
            w.isolate = "fuel, feed, common steam and electricity, locked out";
            w.drain = "vessel below the connection, vented first";
            w.cool = "vessel and holder, until they can be touched";
            w.consumables = {"thread sealant or gasket of the connection"};
            electrics(w);
            break;
        case Role::float_valve:
            w.isolate = "water supply of the tank, locked out";
            w.drain = "tank below the valve, ventilated before anybody reaches in";
            w.cool = "tank, until it can be touched: hot returns scald";
            w.consumables = {"thread sealant or washers of the inlet"};
            break;
        case Role::solenoid_valve:
        case Role::reducing_valve:
        case Role::feed_valve:
        case Role::pump:
            w.isolate = "feed line on both sides, and fuel while the boiler is without feed; locked out";
            w.drain = "the line between its valves, vented first";
            w.cool = "line, until it can be touched";
            w.consumables = {"thread sealant or gaskets of the connections"};
            if (position.role == Role::solenoid_valve || position.role == Role::pump) electrics(w);
            break;
        case Role::probe_relay:
        case Role::actuator:
        case Role::contactor:
        case Role::relay:
        case Role::transformer:
        case Role::converter:
            w.isolate = "fuel locked out; electricity of the circuit isolated and proved dead";
            w.drain = "nothing";
            w.cool = "nothing";
            electrics(w);
            break;
    }
    return w;
}

std::string while_it_is_off(Position const& position) {
    if (position.role == Role::switch_half || position.role == Role::switch_set)
        return "a " + std::string(position.role == Role::switch_half ? "switch half" : "switch set") +
               " that is off is a cut-off that is missing: no firing until it is back and proved";
    return "no firing without the cut-off: not until it is back and proved";
}

}  // namespace

std::vector<Work> work_of(Case const& c, std::uint64_t positions, Assignment const* parts) {
    std::vector<Work> out;
    auto const& site = c.judge.site();
    for (std::uint64_t rest = positions; rest; rest &= rest - 1) {
        auto const p = static_cast<std::size_t>(std::countr_zero(rest));
        int const part = parts ? (*parts)[p] : nothing;
        out.push_back(work_at(site.positions[p], part == nothing ? nullptr : &c.judge.catalog().parts[static_cast<std::size_t>(part)]));
        if (serves_a_cut_off(site, site.positions[p])) out.back().note = while_it_is_off(site.positions[p]);
    }
    return out;
}

std::vector<std::string> ask_always(Case const& c) {
    std::vector<std::string> out = {
        "Why is it being replaced, and why did the old part fail?",
        "Is anything bypassed now? Remove jumpers, then test.",
    };
    auto const& positions = c.judge.site().positions;
    for (std::size_t p = 0; p < positions.size(); ++p)
        if ((c.changed >> p & 1u) && serves_a_cut_off(c.judge.site(), positions[p])) {
            out.push_back("This restores protection; find out why the water went.");
            break;
        }
    return out;
}

}  // namespace levelswap
