#include "properties.hpp"
#include "sheet_shapes.hpp"

namespace levelswap::bindings {

namespace {

Sheet make(Catalog const& catalog, BoundSite const& site, Put const& put, std::string const& units) {
    require_same_catalog(catalog, site);
    return sheet(catalog, site.site, pairs_of(put), units_of(units));
}

/// A row of text members: all of them shown, the first in its repr.
template <class T>
struct TextRow {
    py::class_<T> bound;
    TextRow(py::module_& module, char const* name, char const* doc) : bound(module, name, doc) {}
    template <class M>
    TextRow& member(char const* name, M T::*member, char const* doc) {
        show_member(bound, name, member, doc);
        return *this;
    }
    void finish(char const* name, char const* named_by, std::string T::*first) {
        std::string const type(name), label(named_by);
        bound.def("__repr__", [type, label, first](T const& self) {
            return repr_of(type.c_str(), {{label.c_str(), ascii(self.*first)}});
        });
        give_value_manners(bound);
    }
};

void bind_walk(py::module_& module) {
    TextRow<WalkEvent>(module, "WalkEvent", "Something that happens as the water falls, while it is low, or as it rises.")
        .member("phase", &WalkEvent::phase, "'working', 'falling', 'low' or 'rising'.")
        .member("event", &WalkEvent::event, "What happens.")
        .member("effect", &WalkEvent::effect, "What follows for burner, pump or alarm.")
        .member("duty", &WalkEvent::duty, "The duty that is performed, 'primary_cut_off' for example.")
        .member("level", &WalkEvent::level, "Level above the vessel datum, with unit: most likely, then the range.")
        .member("in_glass", &WalkEvent::in_glass, "Whether the glass shows it: 'yes', 'no', 'perhaps', 'unknown' or 'no glass'.")
        .member("nominal", &WalkEvent::nominal, "Most likely level, m above the vessel datum.")
        .member("lowest", &WalkEvent::lowest, "Lowest level over all tolerances, m.")
        .member("highest", &WalkEvent::highest, "Highest level over all tolerances, m.")
        .finish("WalkEvent", "event", &WalkEvent::event);
    TextRow<ValvePoint>(module, "ValvePoint", "How far the feed valve is open at a level.")
        .member("opening", &ValvePoint::opening, "Opening of the valve, in percent.")
        .member("level", &ValvePoint::level, "Level above the vessel datum, with unit.")
        .finish("ValvePoint", "opening", &ValvePoint::opening);
    py::class_<LevelWalk> bound(module, "LevelWalk", "An assembly taken through a fall and a rise of the water.");
    show_member(bound, "events", &LevelWalk::events, "The events, in the order in which they happen.");
    show_member(bound, "valve", &LevelWalk::valve, "The feed valve against the level; empty without a slide-wire.");
    show_member(bound, "valve_band", &LevelWalk::valve_band, "What the slide-wire reaches, in words.");
    show_member(bound, "faults", &LevelWalk::faults, "What goes wrong on the way, in plain words.");
    show_member(bound, "glass", &LevelWalk::glass, "What the gauge glass shows, with unit; empty when not known.");
    bound.def("__repr__", [](LevelWalk const& self) {
        return repr_of("LevelWalk", {{"events", std::to_string(self.events.size())}, {"faults", std::to_string(self.faults.size())}});
    });
    give_value_manners(bound);
}

void bind_setting_rows(py::module_& module) {
    TextRow<SheetLevel>(module, "SheetLevel", "Where one output acts, above the vessel datum.")
        .member("duty", &SheetLevel::duty, "What the output does.")
        .member("output", &SheetLevel::output, "The output, by position.")
        .member("part", &SheetLevel::part, "Id of the part that has it.")
        .member("falling", &SheetLevel::falling, "Level as the water falls, with unit: most likely, then the range.")
        .member("rising", &SheetLevel::rising, "Level as the water rises.")
        .member("old_falling", &SheetLevel::old_falling, "Falling level of the output that performs the duty now.")
        .member("old_rising", &SheetLevel::old_rising, "Rising level of the output that performs the duty now.")
        .member("in_glass", &SheetLevel::in_glass, "Whether the glass shows the falling level.")
        .finish("SheetLevel", "duty", &SheetLevel::duty);
    TextRow<SheetMounting>(module, "SheetMounting", "The mounting of one column.")
        .member("station", &SheetMounting::station, "Name of the station.")
        .member("now", &SheetMounting::now, "Elevation of its face centre now, with unit.")
        .member("window", &SheetMounting::window, "Where it may stand whatever the tolerances do; empty without a choice.")
        .member("action", &SheetMounting::action, "What is to be done.")
        .finish("SheetMounting", "station", &SheetMounting::station);
    TextRow<SheetCircuit>(module, "SheetCircuit", "One output in its circuit, from the contact to the load.")
        .member("duty", &SheetCircuit::duty, "What the output does.")
        .member("output", &SheetCircuit::output, "The output, by position.")
        .member("contact", &SheetCircuit::contact, "What the contact does as the water falls.")
        .member("terminals", &SheetCircuit::terminals, "Terminals, to be filled in; empty for what has no wires.")
        .member("circuit", &SheetCircuit::circuit, "Name of the circuit.")
        .member("supply", &SheetCircuit::supply, "Its supply, with units.")
        .member("load", &SheetCircuit::load, "What hangs on the contact, with units.")
        .member("rating", &SheetCircuit::rating, "What the contact is rated for, with units.")
        .member("protection", &SheetCircuit::protection, "What protects the load.")
        .finish("SheetCircuit", "duty", &SheetCircuit::duty);
    TextRow<SheetState>(module, "SheetState", "What an output is in each state.")
        .member("duty", &SheetState::duty, "What the output does.")
        .member("wet", &SheetState::wet, "With the water up.")
        .member("dry", &SheetState::dry, "With the water gone.")
        .member("unpowered", &SheetState::unpowered, "Without its supply.")
        .member("float_sunk", &SheetState::float_sunk, "With the float sunk.")
        .member("float_stuck", &SheetState::float_stuck, "With the float stuck.")
        .member("wire_open", &SheetState::wire_open, "With a broken wire.")
        .member("wire_shorted", &SheetState::wire_shorted, "With a shorted wire.")
        .member("reset", &SheetState::reset, "'automatic' or 'manual'.")
        .member("after_power_loss", &SheetState::after_power_loss, "What a power failure does to a lockout.")
        .member("held_reset", &SheetState::held_reset, "What a held reset button does while the water is low.")
        .finish("SheetState", "duty", &SheetState::duty);
}

void bind_proving_rows(py::module_& module) {
    TextRow<SheetCheck>(module, "SheetCheck", "Something to look at while proving.")
        .member("text", &SheetCheck::text, "What is done and looked at.")
        .member("expected", &SheetCheck::expected, "What must be seen; empty when the text says it.")
        .member("blank", &SheetCheck::blank, "What is written down by hand: 'level', 'count', 'reading', 'reason', 'name', 'date'.")
        .finish("SheetCheck", "text", &SheetCheck::text);
    TextRow<SheetStep>(module, "SheetStep", "A step of the proving test.")
        .member("number", &SheetStep::number, "Number of the step.")
        .member("title", &SheetStep::title, "Title of the step.")
        .member("checks", &SheetStep::checks, "Its checks, in order.")
        .finish("SheetStep", "title", &SheetStep::title);
    TextRow<SheetCaution>(module, "SheetCaution", "What to heed in one kind of work.")
        .member("work", &SheetCaution::work, "Kind of work.")
        .member("text", &SheetCaution::text, "The caution.")
        .finish("SheetCaution", "work", &SheetCaution::work);
}

void show_members(py::class_<Sheet>& bound) {
    show_member(bound, "outcome", &Sheet::outcome, "Fits, does not fit, or cannot tell.");
    show_member(bound, "answer", &Sheet::answer, "The answer in one line.");
    show_member(bound, "reason", &Sheet::reason, "The reason in one sentence; empty when it fits.");
    show_member(bound, "site", &Sheet::site, "Name of the site.");
    show_member(bound, "datum", &Sheet::datum, "What levels are measured from.");
    show_member(bound, "changes", &Sheet::changes, "What changes, by position.");
    show_member(bound, "levels", &Sheet::levels, "Where each output acts.");
    show_member(bound, "mountings", &Sheet::mountings, "The mounting of each column.");
    show_member(bound, "wiring", &Sheet::wiring, "Each output in its circuit.");
    show_member(bound, "states", &Sheet::states, "What each output is in each state.");
    show_member(bound, "differences", &Sheet::differences, "What acts otherwise than before.");
    show_member(bound, "fixed", &Sheet::fixed, "What its maker has set.");
    show_member(bound, "adjustments", &Sheet::adjustments, "What else is set or cut: pressures, signals, delays, rods.");
    show_member(bound, "consumables", &Sheet::consumables, "What the work uses up, by position.");
    show_member(bound, "packs", &Sheet::packs, "The rule packs that apply, with their editions.");
    show_member(bound, "steps", &Sheet::steps, "The proving test; empty unless it fits.");
    show_member(bound, "abort_rule", &Sheet::abort_rule, "When the test is over.");
    show_member(bound, "cautions", &Sheet::cautions, "Cautions by kind of work.");
    show_member(bound, "wrong", &Sheet::wrong, "What fails or is open, with the numbers.");
    show_member(bound, "questions", &Sheet::questions, "Measurements that would settle what is open.");
    show_member(bound, "walk", &Sheet::walk, "The assembly taken through a fall and a rise of the water.");
}

void bind_sheet_class(py::module_& module) {
    py::class_<Sheet> bound(module, "Sheet", "How a swap that fits is set up and proved; for any other, what is wrong or missing.");
    show_members(bound);
    bound.def("text", [](Sheet const& self) { return render_text(self); }, "Return the sheet as text of at most 80 columns.");
    bound.def("html", [](Sheet const& self) { return render_html(self); },
              "Return the sheet as one HTML page that stands alone and prints in black and white.");
    bound.def_property_readonly("json", [](Sheet const& self) { return render_json(self); },
                                "The JSON document that ``catalog_schema/v1/sheet.schema.json`` describes.");
    bound.def("_repr_html_", [](Sheet const& self) {
        return "<pre class=\"levelswap\" style=\"white-space: pre-wrap\">" + escape_html(render_text(self)) + "</pre>";
    });
    bound.def("__str__", [](Sheet const& self) { return self.answer; });
    bound.def("__repr__", [](Sheet const& self) {
        return repr_of("Sheet", {{"site", ascii(self.site)}, {"steps", std::to_string(self.steps.size())}, {"answer", ascii(self.answer)}});
    });
    give_value_manners(bound);
}

}  // namespace

void bind_sheet(py::module_& module) {
    bind_walk(module);
    bind_setting_rows(module);
    bind_proving_rows(module);
    bind_sheet_class(module);
    module.def("sheet", &make, py::arg("catalog"), py::arg("site"), py::kw_only(), py::arg("put"),
               py::arg("units") = "us", py::call_guard<py::gil_scoped_release>(),
               "Make the setting and proving sheet of a swap.\n\n"
               "Parameters\n----------\n"
               "catalog : Catalog\n    The parts.\n"
               "site : Site\n    Read against the same catalogue.\n"
               "put : mapping of str to str\n    The proposed part id, or 'nothing', by position.\n"
               "units : {'us', 'si'}\n    Units of the numbers in the texts: inch and psi, or mm and bar.\n\n"
               "Returns\n-------\nSheet\n"
               "    Without settings and steps unless the swap fits.\n\n"
               "Raises\n------\nUsageError\n"
               "    For an unknown position or part, or a part of the wrong kind; names the nearest.");
}

}  // namespace levelswap::bindings
